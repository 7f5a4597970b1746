package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// portBlowdown works out how long the exhaust port is open before the transfers are, from where each opens: as it was timed, else by its height.
func portBlowdown(m *Moment) {
	if !m.speaks("port") {
		return
	}
	exhaust, transfer := m.opening("exhaust"), m.opening("transfer")
	unclear := m.unclear("port.exhaust.opens", "port.exhaust.height", "port.transfer.opens", "port.transfer.height")
	if unclear != "" {
		n := &Number{Path: "port.blowdown", Title: "blowdown", Formula: "blowdown = transfer − exhaust", Unit: degrees(), Reason: unclear}
		n.Estimate.Dimension = quantity.Angle
		m.add(n)
		return
	}
	if exhaust == nil || transfer == nil {
		return
	}
	n := &Number{Path: "port.blowdown", Title: "blowdown", Formula: "blowdown = transfer − exhaust", Inputs: []Input{{Symbol: "exhaust", Value: exhaust}, {Symbol: "transfer", Value: transfer}}, Unit: degrees()}
	n.Estimate.Dimension = quantity.Angle
	if isHeight(exhaust) || isHeight(transfer) {
		inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"l", "engine.rod"})
		n.Title, n.Formula = "blowdown, by the heights of the ports", "blowdown = θ(transfer) − θ(exhaust), where x(θ) = S − h"
		if isHeight(exhaust) != isHeight(transfer) {
			n.Title = "blowdown, by the height of one port"
		}
		n.Inputs, n.Reason = append(n.Inputs, inputs...), m.lacks(missing)
	}
	for _, v := range []*model.Value{exhaust, transfer} {
		if n.Reason == "" {
			n.Reason = noOpening(v)
		}
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) {
			first, err := openingAt(exhaust, x[0], x)
			if err != nil {
				return 0, err
			}
			second, err := openingAt(transfer, x[1], x)
			if err != nil {
				return 0, err
			}
			return calc.PortBlowdown(first, second)
		}, quantity.Angle)
	}
	m.add(n)
}

// opening returns what says where a port opens: its timing, else its height; nil for neither.
func (m *Moment) opening(port string) *model.Value {
	if opens := m.value("port." + port + ".opens"); opens != nil {
		return opens
	}
	return m.value("port." + port + ".height")
}

// noOpening is why a value can't say where a port opens; "" where it can.
func noOpening(v *model.Value) string {
	if _, ok := v.Quantity.Event.Centre(); v.Quantity.IsOpenEnded() || !ok && !isHeight(v) {
		return uncounted(v)
	}
	return ""
}

func isHeight(v *model.Value) bool { return v.Quantity.Unit.Dimension == quantity.Length }

// openingAt returns where a port opens after top dead centre, in rad, by the figure of what says so (SI); stroke and rod stand behind the first two of all figures.
func openingAt(v *model.Value, figure float64, x []float64) (float64, error) {
	if isHeight(v) {
		return calc.PortOpens(x[2], x[3], figure)
	}
	shift, _ := afterTop(v.Quantity)
	return figure + shift, nil
}
