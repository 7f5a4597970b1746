package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// slotTwice reports two parts that one entry fits into one slot.
func slotTwice(c *Context) {
	for _, change := range c.Journal.Changes {
		if change.Other == nil || change.Other == change.Ref.Part {
			continue
		}
		c.report(source.Finding{Severity: source.Error, At: change.Ref.At, Subject: change.Ref.Part.Name, Origin: change.Other.Name, Entry: change.Entry.Path,
			Message: fmt.Sprintf("`%s` and `%s` go into one slot, `%s`, in one entry", change.Other.Name, change.Ref.Part.Name, change.Ref.Part.Slot),
			Do:      "a slot holds one part: leave out the one that did not stay in"}, c.Journal.OrderOf(change))
	}
}
