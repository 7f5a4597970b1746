package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// worn reports values, and worked-out numbers, outside standard but inside service.
func worn(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Worn {
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s: %s", v.Path, shown(v), wornWords(v))+nearWords(v)+heldBy(v), wornAdvice, boundNote(v.Limit, passed(v))...)
	}
	c.judgedNumbers(source.Warning, "worn", wornAdvice, func(n *derive.Number) string {
		if n.Verdict != model.Worn {
			return ""
		}
		return fmt.Sprintf("works out at %s: %s%s", n.Shown(), wornWords(n.Judged()), nearWords(n.Judged()))
	})
}

const wornAdvice = "it may run on; plan the part"

// wornWords says on which side of standard a worn value stands, and how far service goes there.
func wornWords(v *model.Value) string {
	service, beyond := v.Limit.Worn[1], "above"
	if v.Side < 0 {
		service, beyond = v.Limit.Worn[0], "below"
	}
	return fmt.Sprintf("%s standard (%s), inside service (%s)", beyond, v.Limit.Show(passed(v)), v.Limit.Show(service))
}
