package rule

import (
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// leanMixture reports logs that are leaner than their target where the engine doesn't work hard.
func leanMixture(c *Context) {
	c.squares(model.Lean, source.Warning, func(s model.Square) bool { return !s.IsLoad() }, "lean", "look for leaks at the intake, and at the exhaust before the sensor, first; then richen it there")
}
