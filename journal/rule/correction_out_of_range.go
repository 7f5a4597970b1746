package rule

import (
	"fmt"
	"slices"

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
				Message: fmt.Sprintf("%s is not meant for this air: %s", standard, outsideWords(outside.What, outside.Is, outside.Low, outside.High)),
				Do:      "pull on a day that is nearer to the reference, and compare with care until then; see that the pressure is the place's own",
			}, p.Order)
		}
	}
}

func outsideWords(what string, is, low, high float64) string {
	unit, step := quantity.One(), 0.001
	switch what {
	case "temperature":
		unit, step = quantity.UnitShown("°C"), 0.1
		is, low, high = is+0.15, low+0.15, high+0.15 // the standards' 298 is 25 °C
	case "pressure":
		unit, step = quantity.UnitShown("kPa abs"), 10
	}
	return fmt.Sprintf("the %s is %s, and it holds from %s", what, quantity.Show(is, unit, step), quantity.Between(quantity.Show(low, unit, step*10), quantity.Show(high, unit, step*10)))
}
