package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// liftsMixed reports events in force that belong together and were taken at different checking lifts: nothing can be worked out from the two.
func liftsMixed(c *Context) {
	for _, pair := range [][2]string{{"cam.intake.opens", "cam.intake.closes"}, {"cam.exhaust.opens", "cam.exhaust.closes"}, {"cam.intake.opens", "cam.exhaust.closes"}} {
		a, b := c.Journal.Current(pair[0]), c.Journal.Current(pair[1])
		if a == nil || b == nil || a.Quantity.Unit == nil || b.Quantity.Unit == nil || c.Journal.IsUnread(pair[0]) || c.Journal.IsUnread(pair[1]) {
			continue
		}
		at, other := c.Journal.CheckingLift(a), c.Journal.CheckingLift(b)
		if at == nil || other == nil || model.SameLift(at, other) {
			continue
		}
		if a.Order > b.Order {
			a, b, at, other = b, a, other, at
		}
		c.value(b, source.Warning, fmt.Sprintf("`%s` was taken at a lift of %s, `%s` at %s: nothing can be worked out from the two", b.Path, other.Quantity.Shown(), a.Path, at.Quantity.Shown()),
			"take both at one lift", source.Remark{At: a.At(), Message: "the other event"}, source.Remark{At: other.At(), Message: "its lift"})
	}
}
