package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// lifted are the paths that the lift at a valve comes from.
var lifted = []string{"cam.intake.lift", "cam.exhaust.lift", "lash", "engine.rocker-ratio"}

// valveLift works out what is left of the cam's lift at each valve: at all of a side where one lash speaks for them, else at each whose lash is known.
func valveLift(m *Moment) {
	if !m.speaks("cam") {
		return
	}
	for _, side := range parse.Sides {
		cam := m.value("cam." + side + ".lift")
		if cam == nil {
			continue
		}
		if all := m.value("lash." + side); all != nil {
			m.add(m.leftAt("", side, cam, all))
			continue
		}
		any := false
		for _, position := range m.Journal.Positions.Below("lash." + side) {
			if lash := m.value(position); lash != nil {
				m.add(m.leftAt(strings.TrimPrefix(position, "lash."+side), side, cam, lash))
				any = true
			}
		}
		if !any {
			m.add(m.leftAt("", side, cam, nil))
		}
	}
}

// leftAt works out the lift that is left at a place below a side.
func (m *Moment) leftAt(below, side string, cam, lash *model.Value) *Number {
	n := &Number{Path: "cam." + side + ".valve-lift" + below, Title: "lift at the valve, " + side + strings.ReplaceAll(below, ".", " "), Formula: "lift = cam · i − lash", Unit: cam.Quantity.Unit}
	n.Estimate.Dimension = quantity.Length
	n.Inputs = []Input{{Symbol: "cam", Value: cam}}
	ratio := m.value("engine.rocker-ratio." + side)
	var missing []string
	for _, in := range []struct {
		symbol, path string
		value        *model.Value
	}{{"i", "engine.rocker-ratio." + side, ratio}, {"lash", "lash." + side, lash}} {
		if in.value == nil {
			missing = append(missing, in.path)
			continue
		}
		n.Inputs = append(n.Inputs, Input{Symbol: in.symbol, Value: in.value})
	}
	n.Reason = m.lacks(missing)
	if n.Reason == "" && (cam.Quantity.IsOpenEnded() || lash.Quantity.IsOpenEnded()) {
		n.Reason = "a bracket with one end has no middle"
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.ValveLift(x[0], x[1], x[2]) }, quantity.Length)
	}
	return n
}
