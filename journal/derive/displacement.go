package derive

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// displacement works out the swept volume of the whole engine from bore, stroke and the number of cylinders; of a cylinder whose bore was measured, from the
// mean of what was read in it.
func displacement(m *Moment) {
	bored := m.displacements()
	inputs, missing := m.gather([2]string{"B", "engine.bore"}, [2]string{"S", "engine.stroke"})
	if len(inputs) == 0 {
		return
	}
	n := &Number{Path: "engine.displacement", Title: "displacement", Formula: "V = n · π/4 · B² · S"}
	n.Estimate.Dimension = quantity.Volume
	rest := m.cylinders() - len(bored)
	unclear := m.unclear("engine.cylinders")
	if len(bored) == 0 || rest > 0 {
		n.Inputs, n.Reason = inputs, m.lacks(missing)
	}
	if len(bored) > 0 {
		n.Formula, n.Words = "V = Σ V_cylinder", "from the measured bores"
		if rest > 0 {
			n.Formula, n.Words = "V = Σ V_cylinder + n · π/4 · B² · S", "of "+quantity.Counted(len(bored), "cylinder")+" from the measured bores"
		}
	}
	for _, one := range bored {
		n.Inputs = append(n.Inputs, Input{Symbol: "V_cylinder", Number: one})
		if one.Reason != "" {
			n.Reason = one.Reason
		}
	}
	if unclear != "" {
		n.Reason = unclear
	}
	if n.Reason != "" {
		n.Words = ""
	} else {
		n.carry(func(x []float64) (float64, error) { return sweptByAll(x, rest, len(x)-len(bored)) }, quantity.Volume)
	}
	m.add(n)
}

// sweptByAll adds up what all pistons sweep: the rest of the cylinders have the bore and stroke that come first, if any do.
func sweptByAll(x []float64, rest, first int) (float64, error) {
	sum := 0.0
	if first > 0 {
		v, err := calc.SweptVolume(x[0], x[1])
		if err != nil {
			return 0, err
		}
		sum = float64(rest) * v
	}
	for _, v := range x[first:] {
		sum += v
	}
	return sum, nil
}

// displacements works out the swept volume of each cylinder whose bore was measured.
func (m *Moment) displacements() []*Number {
	if !m.speaks("bore") {
		return nil
	}
	stroke, missing := m.gather([2]string{"S", "engine.stroke"})
	if len(missing) > 0 {
		return nil
	}
	var all []*Number
	for _, cylinder := range m.cylinderNames() {
		bores, unclear := m.bores(cylinder), m.boresUnclear(cylinder)
		if len(bores) == 0 && unclear == "" {
			continue
		}
		n := &Number{Path: "displacement." + cylinder, Title: "displacement, " + cylinder, Formula: "V_cylinder = π/4 · B² · S; B the mean of what was read", Reason: unclear}
		n.Inputs = append(slices.Clone(stroke), bores...)
		n.Estimate.Dimension = quantity.Volume
		if n.Reason == "" {
			n.carry(func(x []float64) (float64, error) { return calc.SweptVolume(mean(x[1:]), x[0]) }, quantity.Volume)
		}
		all = append(all, m.add(n))
	}
	return all
}

// cylinders returns how many cylinders the engine has: one where the sheet doesn't say.
func (m *Moment) cylinders() int {
	if n, ok := m.stated("engine").Whole("cylinders"); ok && n > 0 {
		return n
	}
	return 1
}
