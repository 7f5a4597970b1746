package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// displacement works out the swept volume of the whole engine from bore, stroke and the number of cylinders.
func displacement(m *Moment) {
	inputs, missing := m.gather([2]string{"B", "engine.bore"}, [2]string{"S", "engine.stroke"})
	if len(inputs) == 0 {
		return
	}
	n := &Number{Path: "engine.displacement", Title: "displacement", Inputs: inputs, Formula: "V = n · π/4 · B² · S", Reason: lacks(missing)}
	n.Estimate.Dimension = quantity.Volume
	cylinders := float64(m.cylinders())
	if n.Reason == "" {
		swept := func(x []float64) (float64, error) {
			v, err := calc.SweptVolume(x[0], x[1])
			return cylinders * v, err
		}
		n.carry(swept, quantity.Volume)
	}
	m.add(n)
}

// cylinders returns how many cylinders the engine has: one where the sheet doesn't say.
func (m *Moment) cylinders() int {
	if n, ok := m.stated("engine").Whole("cylinders"); ok && n > 0 {
		return n
	}
	return 1
}

// carry works the number out by a function of its inputs, or keeps the reason why it can't be.
func (n *Number) carry(f func([]float64) (float64, error), d quantity.Dimension) {
	estimate, err := carried(f, d, n.Inputs)
	if err != nil {
		n.Reason = err.Error()
		n.Estimate.Dimension = d
		return
	}
	n.Estimate = estimate
}

// lacks says which inputs are missing; "" where none is.
func lacks(missing []string) string {
	if len(missing) == 0 {
		return ""
	}
	text := "not given: "
	for i, path := range missing {
		if i > 0 {
			text += ", "
		}
		text += path
	}
	return text
}
