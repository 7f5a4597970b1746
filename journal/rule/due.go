package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/upkeep"
)

// due reports what an interval has made due.
func due(c *Context) { c.upkeepIn(upkeep.Due, source.Note) }

// overdue reports what is due by more than a tenth of its interval.
func overdue(c *Context) { c.upkeepIn(upkeep.Overdue, source.Warning) }

func (c *Context) upkeepIn(state upkeep.State, severity source.Severity) {
	for i := range c.Upkeep {
		if item := &c.Upkeep[i]; item.State == state && item.Kind != upkeep.Later && !c.isDayDoubted(item) {
			c.report(source.Finding{Severity: severity, At: item.At, Subject: upkeepSubject(item), Message: upkeepWords(item), Do: upkeepAdvice(item), Notes: sinceRemark(item)}, -1)
		}
	}
}

// recheckDue reports work that an entry wanted to come back to, once its time is up.
func recheckDue(c *Context) {
	for i := range c.Upkeep {
		if item := &c.Upkeep[i]; item.Kind == upkeep.Later && item.State >= upkeep.Due && !c.isDayDoubted(item) && !c.isMisnamed(item) {
			c.report(source.Finding{Severity: source.Warning, At: item.At, Subject: upkeepSubject(item), Entry: item.Entry.Path, Message: upkeepWords(item), Do: upkeepAdvice(item)}, c.Journal.EndOf(item.Entry))
		}
	}
}

// isDayDoubted reports whether an item is up by the calendar as of a day that can't be.
func (c *Context) isDayDoubted(item *upkeep.Item) bool {
	return slices.ContainsFunc(item.Spans, func(s upkeep.Span) bool { return s.Reason == "" && s.Left() <= 0 && !s.On.IsZero() }) && c.isTodayFarOff()
}

// isMisnamed reports whether what an item wants to be read is a path that is told to be mistyped: by the right one it may have been read.
func (c *Context) isMisnamed(item *upkeep.Item) bool {
	return slices.ContainsFunc(strings.Split(item.Path, ", "), c.paths().isWrong)
}

func upkeepSubject(item *upkeep.Item) string {
	switch item.Kind {
	case upkeep.Renewal:
		return item.Part.Name
	case upkeep.Calibration:
		return item.Tool.Name
	case upkeep.Later:
		if item.Path == "" {
			return "later"
		}
	}
	return item.Path
}

// upkeepWords says what is due, and what has made it so.
func upkeepWords(item *upkeep.Item) string {
	var up []string
	for _, s := range item.Spans {
		if s.Reason == "" && s.Left() <= 0 {
			up = append(up, spanUp(s))
		}
	}
	because := strings.Join(up, ", ")
	switch item.Kind {
	case upkeep.Reading:
		if item.Never {
			return fmt.Sprintf("`%s` was never read, and is %s: from the first entry %s", item.Path, item.State, because)
		}
		return fmt.Sprintf("`%s` is %s to be read again: %s", item.Path, item.State, because)
	case upkeep.Renewal:
		return fmt.Sprintf("the part `%s` is %s to be renewed: %s", item.Part.Name, item.State, because)
	case upkeep.Calibration:
		if item.Never {
			return fmt.Sprintf("the tool `%s` has no calibration on record, and one is %s: from the first entry %s", item.Tool.Name, item.State, because)
		}
		return fmt.Sprintf("the tool `%s` is %s to be calibrated: %s", item.Tool.Name, item.State, because)
	}
	return fmt.Sprintf("`%s` is %s: %s", item.Title, item.State, because)
}

// spanUp says since when an interval is up.
func spanUp(s upkeep.Span) string {
	switch {
	case s.Every.Unit == nil:
		return fmt.Sprintf("its day was %s", s.On)
	case !s.On.IsZero():
		return fmt.Sprintf("%s were up on %s", s.Every.Shown(), s.On)
	}
	over := quantity.Show(-s.Left(), s.Meter.Unit, s.Meter.StepSI())
	return fmt.Sprintf("%s were up at %s, %s ago", s.Every.Shown(), s.Meter.Shown(), over)
}

func upkeepAdvice(item *upkeep.Item) string {
	switch item.Kind {
	case upkeep.Renewal:
		return "renew it, and list it under `fitted` again"
	case upkeep.Calibration:
		return "have it calibrated, and add the day to `calibrated`"
	case upkeep.Later:
		if item.Path == "" {
			return "do it; name the `reading` that shows it is done, or nothing can close it but an accept"
		}
	}
	return "read it and write it down"
}

// sinceRemark points at the reading, or the entry, from which an interval counts.
func sinceRemark(item *upkeep.Item) []source.Remark {
	if item.Never || item.Since == nil {
		return nil
	}
	return []source.Remark{{At: item.Since.Fence, Message: "last done here"}}
}
