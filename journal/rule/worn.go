package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// worn reports values, and worked-out numbers, outside standard but inside service.
func worn(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Worn {
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s: %s", v.Path, shown(v), wornWords(v))+heldBy(v), wornAdvice, boundNote(v.Limit, passed(v))...)
	}
	for _, n := range c.Numbers {
		if n.Verdict == model.Worn {
			c.number(n, source.Warning, fmt.Sprintf("`%s` works out at %s: %s", n.Path, n.Shown(), wornWords(n.Judged())), wornAdvice)
		}
	}
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
