package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// What an engine of only one working cycle has, by the paths that it stands at.
var (
	valveGear = []string{"lash", "shim", "cam"}
	portGear  = []string{"port.exhaust", "port.transfer"}
)

// cycleDisagrees reports a working cycle in the sheet that is not that of the figures: a two-stroke with valves and no ports, a four-stroke with ports and no valves.
func cycleDisagrees(c *Context) {
	cycle := c.Journal.Build.Fields.Table("engine").Text("cycle")
	if cycle.IsZero() {
		return
	}
	valve, port := c.firstAt(valveGear), c.firstAt(portGear)
	switch {
	case cycle.Text == "two-stroke" && valve != nil && port == nil:
		c.notOfCycle(cycle, valve, "the valve gear of a four-stroke")
	case cycle.Text == "four-stroke" && port != nil && valve == nil:
		c.notOfCycle(cycle, port, "the ports of a two-stroke")
	}
}

func (c *Context) notOfCycle(cycle parse.Text, v *model.Value, what string) {
	c.report(source.Finding{Severity: source.Warning, At: cycle.At, Subject: "engine.cycle", Message: fmt.Sprintf("the engine is a %s here, and the journal has figures of %s: `%s`", cycle.Text, what, v.Path),
		Do: "mend the one that is mistyped: what is worked out of the engine goes by its cycle", Notes: []source.Remark{{At: v.At(), Message: fmt.Sprintf("`%s`", v.Path)}}}, -1)
}

// firstAt returns the first value that counts at or below one of some paths, nil for none.
func (c *Context) firstAt(paths []string) *model.Value {
	for _, path := range paths {
		for _, position := range c.Journal.Positions.Below(path) {
			for _, v := range c.Journal.History(position) {
				if v.Counts && v.Quantity.Unit != nil {
					return v
				}
			}
		}
	}
	return nil
}
