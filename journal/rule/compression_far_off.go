package rule

import (
	"fmt"
	"math"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// compressionFarOff notes the compression that is furthest from what is to be expected of the engine, where that is further than twice what the expectation
// leaves open. Where it is the most that there can be, as from a static ratio, less than it promises says nothing.
func compressionFarOff(c *Context) {
	n := c.soundNumberAt("engine.cranking-pressure")
	if n == nil || len(n.Inputs) == 0 || restsOn(n, c.isDoubted) || restsOn(n, c.isWithMiddleOut) || c.isSquishFarOut() {
		return
	}
	var worst *model.Value
	far := 2 * n.Estimate.Expanded()
	for _, v := range c.Journal.Values {
		if !v.Current || !v.IsReading() || v.Path != "compression" && !strings.HasPrefix(v.Path, "compression.") || v.Quantity.Unit == nil || v.Verdict > model.Worn || v.Quantity.Unit.Dimension != quantity.Pressure {
			continue
		}
		off := v.Estimate.Value - n.Estimate.Value
		if math.Abs(off) > far && (!n.AtMost || off > 0) {
			worst, far = v, math.Abs(off)
		}
	}
	if worst == nil {
		return
	}
	_, expanded := quantity.ShowEstimate(n.Estimate, n.Unit)
	c.value(worst, source.Note, fmt.Sprintf("`%s` is %s; of this engine %s ± %s is to be expected", worst.Path, worst.Quantity.Shown(), n.Shown(), expanded),
		"look at how it was measured first: warm, all plugs out, throttle open, the gauge's hose short; then at the figures that the ratio comes from", inputRemarks(n, nil)...)
}
