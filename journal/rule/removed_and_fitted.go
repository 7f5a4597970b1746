package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// removedAndFitted reports parts that one entry takes out and puts in: they count as put back, and not as renewed.
func removedAndFitted(c *Context) {
	type move struct {
		entry *model.Entry
		part  *model.Part
	}
	out := map[move]model.Change{}
	for _, change := range c.Journal.Changes {
		at := move{change.Entry, change.Ref.Part}
		removed, is := out[at]
		switch {
		case change.Kind == model.Removes:
			out[at] = change
		case change.Kind == model.Fits && is:
			c.putBack(removed, change)
		}
	}
}

// putBack reports a part that is taken out and put in: a warning where the entry has bought it, and so must mean a new one.
func (c *Context) putBack(removed, fitted model.Change) {
	part := fitted.Ref.Part
	f := source.Finding{Severity: source.Note, At: fitted.Ref.At, Subject: part.Name, Entry: fitted.Entry.Path,
		Message: fmt.Sprintf("`%s` comes out and goes in again in one entry: it counts as the same one, put back", part.Name),
		Do:      "for a new one leave it out of `removed`: fitting it takes the old one out; accept this where it is the same one",
		Notes:   []source.Remark{{At: removed.Ref.At, Message: "taken out here"}}}
	if part.Lasts() { // else that would be `fitted-again`
		f.Do = "for a new one list it under `bought`, and leave it out of `removed`: fitting it takes the old one out; accept this where it is the same one"
	}
	if part.Bought == fitted.Entry {
		f.Severity = source.Warning
		f.Message = fmt.Sprintf("`%s` is bought, comes out and goes in in one entry: it counts as the old one, put back", part.Name)
		f.Do = "leave it out of `removed`: fitting the new one takes the old one out"
	}
	c.report(f, c.Journal.OrderOf(fitted))
}
