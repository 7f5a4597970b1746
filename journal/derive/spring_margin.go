package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// springMargin works out what is left at full lift before a valve spring is solid, and before its retainer touches the guide. The lash is taken as nought: that is the
// least that is left.
func springMargin(m *Moment) {
	if !m.speaks("spring") && !m.speaks("clearance.retainer") {
		return
	}
	for _, side := range parse.Sides {
		for _, position := range m.Journal.Positions.Below("spring." + side) {
			if base, ok := strings.CutSuffix(position, ".solid"); ok {
				m.margin("coil-bind", base[len("spring."):], side, "coil bind", "margin = installed − cam · i − solid", [2]string{"installed", base + ".installed"}, [2]string{"solid", position})
			}
		}
		for _, position := range m.Journal.Positions.Below("clearance.retainer." + side) {
			m.margin("retainer", position[len("clearance.retainer."):], side, "retainer", "margin = gap − cam · i", [2]string{"gap", position})
		}
	}
}

// margin works out one margin from what is read of the spring, the cam's lift and the rocker ratio. Where nothing of the spring is known there is none.
func (m *Moment) margin(kind, below, side, title, formula string, read ...[2]string) {
	inputs, missing := m.gather(read...)
	if len(inputs) == 0 {
		return
	}
	lift, also := m.gather([2]string{"cam", "cam." + side + ".lift"}, [2]string{"i", "engine.rocker-ratio." + side})
	n := &Number{Path: "margin." + kind + "." + below, Title: title + " margin, " + strings.ReplaceAll(below, ".", " "), Formula: formula, Inputs: append(inputs, lift...), Reason: m.lacks(append(missing, also...))}
	n.Estimate.Dimension = quantity.Length
	for _, in := range n.Inputs {
		if n.Reason == "" && !isLengthOrPure(in.Value) {
			n.Reason = in.Value.Path + " is no figure for this"
		}
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) {
			lift, err := calc.ValveLift(x[len(x)-2], x[len(x)-1], 0)
			if err != nil {
				return 0, err
			}
			if kind == "retainer" {
				return calc.RetainerMargin(x[0], lift)
			}
			return calc.CoilBindMargin(x[0], lift, x[1])
		}, quantity.Length)
	}
	m.add(n)
}

func isLengthOrPure(v *model.Value) bool {
	d := v.Quantity.Unit.Dimension
	return (d == quantity.Length || d == quantity.Pure) && !v.Quantity.IsOpenEnded()
}
