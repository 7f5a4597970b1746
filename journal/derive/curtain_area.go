package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// curtainArea works out the area between each valve and its seat at full lift, and the lift from which on the hole is the narrower.
func curtainArea(m *Moment) {
	for _, side := range parse.Sides {
		diameter := m.value("engine.valve." + side)
		if diameter == nil {
			continue
		}
		in := Input{Symbol: "D", Value: diameter}
		enough := &Number{Path: "curtain-lift." + side, Title: "lift at which the curtain is as large as the hole, " + side, Formula: "L_D = D / 4", Inputs: []Input{in}}
		enough.carry(func(x []float64) (float64, error) { return calc.CurtainLift(x[0]) }, quantity.Length)
		m.add(enough)
		for _, lift := range m.worksOut("cam." + side + ".valve-lift") {
			m.add(curtainAt(in, lift, enough))
		}
	}
}

// curtainAt works out the curtain of one valve, or of all of a side, from the lift that is left there.
func curtainAt(diameter Input, lift, enough *Number) *Number {
	below := strings.Replace(strings.TrimPrefix(lift.Path, "cam."), ".valve-lift", "", 1)
	n := &Number{Path: "curtain." + below, Title: "curtain area at full lift, " + strings.ReplaceAll(below, ".", " "), Formula: "A = π · D · L", Inputs: []Input{diameter, {Symbol: "L", Number: lift}},
		Unit: quantity.UnitShown("mm²"), Reason: lift.Reason}
	n.Estimate.Dimension = quantity.Area
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.CurtainArea(x[0], x[1]) }, quantity.Area)
	}
	if n.Reason == "" && enough.Reason == "" && quantity.Compare(lift.Estimate.Value, enough.Estimate.Value, 0) >= 0 {
		n.Words = "no less than the hole"
	}
	return n
}
