package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// beforeMachine reports entries dated before the year in which the machine was made.
func beforeMachine(c *Context) {
	for _, e := range c.Journal.Entries {
		if e.Plan || c.Journal.Year == 0 || e.Date.IsZero() || e.Date.Year >= c.Journal.Year {
			continue
		}
		at := e.Date.At
		if at.IsZero() {
			at = e.Fence
		}
		c.report(source.Finding{Severity: source.Warning, At: at, Subject: "date", Entry: e.Path,
			Message: fmt.Sprintf("the entry is of %d; the machine is of %d", e.Date.Year, c.Journal.Year), Do: "mend the date, or the machine's `year`"}, c.Journal.EndOf(e))
	}
}
