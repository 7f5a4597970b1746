package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// roadSpeed works out how fast each gear goes at the redline.
func roadSpeed(m *Moment) {
	redline := m.value("engine.redline")
	if redline == nil {
		return
	}
	for _, g := range m.gears() {
		ratio := m.worked("drive.ratio." + g.name)
		if ratio == nil {
			return
		}
		n := &Number{Path: "drive.speed." + g.name, Title: "speed at the redline, " + g.title(), Formula: "v = n · C / i", Inputs: []Input{{Symbol: "n", Value: redline}, {Symbol: "i", Number: ratio}}, Reason: ratio.Reason}
		n.Estimate.Dimension, n.coarse = quantity.Speed, quantity.UnitShown("km/h").SI(1) // a tyre squats, grows and slips by that
		if _, chosen := m.Journal.Units.Lead[quantity.Speed]; !chosen && m.Journal.Meter != nil && m.Journal.Meter.Symbol == "mi" {
			n.Unit = quantity.UnitShown("mph") // as the machine's own dial
		}
		around, why := m.circumference()
		switch {
		case n.Reason != "":
		case why != "":
			n.Reason = why
		default:
			n.Inputs = append(n.Inputs, around)
			n.carry(func(x []float64) (float64, error) { return calc.RoadSpeed(x[0], x[1], x[2]) }, quantity.Speed)
		}
		m.add(n)
	}
}
