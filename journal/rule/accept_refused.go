package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// acceptRefused reports accepts of what can't be accepted: text that can't be read, names that lead nowhere, parts that can't be together.
func acceptRefused(c *Context) {
	for _, a := range c.Journal.Accepts {
		if rule := find(c.rules, a.Finding.Name); rule != nil && rule.Firm {
			a.Firm = true
			c.report(source.Finding{Severity: source.Warning, At: a.At, Subject: a.Finding.Name, Origin: a.Path, Entry: a.Entry.Path,
				Message: fmt.Sprintf("`%s` can't be accepted: what it points at has to be mended", a.Finding.Name), Do: "mend what it points at, and take this out"}, c.Journal.EndOf(a.Entry))
		}
	}
}
