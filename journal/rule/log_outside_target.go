package rule

import (
	"fmt"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// mostOutside is the share of a log that may lie beyond the squares of its target. Common practice, no source.
const mostOutside = 0.5

// logOutsideTarget reports logs of which the most lies beyond the squares that they are held to.
func logOutsideTarget(c *Context) {
	for _, log := range c.mixtures() {
		m := log.Mixture
		if c.Journal.Target == nil || quantity.Compare(m.Outside, mostOutside*m.All.Seen, m.All.Seen) <= 0 {
			continue
		}
		last := len(c.Journal.Target.Speed) - 1
		throttle, speed := c.Journal.Target.Names(0, 0)
		widest, fastest := c.Journal.Target.Names(len(c.Journal.Target.Throttle)-1, last)
		c.report(source.Finding{
			Severity: source.Warning, At: log.At, Subject: "fuelling", Origin: log.Files[0].Name, Entry: log.Entry.Path,
			Message: fmt.Sprintf("%s of this log lies beyond the squares of the target, which go from %s to %s throttle and from %s to %s",
				quantity.Show(m.Outside/m.All.Seen, parse.UnitSpelled("%"), 0.01), throttle, widest, speed, fastest),
			Do: "see whether its columns are the right ones, and whether the target's rows are throttle and its columns engine speed",
		}, log.Order)
	}
}
