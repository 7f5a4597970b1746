package calc

import (
	"math"

	"example.org/locknut/journal/quantity"
)

// The water that air can hold: from the coldest shed to the hottest, in K.
const (
	coldestAir = 233.15
	hottestAir = 333.15
)

// AirTemperatures are those of the air that engines breathe, in K: −40 to 60 °C. Common practice, no source.
var AirTemperatures = quantity.Span{Low: coldestAir, High: hottestAir}

// SaturationPressure returns the pressure of water vapour over water, in Pa, at an air temperature (K) from −40 to 60 °C; others are refused. Below freezing it is that over
// water still, which relative humidity is counted by.
//
// Source of the method: IAPWS, Saturation Properties of Ordinary Water Substance, SR1-86(1992); its coefficients from memory, held to its two check points and to tables.
func SaturationPressure(temperature float64) (float64, error) {
	if !(temperature >= coldestAir && temperature <= hottestAir) {
		return 0, Refusal("the temperature is none that air has: −40 to 60 °C")
	}
	return saturation(temperature), nil
}

// saturation is the equation, up to the critical point.
func saturation(temperature float64) float64 {
	const critical, pressure = 647.096, 22.064e6
	t := 1 - temperature/critical
	sum := -7.85951783*t + 1.84408259*math.Pow(t, 1.5) - 11.7866497*t*t*t + 22.6807411*math.Pow(t, 3.5) - 15.9618719*t*t*t*t + 1.80122502*math.Pow(t, 7.5)
	return pressure * math.Exp(critical/temperature*sum)
}

// VapourPressure returns the pressure of the water vapour in air, in Pa, from its temperature (K) and its relative humidity as a share from 0 to 1. It refuses what
// [SaturationPressure] does. From a dew point it is the saturation pressure there.
//
//	p_v = φ · p_s(T)
//
// Source of the method: the definition of relative humidity.
func VapourPressure(temperature, humidity float64) (float64, error) {
	if !(humidity >= 0 && humidity <= 1) {
		return 0, Refusal("the relative humidity must be from 0 to 100 %")
	}
	saturated, err := SaturationPressure(temperature)
	return humidity * saturated, err
}

// DryPressure returns what air presses without its water vapour, in the unit of its arguments. It refuses pressures at which no engine runs, and vapour that is all of it.
//
//	p_d = p − p_v
//
// Source of the method: Dalton's law.
func DryPressure(station, vapour float64) (float64, error) {
	if err := first(positive("the air pressure", station), finitely(vapour)); err != nil {
		return 0, err
	}
	if vapour < 0 || vapour >= station {
		return 0, Refusal("the vapour can't be less than nothing, or all of the air")
	}
	return finite(station - vapour)
}

// StandardAir is the pressure of the standard atmosphere at sea level, in Pa, by definition.
const StandardAir = 101325.0

// The standard atmosphere up to 11 km.
const (
	standardTemperature = 288.15
	lapse               = 0.0065            // K/m
	standardGravity     = 9.80665           // m/s²
	gasConstant         = 8314.32 / 28.9644 // of its air, J/(kg·K)
	pressureExponent    = standardGravity / (lapse * gasConstant)
	highest             = 11000.0 // m
	lowest              = -1000.0
)

// StandardPressure returns the pressure of the standard atmosphere at a height above the sea (m, geopotential; for a height off a map the difference is a pascal or two), in Pa.
// It refuses heights below −1 km and above 11.
//
// Source of the method: ISO 2533 and the US Standard Atmosphere of 1976, which are alike there; constants read in a reproduction.
func StandardPressure(height float64) (float64, error) {
	if err := inStandardAir(height); err != nil {
		return 0, err
	}
	return StandardAir * math.Pow(1-lapse*height/standardTemperature, pressureExponent), nil
}

// inStandardAir refuses heights that the standard atmosphere's one lapse doesn't hold at.
func inStandardAir(height float64) error {
	if !(height >= lowest && height <= highest) {
		return Refusal("the height must be from 1000 m below the sea to 11000 m above it")
	}
	return nil
}

// GroundPressures are those of the air at a place on the ground, in Pa: no barometer has shown more than 1085 hPa, and no road is as high as half of the air. From memory.
var GroundPressures = quantity.Span{Low: 50e3, High: 108.5e3}

// GroundHeights are those of a place that an engine is driven to, in m above the sea: from the shore of the lowest lake to the highest road. From memory.
var GroundHeights = quantity.Span{Low: -440, High: 5900}

// StationPressure returns the pressure of the air at a place, in Pa, from that which a weather report gives, reduced to sea level (Pa), and the height of the place (m). It
// refuses what [StandardPressure] does, and what makes none of [GroundPressures].
//
//	p = (p₀ᵏ − p_stdᵏ · L · h / T₀) ^ (1/k); k = L · R / g
//
// Source of the method: the altimeter setting by the standard atmosphere, the other way round. Reports that reduce by the day's own temperature differ by up to a few hPa on a
// hot or cold day at a few hundred metres.
func StationPressure(seaLevel, height float64) (float64, error) {
	if err := first(positive("the air pressure", seaLevel), inStandardAir(height)); err != nil {
		return 0, err
	}
	const k = 1 / pressureExponent
	base := math.Pow(seaLevel, k) - math.Pow(StandardAir, k)*lapse*height/standardTemperature
	pressure := math.Pow(base, 1/k) // no number where the base is below nought
	if !GroundPressures.Holds(pressure) {
		return 0, Refusal("no air on the ground has such a pressure")
	}
	return pressure, nil
}

// AirDensity returns the density of moist air, in kg/m³, from its pressure (Pa), its temperature (K) and the pressure of its water vapour (Pa). It refuses what
// [SaturationPressure] and [DryPressure] do.
//
// Source of the method: CIPM-2007, Metrologia 45 (2008) 149; constants read in a reproduction. It is meant for 600 to 1100 hPa and 15 to 27 °C and is told of other air too,
// where a perfect gas would be off by more.
func AirDensity(station, temperature, vapour float64) (float64, error) {
	if _, err := SaturationPressure(temperature); err != nil {
		return 0, err
	}
	if _, err := DryPressure(station, vapour); err != nil {
		return 0, err
	}
	const molar, dry, water = 8.314472, 28.96546e-3, 18.01528e-3
	t := temperature - 273.15
	enhanced := 1.00062 + 3.14e-8*station + 5.6e-7*t*t
	x := enhanced * vapour / station // mole fraction
	ratio := station / temperature
	z := 1 - ratio*(1.58123e-6-2.9331e-8*t+1.1043e-10*t*t+(5.707e-6-2.051e-8*t)*x+(1.9898e-4-2.376e-6*t)*x*x) + ratio*ratio*(1.83e-11-0.765e-8*x*x)
	return above(station * dry / (z * molar * temperature) * (1 - x*(1-water/dry)))
}

// DensityAltitude returns the height, in m, at which the standard atmosphere is as dense as air of a density (kg/m³). It refuses densities that it hasn't below 11 km.
//
//	h = T₀/L · (1 − (ρ/ρ₀) ^ (1 / (g/(L·R) − 1)))
//
// Source of the method: the standard atmosphere, solved for height.
func DensityAltitude(density float64) (float64, error) {
	if err := positive("the density", density); err != nil {
		return 0, err
	}
	const sea = StandardAir / (gasConstant * standardTemperature)
	height := standardTemperature / lapse * (1 - math.Pow(density/sea, 1/(pressureExponent-1)))
	if height < 2*lowest || height > highest {
		return 0, Refusal("no air near the ground is so thin or so dense")
	}
	return finite(height)
}
