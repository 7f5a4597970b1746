package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// camDuration works out how long each side's valves are open, from the two events in force.
func camDuration(m *Moment) {
	if !m.speaks("cam") {
		return
	}
	for _, side := range parse.Sides {
		l, ok := m.lobe(side)
		if !ok {
			continue
		}
		n := &Number{Path: "cam." + side + ".duration", Title: side + " duration", Formula: "duration = opens + 180° + closes", Inputs: l.inputs(), Told: l.told, Unit: degrees(), Reason: l.reason}
		n.Estimate.Dimension = quantity.Angle
		if n.Reason == "" {
			n.carry(func(x []float64) (float64, error) { return calc.CamDuration(l.ends(x)) }, quantity.Angle)
			n.Words = l.lift
		}
		m.add(n)
	}
}
