package derive

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// shimToFit works out the shim that brings each valve's lash to nominal from the one that is in, and where the set that the valves need is to come from.
func shimToFit(m *Moment) {
	adjuster := m.stated("engine").Table("adjuster")
	if adjuster.Text("kind").Text != "shim" {
		return
	}
	var valves []shimmed
	for _, at := range m.lashes() {
		n := &Number{Path: "shim-to-fit." + at.below, Title: "shim to fit, " + at.title(), Formula: "new = fitted + (lash − " + at.aim + ")", Inputs: []Input{{Symbol: "lash", Value: at.value}}}
		n.Estimate.Dimension = quantity.Length
		fitted := m.value("shim." + at.below)
		then, changed := m.Journal.ShimsAt("."+at.below, at.value, m.Entry)
		if changed != nil && then != nil && m.Entry != nil && at.value.Entry == m.Entry {
			fitted, changed = then, nil // the entry that measured and then changed the shim: what it went by
			n.Title += ", as found"
		}
		switch {
		case changed != nil:
			n.Reason = shimChanged
		case fitted == nil:
			n.Reason = lacks([]string{"shim." + at.below})
		}
		if n.Reason == "" {
			n.Inputs = append(n.Inputs, Input{Symbol: "fitted", Value: fitted})
			n.carry(func(x []float64) (float64, error) { return calc.ShimToFit(x[1], x[0], at.target) }, quantity.Length)
		}
		if n.Reason == "" {
			n.Unit = fitted.Quantity.Unit
		}
		if m.add(n); n.Reason == "" {
			valves = append(valves, shimmedValve(at, fitted, n))
		}
	}
	shareShimsOut(valves, adjuster)
}

// shimmed is a valve whose shim is known.
type shimmed struct {
	lash
	fitted *model.Value
	number *Number
	calc.ShimmedValve
}

func shimmedValve(at lash, fitted *model.Value, n *Number) shimmed {
	return shimmed{lash: at, fitted: fitted, number: n, ShimmedValve: calc.ShimmedValve{
		Fitted: fitted.Estimate.Value, Lash: at.value.Estimate.Value, Low: at.low, High: at.high, Target: at.target,
	}}
}

// shareShimsOut says of each valve where its shim comes from. While all are within their limits, all stay.
func shareShimsOut(valves []shimmed, adjuster *parse.Fields) {
	var sizes []float64
	if f := adjuster.Get("sizes"); f != nil {
		sizes = f.Sizes
	}
	if !slices.ContainsFunc(valves, func(v shimmed) bool { return !v.InLimits(v.Lash) }) {
		for _, v := range valves {
			v.number.Words = "within its limits: it may stay"
			if v.number.Words += v.nearest(sizes); v.Lash == v.Target {
				v.number.Words = "it stays"
			}
		}
		return
	}
	if adjuster.IsBad("sizes", "stock") {
		return // which shims there are can't be read
	}
	stock, drawer := stocked(adjuster)
	all := make([]calc.ShimmedValve, len(valves))
	for i, v := range valves {
		all[i] = v.ShimmedValve
	}
	choices, err := calc.ShimSet(all, stock, sizes)
	if err != nil {
		for _, v := range valves {
			v.number.Words = "which shim goes where can't be worked out: " + err.Error()
		}
		return
	}
	for i, choice := range choices {
		v := valves[i]
		switch choice.From {
		case calc.NoShim:
			v.number.Words = "no shim that there is, or can be bought, brings it within its limits"
			v.number.Fault = v.number.Words
			continue
		case calc.ShimStays:
			v.number.Words = "it stays"
		case calc.ShimMoves:
			other := valves[choice.Of]
			v.number.Words = "the " + other.fitted.Quantity.Shown().String() + " of " + other.title()
		case calc.ShimStock:
			v.number.Words = "the " + drawer[choice.Of].Shown().String() + " of the stock"
		case calc.ShimBuy:
			v.number.Words = "buy " + v.thick(choice.Size)
		}
		v.number.Words += ", which leaves " + v.gap(choice.Lash)
	}
}

// stocked returns the shims in the drawer, in m and as they are written.
func stocked(adjuster *parse.Fields) (thick []float64, written []quantity.Quantity) {
	f := adjuster.Get("stock")
	if f == nil {
		return nil, nil
	}
	for _, piece := range f.Figures {
		if q, slip := piece.Resolve(f.Key.Want()); slip == nil {
			thick, written = append(thick, q.SI()), append(written, q)
		}
	}
	return thick, written
}

// nearest names the size that can be bought and comes nearest, where that is another than the shim that is in.
func (v shimmed) nearest(sizes []float64) string {
	if len(sizes) == 0 {
		return ""
	}
	best := slices.MinFunc(sizes, func(a, b float64) int {
		return quantity.Compare(distance(v.With(a), v.Target), distance(v.With(b), v.Target), v.Fitted)
	})
	if quantity.Compare(distance(v.With(best), v.Target), distance(v.Lash, v.Target), v.Fitted) >= 0 {
		return ""
	}
	return ", and " + v.thick(best) + " would leave " + v.gap(v.With(best))
}

// thick shows the thickness of a shim as finely as the one that is in was told.
func (v shimmed) thick(size float64) string {
	return quantity.Show(size, v.fitted.Quantity.Unit, v.fitted.Quantity.StepSI()).String()
}

// gap shows a lash as finely as lash and shim were told.
func (v shimmed) gap(lash float64) string {
	return quantity.Show(lash, v.value.Quantity.Unit, min(v.value.Quantity.StepSI(), v.fitted.Quantity.StepSI())).String()
}

func distance(a, b float64) float64 { return max(a-b, b-a) }
