package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// rollingCircumference works out how far the driven wheel rolls in a turn, from the size code of its tyre.
func rollingCircumference(m *Moment) {
	v := m.tyreWords()
	if v == nil {
		return
	}
	n := &Number{Path: "drive.circumference", Title: "rolling circumference", Formula: "C = π · (d + 2 · w · a)", Inputs: []Input{{Symbol: "code", Value: v}}, Words: "unloaded: a tyre that carries something rolls less"}
	n.Unit, n.step = quantity.UnitShown("mm"), 1e-3
	tyre, _ := parse.ReadTyre(v.Words)
	if tyre.Assumed {
		n.Words = "taken to be as high as it is wide, and unloaded: a tyre that carries something rolls less"
	}
	n.Estimate.Dimension = quantity.Length
	length, err := calc.RollingCircumference(tyre.Rim, tyre.Width, tyre.Height)
	if err != nil {
		n.Reason, n.Words = err.Error(), ""
	}
	n.Estimate.Value = length
	m.add(n)
}
