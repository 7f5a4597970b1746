package model

import (
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Goal is a value that the build is to reach.
type Goal struct {
	Path     string
	Quantity quantity.Quantity
	PathAt   source.Range // its last segment
	At       source.Range // the figure
}

// ReachedBy reports whether a value reaches the goal: one that is an interval by lying in it, any other from the side on which the build began. First is
// what was read there first, nil for nothing; power and torque then have to rise. It is not ok where that does not tell, or the value is no figure that can be held to
// the goal.
func (g Goal) ReachedBy(v, first *Value) (reached, ok bool) {
	if !g.compares(v) {
		return false, false
	}
	if g.Quantity.Kind == quantity.Interval {
		return holds(g.Quantity, v.Quantity), true
	}
	side := quantity.Compare(v.Quantity.SI(), g.Quantity.SI(), 0)
	began := 0
	if g.compares(first) {
		began = quantity.Compare(first.Quantity.SI(), g.Quantity.SI(), 0)
	}
	if began == 0 && strings.HasPrefix(g.Path, "power.") {
		began = -1
	}
	return side == 0 || began != 0 && side != began, side == 0 || began != 0
}

// compares reports whether a value is a single figure that can be had in the goal's unit.
func (g Goal) compares(v *Value) bool {
	return v != nil && v.Words == "" && v.Quantity.Unit != nil && v.Quantity.Kind != quantity.Interval && v.Quantity.Unit.ConvertsTo(g.Quantity.Unit)
}

// First returns the first value that counts at a path, or at a position below it, nil if there is none.
func (j *Journal) First(path string) *Value {
	var first *Value
	for _, position := range j.Positions.Below(path) {
		for _, v := range j.placeAt(position).values {
			if v.Counts && v.Quantity.Unit != nil && (first == nil || v.Index < first.Index) {
				first = v
			}
		}
	}
	return first
}
