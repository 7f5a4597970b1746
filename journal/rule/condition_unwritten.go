package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
)

// conditionUnwritten reports readings whose limit asks for an engine temperature that nobody wrote down.
func conditionUnwritten(c *Context) {
	c.conditions(model.ConditionUnwritten, func(v *model.Value, what, was, counts string) (message, do string) {
		return fmt.Sprintf("%s %s read at an engine temperature that isn't written; %s %s, so there is no verdict", what, was, counts, intervalWords(*v.Limit.When)),
			"add `engine-temp` to the entry, or to the reading"
	})
}
