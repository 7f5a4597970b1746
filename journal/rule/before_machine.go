package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// beforeMachine reports entries dated before the year in which the machine was made.
func beforeMachine(c *Context) {
	if c.isMachineLater() {
		return
	}
	for _, e := range c.Journal.Entries {
		if !c.isBeforeMachine(e) {
			continue
		}
		c.report(source.Finding{Severity: source.Warning, At: dateAt(e), Subject: "date", Entry: e.Path,
			Message: fmt.Sprintf("the entry is of %d; the machine is of %d", e.Date.Year, c.Journal.Year), Do: "mend the date, or the machine's `year`"}, c.Journal.EndOf(e))
	}
}

// isMachineLater tells of a machine that is of a later year than all entries, of which there are several: then it is its year that is mistyped. It is false for another.
func (c *Context) isMachineLater() bool {
	var dated []*model.Entry
	for _, e := range c.Journal.Entries {
		if e.Plan || e.Date.IsZero() {
			continue
		}
		if !c.isBeforeMachine(e) {
			return false
		}
		dated = append(dated, e)
	}
	year := c.Journal.Build.Fields.Table("machine").Get("year")
	if len(dated) < 2 || year == nil {
		return false
	}
	c.report(source.Finding{Severity: source.Warning, At: year.At, Subject: "year",
		Message: fmt.Sprintf("the machine is of %d, and all %d entries are older: they are of %s", c.Journal.Year, len(dated), years(dated)), Do: "mend the machine's `year`, or the dates"}, -1)
	return true
}

func (c *Context) isBeforeMachine(e *model.Entry) bool {
	return !e.Plan && c.Journal.Year != 0 && !e.Date.IsZero() && e.Date.Year < c.Journal.Year
}
