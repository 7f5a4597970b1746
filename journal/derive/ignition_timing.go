package derive

import (
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// ignitionTiming works out the piston's height that belongs to a timing in degrees, or the degrees that belong to a height: before top dead centre is less than zero.
func ignitionTiming(m *Moment) {
	timing := m.value("ignition.timing")
	if timing == nil {
		return
	}
	inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"l", "engine.rod"})
	n := &Number{Path: "ignition.height", Title: "ignition timing as the piston's height", Formula: "x = l + r − (r · cos θ + √(l² − r² · sin² θ)); r = S / 2", Event: quantity.BTDC, Reason: m.lacks(missing)}
	n.Inputs = append([]Input{{Symbol: "θ", Value: timing}}, inputs...)
	n.Estimate.Dimension = quantity.Length
	of := calc.Travel
	if timing.Quantity.Unit.Dimension == quantity.Length {
		n.Path, n.Title, n.Formula = "ignition.degrees", "ignition timing in degrees", "tan² (θ/2) = x · (2 · l − x) / ((S − x) · (2 · l + S − x))"
		n.Inputs[0].Symbol = "x"
		n.Estimate.Dimension, n.Unit = quantity.Angle, degrees()
		of = calc.CrankAngle
	}
	if event := timing.Quantity.Event; event != quantity.BTDC && event != quantity.ATDC || timing.Quantity.IsOpenEnded() {
		n.Reason = uncounted(timing)
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) {
			y, err := of(x[1], x[2], math.Abs(x[0]))
			return math.Copysign(y, x[0]), err
		}, n.Estimate.Dimension)
	}
	m.add(n)
}
