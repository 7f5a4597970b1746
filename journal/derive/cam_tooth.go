package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// camTooth works out how many degrees of the crank a tooth of the cam sprocket is.
func camTooth(m *Moment) {
	if m.isTwoStroke() {
		return
	}
	teeth := m.value("engine.cam-sprocket")
	if teeth == nil {
		return
	}
	n := &Number{Path: "cam.tooth", Title: "a tooth of the cam sprocket, in degrees of the crank", Formula: "tooth = 720° / N", Inputs: []Input{{Symbol: "N", Value: teeth}}, Unit: degrees()}
	n.Estimate.Dimension = quantity.Angle
	if n.Reason = m.unclear("engine.cycle"); n.Reason == "" {
		n.carry(func(x []float64) (float64, error) { return calc.ToothAngle(x[0]) }, quantity.Angle)
	}
	m.add(n)
}
