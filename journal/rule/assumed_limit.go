package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// assumedLimit reports, once each, the limits whose figure nobody published.
func assumedLimit(c *Context) {
	for _, l := range c.Journal.Limits {
		if l.Basis != "assumed" || !l.IsFigures() && len(l.Expect) == 0 {
			continue
		}
		message := fmt.Sprintf("the limit `%s` is assumed: nobody published it", l.Path)
		c.report(source.Finding{Severity: source.Note, At: l.PathAt, Subject: l.Path, Message: message,
			Do: "find a published figure, or accept it with a reason in an entry: `[[accept]]`, finding, at, why"}, -1)
	}
}
