package calc

import "math"

// Standard is a way to reckon the power that an engine made in one air to that in a reference air. Its zero value leaves the power as it is.
type Standard uint8

// The standards, for engines that breathe by themselves and have a spark. Those of one group give the same factor.
const (
	Uncorrected Standard = iota
	J1349                // SAE J1349, as of June 1990 and after
	ISO1585              // ISO 1585, and UN R85
	ISO4106              // ISO 4106, for motorcycles
	J607                 // SAE J607, withdrawn
	DIN70020             // DIN 70020, withdrawn
	JISD1001             // JIS D 1001, as of 1993
)

// reckoning is what is known of a standard.
type reckoning struct {
	name        string
	temperature float64    // of the reference, K
	pressure    float64    // of the reference, Pa
	wet         bool       // the pressure is the air's own, vapour and all
	factors     [2]float64 // in which the factor holds; noughts where the standard names none
	air         [2]float64 // temperatures in which it holds, K
	pressures   [2]float64 // pressures in which it holds, Pa
}

// What is known of the standards, and how far, stands on the page of the correction. The temperatures are those of their formulas, in which 25 °C is 298 K and 20 °C is 293.
var reckonings = [...]reckoning{
	Uncorrected: {name: "none"},
	J1349:       {"SAE J1349", 298, 99e3, false, [2]float64{0.93, 1.07}, [2]float64{288, 308}, [2]float64{90e3, 105e3}},
	ISO1585:     {"ISO 1585", 298, 99e3, false, [2]float64{0.93, 1.07}, [2]float64{288, 308}, [2]float64{80e3, 110e3}},
	ISO4106:     {"ISO 4106", 298, 99e3, false, [2]float64{0.93, 1.07}, [2]float64{288, 308}, [2]float64{80e3, 110e3}},
	J607:        {name: "SAE J607", temperature: 519.67 / 1.8, pressure: 29.92 * inchMercury},
	DIN70020:    {name: "DIN 70020", temperature: 293, pressure: 101300, wet: true},
	JISD1001:    {"JIS D 1001", 298, 99e3, false, [2]float64{0.93, 1.07}, [2]float64{288, 308}, [2]float64{80e3, 110e3}},
}

// rounded is what the formulas leave out of 273.15, in K: 25 °C is their 298 K.
const rounded = 0.15

// inchMercury is an inch of mercury at 0 °C, in Pa.
const inchMercury = 3386.389

// Standards lists all standards, [Uncorrected] first.
var Standards = []Standard{Uncorrected, J1349, ISO1585, ISO4106, J607, DIN70020, JISD1001}

// String is the standard's designation: `SAE J1349`; `none` for [Uncorrected].
func (s Standard) String() string {
	if int(s) < len(reckonings) {
		return reckonings[s].name
	}
	return "unknown"
}

// Reference is the air that a standard reckons to: its temperature in K, as its formula has it, and its pressure in Pa. That is the dry air's own, but where wet is true.
func (s Standard) Reference() (temperature, pressure float64, wet bool) {
	r := reckonings[s]
	return r.temperature, r.pressure, r.wet
}

// PowerFactor returns what power that was measured in an air has to be multiplied by: pressure without vapour (Pa), vapour (Pa), temperature (K). It refuses air without
// pressure and standards that there aren't; out of the range of a standard, see [Standard.Outside], it still gives the factor.
//
//	SAE J1349: 1.18 · (99 kPa / p_d) · √(T / 298) − 0.18
//	ISO 1585, ISO 4106, JIS D 1001: (99 kPa / p_d)^1.2 · (T / 298)^0.6
//	SAE J607: (29.92 inHg / p_d) · √(T / 288.7)
//	DIN 70020: (1013 hPa / p) · √(T / 293)
//
// T is t + 273 but in J607, so that 25 °C is the 298 K of the formulas. Sources: J1349 of June 1990, J607 and DIN 70020 read in reproductions; the exponents of ISO 1585 and
// what JIS and ISO 4106 have in common with it from memory.
func PowerFactor(s Standard, dry, vapour, temperature float64) (float64, error) {
	if int(s) >= len(reckonings) {
		return 0, Refusal("there is no such standard")
	}
	if s == Uncorrected {
		return 1, nil
	}
	if _, err := DryPressure(dry+vapour, vapour); err != nil {
		return 0, err
	}
	if _, err := SaturationPressure(temperature); err != nil {
		return 0, err
	}
	r := reckonings[s]
	t := temperature - rounded
	switch s {
	case J1349:
		return above(1.18*(r.pressure/dry)*math.Sqrt(t/r.temperature) - 0.18)
	case J607:
		return above(r.pressure / dry * math.Sqrt(temperature/r.temperature))
	case DIN70020:
		return above(r.pressure / (dry + vapour) * math.Sqrt(t/r.temperature))
	}
	return above(math.Pow(r.pressure/dry, 1.2) * math.Pow(t/r.temperature, 0.6))
}

// Outside is something of an air that lies outside the range in which a standard holds, in SI.
type Outside struct {
	What          OutsideWhat
	Is, Low, High float64
}

// OutsideWhat says what of an air lies outside a range.
type OutsideWhat uint8

// What a standard bounds.
const (
	OutsideFactor      OutsideWhat = iota // 1
	OutsideTemperature                    // K
	OutsidePressure                       // Pa, dry
)

// Outside returns what of an air, of dry pressure (Pa) and temperature (K), lies outside the range in which the standard holds: the factor first, which it gave; false for
// nothing, and for a standard that names no range. The ranges are from memory.
func (s Standard) Outside(factor, dry, temperature float64) (Outside, bool) {
	r := reckonings[s]
	if r.factors == [2]float64{} {
		return Outside{}, false
	}
	for _, o := range []Outside{
		{OutsideFactor, factor, r.factors[0], r.factors[1]}, {OutsideTemperature, temperature, r.air[0] + rounded, r.air[1] + rounded}, {OutsidePressure, dry, r.pressures[0], r.pressures[1]},
	} {
		const last = 1e-9
		if o.Is < o.Low*(1-last) || o.Is > o.High*(1+last) {
			return o, true
		}
	}
	return Outside{}, false
}
