package derive

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// tellsSpeed is as fine as piston speeds are told, in m/s: the redline is a round figure. Common practice, no source.
const tellsSpeed = 0.1

// pistonSpeed works out how fast a piston moves at the redline, in the mean and at its fastest, and how hard it is pulled.
func pistonSpeed(m *Moment) {
	inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"n", "engine.redline"})
	unclear := m.unclear(missing...)
	if len(missing) > 0 && unclear == "" {
		return
	}
	mean := &Number{Path: "engine.piston-speed.mean", Title: "mean piston speed at the redline", Formula: "v_mean = 2 · S · n", Inputs: inputs}
	mean.Unit = quantity.UnitShown("m/s")
	mean.Estimate.Dimension, mean.Reason = quantity.Speed, unclear
	if mean.Reason == "" {
		mean.carry(func(x []float64) (float64, error) { return calc.MeanPistonSpeed(x[0], x[1]) }, quantity.Speed)
	}
	mean.coarse = tellsSpeed
	m.add(mean)
	rod := m.value("engine.rod")
	if rod == nil || unclear != "" {
		return
	}
	inputs = append(slices.Clone(inputs), Input{Symbol: "l", Value: rod})
	peak := &Number{Path: "engine.piston-speed.peak", Title: "peak piston speed at the redline", Formula: "v = ω · S/2 · sin θ · (1 + S/2 · cos θ / √(l² − (S/2)² · sin² θ)), at its greatest", Inputs: inputs}
	peak.Unit = quantity.UnitShown("m/s")
	peak.carry(func(x []float64) (float64, error) {
		angle, err := calc.PeakPistonSpeed(x[0], x[2])
		if err != nil {
			return 0, err
		}
		return calc.PistonSpeed(x[0], x[2], angle, x[1])
	}, quantity.Speed)
	peak.coarse = tellsSpeed
	m.add(peak)
	hardest := &Number{Path: "engine.piston-acceleration", Title: "peak piston acceleration at the redline", Formula: "a = dv/dt, at its greatest", Inputs: inputs}
	hardest.carry(func(x []float64) (float64, error) { return calc.PeakPistonAcceleration(x[0], x[2], x[1]) }, quantity.Acceleration)
	hardest.coarse = 10 // m/s²
	m.add(hardest)
}
