package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// notComparable reports steps of the build whose pulls can't be compared with those before, and why. What can't be read was reported where it stands.
func notComparable(c *Context) {
	for _, s := range c.Sums.Stages {
		if s.Reason == "" || s.Unread {
			continue
		}
		c.report(source.Finding{
			Severity: source.Warning, At: s.To.At, Subject: s.Path, Entry: s.To.Entry.Path,
			Message: fmt.Sprintf("what this step gave can't be told: %s", s.Reason),
			Do:      "measure both alike: one dyno, one gear, one correction, in an air that is written down; or take the pulls that are comparable",
			Notes:   []source.Remark{{At: s.From.At, Message: "the pulls before"}},
		}, s.To.Order)
	}
}
