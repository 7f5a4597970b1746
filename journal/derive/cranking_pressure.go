package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

const (
	leastExponent, mostExponent = 1.2, 1.3 // of compression at cranking speed: an encyclopaedia, read in a reproduction
)

// crankingPressure works out what a compression gauge may show, from the trapped ratio, else the static one.
func crankingPressure(m *Moment) {
	ratio, from := m.worked("engine.trapped-compression"), "from the trapped ratio"
	switch {
	case ratio == nil || ratio.Reason != "" && !isUnclear(ratio):
		ratio, from = m.worked("engine.compression-ratio"), "from the static ratio, which is more than what is trapped"
	case ratio.AtMost:
		from = "from the ratio at the checking lift, which is more than what is trapped"
	}
	if ratio == nil || ratio.Reason != "" && !isUnclear(ratio) {
		return
	}
	unclear := ratio.Reason
	if unclear == "" {
		unclear = m.unclear("air.pressure")
	}
	n := &Number{Path: "engine.cranking-pressure", Title: "cranking pressure to expect", Formula: "p = p_air · (ε^n − 1); n from 1.2 to 1.3", Inputs: []Input{{Symbol: "ε", Number: ratio}}, Reason: unclear}
	n.Estimate.Dimension, n.AtMost = quantity.Pressure, ratio.AtMost || ratio.Path != "engine.trapped-compression"
	if n.Reason != "" {
		m.add(n)
		return
	}
	words := ", at the standard 101.325 kPa"
	if air := m.airThen(); air != nil {
		n.Inputs, words = append(n.Inputs, Input{Symbol: "p_air", Value: air}), ""
	}
	with := func(exponent float64) func([]float64) (float64, error) {
		return func(x []float64) (float64, error) {
			air := calc.StandardAir
			if len(x) > 1 {
				air = x[1]
			}
			return calc.CrankingPressure(air, x[0], exponent)
		}
	}
	n.carry(with((leastExponent+mostExponent)/2), quantity.Pressure)
	if n.Reason == "" {
		n.widen("exponent of the compression", with(leastExponent), with(mostExponent))
		n.Words = from + words
	}
	m.add(n)
}

// airThen returns the pressure of the air that was read in the entry that read the compression last; nil where none was.
func (m *Moment) airThen() *model.Value {
	air := m.value("air.pressure")
	if air == nil || !(air.Estimate.Value > 0) {
		return nil
	}
	for _, position := range m.Journal.Positions.Below("compression") {
		if v := m.value(position); v != nil && v.Entry == air.Entry {
			return air
		}
	}
	return nil
}
