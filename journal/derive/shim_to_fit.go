package derive

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// shimToFit works out the shim that brings each valve's lash to nominal from the one that is in, and where the set that the valves need is to come from.
func shimToFit(m *Moment) {
	if m.stated("engine").Table("adjuster").Text("kind").Text != "shim" {
		return
	}
	bySide := map[string][]shimmed{} // that share their shims: all, or those of a side
	for _, at := range m.lashes() {
		n := &Number{Path: "shim-to-fit." + at.below, Title: "shim to fit, " + at.title(), Formula: "new = fitted + (lash − " + at.aim + ")", Inputs: []Input{{Symbol: "lash", Value: at.value}}}
		n.Estimate.Dimension = quantity.Length
		fitted := m.value("shim." + at.below)
		known := m.Journal.ShimsAt("."+at.below, at.value, m.Entry)
		if known.Changed != nil && known.Then != nil && m.Entry != nil && at.value.Entry == m.Entry {
			fitted, known.Changed = known.Then, nil // the entry that measured and then changed the shim: what it went by
			n.Title += ", as found"
		}
		switch {
		case known.Unwritten:
			n.Reason = "the lash was set anew, and no shim written: write the one that is in"
		case known.Changed != nil:
			n.Reason = shimChanged
		case fitted == nil:
			n.Reason = m.lacks([]string{"shim." + at.below})
		case m.Journal.IsFarShim(fitted):
			n.Reason = fitted.Path + " is no thickness that such shims have"
		}
		if n.Reason == "" {
			n.Inputs = append(n.Inputs, Input{Symbol: "fitted", Value: fitted})
			n.carry(func(x []float64) (float64, error) { return calc.ShimToFit(x[1], x[0], at.target) }, quantity.Length)
		}
		if n.Reason == "" {
			n.Unit = fitted.Quantity.Unit
		}
		if m.add(n); n.Reason == "" {
			side := ""
			if m.Journal.ShimStore(at.side()).Own {
				side = at.side()
			}
			bySide[side] = append(bySide[side], shimmedValve(at, fitted, n))
		}
	}
	for side, valves := range bySide {
		m.shareShimsOut(valves, side)
	}
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

// shareShimsOut says of each valve where its shim comes from. While all are within their limits, all stay. The valves are those of a side, or, where shims fit either, of the engine.
func (m *Moment) shareShimsOut(valves []shimmed, side string) {
	store, sizes := m.Journal.ShimStore(side), []float64(nil)
	if store.Sizes != nil {
		sizes = store.Sizes.Sizes
	}
	if !slices.ContainsFunc(valves, func(v shimmed) bool { return !v.InLimits(v.Lash) }) {
		for _, v := range valves {
			if v.number.Words = v.stays(); v.Lash != v.Target {
				v.number.Words = "the lash is within its limits: " + v.stays() + v.nearest(sizes)
			}
		}
		return
	}
	if store.Unread {
		return // which shims there are can't be read
	}
	stock, drawer := m.stocked(store, valves[0].side())
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
			v.number.Words = v.stays()
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

// stays says that a valve keeps the shim that is in.
func (v shimmed) stays() string {
	return "the " + v.fitted.Quantity.Shown().String() + " that is in stays"
}

// stocked returns the shims in the drawer, in m and as they are written, but for those that can be none.
func (m *Moment) stocked(store model.ShimStore, side string) (thick []float64, written []quantity.Quantity) {
	for _, q := range model.PiecesOf(store.Stock) {
		if !m.Journal.ShimRange(side).IsFar(q.SI()) {
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
	return "; " + v.thick(best) + " would leave " + v.gap(v.With(best))
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
