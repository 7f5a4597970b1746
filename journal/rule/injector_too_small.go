package rule

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// injectorTooSmall reports injectors that are open for longer than is usual, at the power of now or at that of the goal: one finding, at their flow. Where a limit holds their duty, that limit tells.
func injectorTooSmall(c *Context) {
	c.tellCauses()
	var first *derive.Number
	var told []string
	for _, path := range []string{"injector.duty.now", "injector.duty.goal"} {
		n := c.numberAt(path)
		if n == nil || n.Verdict != model.NoLimit || c.isHeldBack(n) || quantity.Compare(n.Estimate.Value, derive.UsualDuty, 1) <= 0 {
			continue
		}
		if first == nil {
			first = n
		}
		text := fmt.Sprintf("%s of the time, %s", n.Shown(), n.Words)
		if quantity.Compare(n.Estimate.Value-n.Estimate.Expanded(), 1, 1) > 0 {
			text += ", which is more than there is"
		}
		told = append(told, text)
	}
	if first == nil {
		return
	}
	flow := first.Inputs[len(first.Inputs)-1].Value
	f := source.Finding{Severity: source.Warning, At: flow.At(), Subject: first.Path, Origin: string(model.FromWorked),
		Message: fmt.Sprintf("injectors of %s are open for %s", flow.Quantity.Shown(), strings.Join(told, "; and for ")),
		Do: fmt.Sprintf("look whether flow, number and consumption are right; if they are, fit larger ones, or hold the duty to a limit at `injector.duty`: %s is what most keep to",
			quantity.Show(derive.UsualDuty, quantity.UnitShown("%"), 0.01)), Notes: inputRemarks(first, nil)}
	if flow.Entry != nil {
		f.Entry = flow.Entry.Path
	}
	c.report(f, flow.Order)
}
