package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// chainElongation works out by how much the drive chain is longer than when it was new.
func chainElongation(m *Moment) {
	if m.value("chain.length") == nil {
		return
	}
	inputs, missing := m.gather([2]string{"L", "chain.length"}, [2]string{"n", "chain.links"}, [2]string{"p", "drive.chain-pitch"})
	n := &Number{Path: "chain.elongation", Title: "chain elongation", Formula: "e = L / (n · p) − 1", Inputs: inputs, Reason: lacks(missing)}
	n.Estimate.Dimension = quantity.Pure
	n.Unit = quantity.UnitShown("%")
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.ChainElongation(x[0], x[1], x[2]) }, quantity.Pure)
	}
	m.add(n)
}
