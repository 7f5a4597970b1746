package derive

import (
	"math"
	"strconv"
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
		n.Reason = m.lacks(needs)
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

// turnWords says which way to turn, for a positive angle that closes the gap, and how far by what can be seen on a shaft: the minutes of a clock's face, and the
// flats of a hexagon, from half a flat on.
func turnWords(angle float64) string {
	way := "close the gap"
	if angle < 0 {
		way, angle = "open the gap", -angle
	}
	const minute, quarterFlat = 2 * math.Pi / 60, 2 * math.Pi / 24
	minutes, quarters := int(math.Round(angle/minute)), int(math.Round(angle/quarterFlat))
	switch {
	case angle < 1e-9:
		return "leave it"
	case minutes == 0:
		return way + " by less than a minute of a clock’s face"
	case minutes > 60*maxTurns:
		return way
	}
	if angle < 2*quarterFlat-1e-9 { // a quarter of a flat is off by up to half as much
		return way + " by " + clockwork(minutes)
	}
	return way + " by " + clockwork(minutes) + ", or " + flats(quarters)
}

// maxTurns is more turns than any adjuster has. Common practice, no source.
const maxTurns = 20

func clockwork(minutes int) string {
	turns, rest := minutes/60, minutes%60
	switch text := quantity.Counted(rest, "minute") + " of a clock’s face"; {
	case turns == 0:
		return text
	case rest == 0:
		return quantity.Counted(turns, "turn")
	default:
		return quantity.Counted(turns, "turn") + " and " + text
	}
}

func flats(quarters int) string {
	text := []string{"", "¼", "½", "¾"}[quarters%4]
	if quarters >= 4 {
		text = strconv.Itoa(quarters/4) + text
	}
	if quarters <= 4 {
		return text + " flat of a hexagon"
	}
	return text + " flats of a hexagon"
}
