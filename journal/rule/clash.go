package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// clash reports parts that were fitted together, or would be by a plan, though one of them says that they can't be.
func clash(c *Context) {
	if c.Journal.IsFitUnclear() {
		return
	}
	clashers := map[string][]*model.Part{} // the parts that name each part as clashing
	for _, part := range c.Journal.Parts {
		for _, name := range part.Fields.Names("clashes") {
			clashers[name.Name] = append(clashers[name.Name], part)
		}
	}
	seen := map[[2]*model.Part]bool{}
	for i, e := range c.Journal.Entries {
		fresh := c.fittedBy(e)
		if i == 0 && !e.Plan {
			fresh = e.FittedThen
		}
		for _, a := range fresh {
			others := slices.Clone(clashers[a.Name])
			for _, name := range a.Fields.Names("clashes") {
				others = append(others, c.Journal.Part(name.Name))
			}
			for _, b := range others {
				if b == nil || b == a || seen[[2]*model.Part{a, b}] || seen[[2]*model.Part{b, a}] || !slices.Contains(e.FittedThen, a) || !slices.Contains(e.FittedThen, b) {
					continue
				}
				seen[[2]*model.Part{a, b}] = true
				if slices.Index(e.FittedThen, a) > slices.Index(e.FittedThen, b) {
					c.clashed(a, b, e)
				} else {
					c.clashed(b, a, e)
				}
			}
		}
	}
}

// fittedBy returns the parts that an entry fits.
func (c *Context) fittedBy(e *model.Entry) []*model.Part {
	var parts []*model.Part
	for _, ref := range e.Fitted {
		if ref.Part != nil {
			parts = append(parts, ref.Part)
		}
	}
	return parts
}

// clashed reports two parts that are in together as an entry ends, a the one fitted later. Once one of them is out the finding is settled.
func (c *Context) clashed(a, b *model.Part, e *model.Entry) {
	f := source.Finding{Severity: source.Error, At: c.whereFitted(a, e), Subject: a.Name, Origin: b.Name, Entry: e.Path,
		Message: fmt.Sprintf("`%s` can't be fitted with `%s`, which is in", a.Name, b.Name), Do: "take one of the two out",
		Notes: []source.Remark{{At: clashing(a, b), Message: "said here"}}}
	switch {
	case e.Plan:
		f.Severity, f.At = source.Warning, planned(e, a, b)
		f.Message = fmt.Sprintf("`%s` can't be fitted with `%s`, and this plan would have both in", a.Name, b.Name)
		f.Do = "leave one of the two out, or plan to take it out"
	case !a.IsFitted() || !b.IsFitted():
		f.State = source.Settled
	}
	c.report(f, c.Journal.EndOf(e))
}

// planned returns where a plan fits one of two parts.
func planned(e *model.Entry, a, b *model.Part) source.Range {
	for _, ref := range slices.Backward(e.Fitted) {
		if ref.Part == a || ref.Part == b {
			return ref.At
		}
	}
	return e.Fence
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
