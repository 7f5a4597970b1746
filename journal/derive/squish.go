package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// squish works out the gap between a flat crown and the head.
func squish(m *Moment) {
	inputs, missing := m.gather([2]string{"deck", "engine.deck"}, [2]string{"t", "engine.gasket.thickness"})
	if len(inputs) == 0 {
		return
	}
	n := &Number{Path: "engine.squish", Title: "squish", Formula: "s = deck + t", Inputs: inputs, Reason: m.lacks(missing)}
	n.Estimate.Dimension = quantity.Length
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.Squish(x[0], x[1]) }, quantity.Length)
	}
	m.add(n)
}
