package derive

import (
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// deadCentre works out what a degree wheel shows at top dead centre, from what it shows where a stop in the plug hole halts the piston on either side.
func deadCentre(m *Moment) {
	inputs, missing := m.gather([2]string{"before", model.StopBefore}, [2]string{"after", model.StopAfter})
	if len(inputs) == 0 {
		return
	}
	n := &Number{Path: "timing.dead-centre", Title: "what the wheel shows at top dead centre, by the stop", Formula: "centre = (before + after) / 2", Inputs: inputs, Unit: degrees(), Reason: m.lacks(missing)}
	n.Estimate.Dimension = quantity.Angle
	var zeros [2]float64
	for i, in := range inputs {
		if in.Value.Quantity.IsOpenEnded() {
			n.Reason = noMiddle
		}
		zeros[i], _ = in.Value.Quantity.Event.Centre()
	}
	if n.Reason == "" && inputs[0].Value.Entry != inputs[1].Value.Entry {
		n.Reason = "the two were not read in one entry, and a wheel that was off in between stands elsewhere"
	}
	if n.Reason == "" {
		if _, fault := model.StopCentre(inputs[0].Value, inputs[1].Value); fault != nil {
			n.Reason = "the two can't be: " + fault.Why // a finding at the stop says so too
		}
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.StopCentre(zeros[0]+x[0], zeros[1]+x[1]) }, quantity.Angle)
	}
	if n.Reason == "" {
		either := math.Abs(math.Remainder(zeros[1]+inputs[1].of().Value-n.Estimate.Value, 2*math.Pi))
		n.Words = "shift the pointer until the stop halts the piston at " + quantity.Show(either, degrees(), model.WheelStep).String() + " on either side"
	}
	m.add(n)
}
