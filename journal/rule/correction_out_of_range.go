package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// correctionOutOfRange reports sessions in an air in which the standard that their figures carry, or are put to, doesn't hold, at the figure of the air that does it. An air that is suspect has a finding of its own.
func correctionOutOfRange(c *Context) {
	for _, e := range c.Journal.Entries {
		var told []float64 // of an air that pulls of the entry share
		for _, p := range e.Pulls {
			s := c.Sums.Session(p)
			if s == nil || slices.ContainsFunc(p.Air.Values(), c.isSuspect) {
				continue
			}
			outside, standard, is := s.Outside()
			if !is || slices.Contains(told, outside.Is) {
				continue
			}
			told = append(told, outside.Is)
			f := source.Finding{
				Severity: source.Warning, At: p.At, Subject: derive.CorrectionPath(s), Entry: e.Path,
				Message: fmt.Sprintf("%s is not meant for this air: %s", standard, outsideWords(outside)),
				Do:      "pull on a day that is nearer to the reference, and compare with care until then; see that the pressure is the place's own",
			}
			if v := farthestAir(p.Air, outside); v != nil {
				f.At = v.At()
				if meant, ok := quantity.TheOne(v.Quantity.OtherReadings(quantity.AnotherScale|quantity.OnePlace), func(q quantity.Quantity) bool {
					return v == p.Air.Temp && outside.What == calc.OutsideTemperature && q.SI() >= outside.Low && q.SI() <= outside.High
				}); ok {
					f.Do = fmt.Sprintf("%s? if so write `%s`; if not, %s", meant.Why, meant.Shown(), f.Do)
				}
			}
			c.report(f, p.Order)
		}
	}
}

// What the factor is nearly 1 at: the references of the standards lie about there.
const (
	referenceTemp     = 296.0 // K
	referencePressure = 99e3  // Pa
)

// farthestAir returns the figure of an air that takes it out of a range: by which what lies outside is told, and of a factor the one that does the most of it. Nil where that can't be told.
func farthestAir(a *model.Air, o calc.Outside) *model.Value {
	if a == nil {
		return nil
	}
	pressure, station := a.Pressure, math.NaN()
	switch {
	case pressure != nil:
		station = pressure.Estimate.Value
	case a.SeaLevel != nil && a.Altitude != nil:
		pressure, station = a.Altitude, stationOf(a.SeaLevel.Estimate.Value, a.Altitude.Estimate.Value)
		if !usualSeaLevel.Holds(a.SeaLevel.Quantity.SI()) {
			pressure = a.SeaLevel
		}
	}
	isTemp := o.What == calc.OutsideTemperature
	if o.What == calc.OutsideFactor && a.Temp != nil && pressure != nil {
		isTemp = math.Abs(math.Log(a.Temp.Estimate.Value/referenceTemp))/2 > math.Abs(math.Log(station/referencePressure)) // power goes with the root of the one and with the other
	}
	if isTemp {
		return a.Temp
	}
	return pressure
}

// outsideWords says what lies outside which range, in the units of the trade.
func outsideWords(o calc.Outside) string {
	what, unit, step := "factor", quantity.One(), 0.001
	switch o.What {
	case calc.OutsideTemperature:
		what, unit, step = "temperature", quantity.UnitShown("°C"), 0.1
	case calc.OutsidePressure:
		what, unit, step = "dry pressure", quantity.UnitShown("kPa abs"), 10
	}
	return fmt.Sprintf("the %s is %s, and it holds from %s", what, quantity.Show(o.Is, unit, step), quantity.Between(quantity.Show(o.Low, unit, step*10), quantity.Show(o.High, unit, step*10)))
}
