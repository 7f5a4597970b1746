package rule

import (
	"fmt"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// nearBound reports figures, worked-out ones too, that lie within their uncertainty of a bound: decided by the figure alone, they might be on its other side.
func nearBound(c *Context) {
	for _, v := range c.Journal.Values {
		bound, near := v.IsNear()
		if !near || c.slipOf(v) != nil || c.doubts().limits[v.Limit] != nil {
			continue
		}
		_, u := quantity.ShowEstimate(v.Estimate, v.Quantity.Unit)
		c.value(v, source.Note, fmt.Sprintf("`%s` is %s ± %s, and the bound at %s lies inside that: the figure alone decides", v.Path, v.Quantity.Shown().Number, u, v.Limit.Show(bound)),
			"measure with a finer tool, or set it further inside", boundNote(v.Limit, bound)...)
	}
	for _, n := range c.Numbers {
		if n.Reason != "" {
			continue
		}
		if bound, near := n.Judged().IsNear(); near {
			figure, u := quantity.ShowEstimate(n.Estimate, n.Unit)
			c.number(n, source.Note, fmt.Sprintf("`%s` works out at %s ± %s, and the bound at %s lies inside that: the figure alone decides", n.Path, figure.Number, u, n.Limit.Show(bound)),
				"measure what it is worked out from with a finer tool")
		}
	}
}
