package derive

import (
	"math"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// injected are the paths that what injectors must pass comes from.
var injected = []string{"engine.injector", "engine.consumption", "power", "air"}

// fuelRatio works out the mass of air that burns with one of the fuel.
func fuelRatio(m *Moment) {
	fuel := m.Journal.Fuel
	if fuel == nil {
		return
	}
	n := &Number{Path: "fuel.ratio", Title: "air for the fuel", Formula: "w · 9.0 + (1 − w) · 14.7; w = v · 0.789 / (v · 0.789 + (1 − v) · 0.745)", step: 0.01}
	n.Estimate = quantity.Estimate{Value: fuel.Stoichiometric, Dimension: quantity.AirFuel}
	if fuel.Stoichiometric == calc.Methanol.Stoichiometric {
		n.Formula = "6.45"
	}
	n.Words = "for " + m.stated("fuelling").Text("fuel").Text
	m.add(n)
}

// UsualDuty is the share of the time for which injectors may be open where no limit says it: common practice, no source.
const UsualDuty = 0.80

// What an engine burns at full power, where the journal doesn't say it: common practice, no source.
const (
	leastConsumption, mostConsumption = 0.45 * poundPerHorse, 0.55 * poundPerHorse // kg/J
	poundPerHorse                     = 0.45359237 / (745.69987158227022 * 3600)
	consumptionStep                   = 1e-3 / 3.6e6 // 1 g/(kW·h)
	petrolLike                        = 0.15         // share of alcohol up to which those figures are meant: common practice, no source
)

// feed is what an engine has to be fed at a power, now or for the goal.
type feed struct {
	when   string // `now` or `goal`
	goal   string // the goal as it is written
	power  quantity.Estimate
	read   *model.Value // of now
	of     *Session     // that it was read in, nil for none
	reason string
}

// isCorrected reports whether the power carries a correction.
func (f feed) isCorrected() bool { return f.of != nil && f.of.Carried != calc.Uncorrected }

// takenOff reports whether the correction can be taken off it again: what an engine burns goes by what it makes in the air that it has.
func (f feed) takenOff() bool {
	return f.isCorrected() && f.of.air.without(f.of.Carried, calc.Uncorrected) == ""
}

// feeds returns the powers that the injectors must feed: the peak as it is, and the one that the build is to reach.
func (m *Moment) feeds() []feed {
	var all []feed
	if v := m.value("power.peak"); v != nil {
		all = append(all, feed{when: "now", power: v.Estimate, read: v, of: m.sessionOf(v)})
	} else if m.unread("power.peak") {
		all = append(all, feed{when: "now", reason: m.unclear("power.peak")})
	}
	for _, goal := range m.Journal.Goals {
		if goal.Path == "power.peak" && goal.Quantity.Kind == quantity.Figure {
			all = append(all, feed{when: "goal", goal: goal.Quantity.Shown().String(), power: quantity.Estimate{Value: goal.Quantity.SI(), Dimension: quantity.Power}})
		}
	}
	return all
}

// injection is what the numbers of the injectors have in common.
type injection struct {
	inputs  []Input // n, and b where it is given, after P where that is read
	assumed bool    // b is not given
	unknown string  // why nothing is known of the fuel
	reason  string
}

// injection gathers what feeds a power; nil where the engine has no injectors.
func (m *Moment) injection(f feed) *injection {
	if m.value("engine.injector.count") == nil && m.value("engine.injector.flow") == nil && !m.unread("engine.injector.count") && !m.unread("engine.injector.flow") {
		return nil
	}
	in := &injection{reason: f.reason, unknown: m.unknownFuel()}
	if f.read != nil {
		in.inputs = []Input{{Symbol: "P", Value: f.read}}
	}
	if f.takenOff() {
		in.inputs = append(in.inputs, f.of.air.inputs...)
	}
	inputs, missing := m.gather([2]string{"n", "engine.injector.count"})
	in.inputs = append(in.inputs, inputs...)
	fuel := m.Journal.Fuel
	if b := m.value("engine.consumption"); b != nil {
		in.inputs = append(in.inputs, Input{Symbol: "b", Value: b})
	} else {
		in.assumed = true
	}
	switch {
	case in.reason != "":
	case len(missing) > 0:
		in.reason = m.lacks(missing)
	case math.Trunc(inputs[0].Value.Estimate.Value) != inputs[0].Value.Estimate.Value:
		in.reason = "the number of injectors is not a whole one"
	case in.assumed && m.unread("engine.consumption"):
		in.reason = m.unclear("engine.consumption")
	case in.assumed && fuel == nil:
		in.reason = in.unknown
	case in.assumed && fuel.Alcohol > petrolLike:
		in.reason = "engine.consumption is not given, and none is known for this fuel"
	}
	return in
}

// unknownFuel says why nothing is known of the fuel; nothing where it is.
func (m *Moment) unknownFuel() string {
	name := m.stated("fuelling").Text("fuel").Text
	switch {
	case m.Journal.Fuel != nil:
		return ""
	case m.Journal.FuelUnread:
		return "the fuel can't be read"
	case name != "":
		return "no density is known for `" + name + "`"
	}
	return "the fuel is not named: `fuel` in `[fuelling]`"
}

// fed is what feeds a power, in SI.
type fed struct {
	power, consumption float64
	count              int
	rest               []float64 // what else a number takes
}

// of splits the figures of the inputs. A power that carries a correction comes without it, where the air is known.
func (in *injection) of(f feed, x []float64, middle float64) (fed, error) {
	all := fed{power: f.power.Value, consumption: middle}
	if f.read != nil {
		all.power, x = x[0], x[1:]
	}
	if f.takenOff() {
		factor, err := f.of.air.factor(f.of.Carried, calc.Uncorrected, x)
		if err != nil {
			return all, err
		}
		all.power, x = all.power*factor, x[len(f.of.air.inputs):]
	}
	all.count, x = int(math.Round(x[0])), x[1:]
	if !in.assumed {
		all.consumption, x = x[0], x[1:]
	}
	all.rest = x
	return all, nil
}

// carry works a number out, with the range of the consumption where that is assumed: what lies between its ends is equally likely.
func (in *injection) carry(n *Number, f feed, d quantity.Dimension, work func(fed) (float64, error)) {
	if f.takenOff() {
		n.Formula = strings.Replace(n.Formula, "P ·", "P / α ·", 1)
	}
	at := func(b float64) func([]float64) (float64, error) {
		return func(x []float64) (float64, error) {
			all, err := in.of(f, x, b)
			if err != nil {
				return 0, err
			}
			return work(all)
		}
	}
	n.carry(at((leastConsumption+mostConsumption)/2), d)
	if in.assumed && n.Reason == "" {
		n.widen("consumption that nobody measured", at(leastConsumption), at(mostConsumption))
	}
}

// words says what the number rests on beside its inputs.
func (in *injection) words(m *Moment, f feed, words string) string {
	if f.read == nil {
		words = "for the goal of " + f.goal + "; " + words
	}
	if in.assumed {
		unit := m.Journal.Units.Leading(quantity.SpecificConsumption)
		words += "; taking " + quantity.Between(quantity.Show(leastConsumption, unit, consumptionStep), quantity.Show(mostConsumption, unit, consumptionStep)).String() + ", which nobody measured here"
	}
	switch {
	case f.takenOff():
		words += "; without the correction by " + f.of.Carried.String() + " that the power carries"
	case f.isCorrected():
		words += "; the power is corrected by " + f.of.Carried.String() + ", and what the engine made that day can't be told: " + f.of.air.without(f.of.Carried, calc.Uncorrected)
	case f.of != nil && f.of.silent:
		words += "; nothing says whether the power is corrected"
	}
	p := f.read
	if p == nil {
		p = m.value("power.peak") // what the goal is held to
	}
	if p != nil && p.IsAtWheel() {
		words += "; the power is at the wheel, and the crank gives more"
	}
	return words
}

// injectorFlow works out what each injector must pass to feed the power.
func injectorFlow(m *Moment) {
	for _, f := range m.feeds() {
		in := m.injection(f)
		if in == nil {
			continue
		}
		n := &Number{Path: "injector.flow." + f.when, Title: "flow needed of an injector, " + f.when, Formula: "V̇ = P · b / (n · D · ρ)", Inputs: in.inputs, Reason: in.reason}
		n.Estimate.Dimension = quantity.VolumeFlow
		if n.Reason == "" {
			n.Reason = in.unknown
		}
		if n.Reason == "" {
			duty, words := m.mostDuty()
			in.carry(n, f, quantity.VolumeFlow, func(of fed) (float64, error) {
				flow, err := calc.InjectorFlow(of.power, of.consumption, of.count, duty)
				return flow / m.Journal.Fuel.Density, err
			})
			n.Words = in.words(m, f, words)
		}
		m.add(n)
	}
}

// mostDuty returns the share of the time for which injectors may be open: the limit's, else the usual one.
func (m *Moment) mostDuty() (float64, string) {
	duty, whose := UsualDuty, ", as is usual"
	v := &model.Value{Path: "injector.duty.now", Quantity: quantity.Quantity{Kind: quantity.Figure, Unit: quantity.UnitShown("%")}}
	if m.Journal.Judge(v, m.Entry); v.Limit != nil && v.Limit.High.Is && v.Limit.High.SI > 0 && v.Limit.High.SI <= 1 {
		duty, whose = v.Limit.High.SI, ", the limit there"
	}
	return duty, "open for " + quantity.Show(duty, quantity.UnitShown("%"), 0.01).String() + " of the time" + whose
}

// injectorDuty works out for which share of the time the injectors are open at the power.
func injectorDuty(m *Moment) {
	flow := m.value("engine.injector.flow")
	for _, f := range m.feeds() {
		in := m.injection(f)
		if in == nil {
			continue
		}
		n := &Number{Path: "injector.duty." + f.when, Title: "injector duty, " + f.when, Formula: "D = P · b / (n · V̇ · ρ)", Inputs: in.inputs, Reason: in.reason, Unit: quantity.UnitShown("%"), step: 0.001}
		n.Estimate.Dimension = quantity.Pure
		if flow == nil && n.Reason == "" {
			n.Reason = m.lacks([]string{"engine.injector.flow"})
		}
		isMass := flow != nil && flow.Estimate.Dimension == quantity.MassFlow
		if !isMass && n.Reason == "" {
			n.Reason = in.unknown
		}
		if n.Reason == "" {
			symbol, density := "V̇", 1.0
			if isMass {
				n.Formula, symbol = "D = P · b / (n · ṁ)", "ṁ"
			} else {
				density = m.Journal.Fuel.Density
			}
			n.Inputs = append(n.Inputs[:len(n.Inputs):len(n.Inputs)], Input{Symbol: symbol, Value: flow})
			in.carry(n, f, quantity.Pure, func(of fed) (float64, error) {
				return calc.InjectorDuty(of.power, of.consumption, of.count, of.rest[0]*density)
			})
			n.Words = in.words(m, f, "at peak power")
		}
		m.add(n)
	}
}
