package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// correctionOutOfRange reports sessions in an air in which the standard that their figures carry, or are put to, doesn't hold.
func correctionOutOfRange(c *Context) {
	for _, e := range c.Journal.Entries {
		var told []float64 // of an air that pulls of the entry share
		for _, p := range e.Pulls {
			s := c.Sums.Session(p)
			if s == nil {
				continue
			}
			outside, standard, is := s.Outside()
			if !is || slices.Contains(told, outside.Is) {
				continue
			}
			told = append(told, outside.Is)
			c.report(source.Finding{
				Severity: source.Warning, At: p.At, Subject: derive.CorrectionPath(s), Entry: e.Path,
				Message: fmt.Sprintf("%s is not meant for this air: %s", standard, outsideWords(outside)),
				Do:      "pull on a day that is nearer to the reference, and compare with care until then; see that the pressure is the place's own",
			}, p.Order)
		}
	}
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
