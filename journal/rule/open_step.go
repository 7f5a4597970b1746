package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// openStep reports steps of dated entries that nobody has ticked.
func openStep(c *Context) {
	for _, e := range c.Journal.Entries {
		if e.Plan {
			continue
		}
		for _, task := range e.Body.Tasks {
			if !task.Done {
				c.report(source.Finding{Severity: source.Note, At: task.At, Subject: task.Text, Entry: e.Path,
					Message: fmt.Sprintf("this step is open: `%s`", task.Text), Do: "do it and tick it, or take it out"}, c.Journal.EndOf(e))
			}
		}
	}
}
