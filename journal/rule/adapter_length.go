package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// adapterLength reports torques through an adapter, or against a running torque, from which what the bolt got can't be worked out.
func adapterLength(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Unjudged == model.AdapterRefused {
			c.value(v, source.Warning, fmt.Sprintf("what the bolt at `%s` got can't be worked out: %s", v.Path, v.Why()), "check the adapter's length and angle, the wrench's `length`, and the limit's `running-torque`")
		}
		if v.Unjudged != model.WrenchUnknown || v.OutOfReach() != nil {
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` was put on through an adapter, but the wrench's length isn't known: what the bolt got can't be worked out", v.Path),
			"name the wrench with `with`, and give it `length` among the tools: from the middle of its drive to the middle of its grip")
	}
}
