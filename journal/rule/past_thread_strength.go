package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/source"
)

// pastThreadStrength reports torques that strip a thread: for certain, or where friction is low.
func pastThreadStrength(c *Context) {
	bears := func(f *derive.Fastener) (float64, error) {
		load, _, err := f.StripLoad()
		return load, err
	}
	c.past(bears, func(s strained, subject string) (message, do string) {
		thread, into := s.of.Limit.Key("thread").Text, s.of.Limit.Key("into").Text
		if s.severity() == source.Error {
			return fmt.Sprintf("%s: that pulls with %s or more at %s in %s, whose thread strips at %s", subject, c.showPull(s.least), thread, into, c.showPull(s.load)),
				"look at the thread before it is used again; a longer screw or an insert bears more"
		}
		return fmt.Sprintf("%s: at the least friction that pulls with %s at %s in %s, whose thread strips at %s", subject, c.showPull(s.most), thread, into, c.showPull(s.load)),
			"a longer screw or an insert bears more, and oil makes it less safe"
	})
}
