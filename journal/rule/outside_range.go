package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// outsideRange reports readings that the tool can't have taken as it was made to: beyond the ends of its scale, or of the scales of all that it may have
// been. A torque through an adapter is judged by what the wrench was set to.
func outsideRange(c *Context) {
	for _, v := range c.Journal.Values {
		if !v.IsReading() || v.Words != "" || c.toldBy(v) == slipRule || c.isSuspect(v) || c.isRangeSuspect(v.Tool) || len(c.mistypings(v)) > 0 {
			continue
		}
		if v.Tool == nil {
			c.outsideAll(v)
			continue
		}
		if v.Tool.Range == nil || v.Setting() != nil || !v.IsToolNamed() && c.Journal.AreToolsUnclear(v.Entry) {
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
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, outside the range of `%s`: %s", v.Path, read[i].Shown(), v.Tool.Name, v.Tool.Range.Shown()), outsideAdvice, rangeNote(v.Tool))
	}
	for _, e := range c.Journal.Entries {
		for _, log := range e.Logs {
			c.loggedOutside(log)
		}
	}
}

const outsideAdvice = "measure again with a tool whose range holds it: near and beyond the ends of its scale a tool tells little, and one forced there may be spoilt"

func rangeNote(t *model.Tool) source.Remark {
	return source.Remark{At: t.Fields.Value("range").At, Message: "range"}
}

// outsideAll reports a reading beyond the scale of each tool that may have taken it.
func (c *Context) outsideAll(v *model.Value) {
	if len(v.Entry.With) < 2 || c.Journal.AreToolsUnclear(v.Entry) {
		return
	}
	tools := v.OutOfReach()
	if tools == nil {
		return
	}
	var ranges []string
	var notes []source.Remark
	for _, t := range tools {
		ranges = append(ranges, fmt.Sprintf("`%s` %s", t.Name, t.Range.Shown()))
		notes = append(notes, rangeNote(t))
	}
	is := "is " + v.Quantity.Shown().String()
	if v.Setting() != nil {
		is = "was set to " + v.Setting().Quantity.Shown().String()
	}
	c.value(v, source.Warning, fmt.Sprintf("`%s` %s, outside the range of each tool for it: %s", v.Path, is, strings.Join(ranges, ", ")), "check the figure; else "+outsideAdvice, notes...)
}
