package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// unevenCylinders reports a cylinder whose compression is less than three quarters of the strongest one's, where the builder has no limit of his own for
// that and no limit has found anything yet.
func unevenCylinders(c *Context) {
	n := c.soundNumberAt("spread.compression")
	if n == nil || c.Journal.IsWithheld("limits") || c.Journal.IsWithheld("parts") || c.Journal.LimitAt(n.Path, nil) != nil || quantity.Compare(n.Estimate.Value, derive.LeastSpread, 0) >= 0 {
		return
	}
	weakest, strongest := n.Inputs[0].Value, n.Inputs[0].Value
	for _, in := range n.Inputs {
		if in.Value.Verdict > model.Worn {
			return
		}
		if in.Value.Estimate.Value < weakest.Estimate.Value {
			weakest = in.Value
		}
		if in.Value.Estimate.Value > strongest.Estimate.Value {
			strongest = in.Value
		}
	}
	c.value(weakest, source.Warning, fmt.Sprintf("`%s` is %s, %s of the %s of `%s`: US Army TM 5-4210-230-14&P-1 asks for at least 75 %%", weakest.Path, weakest.Quantity.Shown(), n.Shown(), strongest.Quantity.Shown(), strongest.Path),
		"measure again with a spoonful of oil in the cylinder: a rise points at rings and bore, none at valves and gasket. Other rules draw the line elsewhere: write yours as a limit at `spread.compression`",
		source.Remark{At: strongest.At(), Message: "the strongest"})
}
