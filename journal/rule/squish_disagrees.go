package rule

import (
	"fmt"
	"math"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// squishDisagrees reports a squish that was measured and is not what deck and gasket make: further off than both may be together.
func squishDisagrees(c *Context) {
	n := c.worked("engine.squish")
	if n == nil || c.restsOnOdd(n) {
		return
	}
	for _, v := range c.Journal.Values {
		if !v.Current || v.Settled || !v.IsReading() || v.Path != "squish" && !strings.HasPrefix(v.Path, "squish.") || v.Quantity.Unit == nil || v.Verdict == model.Out || v.Quantity.Kind == quantity.Interval {
			continue
		}
		off := math.Abs(v.Estimate.Value - n.Estimate.Value)
		may := math.Hypot(v.Estimate.Expanded(), n.Estimate.Expanded()) + v.Quantity.StepSI()/2 + n.Step()/2
		if quantity.Compare(off, may, n.Estimate.Value) <= 0 {
			continue
		}
		c.value(v, source.Note, fmt.Sprintf("`%s` was measured as %s; deck and gasket make %s", v.Path, v.Quantity.Shown(), n.Shown()),
			"the one that was measured counts: look at the deck again, at which side the piston leans to, and at how thick the gasket is once it is pulled down", inputRemarks(n, nil)...)
	}
}
