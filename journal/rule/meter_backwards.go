package rule

import (
	"fmt"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// meterBackwards reports meters that show less than an entry before did, where nobody says that the meter was changed.
func meterBackwards(c *Context) {
	var last *quantity.Quantity
	for _, e := range c.Journal.Entries {
		if e.Plan || e.Meter == nil {
			continue
		}
		if last != nil && e.MeterWas == nil && quantity.Compare(e.Meter.SI(), last.SI(), 0) < 0 {
			c.report(source.Finding{Severity: source.Warning, At: e.Fields.Value("meter").At, Subject: "meter", Entry: e.Path,
				Message: fmt.Sprintf("the meter shows %s, less than the %s of the entry before", e.Meter.Shown(), last.Shown()),
				Do:      "mend the figure or the date; where the meter was changed, say what the old one showed: `meter-was`"}, c.Journal.EndOf(e))
		}
		last = e.Meter
	}
}
