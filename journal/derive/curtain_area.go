package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// curtainArea works out the area between each valve and its seat at full lift, and the lift from which on the hole is the narrower.
func curtainArea(m *Moment) {
	for _, side := range []string{"intake", "exhaust"} {
		diameter := m.value("engine.valve." + side)
		if diameter == nil {
			continue
		}
		in := Input{Symbol: "D", Value: diameter}
		enough := &Number{Path: "curtain-lift." + side, Title: "lift at which the curtain is as large as the hole, " + side, Formula: "L_D = D / 4", Inputs: []Input{in}}
		enough.carry(func(x []float64) (float64, error) { return calc.CurtainLift(x[0]) }, quantity.Length)
		m.add(enough)
		lift := m.value("cam." + side + ".lift")
		if lift == nil {
			continue
		}
		n := &Number{Path: "curtain." + side, Title: "curtain area at full lift, " + side, Formula: "A = π · D · L", Inputs: []Input{in, {Symbol: "L", Value: lift}}, Unit: quantity.UnitShown("mm²")}
		n.carry(func(x []float64) (float64, error) { return calc.CurtainArea(x[0], x[1]) }, quantity.Area)
		if n.Reason == "" && enough.Reason == "" && quantity.Compare(lift.Estimate.Value, enough.Estimate.Value, 0) >= 0 {
			n.Words = "no less than the hole"
		}
		m.add(n)
	}
}
