package derive

import (
	"math"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// adjusterTurn works out how far to turn each valve's screw adjuster to bring its lash to nominal.
func adjusterTurn(m *Moment) {
	adjuster := m.stated("engine").Table("adjuster")
	if adjuster.Text("kind").Text != "screw" {
		return
	}
	for _, at := range m.lashes() {
		n := &Number{Path: "adjust." + at.below, Title: "turn of the adjuster, " + at.title(), Formula: "θ = 2π · (lash − " + at.aim + ") / p", Inputs: []Input{{Symbol: "lash", Value: at.value}}}
		pitch := m.value("engine.adjuster.pitch")
		needs := []string{}
		if pitch == nil {
			needs = append(needs, "engine.adjuster.pitch")
		} else {
			n.Inputs = append(n.Inputs, Input{Symbol: "p", Value: pitch})
		}
		ratioPath := "engine.rocker-ratio." + at.side()
		switch end := adjuster.Text("at").Text; {
		case end == "cam" && m.value(ratioPath) == nil:
			needs = append(needs, ratioPath)
		case end == "cam":
			n.Inputs = append(n.Inputs, Input{Symbol: "i", Value: m.value(ratioPath)})
			n.Formula += " · i"
			n.Formula = strings.Replace(n.Formula, "/ p · i", "/ (p · i)", 1)
		case end == "":
			needs = append(needs, "engine.adjuster.at")
		}
		n.Reason = lacks(needs)
		n.Estimate.Dimension = quantity.Angle
		if n.Reason == "" {
			n.carry(func(x []float64) (float64, error) {
				ratio := 1.0
				if len(x) > 2 {
					ratio = x[2]
				}
				return calc.AdjusterTurn(at.off(x[0]), x[1], ratio)
			}, quantity.Angle)
			n.Words = turnWords(n.Estimate.Value)
		}
		n.Unit = quantity.UnitOf("°", quantity.Angle)
		m.add(n)
	}
}

// turnWords says which way to turn, for a positive angle that closes the gap.
func turnWords(angle float64) string {
	switch {
	case math.Abs(angle) < 1e-9:
		return "leave it"
	case angle > 0:
		return "close the gap"
	}
	return "open the gap"
}
