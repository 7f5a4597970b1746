package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// clash reports parts that were fitted together though one of them says that they can't be.
func clash(c *Context) {
	if c.Journal.IsFitUnclear() {
		return
	}
	reported := map[[2]*model.Part]bool{}
	for _, e := range c.Journal.Entries {
		if e.Plan {
			continue
		}
		for i, a := range e.FittedThen {
			for _, b := range e.FittedThen[:i] {
				name := clashing(a, b)
				if name.IsZero() || reported[[2]*model.Part{a, b}] {
					continue
				}
				reported[[2]*model.Part{a, b}] = true
				f := source.Finding{Severity: source.Error, At: c.whereFitted(a, e), Subject: a.Name, Origin: b.Name, Entry: e.Path,
					Message: fmt.Sprintf("`%s` can't be fitted with `%s`, which is in", a.Name, b.Name), Do: "take one of the two out",
					Notes: []source.Remark{{At: name, Message: "said here"}}}
				if !a.IsFitted() || !b.IsFitted() {
					f.State = source.Settled
				}
				c.report(f, c.Journal.EndOf(e))
			}
		}
	}
}

// clashing returns where one of two parts says that it clashes with the other.
func clashing(a, b *model.Part) source.Range {
	for _, pair := range [][2]*model.Part{{a, b}, {b, a}} {
		for _, name := range pair[0].Fields.Names("clashes") {
			if name.Name == pair[1].Name {
				return name.At
			}
		}
	}
	return source.Range{}
}

// whereFitted returns the place that fitted a part, at an entry or before; the part's own name where none did.
func (c *Context) whereFitted(part *model.Part, until *model.Entry) source.Range {
	at := part.NameAt
	for _, change := range c.Journal.Changes {
		if change.Ref.Part == part && (change.Kind == model.Fits || change.Kind == model.Renews) && change.Entry.Index <= until.Index {
			at = change.Ref.At
		}
	}
	return at
}
