package rule

import (
	"fmt"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// mostPistonSpeed is the mean piston speed, in m/s, that no engine is built for: common practice, no source.
const mostPistonSpeed = 30.0

// absurdPistonSpeed reports a stroke and a redline that can't belong together: one of them is a slip.
func absurdPistonSpeed(c *Context) {
	n := c.worked("engine.piston-speed.mean")
	if n == nil || restsOn(n, c.isSuspect) || quantity.Compare(n.Estimate.Value, mostPistonSpeed, 0) <= 0 {
		return
	}
	stroke, redline := n.Inputs[0].Value, n.Inputs[1].Value
	c.value(redline, source.Warning, fmt.Sprintf("a stroke of %s at %s is a mean piston speed of %s: no engine is built for more than %.0f m/s", stroke.Quantity.Shown(), redline.Quantity.Shown(), n.Shown(), mostPistonSpeed),
		"look at both figures and their units again", source.Remark{At: stroke.At(), Message: "stroke"})
}
