package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// beforeMachine reports entries dated before the year in which the machine was made.
func beforeMachine(c *Context) {
	for _, e := range c.Journal.Entries {
		if !c.isBeforeMachine(e) {
			continue
		}
		c.report(source.Finding{Severity: source.Warning, At: dateAt(e), Subject: "date", Entry: e.Path,
			Message: fmt.Sprintf("the entry is of %d; the machine is of %d", e.Date.Year, c.Journal.Year), Do: "mend the date, or the machine's `year`"}, c.Journal.EndOf(e))
	}
}

func (c *Context) isBeforeMachine(e *model.Entry) bool {
	return !e.Plan && c.Journal.Year != 0 && !e.Date.IsZero() && e.Date.Year < c.Journal.Year
}
