package derive

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// squeezed are the paths that what is squeezed comes from.
var squeezed = []string{"engine.bore", "engine.stroke", "engine.rod", "engine.chamber", "engine.deck", "engine.gasket", "engine.dome", "engine.dish", "engine.rocker-ratio.intake", "cam.intake", "lash.intake", "port.exhaust"}

// trappedCompression works out the compression ratio from where the intake valve shuts, or the exhaust port of a two-stroke.
func trappedCompression(m *Moment) {
	static := m.worked("engine.compression-ratio")
	if static == nil {
		return
	}
	n := &Number{Path: "engine.trapped-compression", Title: "trapped compression ratio", Formula: "ε_t = 1 + (ε − 1) · x(θ) / S", Unit: quantity.UnitShown(":1"), Inputs: []Input{{Symbol: "ε", Number: static}}}
	n.Estimate.Dimension = quantity.Pure
	paths := []string{"cam.intake.closes"}
	if m.isTwoStroke() {
		paths = []string{"port.exhaust.closes", "port.exhaust.height"}
	}
	var closes *model.Value
	for _, path := range paths {
		if closes == nil {
			closes = m.value(path)
		}
	}
	n.Reason = m.unclear(append([]string{"engine.cycle"}, paths...)...)
	if closes == nil && n.Reason == "" {
		return
	}
	if closes != nil && n.Reason == "" {
		m.trapped(n, closes)
	}
	m.add(n)
}

// isTwoStroke reports whether the sheet says that the engine is one.
func (m *Moment) isTwoStroke() bool { return m.stated("engine").Text("cycle").Text == "two-stroke" }

// trapped works the trapped ratio out from what says where the last opening shuts: a valve's event, a port's, or a port's height.
func (m *Moment) trapped(n *Number, closes *model.Value) {
	inputs, missing := m.gather([2]string{"S", "engine.stroke"}, [2]string{"l", "engine.rod"})
	height := closes.Quantity.Unit.Dimension == quantity.Length
	n.Inputs = append(append(n.Inputs, Input{Symbol: "θ", Value: closes}), inputs...)
	if height {
		n.Inputs[1].Symbol, n.Formula = "h", "ε_t = 1 + (ε − 1) · (S − h) / S"
	}
	zero, known := closes.Quantity.Event.Centre()
	switch static := n.Inputs[0].Number; {
	case static.Reason != "":
		n.Reason = static.Reason
	case len(missing) > 0:
		n.Reason = m.lacks(missing)
	case closes.Quantity.IsOpenEnded():
		n.Reason = noMiddle
	case height:
		n.carry(func(x []float64) (float64, error) {
			opens, err := calc.PortOpens(x[2], x[3], x[1])
			if err != nil {
				return 0, err
			}
			return calc.TrappedCompression(x[0], x[2], x[3], opens)
		}, quantity.Pure)
		n.Words = "by the height of the port"
	case !known:
		n.Reason = uncounted(closes)
	case m.onSeat(n, closes, zero):
	default:
		n.carry(func(x []float64) (float64, error) { return calc.TrappedCompression(x[0], x[2], x[3], zero+x[1]) }, quantity.Pure)
		if closes.Path == "cam.intake.closes" {
			n.Words, n.AtMost = m.checked(closes)
			n.Told = m.lifts(closes)
		}
	}
}

// onSeat works the trapped ratio out from where the intake valve is on its seat, by the file of a degree wheel that its closing comes from: where the lift at the valve has fallen to the
// lash, of several valves to the mean of their lashes; with the lash in while it was read, where the dial shows nought. It reports whether that file says so, or may.
func (m *Moment) onSeat(n *Number, closes *model.Value, zero float64) bool {
	file := closes.Degreeing()
	if file == nil {
		return false
	}
	if n.Reason = m.unclear("lash.intake"); n.Reason != "" {
		return true
	}
	lashes := m.lashesOf("intake")
	if len(lashes) == 0 {
		return false
	}
	ratio := []Input{}
	if file.AtCam {
		ratio, _ = m.gather([2]string{"i", "engine.rocker-ratio.intake"})
		if len(ratio) == 0 {
			return false
		}
	}
	seat := func(x []float64) (float64, error) { // closes, then the ratio where it is needed, then the lashes
		later, err := file.SeatsLater(mean(x[1+len(ratio):]), x[1])
		return x[0] + later, err
	}
	from := append(slices.Concat([]Input{n.Inputs[1]}, ratio), lashes...)
	at, err := carried(seat, quantity.Angle, from)
	if err != nil {
		return false // the file ends before, or the lash is nothing
	}
	n.Inputs = append(slices.Clip(n.Inputs), from[1:]...)
	n.carry(func(x []float64) (float64, error) {
		angle, err := seat(append([]float64{x[1]}, x[4:]...))
		if err != nil {
			return 0, err
		}
		return calc.TrappedCompression(x[0], x[2], x[3], zero+angle)
	}, quantity.Pure)
	shown := quantity.Quantity{Kind: quantity.Figure, Unit: degrees(), Value: degrees().FromSI(at.Value), Step: 1, Event: closes.Quantity.Event}
	gap := mean(figures(lashes))
	n.Words = "on its seat at " + shown.Shown().String() + ", where `" + file.Name.Text + "` "
	switch {
	case file.LashIn() == 0:
		n.Words += "has fallen to the lash of " + gapWords(gap, lashes)
	case gap < file.LashIn()-sameLash: // the dial showed nothing of what has been closed since
		n.Words, n.AtMost = n.Words+"shows nought; with the lash of "+gapWords(gap, lashes)+", less than was in then, it seats later", true
	case gap > file.LashIn()+sameLash:
		n.Words += "shows what the lash of " + gapWords(gap, lashes) + " is more than was in then"
	default:
		n.Words += "shows nought with its lash in"
	}
	return true
}

// sameLash is what two lashes are one within, in m: half the step of a dial.
const sameLash = 5e-6

// gapWords shows a lash, of several valves their mean.
func gapWords(gap float64, lashes []Input) string {
	words := quantity.Show(gap, lashes[0].Value.Quantity.Unit, lashes[0].Value.Quantity.StepSI()).String()
	if len(lashes) > 1 {
		words += " in the mean"
	}
	return words
}

// lashesOf returns the lash in force at each valve of a side, or one that speaks for them all.
func (m *Moment) lashesOf(side string) []Input {
	var lashes []Input
	for _, position := range m.Journal.Positions.Below("lash." + side) {
		v := m.value(position)
		if v == nil || v.Quantity.Unit.Dimension != quantity.Length || v.Quantity.IsOpenEnded() || slices.ContainsFunc(lashes, func(in Input) bool { return in.Value == v }) {
			continue
		}
		lashes = append(lashes, Input{Symbol: "lash", Value: v})
	}
	return lashes
}

func figures(inputs []Input) []float64 {
	var all []float64
	for _, in := range inputs {
		all = append(all, in.of().Value)
	}
	return all
}

// checked says at which lift the intake counts as shut, and whether less may be trapped once it is on its seat.
func (m *Moment) checked(closes *model.Value) (words string, atMost bool) {
	at := m.Journal.CheckingLift(closes)
	if at == nil {
		return "the checking lift isn't given: on its seat less may be trapped", true
	}
	if at.Estimate.Value <= 0 {
		return "on its seat", false
	}
	return "shut at " + at.Quantity.Shown().String() + " of lift; on its seat less is trapped", true
}
