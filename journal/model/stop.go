package model

import (
	"fmt"
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// The paths of what a degree wheel shows where a stop in the plug hole halts the piston.
const (
	StopBefore = "timing.stop.before"
	StopAfter  = "timing.stop.after"
)

// stopZero returns where the wheel's nought stands by the stop of the same entry, in rad after a top dead centre.
func (l *linker) stopZero(d *Degreeing, text parse.Text) (zero quantity.Estimate, ok bool) {
	var stops [2]*Value
	var terms []quantity.Term
	for i, path := range []string{StopBefore, StopAfter} {
		v := l.journal.at(path, orderOf(d.Entry.Index, momentDegreed))
		switch {
		case l.journal.IsUnread(path): // what was found before must not stand for it
			return zero, false
		case v == nil || v.Entry != d.Entry || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded():
			l.report("bad-degreeing", source.Error, text.At, d.Of, fmt.Sprintf("the wheel's nought is to come from the stop, and the entry has no figure at `%s`", path),
				fmt.Sprintf("write what the wheel showed on both sides in `[set]`, as in `%s = \"38° BTDC\"` and `%s = \"42° ATDC\"`", StopBefore, StopAfter))
			return zero, false
		}
		stops[i] = v
		terms = append(terms, quantity.Term{Partial: -0.5, Of: v.Estimate})
	}
	centre, fault := StopCentre(stops[0], stops[1])
	if fault != nil { // it was told at the stop
		return zero, false
	}
	return quantity.Combine(-centre, quantity.Angle, terms...), true
}

// StopFault is what two figures of a stop can't be, and which of them is at fault.
type StopFault struct {
	At      *Value
	Why, Do string
}

// farthestStop is as far from the dead centre as a wheel shows a stop, in rad: with a pointer that is off. Common practice, no source.
const farthestStop = math.Pi / 2

// StopCentre returns what the wheel shows at top dead centre by the two figures of a stop, in rad, or why they can't be: both on one side of the dead centre that they are counted from, further
// than a quarter turn from it, or what [calc.StopCentre] refuses. A figure that is counted from none stands on the wheel's own scale.
func StopCentre(before, after *Value) (centre float64, fault *StopFault) {
	var shown [2]float64
	counted := true
	for i, v := range []*Value{before, after} {
		zero, ok := v.Quantity.Event.Centre()
		if shown[i] = v.Estimate.Value; zero != 0 {
			shown[i] = math.Remainder(shown[i]+zero, 2*math.Pi)
		}
		if ok && math.Abs(shown[i]) > farthestStop+1e-9 {
			return 0, &StopFault{v, fmt.Sprintf("`%s` is %s, further than 90° from top dead centre: no stop in the plug hole halts the piston there", v.Path, v.Quantity.Shown()), "look at its digits, and read the wheel again where the stop halts the piston"}
		}
		counted = counted && ok
	}
	both := fmt.Sprintf("`%s` is %s, and `%s` %s", before.Path, before.Quantity.Shown(), after.Path, after.Quantity.Shown())
	switch {
	case counted && shown[0] > 0 && shown[1] < 0:
		return 0, &StopFault{before, both + ": the one before stands after top dead centre, and the other before it", "change the two over, or mend their sides"}
	case counted && shown[0] > 0 && shown[1] > 0:
		return 0, &StopFault{before, both + ": both are after top dead centre, and a stop halts the piston on either side of it", "look at the side: before top dead centre is BTDC. If the wheel really shows both on one side, shift its pointer and read again"}
	case counted && shown[0] < 0 && shown[1] < 0:
		return 0, &StopFault{after, both + ": both are before top dead centre, and a stop halts the piston on either side of it", "look at the side: after top dead centre is ATDC. If the wheel really shows both on one side, shift its pointer and read again"}
	}
	centre, err := calc.StopCentre(shown[0], shown[1])
	if err != nil {
		return 0, &StopFault{before, both + ": " + err.Error(), "read the wheel again where the stop halts the piston, on either side"}
	}
	return centre, nil
}

// stopped reports two figures of a stop that can't be, in the entry that has them.
func (l *linker) stopped(e *Entry) {
	order := orderOf(e.Index, momentDegreed)
	before, after := l.journal.at(StopBefore, order), l.journal.at(StopAfter, order)
	for _, v := range []*Value{before, after} {
		if v == nil || v.Entry != e || v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != quantity.Angle || v.Quantity.IsOpenEnded() {
			return
		}
	}
	if _, fault := StopCentre(before, after); fault != nil {
		other := before
		if fault.At == before {
			other = after
		}
		l.report("bad-degreeing", source.Error, fault.At.At(), fault.At.Path, fault.Why, fault.Do, source.Remark{At: other.At(), Message: "the other side"}).Entry = e.Path
	}
}
