package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// meterLeap reports meters that went further than a machine runs in the days between two entries. What was leapt counts for nothing: see [model.Entry.LeapFrom].
func meterLeap(c *Context) {
	for _, e := range c.Journal.Entries {
		if e.LeapFrom == nil {
			continue
		}
		shown, beside := e.MeterDoubted, e.LeapFrom.Meter
		if shown == nil {
			shown = e.Meter
		}
		if beside == nil {
			beside = e.LeapFrom.MeterDoubted
		}
		what := "more"
		if shown.SI() < beside.SI() {
			what = "less"
		}
		leapt := *shown
		leapt.Value = math.Abs(shown.Value - shown.Unit.FromSI(beside.SI()))
		c.report(source.Finding{Severity: source.Warning, At: e.Fields.Value("meter").At, Subject: "meter", Entry: e.Path,
			Message: fmt.Sprintf("the meter shows %s, %s %s than on %s: no machine runs so far in %s", shown.Shown(), leapt.Shown(), what, e.LeapFrom.Date, days(model.DaysBetween(e.LeapFrom.Date, e.Date))),
			Do:      "mend the figure or the date; where the meter was changed, say what the old one showed: `meter-was`"}, c.Journal.EndOf(e))
	}
}

// days says how many days lie between two entries.
func days(between float64) string {
	if n := math.Abs(between) + 1; n > 1 { // from one morning to the other evening
		return fmt.Sprintf("%.0f days", n)
	}
	return "a day"
}
