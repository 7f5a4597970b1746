package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// beforeBought reports parts that went in, or came out, before the entry that bought them. One that went in again once it was bought is another of
// its kind.
func beforeBought(c *Context) {
	if c.Journal.IsFitUnclear() {
		return
	}
	done := map[*model.Part]bool{}
	for _, change := range c.Journal.Changes {
		if part := change.Ref.Part; !done[part] && c.isBeforeBought(change) {
			done[part] = true
			what := "goes in"
			if change.Kind == model.RemovesUnlisted {
				what = "comes out"
			}
			c.report(source.Finding{Severity: source.Warning, At: change.Ref.At, Subject: part.Name, Entry: change.Entry.Path,
				Message: fmt.Sprintf("`%s` %s here, before it is bought on %s", part.Name, what, part.Bought.Date),
				Do:      "mend one of the two dates, or list it under `bought` where it came; what the machine came with stands under `fitted` in build.toml",
				Notes:   []source.Remark{{At: boughtAt(part), Message: "bought here"}}}, c.Journal.OrderOf(change))
		}
	}
}

// isBeforeBought reports whether a part that goes in, or comes out though it was never in, is bought only later, and does not go in after that.
func (c *Context) isBeforeBought(change model.Change) bool {
	part := change.Ref.Part
	if change.Kind != model.Fits && change.Kind != model.RemovesUnlisted || part.AsMade || part.Bought == nil || part.Bought.Index <= change.Entry.Index ||
		change.Entry.DateBad || part.Bought.DateBad {
		return false
	}
	for _, stay := range part.Stays {
		if stay.From != nil && stay.From.Index >= part.Bought.Index {
			return false
		}
	}
	return true
}

// boughtAt returns the place that bought a part.
func boughtAt(part *model.Part) source.Range {
	for _, ref := range part.Bought.Bought {
		if ref.Part == part {
			return ref.At
		}
	}
	return part.Bought.Fence
}
