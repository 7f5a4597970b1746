package model

import (
	"fmt"
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// lashRead takes in the lash that was in while the dial was read; where nothing says so, that which may have been. It reports whether the file can be read with it.
func (l *linker) lashRead(d *Degreeing, table *parse.Fields) bool {
	if written := table.Value("lash"); written != nil {
		q, ok := singleFigure(table, "lash")
		switch {
		case !ok:
			l.report("bad-quantity", source.Error, written.At, d.Of, "the lash that was in is one figure", "write it, as in `lash = \"0.10 mm\"`, or `lash = \"0 mm\"` where it was taken up")
			return false
		case q.SI() == 0:
		case d.AtCam:
			l.report("bad-degreeing", source.Error, written.At, d.Of, "a dial at the cam shows nothing of a lash of "+q.Shown().String()+" at the valve", "take `lash` out, or `at` where the lift was read at the valve")
			return false
		default:
			path := "lash." + d.Of[len("cam."):]
			d.lash = l.toolEstimate(d, path, path, q)
		}
		return true
	}
	if !d.AtCam {
		d.mayLash = l.greatestLash(d)
	}
	return true
}

// greatestLash returns the greatest lash in force on the side of a file while it was read; nil for none.
func (l *linker) greatestLash(d *Degreeing) (most *Value) {
	for _, position := range l.journal.Positions.Below("lash." + d.Of[len("cam."):]) {
		v := figureOf(l.journal.at(position, orderOf(d.Entry.Index, momentDegreed)))
		if v != nil && !v.Quantity.IsOpenEnded() && v.Estimate.Value > 0 && (most == nil || v.Estimate.Value > most.Estimate.Value) {
			most = v
		}
	}
	return most
}

// lashUntold reports that a lift was read at the valve and nothing says whether its lash was in, with what that changes.
func (l *linker) lashUntold(d *Degreeing) {
	lash, ratio := d.mayLash, d.Ratio.Estimate.Value
	message := fmt.Sprintf("the lift was read at the valve, and nothing says whether the lash was in: with the %s of `%s` in, the cam lifts %s; taken up, %s",
		lash.Quantity.Shown(), lash.Path, d.shown((d.Curve.Peak()+lash.Estimate.Value)/ratio), d.shown(d.Curve.Peak()/ratio))
	if d.At != nil {
		message += l.eventsShift(d, lash.Estimate.Value)
	}
	l.report("lash-untold", source.Warning, d.name, d.Of, message,
		fmt.Sprintf("write `lash = \"%s\"` here if it was in, or `lash = \"0 mm\"` if it was taken up; until then the greater lift counts, and the events as if it was taken up", lash.Quantity.Shown()),
		source.Remark{At: lash.At(), Message: "the lash"})
}

// eventsShift says how much longer the valve is open at the checking lift with a lash (m) in, of a file that tells its events.
func (l *linker) eventsShift(d *Degreeing, lash float64) string {
	var longer float64
	for _, cross := range []func(float64) (calc.LiftEvent, error){d.Curve.Opens, d.Curve.Closes} {
		without, err := cross(d.checking())
		if err != nil {
			return ""
		}
		with, err := cross(d.checking() - lash)
		if err != nil {
			return fmt.Sprintf("; and at %s it would tell no events", d.At.Quantity.Shown())
		}
		longer += math.Abs(with.Angle - without.Angle)
	}
	return fmt.Sprintf("; and at %s it is open for %s more", d.At.Quantity.Shown(), quantity.Show(longer, l.journal.Units.Leading(quantity.Angle), WheelStep))
}

// mostLash returns the lash that was in, or that may have been: the greatest lift at the cam comes of it, and the least that is left of a spring.
func (d *Degreeing) mostLash() quantity.Estimate {
	if d.mayLash != nil {
		return d.mayLash.Estimate
	}
	return d.lash
}

// isBelowLash reports whether the valve is on its seat yet at the checking lift, by the lash that was in.
func (d *Degreeing) isBelowLash() bool { return d.lash.Value > 0 && d.checking() < showsLift }

// showsLift is the least that a dial shows of a lift, in m: it turns over to its first step.
const showsLift = dialStep / 2

// LashIn returns the lash that was in while the lift was read at the valve, in m: nought where it was taken up, and where nothing says.
func (d *Degreeing) LashIn() float64 { return d.lash.Value }

// CamLift returns what the cam lifts where the dial shows a lift, both in m: with the lash that was in, wherever it shows more than nought. A file of a rocker that nobody knows the
// ratio of is left as it was read.
func (d *Degreeing) CamLift(dial float64) float64 {
	if d.AtCam || d.Ratio == nil {
		return dial
	}
	if dial >= showsLift {
		dial += d.lash.Value
	}
	return dial / d.Ratio.Estimate.Value
}

// SeatsLater returns how much later than at its closing event the valve is on its seat, in rad of the crank: where the lift at the valve has fallen to a lash (m), as far as the dial
// showed it: with its lash in it shows nought at the seat, and nothing of a lash that is less than that was. The ratio is that of the rocker, for a file that was read at the cam. It
// refuses what [calc.LiftCurve.Closes] does, and where no checking lift is known.
func (d *Degreeing) SeatsLater(lash, ratio float64) (float64, error) {
	if d.At == nil || !d.AtCam && d.Ratio == nil {
		return 0, calc.Refusal("the file tells no events")
	}
	if d.AtCam {
		lash /= ratio
	}
	event, err := d.Curve.Closes(d.checking())
	if err != nil {
		return 0, err
	}
	if d.lash.Value > 0 && lash-d.lash.Value < showsLift {
		seat, err := d.Curve.Seats(showsLift)
		return seat - event.Angle, err
	}
	seat, err := d.Curve.Closes(lash - d.lash.Value)
	return seat.Angle - event.Angle, err
}
