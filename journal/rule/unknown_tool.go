package rule

import (
	"example.org/locknut/journal/parse"
)

// unknownTool reports names of tools that no tools file has.
func unknownTool(c *Context) {
	if c.Journal.IsWithheld("tools") {
		return
	}
	known := make([]string, len(c.Journal.Tools))
	for i, t := range c.Journal.Tools {
		known[i] = t.Name
	}
	for _, e := range c.Journal.Entries {
		for _, ref := range e.With {
			c.unknownName(ref.Name, "tool", known, e.Path)
		}
		for _, pulls := range e.Fields.Tables("pulls") {
			if dyno := pulls.Name("dyno"); !dyno.IsZero() {
				c.unknownName(dyno, "tool", known, e.Path)
			}
		}
		for _, list := range [][]parse.Reading{e.Found, e.Set} {
			for _, r := range list {
				if details := r.Value.Details; details != nil && !details.With.IsZero() {
					c.unknownName(details.With, "tool", known, e.Path)
				}
			}
		}
	}
}
