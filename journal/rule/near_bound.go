package rule

import (
	"fmt"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// nearBound reports figures that lie within their uncertainty of a bound: decided by the figure alone, they might be on its other side.
func nearBound(c *Context) {
	for _, v := range c.Journal.Values {
		bound, near := v.IsNear()
		if !near || c.slipOf(v) != nil {
			continue
		}
		_, u := quantity.ShowEstimate(v.Estimate, v.Quantity.Unit)
		c.value(v, source.Note, fmt.Sprintf("`%s` is %s ± %s, and the bound at %s lies inside that: the figure alone decides", v.Path, v.Quantity.Shown().Number, u, v.Limit.Show(bound)),
			"measure with a finer tool, or set it further inside", boundNote(v.Limit, bound)...)
	}
}
