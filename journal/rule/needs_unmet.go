package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// needsUnmet reports parts that are in and need what nothing fitted gives.
func needsUnmet(c *Context) {
	if c.Journal.IsWithheld("parts") || c.Journal.IsFitUnclear() || c.givesUnclear() || len(c.Journal.Entries) == 0 {
		return
	}
	for _, part := range c.Journal.Fitted {
		for _, need := range part.Fields.Names("needs") {
			if c.isGiven(need.Name) {
				continue
			}
			f := source.Finding{Severity: source.Warning, At: part.NameAt, Subject: part.Name, Origin: need.Name,
				Message: fmt.Sprintf("`%s` needs `%s`, which nothing fitted gives", part.Name, need.Typed), Do: "fit a part that gives it, or give it to one that is in: `gives`"}
			if givers := c.givers(need.Name); len(givers) > 0 {
				f.Do = "fit one that gives it: " + orWords(givers)
			}
			order, stay := -1, part.Stays[len(part.Stays)-1]
			if stay.From != nil {
				f.At, f.Entry, order = c.whereFitted(part, stay.From), stay.From.Path, c.Journal.EndOf(stay.From)
			}
			if out, giver := c.lastGiverOut(need.Name, stay.From); out != nil {
				if stay.From != nil {
					f.Notes = append(f.Notes, source.Remark{At: f.At, Message: "in since here"})
				}
				f.At, f.Entry, order = out.Ref.At, out.Entry.Path, c.Journal.EndOf(out.Entry)
				f.Message = fmt.Sprintf("`%s` needs `%s`, which nothing fitted gives since `%s` came out", part.Name, need.Typed, giver.Name)
			}
			f.Notes = append(f.Notes, source.Remark{At: need.At, Message: "needed here"})
			c.report(f, order)
		}
	}
}

// lastGiverOut returns what took out the last part that gave a need, and that part, where it was in an entry after the one from which on the need stands; nil for none.
func (c *Context) lastGiverOut(need string, since *model.Entry) (out *model.Change, giver *model.Part) {
	for i := range c.Journal.Changes {
		change := &c.Journal.Changes[i]
		if since != nil && change.Entry.Index <= since.Index {
			continue
		}
		switch removes := change.Kind == model.Removes || change.Kind == model.RemovesUnlisted; {
		case removes && change.Ref.Part.Gives(need):
			out, giver = change, change.Ref.Part
		case change.Displaced != nil && change.Displaced.Gives(need):
			out, giver = change, change.Displaced
		}
	}
	return out, giver
}

// givesUnclear reports whether a part's list of what it gives can't be read.
func (c *Context) givesUnclear() bool {
	return slices.ContainsFunc(c.Journal.Parts, func(p *model.Part) bool { return p.Fields.IsBad("gives") })
}

// isGiven reports whether a fitted part is of that name or gives it.
func (c *Context) isGiven(name string) bool {
	for _, part := range c.Journal.Fitted {
		if part.Gives(name) {
			return true
		}
	}
	return false
}

// givers returns the names of the parts that are of that name or give it.
func (c *Context) givers(name string) []string {
	var names []string
	for _, part := range c.Journal.Parts {
		if part.Gives(name) {
			names = append(names, part.Name)
		}
	}
	return names
}
