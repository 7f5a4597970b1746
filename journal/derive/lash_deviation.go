package derive

import (
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// lashDeviation works out how far each valve's lash stands from the nominal of its limit.
func lashDeviation(m *Moment) {
	for _, at := range m.lashes() {
		n := &Number{Path: "deviation." + at.below, Title: "lash deviation, " + at.title(), Formula: "Δ = lash − nominal", Inputs: []Input{{Symbol: "lash", Value: at.value}}}
		n.Estimate = quantity.Combine(at.value.Estimate.Value-at.nominal, quantity.Length, quantity.Term{Partial: 1, Of: at.value.Estimate})
		n.Unit = at.value.Quantity.Unit
		m.add(n)
	}
}

// lash is the lash in force at one valve, with what it should be.
type lash struct {
	below   string // the path below `lash`: `intake.left`
	value   *model.Value
	nominal float64 // m
}

func (l lash) title() string { return strings.ReplaceAll(l.below, ".", " ") }

// side returns the first segment of the path: `intake` or `exhaust`.
func (l lash) side() string {
	side, _, _ := strings.Cut(l.below, ".")
	return side
}

// lashes returns the lash in force at each valve whose limit has a nominal.
func (m *Moment) lashes() []lash {
	var found []lash
	for _, position := range m.Journal.Positions.Below("lash") {
		below, ok := strings.CutPrefix(position, "lash.")
		v := m.value(position)
		if !ok || v == nil || v.Limit == nil || v.Limit.Nominal == nil || v.Quantity.Unit.Dimension != quantity.Length {
			continue
		}
		if q := v.Quantity; q.Kind == quantity.Interval && !(q.HasLow && q.HasHigh) {
			continue
		}
		found = append(found, lash{below: below, value: v, nominal: v.Limit.Nominal.SI()})
	}
	return found
}
