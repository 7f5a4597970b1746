package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What a goal of power or torque is held to. All of it is common practice, no source.
const (
	mostMeanPressure = 4e6   // Pa, of the effective mean pressure: above it there is only what is boosted for minutes
	mostRevs         = 20000 // rpm, where no redline is given
	farGoal          = 4     // times the best that was measured
)

// meanPressures are what engines without great boost reach, and highGoals what a builder may want over the best that was measured: what another reading of a goal's digits must be.
var (
	meanPressures = quantity.Span{Low: 0.3e6, High: 2.5e6} // Pa
	highGoals     = quantity.Span{Low: 0.7, High: 2.5}
)

// oddGoals finds goals of power and torque that no engine of this size makes, or that are many times what was measured and would fit with the point elsewhere.
func (c *Context) oddGoals() []*cause {
	var found []*cause
	for _, g := range c.Journal.Goals {
		if g.Path != "power.peak" && g.Path != "power.torque" || g.Quantity.Unit == nil || g.Quantity.IsOpenEnded() {
			continue
		}
		message, fits := c.beyondMeanPressure(g)
		if message == "" {
			message, fits = c.farBeyond(g)
		}
		if message == "" {
			continue
		}
		do := "look at its digits and its unit again"
		if meant, ok := quantity.TheOne(g.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces|quantity.ThreePlaces), fits); ok {
			do += fmt.Sprintf(": %s would fit", meant.Shown())
		}
		found = append(found, &cause{report: report{source.Finding{Severity: source.Note, At: g.At, Subject: g.Path, Message: message, Do: do}, -1}})
	}
	return found
}

// beyondMeanPressure says that the goal takes a mean pressure that no engine has, and tells whether another figure wouldn't; empty where it doesn't, or where size or figures are not known.
func (c *Context) beyondMeanPressure(g model.Goal) (message string, fits func(quantity.Quantity) bool) {
	size := c.soundNumberAt("engine.displacement")
	if size == nil || restsOn(size, c.isDoubted) || !(size.Estimate.Value > 0) {
		return "", nil
	}
	turns := 1.0 // to a working stroke
	if c.Journal.Build.Fields.Table("engine").Text("cycle").Text == "four-stroke" {
		turns = 2
	}
	revs := quantity.UnitShown("rpm").SI(mostRevs)
	if v := c.figureNow("engine.redline"); v != nil && v.Estimate.Value >= quantity.UnitShown("rpm").SI(redlines.Low) && !c.isDoubted(v) {
		revs = v.Estimate.Value
	}
	pressure := func(q quantity.Quantity) float64 {
		torque := q.SI()
		if g.Path == "power.peak" {
			torque /= revs
		}
		return torque * 2 * math.Pi * turns / size.Estimate.Value // the work of a cycle over the swept volume
	}
	if !(pressure(g.Quantity) > mostMeanPressure) {
		return "", nil
	}
	kPa := quantity.UnitOf("kPa", quantity.Pressure)
	return fmt.Sprintf("the goal `%s` is %s: of %s that takes an effective mean pressure of %s, and few engines have more than %s", g.Path, g.Quantity.Shown(), size.Shown(),
			quantity.Show(pressure(g.Quantity), kPa, 1e5), quantity.Show(mostMeanPressure, kPa, 1e5)),
		func(q quantity.Quantity) bool { return meanPressures.Holds(pressure(q)) }
}

// farBeyond says that the goal is many times what was ever measured, where another reading of its digits is not; empty else.
func (c *Context) farBeyond(g model.Goal) (message string, fits func(quantity.Quantity) bool) {
	var best *model.Value
	for _, v := range c.Journal.History(g.Path) {
		if v.Counts && v.Quantity.Unit != nil && v.Quantity.Unit.ConvertsTo(g.Quantity.Unit) && v.Origin != model.FromSheet && !c.isDoubted(v) && (best == nil || v.Estimate.Value > best.Estimate.Value) {
			best = v
		}
	}
	if best == nil || !(best.Estimate.Value > 0) || g.Quantity.SI() < farGoal*best.Estimate.Value {
		return "", nil
	}
	fits = func(q quantity.Quantity) bool { return highGoals.Holds(q.SI() / best.Estimate.Value) }
	if _, ok := quantity.TheOne(g.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces|quantity.ThreePlaces), fits); !ok {
		return "", nil
	}
	return fmt.Sprintf("the goal `%s` is %s, and the most that was measured is %s", g.Path, g.Quantity.Shown(), best.Quantity.Shown()), fits
}

// fewTemperatures is how many other entries it takes to tell which thermometer the builder reads; apartFrom is by how much, in K, one must stand apart from them, and nearTo how near them the same digits on their scale must be. Common practice, no source.
const (
	fewTemperatures = 3
	apartFrom       = 10
	nearTo          = 15
)

// oddTemperatures finds engine temperatures on another scale than all others, that stand apart from those and would be among them on their scale: 22 °F among 12 to 15 °C.
func (c *Context) oddTemperatures() []*cause {
	scales := map[*quantity.Unit][]*model.Entry{}
	for _, e := range c.Journal.Entries {
		if !e.Plan && e.EngineTemp != nil && e.EngineTemp.Unit != nil && !e.EngineTemp.IsOpenEnded() {
			scales[e.EngineTemp.Unit] = append(scales[e.EngineTemp.Unit], e)
		}
	}
	if len(scales) != 2 {
		return nil
	}
	var odd, others []*model.Entry
	for _, entries := range scales {
		if len(entries) == 1 && odd == nil {
			odd = entries
		} else {
			others = entries
		}
	}
	if odd == nil || len(others) < fewTemperatures {
		return nil
	}
	low, high := math.Inf(1), math.Inf(-1)
	unit, step := others[0].EngineTemp.Unit, others[0].EngineTemp.StepSI()
	for _, e := range others {
		low, high = min(low, e.EngineTemp.SI()), max(high, e.EngineTemp.SI())
	}
	e := odd[0]
	is := *e.EngineTemp
	meant, ok := quantity.TheOne(is.OtherReadings(quantity.AnotherScale), func(q quantity.Quantity) bool { return q.Unit == unit && q.SI() > low-nearTo && q.SI() < high+nearTo })
	if !ok || is.SI() >= low-apartFrom && is.SI() <= high+apartFrom {
		return nil
	}
	v := e.Fields.Value("engine-temp")
	return []*cause{{report: report{source.Finding{Severity: source.Warning, At: v.At, Subject: e.Path, Entry: e.Path,
		Message: fmt.Sprintf("the engine was at %s, which is %s, and in the %d other entries that say so at %s to %s", is.Shown(), is.ShownIn(unit), len(others), quantity.Show(low, unit, step), quantity.Show(high, unit, step)),
		Do:      fmt.Sprintf("%s? if so write `%s`; if not, accept it", meant.Why, meant.Shown()),
		Fixes:   []source.Fix{source.Replace(fmt.Sprintf("write `%s`", meant.Shown()), v.Span(0, len(v.Text)), meant.Shown().String())}}, c.Journal.EndOf(e)}}}
}
