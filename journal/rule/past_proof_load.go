package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/source"
)

// pastProofLoad reports torques that pull a bolt past its proof load: for certain, or where friction is low.
func pastProofLoad(c *Context) {
	c.past((*derive.Fastener).ProofLoad, func(s strained, subject string) (message, do string) {
		thread := s.of.Limit.Key("thread").Text
		if s.severity() == source.Error {
			return fmt.Sprintf("%s: that pulls %s of class %s with %s or more, past its proof load of %s", subject, thread, s.of.Class, c.showPull(s.least), c.showPull(s.load)),
				"a bolt pulled so far has given: take it out and don't use it again"
		}
		return fmt.Sprintf("%s: at the least friction that pulls %s of class %s with %s, past its proof load of %s", subject, thread, s.of.Class, c.showPull(s.most), c.showPull(s.load)),
			"find out what the figure is meant for: oil where dry threads are meant is a third more pull"
	})
}
