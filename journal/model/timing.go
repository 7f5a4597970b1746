package model

import (
	"math"
	"strings"

	"example.org/locknut/journal/quantity"
)

// OverlapAngle returns where a figure at a path of cam timing (`cam.intake.opens` …) stands, in rad of the crank after the top dead centre of overlap, and whether
// that can be told: a figure that is counted from no dead centre stands nowhere. Intakes open there and close by the bottom after it, exhausts open by the bottom
// before it and close there; so an exhaust that opens after top dead centre is counted from that of firing, and an intake that closes before it likewise.
func OverlapAngle(path string, q quantity.Quantity) (angle float64, ok bool) {
	side, event, ok := timed(path)
	centre, counted := q.Event.Centre()
	if !ok || q.Unit == nil || q.Unit.Dimension != quantity.Angle || !counted || q.IsOpenEnded() {
		return 0, false
	}
	angle = q.SI()
	switch {
	case centre != 0 && side == "exhaust":
		angle -= centre
	case centre != 0:
		angle += centre
	case side == "exhaust" && event == "opens" && angle > 0:
		angle -= 2 * math.Pi
	case side == "intake" && event == "closes" && angle < 0:
		angle += 2 * math.Pi
	}
	return angle, true
}

// timed takes the path of a figure of cam timing apart.
func timed(path string) (side, event string, ok bool) {
	words := strings.Split(path, ".")
	if len(words) != 3 || words[0] != "cam" || words[1] != "intake" && words[1] != "exhaust" {
		return "", "", false
	}
	return words[1], words[2], words[2] == "opens" || words[2] == "closes" || words[2] == "centre"
}

// eventAt returns an angle after the top dead centre of overlap (rad) as a figure that is counted from the dead centre which the trade counts it from.
func (l *linker) eventAt(path string, angle float64) quantity.Quantity {
	side, event, _ := timed(path)
	q := quantity.Quantity{Kind: quantity.Figure, Unit: l.journal.Units.Leading(quantity.Angle), Event: quantity.ATDC}
	switch {
	case side == "intake" && event == "closes":
		q.Event, angle = quantity.ABDC, angle-math.Pi
	case side == "exhaust" && event == "opens":
		q.Event, angle = quantity.ABDC, angle+math.Pi
	}
	q.Value = q.Unit.FromSI(angle)
	if angle < 0 {
		q.Event-- // the same dead centre, before it
	}
	q.Step = q.Unit.StepFromSI(WheelStep, angle)
	return q
}

// WheelStep is how fine an angle from a degree wheel is told, in rad: a tenth of a degree.
const WheelStep = math.Pi / 1800

// CheckingLift returns the lift at which an event of a cam was taken: that of the file that it comes from, that which the same part brings, or that which was in force when it was
// read. It returns nil for none, or for a value that is no event.
func (j *Journal) CheckingLift(v *Value) *Value {
	side, event, ok := timed(v.Path)
	if !ok || event == "centre" {
		return nil
	}
	at := "cam." + side + ".at"
	switch {
	case v.Degreeing() != nil:
		return v.Degreeing().At
	case v.Origin != FromPart:
		return figureOf(j.at(at, v.Order))
	}
	for _, position := range j.Positions.Below(at) {
		for _, other := range j.placeAt(position).values {
			if other.Part == v.Part && other.Order == v.Order && other.Origin == FromPart {
				return figureOf(other)
			}
		}
	}
	return nil
}

func figureOf(v *Value) *Value {
	if v == nil || v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != quantity.Length {
		return nil
	}
	return v
}

// SameLift reports whether two checking lifts are one: half their last digit either way, they overlap. 0.050 in and 1.27 mm are; 1.0 mm and 0.040 in, which is 1.016 mm, are too.
func SameLift(a, b *Value) bool {
	step := (a.Quantity.StepSI() + b.Quantity.StepSI()) / 2
	return math.Abs(a.Estimate.Value-b.Estimate.Value) <= step*(1+1e-9)+1e-12
}
