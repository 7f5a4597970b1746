package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// serviceInside reports service bounds that are no looser than standard, or that bound a side which standard leaves open.
func serviceInside(c *Context) {
	for _, l := range c.Journal.Limits {
		for side, b := range l.Misplaced {
			if !b.Is {
				continue
			}
			standard := [2]model.Bound{l.Low, l.High}[side]
			message := fmt.Sprintf("the service bound %s of `%s` bounds a side that standard leaves open", l.Show(b), l.Path)
			if standard.Is {
				message = fmt.Sprintf("the service bound %s of `%s` lies inside standard, which goes to %s", l.Show(b), l.Path, l.Show(standard))
			}
			c.report(source.Finding{Severity: source.Error, At: b.At, Subject: l.Path, Message: message, Do: "service is looser than standard: move the bound outward, or take it out", Notes: limitNote(l)}, -1)
		}
	}
}
