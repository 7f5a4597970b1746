package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// outsideRange reports readings that the tool can't have taken as it was made to: beyond the ends of its scale. A torque through an adapter is
// judged by what the wrench was set to.
func outsideRange(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Tool == nil || v.Tool.Range == nil || !v.IsReading() || v.Setting() != nil || v.Words != "" || !v.IsToolNamed() && c.Journal.AreToolsUnclear(v.Entry) {
			continue
		}
		read := v.Repeats
		if len(read) == 0 {
			read = []quantity.Quantity{v.Quantity}
		}
		i := slices.IndexFunc(read, func(q quantity.Quantity) bool { return !v.Tool.Holds(q) })
		if i < 0 {
			continue
		}
		at := v.Tool.Fields.Value("range").At
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, outside the range of `%s`: %s", v.Path, read[i].Shown(), v.Tool.Name, v.Tool.Range.Shown()),
			"measure again with a tool whose range holds it: near and beyond the ends of its scale a tool tells little, and one forced there may be spoilt", source.Remark{At: at, Message: "range"})
	}
}
