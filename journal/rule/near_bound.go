package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// nearBound reports figures that are in, worked-out ones too, and lie within their uncertainty of a bound: decided by the figure alone, they might be on its other side. One that is out or worn
// has a finding already, which says so too.
func nearBound(c *Context) {
	for _, v := range c.Journal.Values {
		bound, near := v.IsNear()
		if !near || v.Verdict != model.In || c.isLimitUnsure(v.Limit) || c.isToolSuspect(v.Tool) {
			continue
		}
		_, u := quantity.ShowEstimate(v.Estimate, v.Quantity.Unit)
		c.value(v, source.Note, fmt.Sprintf("`%s` is %s ± %s, and the bound at %s lies inside that: the figure alone decides", v.Path, v.Quantity.Shown().Number, u, v.Limit.Show(bound)),
			"measure with a finer tool, or set it further inside", boundNote(v.Limit, bound)...)
	}
	c.judgedNumbers(source.Note, "near a bound", "measure what it is worked out from with a finer tool", func(n *derive.Number) string {
		if n.Reason != "" || n.Verdict != model.In || restsOn(n, func(v *model.Value) bool { return c.isToolSuspect(v.Tool) }) {
			return ""
		}
		bound, near := n.Judged().IsNear()
		if !near {
			return ""
		}
		figure, u := quantity.ShowEstimate(n.Estimate, n.Unit)
		return fmt.Sprintf("works out at %s ± %s, and the bound at %s lies inside that: the figure alone decides", figure.Number, u, n.Limit.Show(bound))
	})
}

// nearWords says of a figure that is not in which bound lies within its uncertainty; "" where none does.
func nearWords(v *model.Value) string {
	bound, near := v.IsNear()
	if !near {
		return ""
	}
	_, u := quantity.ShowEstimate(v.Estimate, v.Quantity.Unit)
	return fmt.Sprintf("; it may be off by %s, and so on the other side of %s", u, v.Limit.Show(bound))
}
