package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// airRead is the air of a session as inputs of formulas, and what is worked out from them: at the figures of the inputs, in their order.
type airRead struct {
	inputs   []Input
	temp     int // of the inputs
	station  func(x []float64) (float64, error)
	vapour   func(x []float64) (float64, error) // nil: nothing is said of it
	reason   string                             // why nothing can be had
	unread   bool                               // because the air can't be read
	noVapour string                             // why nothing can be had that takes the vapour off
}

// readAir makes the air of a session ready.
func readAir(a *model.Air) airRead {
	var r airRead
	switch {
	case a == nil:
		r.reason = "not given: air"
	case a.Unread:
		r.reason, r.unread = "the air can't be read", true
	}
	if r.reason != "" {
		r.noVapour = r.reason
		return r
	}
	var missing []string
	put := func(symbol string, v *model.Value) int {
		r.inputs = append(r.inputs, Input{Symbol: symbol, Value: v})
		return len(r.inputs) - 1
	}
	if a.Temp == nil {
		missing = append(missing, "air.temp")
	} else {
		r.temp = put("t", a.Temp)
	}
	switch {
	case a.Pressure != nil:
		at := put("p", a.Pressure)
		r.station = func(x []float64) (float64, error) { return x[at], nil }
	case a.SeaLevel != nil && a.Altitude != nil:
		sea, height := put("p₀", a.SeaLevel), put("h", a.Altitude)
		r.station = func(x []float64) (float64, error) { return calc.StationPressure(x[sea], x[height]) }
	case a.SeaLevel != nil:
		missing = append(missing, "air.altitude")
	default:
		missing = append(missing, "air.pressure")
	}
	r.reason = notGiven(missing)
	switch {
	case a.DewPoint != nil:
		at := put("t_d", a.DewPoint)
		r.vapour = func(x []float64) (float64, error) { return calc.SaturationPressure(x[at]) }
	case a.Humidity != nil:
		at, temp := put("φ", a.Humidity), r.temp
		r.vapour = func(x []float64) (float64, error) { return calc.VapourPressure(x[temp], x[at]) }
	default:
		missing = append(missing, "air.humidity")
	}
	r.noVapour = notGiven(missing)
	return r
}

// dry returns the pressure without the vapour, and the vapour.
func (r *airRead) dry(x []float64) (dry, vapour float64, err error) {
	station, err := r.station(x)
	if err != nil {
		return 0, 0, err
	}
	if r.vapour != nil {
		if vapour, err = r.vapour(x); err != nil {
			return 0, 0, err
		}
	}
	dry, err = calc.DryPressure(station, vapour)
	return dry, vapour, err
}

// factor returns what figures that carry one standard are multiplied by to carry another.
func (r *airRead) factor(from, to calc.Standard, x []float64) (float64, error) {
	dry, vapour, err := r.dry(x)
	if err != nil {
		return 0, err
	}
	put, err := calc.PowerFactor(to, dry, vapour, x[r.temp])
	if err != nil {
		return 0, err
	}
	taken, err := calc.PowerFactor(from, dry, vapour, x[r.temp])
	return put / taken, err
}

// without says why a factor between two standards can't be had in this air; empty where it can.
func (r *airRead) without(from, to calc.Standard) string {
	for _, s := range []calc.Standard{from, to} {
		if _, _, wet := s.Reference(); s != calc.Uncorrected && !wet {
			return r.noVapour
		}
	}
	return r.reason
}

// airNumber adds a number that is worked out from the air of each session.
func (m *Moment) airNumber(path, title, formula string, unit *quantity.Unit, d quantity.Dimension, f func(r *airRead, x []float64) (float64, error)) {
	for _, s := range m.told() {
		if s.Pulls.Air == nil {
			continue
		}
		n := &Number{Path: path + "." + s.name, Title: title + ", " + s.of(), Formula: formula, Inputs: s.air.inputs, Unit: unit, Reason: s.air.noVapour}
		if n.Estimate.Dimension = d; d == quantity.Length {
			n.coarse = 1 // m: a tenth of a kilopascal is ten
		}
		if n.Reason == "" {
			n.carry(func(x []float64) (float64, error) { return f(&s.air, x) }, d)
		}
		m.add(n)
	}
}

// dryPressure works out what the air of each session presses without its water vapour.
func dryPressure(m *Moment) {
	m.airNumber("air.dry", "dry air pressure", "p_d = p − p_v", nil, quantity.PressureAbs, func(r *airRead, x []float64) (float64, error) {
		dry, _, err := r.dry(x)
		return dry, err
	})
}

// airDensity works out how dense the air of each session was.
func airDensity(m *Moment) {
	m.airNumber("air.density", "density of the air", "ρ = p · M_a / (Z · R · T) · (1 − x_v · (1 − M_v / M_a))", nil, quantity.Density, (*airRead).density)
}

// densityAltitude works out how high the standard atmosphere is as thin as the air of each session was.
func densityAltitude(m *Moment) {
	m.airNumber("air.density-altitude", "density altitude", "h = T₀ / L · (1 − (ρ / ρ₀) ^ (1 / (g / (L · R) − 1)))", quantity.UnitShown("m"), quantity.Length, func(r *airRead, x []float64) (float64, error) {
		density, err := r.density(x)
		if err != nil {
			return 0, err
		}
		return calc.DensityAltitude(density)
	})
}

func (r *airRead) density(x []float64) (float64, error) {
	dry, vapour, err := r.dry(x)
	if err != nil {
		return 0, err
	}
	return calc.AirDensity(dry+vapour, x[r.temp], vapour)
}
