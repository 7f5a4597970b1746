package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// valveOverlap works out how long the intake's and the exhaust's valves are open together.
func valveOverlap(m *Moment) {
	if !m.speaks("cam") {
		return
	}
	const opensAt, closesAt = "cam.intake.opens", "cam.exhaust.closes"
	opens, why := m.timed(opensAt)
	closes, also := m.timed(closesAt)
	if opens.value == nil && closes.value == nil && m.unclear(opensAt, closesAt) == "" {
		return
	}
	n := &Number{Path: "cam.overlap", Title: "valve overlap", Formula: "overlap = intake opens + exhaust closes", Unit: degrees(), Reason: why}
	n.Estimate.Dimension = quantity.Angle
	if n.Reason == "" {
		n.Reason = also
	}
	for _, in := range []Input{{Symbol: "intake opens", Value: opens.value}, {Symbol: "exhaust closes", Value: closes.value}} {
		if in.Value != nil {
			n.Inputs = append(n.Inputs, in)
		}
	}
	lift := ""
	if n.Reason == "" {
		lift, n.Reason = m.oneLift(opens.value, closes.value)
		n.Told = m.lifts(opens.value, closes.value)
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.ValveOverlap(-(x[0] + opens.shift), x[1]+closes.shift) }, quantity.Angle)
		n.Words = lift
	}
	m.add(n)
}
