package model

import (
	"slices"

	"example.org/locknut/journal/quantity"
)

// beside holds a value against those of the logs beside its own, at its path: of one entry and state the worst counts. The machine was the same, and a ride that went well doesn't undo one that didn't.
func (l *linker) beside(v *Value) {
	for _, w := range slices.Backward(v.Entry.Values) {
		if w.Path == v.Path && w.IsLogged() && w.log().IsBeside(v.log()) && !w.isLesser() {
			if w.isWorse(v) {
				v.ways.worse, v.Counts = w, false
			} else {
				w.ways.worse = v // the history holds it before v, which takes its place there
			}
			return
		}
	}
}

// isLesser reports whether a log beside the value's own holds worse at its path.
func (v *Value) isLesser() bool { return v.ways != nil && v.ways.worse != nil }

// Beside returns the worst of the values that logs beside the value's own hold at its path; itself where it is that.
func (v *Value) Beside() *Value {
	for v.isLesser() {
		v = v.ways.worse
	}
	return v
}

// isWorse reports whether a value of a log is worse than one of another log at the same path: by its verdict, else by how far it goes to the side that is held. Of how much of a target was seen the most counts.
func (v *Value) isWorse(w *Value) bool {
	off := quantity.Compare(v.Quantity.SI(), w.Quantity.SI(), 0)
	switch {
	case v.Path == "fuelling.seen":
		return off > 0
	case v.Verdict != w.Verdict:
		return v.Verdict > w.Verdict
	case v.goesLow():
		return off < 0
	}
	return off > 0
}

// goesLow reports whether less is worse of a value: it is too low, or only the low side is held.
func (v *Value) goesLow() bool {
	l := v.Limit
	return v.Side < 0 || v.Path == "fuelling.richest" || v.Side == 0 && l != nil && l.Low.Is && !l.High.Is
}
