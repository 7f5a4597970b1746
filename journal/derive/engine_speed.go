package derive

import (
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// engineSpeed works out how fast the engine turns in each gear at the road speed that the build sheet asks about.
func engineSpeed(m *Moment) {
	cruise := m.value("drive.cruise")
	if cruise == nil {
		return
	}
	for _, g := range m.gears() {
		ratio := m.worked("drive.ratio." + g.name)
		if ratio == nil {
			return
		}
		n := &Number{Path: "drive.rpm." + g.name, Title: "engine speed at " + cruise.Quantity.Shown().String() + ", " + g.title(), Formula: "n = v · i / C", Inputs: []Input{{Symbol: "v", Value: cruise}, {Symbol: "i", Number: ratio}}, Reason: ratio.Reason}
		n.Estimate.Dimension = quantity.Rotation
		around, why := m.circumference()
		switch {
		case n.Reason != "":
		case why != "":
			n.Reason = why
		default:
			n.Inputs = append(n.Inputs, around)
			n.carry(func(x []float64) (float64, error) { return calc.EngineSpeed(x[0], x[1], x[2]) }, quantity.Rotation)
			if redline := m.value("engine.redline"); redline != nil && quantity.Compare(n.Estimate.Value, redline.Estimate.Value, 0) > 0 {
				n.Words, n.Told = "beyond the redline", []*model.Value{redline}
			}
		}
		n.coarse = wholeRevs
		m.add(n)
	}
}

// wholeRevs is as fine as engine speeds are told, in rad/s: 10 rpm, which no rider reads closer. Common practice, no source.
const wholeRevs = 10 * 2 * math.Pi / 60
