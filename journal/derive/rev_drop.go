package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// revDrop works out how far the engine speed falls from the redline where the next gear takes over.
func revDrop(m *Moment) {
	redline := m.value("engine.redline")
	gears := m.gears()
	if redline == nil || len(gears) < 2 {
		return
	}
	for i, to := range gears[1:] {
		from := gears[i]
		n := &Number{Path: "drive.drop." + from.name + "-" + to.name, Title: "drop from the redline, gear " + from.name + " to " + to.name, Formula: "Δ = n · (1 − i_to / i_from)",
			Inputs: []Input{{Symbol: "n", Value: redline}, {Symbol: "i_from", Value: from.value}, {Symbol: "i_to", Value: to.value}}}
		n.carry(func(x []float64) (float64, error) { return calc.RevDrop(x[0], x[1], x[2]) }, quantity.Rotation)
		n.coarse = wholeRevs
		m.add(n)
	}
}
