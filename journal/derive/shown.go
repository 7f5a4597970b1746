package derive

import (
	"math"

	"example.org/locknut/journal/quantity"
)

// Shown is the number without its uncertainty: to the place that the uncertainty leaves, else as fine as its inputs allow.
func (n *Number) Shown() quantity.Shown {
	if n.Event != quantity.NoEvent {
		return n.figure().Shown()
	}
	if n.Estimate.Expanded() > 0 {
		s, _ := quantity.ShowEstimate(n.Estimate, n.Unit)
		return s
	}
	return quantity.Show(n.Estimate.Value, n.Unit, n.Step())
}

// figure is the number as a figure in its unit, counted from its dead centre where it has one.
func (n *Number) figure() quantity.Quantity {
	q := quantity.Quantity{Kind: quantity.Figure, Unit: n.Unit, Value: n.Unit.FromSI(n.Estimate.Value), Event: n.Event}
	if n.Event != quantity.NoEvent {
		q.Step = n.Unit.StepFromSI(n.Step(), q.Value)
		if expanded := n.Estimate.Expanded(); expanded > 0 {
			q.Step = quantity.TwoFigures(n.Unit.StepFromSI(expanded, q.Value))
		}
	}
	return q
}

// Step is how fine, in SI, a number without an uncertainty is told: as fine as the finest input of its dimension, or a digit finer where that would round it away: the mean
// of 107° and 110° is 108.5°, and 0.1 mm is 0.05 from 0.15. Without such an input it is told in the proportion of its most precise one. It is never told finer than makes sense of it.
func (n *Number) Step() float64 { return max(n.coarse, n.fine()) }

func (n *Number) fine() float64 {
	same, share := math.Inf(1), math.Inf(1)
	for _, in := range n.Inputs {
		step, si, d := 0.0, 0.0, quantity.Unknown
		switch {
		case in.Number != nil:
			step, si, d = in.Number.Step(), in.Number.Estimate.Value, in.Number.Estimate.Dimension
		case in.Value.Quantity.Unit != nil:
			step, si, d = in.Value.Quantity.StepSI(), in.Value.Estimate.Value, in.Value.Quantity.Unit.Dimension
		}
		if !(step > 0) {
			continue
		}
		if d == n.Estimate.Dimension {
			same = min(same, step)
		}
		if si != 0 {
			share = min(share, step/math.Abs(si))
		}
	}
	switch {
	case !math.IsInf(same, 1):
		if n.step > 0 {
			same = min(same, n.step)
		}
		if in := math.Abs(n.Estimate.Value) / same; math.Abs(in-math.Round(in)) > 1e-6 {
			same /= 10
		}
		return same
	case !math.IsInf(share, 1):
		return share * math.Abs(n.Estimate.Value)
	}
	return n.step
}
