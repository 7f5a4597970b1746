package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// worn reports values outside standard but inside service.
func worn(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Worn {
			continue
		}
		bound, service, beyond := passed(v), v.Limit.Worn[1], "above"
		if v.Side < 0 {
			service, beyond = v.Limit.Worn[0], "below"
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s: %s standard (%s), inside service (%s)", v.Path, shown(v), beyond, v.Limit.Show(bound), v.Limit.Show(service)),
			"it may run on; plan the part", boundNote(v.Limit, bound)...)
	}
}
