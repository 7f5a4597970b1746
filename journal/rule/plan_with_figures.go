package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// planWithFigures reports entries without a date that hold readings: a plan has none, so the date is probably missing.
func planWithFigures(c *Context) {
	for _, e := range c.Journal.Entries {
		if !e.Plan {
			continue
		}
		for _, v := range e.Values {
			if v.Quantity.Unit == nil || v.Origin != model.Found && v.Origin != model.Set {
				continue
			}
			r := reportAbout(v, source.Warning, fmt.Sprintf("`%s` is read in an entry without a date, which is a plan: it gets no verdict and counts for nothing", v.Path), "give the entry its date, or take the figure out")
			c.report(r.Finding, -1) // a plan has no moment: any entry may accept it
			break
		}
	}
}
