package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// conditionUnwritten reports readings whose limit asks for an engine temperature that nobody wrote down.
func conditionUnwritten(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Unjudged == "condition not written" {
			c.value(v, source.Warning, fmt.Sprintf("`%s` counts at an engine temperature of %s; none is written, so there is no verdict", v.Path, v.Limit.When.Shown()),
				"add `engine-temp` to the entry, or to the reading", whenNote(v.Limit))
		}
	}
}

// conditionUnmet reports readings that were taken at another engine temperature than their limit asks for.
func conditionUnmet(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Unjudged == "condition not met" {
			c.value(v, source.Warning, fmt.Sprintf("`%s` was read at %s; it counts at %s, so there is no verdict and nothing is settled", v.Path, v.Temp.Shown(), v.Limit.When.Shown()),
				"let the engine come to that temperature and read it again", whenNote(v.Limit))
		}
	}
}

func whenNote(l *model.Limit) source.Remark { return source.Remark{At: l.WhenAt, Message: "limit"} }
