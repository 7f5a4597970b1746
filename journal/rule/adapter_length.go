package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// adapterLength reports torques through an adapter from which what the bolt got can't be worked out.
func adapterLength(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Written == nil || v.Written.Details == nil || v.Written.Details.Adapter == nil || v.Setting == nil || v.Unjudged == "" {
			continue
		}
		if v.Entry.Fields.IsBad("with") || v.Tool != nil && v.Tool.Fields.IsBad("length") || c.Journal.IsWithheld("tools") {
			continue
		}
		if v.Unjudged != "adapter without wrench length" {
			c.value(v, source.Warning, fmt.Sprintf("what the bolt at `%s` got can't be worked out: %s", v.Path, v.Unjudged), "check the adapter's length and angle, and the wrench's `length`")
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` was put on through an adapter, but the wrench's length isn't known: what the bolt got can't be worked out", v.Path),
			"name the wrench with `with`, and give it `length` among the tools: from the middle of its drive to the middle of its grip")
	}
}
