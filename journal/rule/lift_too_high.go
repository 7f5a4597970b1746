package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// liftTooHigh reports springs that are solid before the valve is fully open, and retainers that touch. Where a limit holds the margin, that one speaks.
func liftTooHigh(c *Context) {
	for _, n := range c.Numbers {
		if n.Family.Name != "spring-margin" || n.Reason != "" || n.Verdict == model.Out && !c.isHeldBack(n) || restsOn(n, c.isSuspect) || len(n.Inputs) == 0 || quantity.Compare(n.Estimate.Value, 0, 1e-6) > 0 {
			continue
		}
		short := quantity.Show(-n.Estimate.Value, n.Unit, n.Step())
		message := fmt.Sprintf("`%s` works out at %s: the spring is solid %s before the valve is fully open", n.Path, n.Shown(), short)
		if len(n.Inputs) == 3 { // a gap, and no solid height
			message = fmt.Sprintf("`%s` works out at %s: the retainer touches %s before the valve is fully open", n.Path, n.Shown(), short)
		}
		read := n.Inputs[0].Value
		c.value(read, source.Warning, message, "don't turn the engine over like this: measure again, and fit springs, retainers or a cam that leave what their maker asks for", inputRemarks(n, nil)...)
	}
}
