package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// absurdPistonSpeed reports a stroke and a redline that can't belong together: one of them is a slip.
func absurdPistonSpeed(c *Context) {
	n := c.soundNumberAt(pistonSpeed)
	if n == nil || pistonSpeeds.Holds(n.Estimate.Value) {
		return
	}
	stroke, redline := n.Inputs[0].Value, n.Inputs[1].Value
	c.value(redline, source.Warning, fmt.Sprintf("a stroke of %s at %s is a mean piston speed of %s: no engine is built for more than %.0f m/s", stroke.Quantity.Shown(), redline.Quantity.Shown(), n.Shown(), pistonSpeeds.High),
		"look at both figures and their units again", source.Remark{At: stroke.At(), Message: "stroke"})
}
