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
	if n.IsUnsure() {
		s, _ := quantity.ShowEstimate(n.Estimate, n.Unit)
		return s
	}
	return quantity.Show(n.Estimate.Value, n.Unit, n.Step())
}

// IsUnsure reports whether the number is told with its uncertainty. One that is less than the last digit of what it comes from leaves open by itself (evenly over one step) is that of no
// tool, and only of the way between two points of a file: the number is told in the digits of its inputs.
func (n *Number) IsUnsure() bool { return n.Estimate.Expanded() > 0 && !n.isFinerThanRead() }

func (n *Number) isFinerThanRead() bool {
	expanded := n.Estimate.Expanded()
	same, _ := n.inputSteps()
	return expanded > 0 && !math.IsInf(same, 1) && expanded < same/math.Sqrt(3)
}

// figure is the number as a figure in its unit, counted from its dead centre where it has one.
func (n *Number) figure() quantity.Quantity {
	q := quantity.Quantity{Kind: quantity.Figure, Unit: n.Unit, Value: n.Unit.FromSI(n.Estimate.Value), Event: n.Event}
	if n.Event != quantity.NoEvent {
		q.Step = n.Unit.StepFromSI(n.Step(), q.Value)
		if expanded := n.Estimate.Expanded(); n.IsUnsure() {
			q.Step = quantity.TwoFigures(n.Unit.StepFromSI(expanded, q.Value))
		}
	}
	return q
}

// Step is how fine, in SI, a number without an uncertainty is told: as fine as the finest input of its dimension, or a digit finer where that would round it away: the mean
// of 107° and 110° is 108.5°, and 0.1 mm is 0.05 from 0.15. Without such an input it is told in the proportion of its most precise one. It is never told finer than makes sense of it.
func (n *Number) Step() float64 { return max(n.coarse, n.fine()) }

func (n *Number) fine() float64 {
	same, share := n.inputSteps()
	switch {
	case !math.IsInf(same, 1):
		if n.step > 0 {
			same = min(same, n.step)
		}
		if in := math.Abs(n.Estimate.Value) / same; math.Abs(in-math.Round(in)) > 1e-6 && !n.isFinerThanRead() {
			same /= 10
		}
		return same
	case !math.IsInf(share, 1):
		return share * math.Abs(n.Estimate.Value)
	}
	return n.step
}

// inputSteps returns the finest step of an input of the number's dimension, in SI, and the least share of itself that any input is told in; infinite where there is none.
func (n *Number) inputSteps() (same, share float64) {
	same, share = math.Inf(1), math.Inf(1)
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
	return same, share
}
