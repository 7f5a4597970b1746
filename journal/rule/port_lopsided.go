package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// lopsided is by how much, in rad, a port that the piston opens and shuts may be off the middle: 2°, common practice, no source.
const lopsided = math.Pi / 90

// portLopsided reports exhaust and transfer ports that open and close at different distances from bottom dead centre, where it is one edge and one crown that do both.
func portLopsided(c *Context) {
	for _, port := range crownPorts {
		opens, closes := c.Journal.Current("port."+port+".opens"), c.Journal.Current("port."+port+".closes")
		if opens == nil || closes == nil || c.isSuspect(opens) || c.isSuspect(closes) {
			continue
		}
		off, ok := lopsidedBy(opens, closes)
		if !ok {
			continue
		}
		angle := quantity.UnitOf("°", quantity.Angle)
		c.value(closes, source.Warning, fmt.Sprintf("the %s port opens at %s and closes at %s: %s nearer to bottom dead centre on one side than on the other", port, opens.Quantity.Shown(), closes.Quantity.Shown(), quantity.Show(off, angle, model.WheelStep)),
			"find top dead centre again: half of that is what the wheel's nought is off by; or mend the figure that is mistyped", source.Remark{At: opens.At(), Message: "opens"})
	}
}

// lopsidedBy returns by how much, in rad, a port is longer open on one side of bottom dead centre than on the other, and whether that is more than it may be.
func lopsidedBy(opens, closes *model.Value) (off float64, is bool) {
	before, ok := toBottom(opens.Quantity)
	after, too := toBottom(closes.Quantity)
	off = math.Abs(before + after)
	return off, ok && too && off > lopsided+opens.Estimate.Expanded()+closes.Estimate.Expanded()+1e-9
}

// toBottom returns how far after bottom dead centre a figure is, in rad from half a turn before it to half a turn after; false for one that is counted from nowhere.
func toBottom(q quantity.Quantity) (angle float64, ok bool) {
	centre, ok := q.Event.Centre()
	if !ok || q.Unit == nil || q.Unit.Dimension != quantity.Angle {
		return 0, false
	}
	return math.Remainder(q.SI()+centre-math.Pi, 2*math.Pi), true
}
