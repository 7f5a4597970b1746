package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// portBlowdown works out how long the exhaust port is open before the transfers are, from where both open, or from both heights.
func portBlowdown(m *Moment) {
	if !m.speaks("port") {
		return
	}
	exhaust, transfer := m.value("port.exhaust.opens"), m.value("port.transfer.opens")
	if exhaust != nil && transfer != nil {
		m.blowdown(exhaust, transfer)
		return
	}
	exhaust, transfer = m.value("port.exhaust.height"), m.value("port.transfer.height")
	if exhaust == nil || transfer == nil {
		return
	}
	inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"l", "engine.rod"})
	n := &Number{Path: "port.blowdown", Title: "blowdown, by the heights of the ports", Formula: "blowdown = θ(transfer) − θ(exhaust), where x(θ) = S − h", Unit: degrees(), Reason: lacks(missing),
		Inputs: append([]Input{{Symbol: "exhaust", Value: exhaust}, {Symbol: "transfer", Value: transfer}}, inputs...)}
	n.Estimate.Dimension = quantity.Angle
	if n.Reason == "" && (exhaust.Quantity.IsOpenEnded() || transfer.Quantity.IsOpenEnded()) {
		n.Reason = "a bracket with one end has no middle"
	}
	if n.Reason == "" {
		n.carry(func(x []float64) (float64, error) {
			exhaust, err := calc.PortOpens(x[2], x[3], x[0])
			if err != nil {
				return 0, err
			}
			transfer, err := calc.PortOpens(x[2], x[3], x[1])
			if err != nil {
				return 0, err
			}
			return calc.PortBlowdown(exhaust, transfer)
		}, quantity.Angle)
	}
	m.add(n)
}

// blowdown adds the number from where both ports open.
func (m *Moment) blowdown(exhaust, transfer *model.Value) {
	n := &Number{Path: "port.blowdown", Title: "blowdown", Formula: "blowdown = transfer − exhaust", Inputs: []Input{{Symbol: "exhaust", Value: exhaust}, {Symbol: "transfer", Value: transfer}}, Unit: degrees()}
	n.Estimate.Dimension = quantity.Angle
	first, ok := afterTop(exhaust.Quantity)
	second, too := afterTop(transfer.Quantity)
	if !ok || !too {
		n.Reason = "where the ports open doesn't say before or after which dead centre"
	} else {
		n.carry(func(x []float64) (float64, error) { return calc.PortBlowdown(x[0]+first, x[1]+second) }, quantity.Angle)
	}
	m.add(n)
}
