package derive

import (
	"fmt"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// shimToFit works out the shim that brings each valve's lash to nominal from the one that is in.
func shimToFit(m *Moment) {
	adjuster := m.stated("engine").Table("adjuster")
	if adjuster.Text("kind").Text != "shim" {
		return
	}
	var sizes []float64
	if f := adjuster.Get("sizes"); f != nil {
		sizes = f.Sizes
	}
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
			n.Words = nearestShim(sizes, n, at, fitted)
		}
		m.add(n)
	}
}

// nearestShim says which size that can be bought comes nearest, and what lash it leaves.
func nearestShim(sizes []float64, n *Number, at lash, fitted *model.Value) string {
	if len(sizes) == 0 {
		return ""
	}
	best := sizes[0]
	for _, size := range sizes {
		if distance(size, n.Estimate.Value) < distance(best, n.Estimate.Value) {
			best = size
		}
	}
	left := at.value.Estimate.Value + fitted.Estimate.Value - best
	step := min(at.value.Quantity.StepSI(), fitted.Quantity.StepSI())
	return fmt.Sprintf("nearest size %s, which leaves %s", quantity.Show(best, n.Unit, fitted.Quantity.StepSI()), quantity.Show(left, at.value.Quantity.Unit, step))
}

func distance(a, b float64) float64 { return max(a-b, b-a) }
