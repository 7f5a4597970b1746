package derive

import (
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// ports are the ports of a two-stroke, as paths name them.
var ports = [...]string{"exhaust", "transfer", "intake"}

// afterTop returns what has to be added to a figure (rad) to have it counted after top dead centre; false for one that is counted from nowhere.
func afterTop(q quantity.Quantity) (shift float64, ok bool) {
	if q.Unit.Dimension != quantity.Angle || q.IsOpenEnded() {
		return 0, false
	}
	return q.Event.Centre()
}

// portDuration works out how long each port is open, from its timing or else from its height, and the height that belongs to a timing.
func portDuration(m *Moment) {
	if !m.speaks("port") {
		return
	}
	for _, port := range ports {
		opens, closes, height := m.value("port."+port+".opens"), m.value("port."+port+".closes"), m.value("port."+port+".height")
		unclear := m.unclear("port."+port+".opens", "port."+port+".closes", "port."+port+".height")
		switch {
		case unclear != "":
			n := &Number{Path: "port." + port + ".duration", Title: port + " port duration", Formula: "duration = 360° − opens − closes", Unit: degrees(), Reason: unclear}
			n.Estimate.Dimension = quantity.Angle
			m.add(n)
			continue
		case height != nil && (opens == nil || closes == nil):
			m.byHeight(port, height)
		case opens != nil || closes != nil:
			m.byTiming(port, opens, closes)
		}
		if opens != nil && height == nil && port != "intake" {
			m.edge(port, opens)
		}
	}
}

// byTiming adds the duration of a port from where it opens and closes.
func (m *Moment) byTiming(port string, opens, closes *model.Value) {
	n := &Number{Path: "port." + port + ".duration", Title: port + " port duration", Formula: "duration = 360° − opens − closes", Unit: degrees()}
	if port == "intake" {
		n.Formula = "duration = opens + closes"
	}
	n.Estimate.Dimension = quantity.Angle
	var shifts []float64
	var missing []string
	for i, v := range []*model.Value{opens, closes} {
		event := [...]string{"opens", "closes"}[i]
		if v == nil {
			missing = append(missing, "port."+port+"."+event)
			continue
		}
		n.Inputs = append(n.Inputs, Input{Symbol: event, Value: v})
		shift, ok := afterTop(v.Quantity)
		if !ok {
			n.Reason = uncounted(v)
		}
		shifts = append(shifts, shift)
	}
	if n.Reason == "" {
		n.Reason = m.lacks(missing)
	}
	if n.Reason == "" {
		opened, closed := opens.Estimate.Value+shifts[0], closes.Estimate.Value+shifts[1]
		turns := 2 * math.Pi * math.Floor((closed-opened)/(2*math.Pi)) // it closes within a turn of having opened
		n.carry(func(x []float64) (float64, error) {
			return calc.PortDuration(x[0]+shifts[0], 2*math.Pi-(x[1]+shifts[1]-turns))
		}, quantity.Angle)
	}
	m.add(n)
}

// byHeight adds the duration of a port from its height and the exact law of the crank.
func (m *Moment) byHeight(port string, height *model.Value) {
	inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"l", "engine.rod"})
	n := &Number{Path: "port." + port + ".duration", Title: port + " port duration, by its height", Formula: "duration = 360° − 2 · θ, where x(θ) = S − h", Inputs: append([]Input{{Symbol: "h", Value: height}}, inputs...),
		Unit: degrees(), Reason: m.lacks(missing)}
	if port == "intake" {
		n.Formula = "duration = 2 · θ, where x(θ) = h"
	}
	n.Estimate.Dimension = quantity.Angle
	if n.Reason == "" && height.Quantity.IsOpenEnded() {
		n.Reason = noMiddle
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) {
			if port == "intake" {
				angle, err := calc.CrankAngle(x[1], x[2], x[0])
				return 2 * angle, err
			}
			opens, err := calc.PortOpens(x[1], x[2], x[0])
			if err != nil {
				return 0, err
			}
			return calc.PortDuration(opens, opens)
		}, quantity.Angle)
	}
	m.add(n)
}

// edge adds the height that a port's upper edge has where it opens at an angle.
func (m *Moment) edge(port string, opens *model.Value) {
	shift, ok := afterTop(opens.Quantity)
	inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"l", "engine.rod"})
	if !ok || len(inputs) == 0 {
		return
	}
	n := &Number{Path: "port." + port + ".edge", Title: port + " port, height of its upper edge by its timing", Formula: "h = S − x(opens)", Inputs: append([]Input{{Symbol: "opens", Value: opens}}, inputs...), Reason: m.lacks(missing)}
	n.Estimate.Dimension = quantity.Length
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.PortHeight(x[1], x[2], x[0]+shift) }, quantity.Length)
	}
	m.add(n)
}
