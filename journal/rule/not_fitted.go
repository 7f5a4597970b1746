package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// notFitted reports parts taken out that were not in, and parts that were bought and went in nowhere while the pulls show a gain.
func notFitted(c *Context) {
	c.boughtAndGained()
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

// boughtAndGained notes parts that were bought between the pulls of a step of the build and never fitted, where the step shows a gain and nothing was changed in it.
func (c *Context) boughtAndGained() {
	for _, n := range c.Numbers {
		s := n.Stage
		if s == nil || n.Reason != "" || len(s.In)+len(s.Out) > 0 || !derive.IsShown(n.Estimate) || restsOn(n, c.isSuspect) || c.Journal.IsFitUnclear() {
			continue
		}
		between := c.Journal.Entries[s.From.Entry.Index : s.To.Entry.Index+1]
		if slices.ContainsFunc(between, func(e *model.Entry) bool {
			return slices.ContainsFunc(e.Fitted, func(ref model.Ref) bool { return ref.Part == nil })
		}) {
			continue // a name that leads nowhere may be its
		}
		for _, e := range between {
			for _, ref := range e.Bought {
				if ref.Part == nil || len(ref.Part.Stays) > 0 || e.Plan || e == s.From.Entry && s.From.Entry != s.To.Entry {
					continue
				}
				c.report(source.Finding{Severity: source.Note, At: ref.At, Subject: ref.Part.Name, Origin: "bought", Entry: e.Path,
					Message: fmt.Sprintf("`%s` was bought here and is fitted nowhere, and the pulls after it show %s with nothing changed", ref.Part.Name, n.Shown()),
					Do:      "write it under `fitted` in the entry that put it in; accept this where it lies on the shelf",
					Notes:   []source.Remark{{At: s.To.At, Message: "the pulls after"}}}, s.To.Order)
			}
		}
	}
}
