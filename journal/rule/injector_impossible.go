package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// impossibleInjectors finds injectors that would be open for more than all of the time at the power that was measured through them, where a limit holds their duty: their flow, their number or the consumption is wrong, and no limit says which.
func (c *Context) impossibleInjectors() []*cause {
	n := c.numberAt("injector.duty.now")
	if n == nil || n.Limit == nil || quantity.Compare(n.Estimate.Value-n.Estimate.Expanded(), 1, 1) <= 0 || c.isHeldBack(n) {
		return nil
	}
	flow := n.Inputs[len(n.Inputs)-1].Value
	do := "look whether flow, number and consumption are right, the flow first"
	fits := func(q quantity.Quantity) bool {
		return duties.Holds(n.Estimate.Value * flow.Quantity.SI() / q.SI())
	}
	if meant, ok := quantity.TheOne(flow.Quantity.OtherReadings(slipOfPen), fits); ok {
		do = fmt.Sprintf("%s? %s would be open for %s of the time; else %s", meant.Why, meant.Shown(), quantity.Show(n.Estimate.Value*flow.Quantity.SI()/meant.SI(), quantity.UnitShown("%"), 0.01), do)
	}
	f := source.Finding{Severity: source.Error, At: flow.At(), Subject: n.Path, Origin: string(model.FromWorked),
		Message: fmt.Sprintf("injectors of %s would be open for %s of the time at the power that was measured through them, which is more than there is", flow.Quantity.Shown(), n.Shown()), Do: do, Notes: inputRemarks(n, nil)}
	if flow.Entry != nil {
		f.Entry = flow.Entry.Path
	}
	return []*cause{{report: report{f, flow.Order}, against: []*model.Value{flow}, weight: suspect}}
}
