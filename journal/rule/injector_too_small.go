package rule

import (
	"fmt"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// injectorTooSmall reports injectors that are open for longer than is usual, at the power of now or at that of the goal. Where a limit holds their duty, that limit tells.
func injectorTooSmall(c *Context) {
	for _, path := range []string{"injector.duty.now", "injector.duty.goal"} {
		n := c.numberAt(path)
		if n == nil || n.Verdict != model.NoLimit || c.isHeldBack(n) || quantity.Compare(n.Estimate.Value, derive.UsualDuty, 1) <= 0 {
			continue
		}
		at := n.Inputs[len(n.Inputs)-1].Value // the flow
		message := fmt.Sprintf("injectors of %s are open for %s of the time, %s", at.Quantity.Shown(), n.Shown(), n.Words)
		severity := source.Warning
		if path == "injector.duty.now" && quantity.Compare(n.Estimate.Value, 1, 1) > 0 {
			severity, message = source.Error, message+": they can't feed that"
		}
		f := source.Finding{Severity: severity, At: at.At(), Subject: n.Path, Origin: string(model.FromWorked), Message: message,
			Do: fmt.Sprintf("fit larger ones, or hold the duty to a limit at `injector.duty`; %s is what most keep to", quantity.Show(derive.UsualDuty, quantity.UnitShown("%"), 0.01)), Notes: inputRemarks(n, nil)}
		if at.Entry != nil {
			f.Entry = at.Entry.Path
		}
		c.report(f, at.Order)
		return // at more power they are too small all the more
	}
}
