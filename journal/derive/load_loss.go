package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// mostLoss is the loss of load beyond which a used spring is rejected by US Army TM 10-3930-644-14&P, read in the source.
const mostLoss = 0.10

// loadLoss works out how much less each spring carries than its limit aims for: the load when new, at the same length.
func loadLoss(m *Moment) {
	for _, position := range m.Journal.Positions.Below("spring") {
		below, ok := strings.CutPrefix(position, "spring.")
		v := m.value(position)
		limit := m.Journal.LimitAt(position, m.Entry)
		if !ok || v == nil || v.Quantity.Unit.Dimension != quantity.Force || limit == nil || limit.Nominal == nil || limit.Nominal.Unit.Dimension != quantity.Force {
			continue
		}
		fresh := limit.Nominal.SI()
		n := &Number{Path: "load-loss." + below, Title: "loss of load, " + strings.ReplaceAll(below, ".", " "), Formula: "1 − F / nominal", Unit: quantity.UnitShown("%"), Inputs: []Input{{Symbol: "F", Value: v}}}
		n.carry(func(x []float64) (float64, error) { return calc.LoadLoss(fresh, x[0]) }, quantity.Pure)
		if n.Reason == "" && quantity.Compare(n.Estimate.Value, mostLoss, 0) > 0 {
			n.Words = "more than the 10 % beyond which TM 10-3930-644-14&P rejects a used spring"
		}
		m.add(n)
	}
}
