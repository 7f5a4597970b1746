package calc

import "math"

// Fuel is what an engine burns.
type Fuel struct {
	Stoichiometric float64 // mass of air for one of fuel that burns both whole
	Density        float64 // kg/m³, at 15 °C or so
	Alcohol        float64 // share of the mass
}

// The two sides of a blend: petrol and ethanol without water. Densities as a blend of them is usually reckoned, common practice, no source; ratios as the US Department of Energy's
// table of fuels has them, read in a reproduction.
var (
	petrol  = Fuel{Stoichiometric: 14.7, Density: 745}
	ethanol = Fuel{Stoichiometric: 9.0, Density: 789, Alcohol: 1}
)

// Methanol is neat methanol: its ratio from memory, its density as the US Department of Energy's table of fuels has it, read in a reproduction.
var Methanol = Fuel{Stoichiometric: 6.45, Density: 794.45, Alcohol: 1}

// Blend returns petrol with a share of ethanol by volume, from 0 to 1: E10 is 0.10. The ratio is that of the masses.
//
//	w = v · ρ_e / (v · ρ_e + (1 − v) · ρ_p); AFR = w · 9.0 + (1 − w) · 14.7
//
// What a pump sells as E85 may be anything from E51 to E83, from memory: measure it. Source of the method: conservation of mass.
func Blend(volume float64) (Fuel, error) {
	if !(volume >= 0 && volume <= 1) {
		return Fuel{}, Refusal("the share of ethanol must be from 0 to 100 %")
	}
	density := volume*ethanol.Density + (1-volume)*petrol.Density
	w := volume * ethanol.Density / density
	return Fuel{Stoichiometric: w*ethanol.Stoichiometric + (1-w)*petrol.Stoichiometric, Density: density, Alcohol: w}, nil
}

// InjectorFlow returns what each of a number of injectors must pass with its valve held open, in kg/s, to feed a power (W) at a specific consumption (kg/J) while they are open for
// a share of the time (0 to 1, the duty limit). It refuses figures that are not more than zero, and a duty above 1.
//
//	ṁ = P · b / (n · d)
//
// Source of the method: common practice, no source.
func InjectorFlow(power, consumption float64, injectors int, duty float64) (float64, error) {
	if err := first(positive("the power", power), positive("the specific consumption", consumption), positive("the number of injectors", float64(injectors)), positive("the duty", duty)); err != nil {
		return 0, err
	}
	if duty > 1 {
		return 0, Refusal("an injector can't be open for more than all of the time")
	}
	return above(power * consumption / (float64(injectors) * duty))
}

// InjectorDuty returns the share of the time for which injectors that pass so much each with their valves held open (kg/s) are open to feed a power: more than 1 where they can't.
// The rest as for [InjectorFlow].
func InjectorDuty(power, consumption float64, injectors int, flow float64) (float64, error) {
	if err := positive("the flow of an injector", flow); err != nil {
		return 0, err
	}
	needed, err := InjectorFlow(power, consumption, injectors, 1)
	if err != nil {
		return 0, err
	}
	duty := needed / flow
	if math.IsInf(duty, 0) {
		return 0, Refusal("the figures are too large or too small to work with")
	}
	return above(duty)
}
