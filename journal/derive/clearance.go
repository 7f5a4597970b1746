package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// clearance works out the clearances that a limit is held by: what stands at the first of two paths less what stands at the second, at the
// same position below both. Only two measured parts make a clearance; two tolerances never do.
func clearance(m *Moment) {
	for _, limit := range m.Journal.Limits {
		of := limit.Of()
		if len(of) != 2 || m.Journal.LimitAt(limit.Path, m.Entry) != limit || limit.IsInsideOut() {
			continue
		}
		for _, n := range m.differences(limit.Path, of[0], of[1]) {
			m.add(n)
		}
	}
}

// differences takes what stands below one path from what stands below another, for a number each below a third.
func (m *Moment) differences(path, outer, inner string) []*Number {
	var numbers []*Number
	for _, position := range m.Journal.Positions.Below(outer) {
		below := strings.TrimPrefix(position, outer)
		from, less := m.value(position), m.valueAbove(inner+below, inner)
		if from == nil || less == nil || m.value(path+below) != nil {
			continue
		}
		numbers = append(numbers, between(path+below, from, less))
	}
	return numbers
}

// IsReversed reports whether the two paths of a limit that is held by a difference stand the wrong way about: by what they are called, or because clearances can be
// worked out now from the one less the other and none as they stand.
func (s *Sums) IsReversed(limit *model.Limit) bool {
	of := limit.Of()
	if limit.IsInsideOut() {
		return true
	}
	if len(of) != 2 || s.Journal.LimitAt(limit.Path, nil) != limit {
		return false
	}
	m := &Moment{Journal: s.Journal}
	return len(m.differences(limit.Path, of[0], of[1])) == 0 && len(m.differences(limit.Path, of[1], of[0])) > 0
}

// valueAbove returns the value in force at a path, or at the nearest above it down from a top: a reading there speaks for all below. One of
// another place below, where nothing else was read, does not.
func (m *Moment) valueAbove(path, top string) *model.Value {
	for at := path; len(at) >= len(top); at = parse.Above(at) {
		if v := m.value(at); v != nil && (at == path || parse.IsAtOrBelow(path, v.Path)) {
			return v
		}
	}
	return nil
}

// between subtracts one measured size from another.
func between(path string, outer, inner *model.Value) *Number {
	n := &Number{Path: path, Title: strings.ReplaceAll(path, ".", " "), Formula: "c = D − d", Inputs: []Input{{Symbol: "D", Value: outer}, {Symbol: "d", Value: inner}}}
	d := outer.Quantity.Unit.Dimension
	n.Unit = outer.Quantity.Unit
	n.Estimate.Dimension = d
	if inner.Quantity.Unit.Dimension != d {
		n.Reason = "the two are of different dimensions"
		return n
	}
	n.Estimate = calc.Covered(quantity.Combine(outer.Estimate.Value-inner.Estimate.Value, d, quantity.Term{Partial: 1, Of: outer.Estimate}, quantity.Term{Partial: -1, Of: inner.Estimate}))
	return n
}
