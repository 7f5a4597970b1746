package derive

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// LeastSpread is how much of the strongest cylinder's pressure the weakest must have by US Army TM 5-4210-230-14&P-1, read in the source.
const LeastSpread = 0.75

// compressionSpread works out how much of the strongest cylinder's pressure the weakest has, of those that one entry read.
func compressionSpread(m *Moment) {
	var read []*model.Value
	var newest *model.Value
	for _, position := range m.Journal.Positions.Below("compression") {
		v := m.value(position)
		if v == nil || v.Quantity.Unit.Dimension != quantity.Pressure || slices.Contains(read, v) {
			continue
		}
		if read = append(read, v); newest == nil || v.Order > newest.Order {
			newest = v
		}
	}
	if len(read) < 2 {
		return
	}
	n := &Number{Path: "spread.compression", Title: "weakest cylinder over the strongest", Formula: "p_min / p_max", Unit: quantity.UnitShown("%")}
	n.Estimate.Dimension = quantity.Pure
	for _, v := range read {
		n.Inputs = append(n.Inputs, Input{Symbol: "p", Value: v})
	}
	switch unclear := m.unclear(m.Journal.Positions.Below("compression")...); {
	case unclear != "":
		n.Reason = unclear // that cylinder may be the weakest
	case slices.ContainsFunc(read, func(v *model.Value) bool { return v.Entry != newest.Entry }):
		n.Reason = "the cylinders were not read in one entry"
	default:
		n.carry(calc.LowestOverHighest, quantity.Pure)
	}
	if n.Reason == "" && m.Journal.LimitAt(n.Path, m.Entry) == nil {
		n.Words = "TM 5-4210-230-14&P-1 asks for 75 %"
	}
	n.coarse = 0.001 // no gauge tells more
	m.add(n)
}
