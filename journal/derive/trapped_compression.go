package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// squeezed are the paths that what is squeezed comes from.
var squeezed = []string{"engine.bore", "engine.stroke", "engine.rod", "engine.chamber", "engine.deck", "engine.gasket", "engine.dome", "engine.dish", "cam.intake.closes", "cam.intake.at", "port.exhaust.closes"}

// trappedCompression works out the compression ratio from where the intake valve shuts, or the exhaust port of a two-stroke.
func trappedCompression(m *Moment) {
	static := m.worked("engine.compression-ratio")
	twoStroke := m.stated("engine").Text("cycle").Text == "two-stroke"
	path := "cam.intake.closes"
	if twoStroke {
		path = "port.exhaust.closes"
	}
	closes := m.value(path)
	if static == nil || closes == nil {
		return
	}
	inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"l", "engine.rod"})
	n := &Number{Path: "engine.trapped-compression", Title: "trapped compression ratio", Formula: "ε_t = 1 + (ε − 1) · x(θ) / S", Unit: quantity.UnitShown(":1"),
		Inputs: append([]Input{{Symbol: "ε", Number: static}, {Symbol: "θ", Value: closes}}, inputs...)}
	n.Estimate.Dimension = quantity.Pure
	zero, known := closes.Quantity.Event.Centre()
	switch {
	case static.Reason != "":
		n.Reason = static.Reason
	case len(missing) > 0:
		n.Reason = lacks(missing)
	case !known:
		n.Reason = path + " doesn't say which dead centre it is counted from"
	default:
		n.carry(func(x []float64) (float64, error) { return calc.TrappedCompression(x[0], x[2], x[3], zero+x[1]) }, quantity.Pure)
		if !twoStroke {
			n.Words, n.Told = m.checked(closes), m.lifts(closes)
		}
	}
	m.add(n)
}

// checked says at which lift the intake counts as shut.
func (m *Moment) checked(closes *model.Value) string {
	at := m.Journal.CheckingLift(closes)
	if at == nil {
		return "the checking lift isn't given"
	}
	if at.Estimate.Value <= 0 {
		return "on its seat"
	}
	return "shut at " + at.Quantity.Shown().String() + " of lift; on its seat less is trapped"
}
