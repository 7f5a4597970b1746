package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// slotTwice reports two parts that one entry fits into one slot, or means to.
func slotTwice(c *Context) {
	for _, change := range c.Journal.Changes {
		if change.Other == nil || change.Other == change.Ref.Part {
			continue
		}
		c.report(source.Finding{Severity: source.Error, At: change.Ref.At, Subject: change.Ref.Part.Name, Origin: change.Other.Name, Entry: change.Entry.Path,
			Message: fmt.Sprintf("`%s` and `%s` go into one slot, `%s`, in one entry", change.Other.Name, change.Ref.Part.Name, change.Ref.Part.Slot),
			Do:      "a slot holds one part: leave out the one that did not stay in"}, c.Journal.OrderOf(change))
	}
	for _, e := range c.Journal.Entries {
		if e.Plan {
			c.plannedTwice(e)
		}
	}
}

// plannedTwice reports the parts of a plan that would go where another of its parts does.
func (c *Context) plannedTwice(e *model.Entry) {
	first := map[string]*model.Part{}
	for _, ref := range e.Fitted {
		if ref.Part == nil || ref.Part.Slot == "" {
			continue
		}
		other := first[ref.Part.Slot]
		if other == nil || other == ref.Part {
			first[ref.Part.Slot] = ref.Part
			continue
		}
		c.report(source.Finding{Severity: source.Warning, At: ref.At, Subject: ref.Part.Name, Origin: other.Name, Entry: e.Path,
			Message: fmt.Sprintf("`%s` and `%s` would go into one slot, `%s`, by one plan", other.Name, ref.Part.Name, ref.Part.Slot), Do: "a slot holds one part: leave one of the two out"}, -1)
	}
}
