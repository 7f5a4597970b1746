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
		for _, key := range parse.DataTables {
			for _, table := range e.Fields.Tables(key) {
				for _, name := range []parse.Name{table.Name("dyno"), table.Name("with")} {
					if !name.IsZero() {
						c.unknownName(name, "tool", known, e.Path)
					}
				}
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
