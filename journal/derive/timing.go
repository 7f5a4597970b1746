package derive

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// degrees is the unit that angles of the crank are shown in.
func degrees() *quantity.Unit { return quantity.UnitOf("°", quantity.Angle) }

// speaks reports whether anything in the journal stands below a path: nearly all journals know nothing of most of them, and every entry asks.
func (m *Moment) speaks(top string) bool {
	below := m.Journal.Positions.Below(top)
	return len(below) > 1 || below[0] != top
}

// timed is a figure of cam timing in force, and what has to be added to it (rad) to have it counted after the top dead centre of overlap.
type timed struct {
	value *model.Value
	shift float64
}

// timed returns the figure in force at a path of cam timing; where it is missing, or counted from nowhere, the reason why.
func (m *Moment) timed(path string) (t timed, reason string) {
	v := m.value(path)
	if v == nil {
		return t, m.lacks([]string{path})
	}
	angle, ok := model.OverlapAngle(path, v.Quantity)
	if !ok {
		return timed{value: v}, uncounted(v)
	}
	return timed{v, angle - v.Quantity.SI()}, ""
}

// uncounted is why a figure stands nowhere on the crank.
func uncounted(v *model.Value) string {
	if v.Quantity.IsOpenEnded() {
		return noMiddle
	}
	return v.Path + " doesn't say before or after which dead centre"
}

// noMiddle is why nothing is worked out from a figure that is only bounded.
const noMiddle = "a bracket with one end has no middle"

// lobe is the opening and closing of one side in force, at one lift.
type lobe struct {
	side          string
	opens, closes timed
	lift          string         // in words; empty where none is known
	told          []*model.Value // the lifts that those words, or the reason, tell of
	reason        string         // why nothing can be worked out from the two
}

// lobe returns the two events in force on a side; false where neither is, or may be.
func (m *Moment) lobe(side string) (l lobe, ok bool) {
	opens, closes := "cam."+side+".opens", "cam."+side+".closes"
	l.side = side
	var why [2]string
	l.opens, why[0] = m.timed(opens)
	l.closes, why[1] = m.timed(closes)
	if l.opens.value == nil && l.closes.value == nil {
		l.reason = m.unclear(opens, closes)
		return l, l.reason != ""
	}
	for _, w := range why {
		if w != "" {
			l.reason = w
			return l, true
		}
	}
	l.lift, l.reason = m.oneLift(l.opens.value, l.closes.value)
	l.told = m.lifts(l.opens.value, l.closes.value)
	return l, true
}

// lifts returns the checking lifts of events, as far as they are known.
func (m *Moment) lifts(events ...*model.Value) []*model.Value {
	var lifts []*model.Value
	for _, event := range events {
		if at := m.Journal.CheckingLift(event); at != nil {
			lifts = append(lifts, at)
		}
	}
	return lifts
}

// oneLift returns the lift at which two events were both taken, in words, or the reason why they can't be put together.
func (m *Moment) oneLift(a, b *model.Value) (lift, reason string) {
	at, other := m.Journal.CheckingLift(a), m.Journal.CheckingLift(b)
	switch {
	case at == nil && other == nil:
		return "at a lift that is not given", ""
	case at != nil && other != nil && model.SameLift(at, other):
		return fmt.Sprintf("at %s", at.Quantity.Shown()), ""
	}
	return "", fmt.Sprintf("figures at different lifts are not put together: %s at %s, %s at %s", a.Path, liftWords(at), b.Path, liftWords(other))
}

func liftWords(at *model.Value) string {
	if at == nil {
		return "one that is not given"
	}
	return at.Quantity.Shown().String()
}

// inputs are the two events, by the symbols of the formulas.
func (l *lobe) inputs() []Input {
	var inputs []Input
	if l.opens.value != nil {
		inputs = append(inputs, Input{Symbol: "opens", Value: l.opens.value})
	}
	if l.closes.value != nil {
		inputs = append(inputs, Input{Symbol: "closes", Value: l.closes.value})
	}
	return inputs
}

// ends returns the event by the top and that by the bottom dead centre as the trade counts them, of the two figures in force.
func (l *lobe) ends(x []float64) (top, bottom float64) {
	opens, closes := x[0]+l.opens.shift, x[1]+l.closes.shift
	if l.side == "exhaust" {
		opens, closes = -closes, -opens
	}
	return -opens, closes - math.Pi
}

// centre is where a lobe's middle stands: as it was measured, else by its events.
type centre struct {
	input Input
	shift float64 // to the top dead centre of overlap
	lift  *model.Value
}

// centre returns the middle of a side's lobe: what was measured at `centre`, unless an event was told later, else what the events say. Why is the reason
// for none; it is empty where nothing speaks of that side.
func (m *Moment) centre(side string) (c centre, ok bool, why string) {
	n := m.worked("cam." + side + ".lobe-centre")
	t, reason := m.timed("cam." + side + ".centre")
	newer := false // an event, than the centre
	if n != nil && t.value != nil {
		for _, in := range n.Inputs {
			newer = newer || in.Value.Order > t.value.Order
		}
	}
	switch {
	case t.value != nil && !newer && reason == "":
		return centre{input: Input{Symbol: side, Value: t.value}, shift: t.shift}, true, ""
	case n != nil && n.Reason == "":
		return centre{input: Input{Symbol: side, Number: n}, lift: m.Journal.CheckingLift(n.Inputs[0].Value)}, true, ""
	case n != nil:
		return centre{input: Input{Symbol: side, Number: n}}, false, n.Reason
	case t.value != nil:
		return c, false, reason
	}
	return c, false, ""
}

// centres returns the middles of both lobes. Where only one is there, or they were had at different lifts, it says so.
func (m *Moment) centres() (both [2]centre, reason string, any bool) {
	var missing []string
	for i, side := range parse.Sides {
		c, ok, why := m.centre(side)
		switch {
		case ok:
			both[i], any = c, true
		case why != "":
			both[i], reason, any = c, why, true
		default:
			missing = append(missing, "cam."+side+".centre")
		}
	}
	if reason == "" {
		reason = m.lacks(missing)
	}
	in, ex := both[0].lift, both[1].lift
	if byEvents := both[0].input.Number != nil && both[1].input.Number != nil; reason == "" && byEvents && !(in == nil && ex == nil) && (in == nil || ex == nil || !model.SameLift(in, ex)) {
		reason = fmt.Sprintf("figures at different lifts are not put together: intake at %s, exhaust at %s", liftWords(in), liftWords(ex))
	}
	return both, reason, any
}

// fromTop returns how far the middles are from the top dead centre of overlap: the intake's after it, the exhaust's before it.
func fromTop(both [2]centre, x []float64) (intake, exhaust float64) {
	return x[0] + both[0].shift, -(x[1] + both[1].shift)
}

// ofCentres works a number out from the middles of both lobes.
func (m *Moment) ofCentres(n *Number, f func(intake, exhaust float64) (float64, error)) {
	if !m.speaks("cam") {
		return
	}
	both, reason, any := m.centres()
	if !any {
		return
	}
	n.Unit, n.Reason = degrees(), reason
	for _, c := range both {
		if c.lift != nil {
			n.Told = append(n.Told, c.lift)
		}
	}
	n.Estimate.Dimension = quantity.Angle
	for _, c := range both {
		if c.input.Value != nil || c.input.Number != nil {
			n.Inputs = append(n.Inputs, c.input)
		}
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return f(fromTop(both, x)) }, quantity.Angle)
	}
	m.add(n)
}
