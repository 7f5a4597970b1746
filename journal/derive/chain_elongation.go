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
	n := &Number{Path: "chain.elongation", Title: "chain elongation", Formula: "e = L / (n · p) − 1", Inputs: inputs, Reason: m.lacks(missing)}
	n.Estimate.Dimension = quantity.Pure
	n.Unit = quantity.UnitShown("%")
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.ChainElongation(x[0], x[1], x[2]) }, quantity.Pure)
	}
	if n.Reason == "" {
		n.Reason = NoElongation(n.Estimate)
	}
	m.add(n)
}

// elongations are by how much a chain can be longer than when it was new, as a share: one is made a little short at the most, and one that has grown by a tenth jumps off its sprockets. Common practice,
// no source.
var elongations = quantity.Span{Low: -0.003, High: 0.10}

// NoElongation says why an elongation, whatever its uncertainty, is none that a chain can have; "" for one that it can.
func NoElongation(e quantity.Estimate) string {
	u := e.Expanded()
	switch {
	case quantity.Compare(e.Value+u, elongations.Low, 1) < 0:
		return "its figures make it shorter than it was new"
	case quantity.Compare(e.Value-u, elongations.High, 1) > 0:
		return "its figures make it longer than a chain can get"
	}
	return ""
}
