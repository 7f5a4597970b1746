package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// portOff is by how much, in rad, a port's timing may differ from its height: 3°, common practice, no source. Who looks for the first light sees it later than a rule does.
const portOff = math.Pi / 60

// portDisagrees reports exhaust and transfer ports whose timing isn't that of their height: the piston's crown and one edge make both.
func portDisagrees(c *Context) { c.tellCauses() }

// portsApart finds them. Which figure is wrong nobody knows.
func (c *Context) portsApart() []*cause {
	var found []*cause
	for _, port := range crownPorts {
		d := c.disagreement(port)
		if d == nil {
			continue
		}
		newest, notes := d.height, []source.Remark{}
		for _, v := range d.values() {
			notes = append(notes, source.Remark{At: v.At(), Message: fmt.Sprintf("`%s`", v.Path)})
			if v.Order > newest.Order || v.Order == newest.Order && v.At().Start > newest.At().Start {
				newest = v
			}
		}
		angle := quantity.UnitOf("°", quantity.Angle)
		r := reportAbout(newest, source.Warning, fmt.Sprintf("the %s port's height of %s has it open for %s, its timing for %s", port, d.height.Quantity.Shown(), quantity.Show(d.byHeight, angle, model.WheelStep), quantity.Show(d.byTiming, angle, model.WheelStep)),
			"measure both again: the height from the crown at bottom dead centre to the upper edge, the angles from a top dead centre that was found with a stop", notes...)
		found = append(found, &cause{report: r, against: d.values(), weight: doubted})
	}
	return found
}

// crownPorts are the ports that the piston's crown opens and shuts.
var crownPorts = []string{"exhaust", "transfer"}

// disagreement is a port whose height and timing make different durations, in rad.
type disagreement struct {
	height             *model.Value
	timed              []*model.Value
	byHeight, byTiming float64
}

func (d *disagreement) values() []*model.Value { return append([]*model.Value{d.height}, d.timed...) }

// disagreement returns what disagrees of a port; nil for nothing, or where something of it isn't known.
func (c *Context) disagreement(port string) *disagreement {
	d := &disagreement{height: c.size("port." + port + ".height")}
	stroke, rod := c.size("engine.stroke"), c.size("engine.rod")
	if d.height == nil || stroke == nil || rod == nil {
		return nil
	}
	d.timed = c.portTiming(port)
	opens, err := calc.PortOpens(stroke.Estimate.Value, rod.Estimate.Value, d.height.Estimate.Value)
	if err != nil || len(d.timed) == 0 || slices.ContainsFunc(append(d.values(), stroke, rod), c.isSuspect) {
		return nil // what is refused has its finding
	}
	if len(d.timed) == 2 {
		if _, is := lopsidedBy(d.timed[0], d.timed[1]); is {
			return nil // that has one too, and is mended first
		}
	}
	d.byHeight = 2 * (math.Pi - opens)
	may := 2*portOff + 1e-9
	for _, v := range d.timed { // one of the two stands for both
		from, _ := toBottom(v.Quantity)
		d.byTiming += 2 * math.Abs(from) / float64(len(d.timed))
		may += 2 * v.Estimate.Expanded() / float64(len(d.timed))
	}
	if math.Abs(d.byHeight-d.byTiming) <= may {
		return nil
	}
	return d
}

// portTiming returns where a port opens and closes, as far as it is known; none where something of it can't be read.
func (c *Context) portTiming(port string) []*model.Value {
	var timed []*model.Value
	for _, event := range []string{"opens", "closes"} {
		path := "port." + port + "." + event
		v := c.Journal.Current(path)
		if c.Journal.IsUnreadSince(path, v, nil) {
			return nil
		}
		if v == nil || v.Quantity.IsOpenEnded() {
			continue
		}
		if _, ok := toBottom(v.Quantity); ok {
			timed = append(timed, v)
		}
	}
	return timed
}
