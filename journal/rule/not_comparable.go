package rule

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// notComparable reports steps of the build whose pulls can't be compared with those before, and why, and sessions that stand aside from all steps. What can't be read was reported where it stands, and what one session lacks is
// told once.
func notComparable(c *Context) {
	lacking := map[*model.Pulls]bool{}
	for _, s := range c.Sums.Stages {
		if s.Reason == "" || s.Unread || lacking[s.From] && strings.HasPrefix(s.Reason, "before: ") {
			continue
		}
		if _, unknown := c.isGearUnknown(s.To); unknown {
			continue // that is to be mended first
		}
		if _, unknown := c.isGearUnknown(s.From); unknown {
			continue
		}
		lacking[s.To] = strings.HasPrefix(s.Reason, "after: ")
		c.report(source.Finding{
			Severity: source.Warning, At: s.To.At, Subject: s.Path, Entry: s.To.Entry.Path,
			Message: fmt.Sprintf("what this step gave can't be told: %s", s.Reason),
			Do:      "measure both alike: one dyno, one gear, one correction, in an air that is written down; or take the pulls that are comparable",
			Notes:   []source.Remark{{At: s.From.At, Message: "the pulls before"}},
		}, s.To.Order)
	}
	for _, a := range c.Sums.Aside {
		if a.Unread {
			continue
		}
		c.report(source.Finding{
			Severity: source.Note, At: a.Pulls.At, Subject: a.Pulls.Peak.Path, Entry: a.Pulls.Entry.Path,
			Message: fmt.Sprintf("this session stands aside from the steps of the build, which go past it: %s", a.Reason),
			Do:      "nothing need be done; measure both alike where a step is to begin or end here",
			Notes:   []source.Remark{{At: a.Beside.At, Message: "the pulls beside it"}},
		}, a.Pulls.Order)
	}
}
