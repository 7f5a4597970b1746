package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// gearsNotFalling reports a gear whose ratio is no lower than that of the gear before it.
func gearsNotFalling(c *Context) {
	for _, n := range c.Numbers {
		if n.Family.Name != "rev-drop" || n.Reason != "" || restsOn(n, c.isSuspect) || quantity.Compare(n.Estimate.Value, 0, n.Inputs[0].Value.Estimate.Value) > 0 {
			continue
		}
		from, to := n.Inputs[1].Value, n.Inputs[2].Value
		c.value(to, source.Warning, fmt.Sprintf("gear %s is %s, no lower than %s of gear %s", parse.LastSegment(to.Path), ratioShown(to), ratioShown(from), parse.LastSegment(from.Path)),
			"list the gears from first, each as driven over driver: the teeth of the wheel that is driven stand first", source.Remark{At: from.At(), Message: "the gear before it"})
	}
}

// ratioShown shows a ratio by its figure, also where it was written in teeth.
func ratioShown(v *model.Value) string {
	return quantity.Show(v.Estimate.Value, quantity.UnitShown(":1"), 0.001).String()
}
