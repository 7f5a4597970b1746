package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

const timingMarks = "timing.marks"

// marksUnread reports entries that had the cam drive apart, and after which nobody wrote down how the timing marks stand. A part that asks for them itself has
// a finding of its own.
func marksUnread(c *Context) {
	if c.Journal.IsFitUnclear() || c.Journal.IsWithheld("entries") {
		return
	}
	last := c.lastApart()
	if last == nil || c.isAskedFor(timingMarks) || c.Journal.IsUnread(timingMarks) || len(c.Journal.History(timingMarks)) == 0 && len(c.Journal.Governing(timingMarks)) == 0 {
		return // who never wrote down any marks has none, or another way
	}
	order := c.Journal.OrderOf(*last)
	if slices.ContainsFunc(c.Journal.History(timingMarks), func(v *model.Value) bool { return v.Counts && v.Order > order }) {
		return
	}
	c.report(source.Finding{Severity: source.Warning, At: last.Ref.At, Subject: timingMarks, Entry: last.Entry.Path,
		Message: fmt.Sprintf("`%s` had the cam drive apart, and nobody has read `%s` since", last.Ref.Name.Name, timingMarks),
		Do:      "turn the engine over twice by hand, look at the marks, and write under `[set]` how they stand"}, order)
}

// lastApart returns the newest change of a part that times the cam; nil if there was none.
func (c *Context) lastApart() *model.Change {
	for i := range slices.Backward(c.Journal.Changes) {
		change := &c.Journal.Changes[i]
		if change.Ref.Part != nil && !change.Entry.Plan && timesCam(change.Ref.Part) {
			return change
		}
	}
	return nil
}

// timesCam reports whether a part's place is between crank and cam: common practice, no source.
func timesCam(part *model.Part) bool {
	words := strings.Split(part.Slot, "-")
	return slices.ContainsFunc(words, func(word string) bool { return strings.HasPrefix(word, "cam") || word == "timing" }) && !slices.Contains(words, "cover")
}

// isAskedFor reports whether a request for a path is open.
func (c *Context) isAskedFor(path string) bool {
	return slices.ContainsFunc(c.Journal.Requests, func(r *model.Request) bool { return parse.IsAtOrBelow(path, r.Path) })
}
