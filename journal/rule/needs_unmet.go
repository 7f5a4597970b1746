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
			at, entry, order := part.NameAt, "", -1
			if stay := part.Stays[len(part.Stays)-1]; stay.From != nil {
				at, entry, order = c.whereFitted(part, stay.From), stay.From.Path, c.Journal.EndOf(stay.From)
			}
			do := "fit a part that gives it, or give it to one that is in: `gives`"
			if givers := c.givers(need.Name); len(givers) > 0 {
				do = "fit one that gives it: " + orWords(givers)
			}
			c.report(source.Finding{Severity: source.Warning, At: at, Subject: part.Name, Origin: need.Name, Entry: entry,
				Message: fmt.Sprintf("`%s` needs `%s`, which nothing fitted gives", part.Name, need.Typed), Do: do,
				Notes: []source.Remark{{At: need.At, Message: "needed here"}}}, order)
		}
	}
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
