package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// cranked are the paths that what a crank does comes from.
var cranked = []string{"engine.stroke", "engine.rod", "engine.redline"}

// rodRatio works out the length of the rod over the stroke.
func rodRatio(m *Moment) {
	if m.value("engine.rod") == nil && !m.unread("engine.rod") {
		return
	}
	inputs, missing := m.gather([2]string{"l", "engine.rod"}, [2]string{"S", "engine.stroke"})
	n := &Number{Path: "engine.rod-ratio", Title: "rod ratio", Formula: "l / S", Inputs: inputs, Reason: m.lacks(missing), Unit: quantity.UnitShown(":1")}
	n.Estimate.Dimension = quantity.Pure
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.RodRatio(x[0], x[1]) }, quantity.Pure)
	}
	m.add(n)
}
