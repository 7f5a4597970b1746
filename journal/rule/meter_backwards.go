package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// meterBackwards reports meters that show less than an entry before did, where nobody says that the meter was changed; and what the old one is said to have
// shown where that can't be: less than it did, or far more.
func meterBackwards(c *Context) {
	longest := longestStep(c.Journal)
	var last *quantity.Quantity
	for _, e := range c.Journal.Entries {
		if c.isFarOff(e) {
			continue
		}
		if shown := metered(e); shown != nil && last != nil {
			c.meterAfter(e, shown, last, longest)
		}
		if !e.Plan && e.Meter != nil {
			last = e.Meter
		}
	}
}

// metered returns what an entry says that the meter showed, nil for nothing; one that leaps has a finding of its own.
func metered(e *model.Entry) *quantity.Quantity {
	switch {
	case e.Plan || e.Meter == nil && e.LeapFrom != nil:
		return nil
	case e.Meter == nil:
		return e.MeterDoubted
	}
	return e.Meter
}

// meterAfter reports what an entry says of the meter, where it doesn't follow on what the entry before said.
func (c *Context) meterAfter(e *model.Entry, shown, last *quantity.Quantity, longest float64) {
	key, until, do := "meter", shown, "mend the figure or the date; where the meter was changed, say what the old one showed: `meter-was`"
	if e.MeterWas != nil {
		key, until, do = "meter-was", e.MeterWas, "mend the figure: what the old meter showed last, when it was changed"
	}
	message := ""
	switch step := until.SI() - last.SI(); {
	case quantity.Compare(until.SI(), last.SI(), 0) < 0 && e.MeterWas != nil:
		message = fmt.Sprintf("the old meter showed %s, less than the %s of the entry before", until.Shown(), last.Shown())
	case quantity.Compare(until.SI(), last.SI(), 0) < 0:
		message = fmt.Sprintf("the meter shows %s, less than the %s of the entry before", until.Shown(), last.Shown())
	case e.MeterWas != nil && longest > 0 && step > farSteps*longest && step > farShare*last.SI():
		message = fmt.Sprintf("the old meter showed %s, far more than the %s of the entry before: no other step between entries is a tenth as long", until.Shown(), last.Shown())
	default:
		return
	}
	c.report(source.Finding{Severity: source.Warning, At: e.Fields.Value(key).At, Subject: key, Entry: e.Path, Message: message, Do: do}, c.Journal.EndOf(e))
}

// A meter is not believed to have run more than ten times the longest step between two other entries, and more than a tenth of all that it showed, unseen:
// common practice, no source.
const (
	farSteps = 10
	farShare = 0.1
)

// longestStep returns how far, in SI, the meter ran at most from one entry to the next, where it was not changed.
func longestStep(j *model.Journal) float64 {
	longest := 0.0
	var last *quantity.Quantity
	for _, e := range j.Entries {
		if e.Plan || e.Meter == nil {
			continue
		}
		if last != nil && e.MeterWas == nil {
			longest = max(longest, e.Meter.SI()-last.SI())
		}
		last = e.Meter
	}
	return longest
}
