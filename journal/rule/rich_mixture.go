package rule

import (
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// richMixture reports logs that are richer than their target.
func richMixture(c *Context) {
	c.squares(model.Rich, source.Warning, func(model.Square) bool { return true }, "rich", "lean it there: it costs power and fuel, fouls plugs, and washes oil off the bores")
}
