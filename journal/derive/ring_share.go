package derive

import (
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// ringShare works out the end gap of each ring as a share of the bore that it was measured in.
func ringShare(m *Moment) {
	for _, position := range m.Journal.Positions.Below("gap.ring") {
		below, ok := strings.CutPrefix(position, "gap.ring.")
		v := m.value(position)
		if !ok || v == nil || v.Quantity.Unit.Dimension != quantity.Length {
			continue
		}
		cylinder, _, _ := strings.Cut(below, ".")
		if !slices.Contains(m.cylinderNames(), cylinder) {
			if len(m.Journal.Cylinders) > 0 || m.unread("engine.cylinders") {
				continue
			}
			cylinder = "1" // the only one needs no name
		}
		n := &Number{Path: "ring-share." + below, Title: "ring gap over bore, " + strings.ReplaceAll(below, ".", " "), Formula: "gap / B", Unit: quantity.UnitShown("%"), Inputs: []Input{{Symbol: "gap", Value: v}}}
		n.Estimate.Dimension = quantity.Pure
		bore := m.boreOf(cylinder)
		switch unclear := m.boresUnclear(cylinder); {
		case unclear != "":
			n.Reason = unclear // what is known of the whole engine doesn't stand for it
		case len(bore) == 0:
			n.Reason = m.lacks([]string{"engine.bore"})
		default:
			n.Inputs = append(n.Inputs, bore...)
			n.carry(func(x []float64) (float64, error) { return calc.GapForBore(x[0], mean(x[1:])) }, quantity.Pure)
		}
		m.add(n)
	}
}
