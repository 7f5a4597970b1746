package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// notFitted reports parts taken out that were not in.
func notFitted(c *Context) {
	for _, change := range c.Journal.Changes {
		f := source.Finding{At: change.Ref.At, Subject: change.Ref.Name.Name, Origin: "removed", Entry: change.Entry.Path}
		switch change.Kind {
		case model.RemovesUnlisted:
			if c.isBeforeBought(change) {
				continue // has a finding of its own
			}
			f.Severity = source.Note
			f.Message = fmt.Sprintf("`%s` was never fitted: it counts as having come with the machine", change.Ref.Typed)
			f.Do = "list it under `fitted` in build.toml"
		case model.RemovesAbsent:
			if c.Journal.IsFitUnclear() {
				continue
			}
			f.Severity = source.Error
			f.Message = fmt.Sprintf("`%s` is taken out here but is not in", change.Ref.Typed)
			f.Do = "write it under `fitted` in the entry that put it in, or take it out of this list"
			if slices.ContainsFunc(change.Entry.Fitted, func(ref model.Ref) bool { return ref.Part == change.Ref.Part }) {
				f.Do = "take it out of this list: this entry is the first that puts it in; or write it under `fitted` in the one that put it in before"
			}
		default:
			continue
		}
		c.report(f, c.Journal.OrderOf(change))
	}
}
