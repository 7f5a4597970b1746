package derive

import (
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// carry works the number out by a function of its inputs, or keeps the reason why it can't be: figures that make no sense together.
func (n *Number) carry(f func([]float64) (float64, error), d quantity.Dimension) {
	n.by = f
	estimate, err := carried(f, d, n.Inputs)
	if err != nil {
		if n.Reason = err.Error(); err != uncarried {
			n.Fault = n.Reason
		}
		n.Estimate.Dimension = d
		return
	}
	n.Estimate = estimate
}

// carried works a function out at its inputs and carries their uncertainties through by the GUM's first-order rule (JCGM 100:2008, 5.1
// and 5.2), with the partial derivatives taken numerically over one standard deviation each way. An input without uncertainty adds none.
func carried(f func([]float64) (float64, error), d quantity.Dimension, inputs []Input) (quantity.Estimate, error) {
	of := make([]quantity.Estimate, len(inputs))
	for i, in := range inputs {
		of[i] = in.of()
	}
	return carriedAt(f, d, of)
}

// carriedAt does what carried does, at estimates.
func carriedAt(f func([]float64) (float64, error), d quantity.Dimension, inputs []quantity.Estimate) (quantity.Estimate, error) {
	at := make([]float64, len(inputs))
	for i, in := range inputs {
		at[i] = in.Value
	}
	y, err := f(at)
	if err != nil {
		return quantity.Estimate{}, err
	}
	var terms []quantity.Term
	for i, in := range inputs {
		std := in.Std()
		if std == 0 {
			continue
		}
		partial, err := slope(f, at, y, i, std)
		if err != nil {
			return quantity.Estimate{}, err
		}
		terms = append(terms, quantity.Term{Partial: partial, Of: in})
	}
	return calc.Covered(quantity.Combine(y, d, terms...)), nil
}

// slope is how much a function changes with one of its inputs, by a step each way; where it refuses one way, as a size must not go below nought, by the other alone. Y is its value
// at the inputs.
func slope(f func([]float64) (float64, error), at []float64, y float64, i int, step float64) (float64, error) {
	moved := slices.Clone(at)
	moved[i] = at[i] + step
	up, above := f(moved)
	moved[i] = at[i] - step
	down, below := f(moved)
	rise, run := up-down, 2*step
	switch {
	case above != nil && below != nil:
		return 0, uncarried
	case above != nil:
		rise, run = y-down, step
	case below != nil:
		rise, run = up-y, step
	}
	if math.IsNaN(rise) || math.IsInf(rise, 0) {
		return 0, uncarried
	}
	return rise / run, nil
}

// uncarried is why there is no figure where there is one for the inputs as they are, but none near them.
const uncarried = calc.Refusal("its uncertainty can't be carried through")

// widen adds to a number that was carried what a figure leaves open that nobody knows: from what the number is at its least to what it is at its most, between which all is equally likely (JCGM 100:2008, 4.3.7). What went
// well between the two must go well at either.
func (n *Number) widen(cause string, least, most func([]float64) (float64, error)) {
	d := n.Estimate.Dimension
	low, _ := carried(least, d, n.Inputs)
	high, _ := carried(most, d, n.Inputs)
	open := quantity.Estimate{Shares: []quantity.Share{{Cause: cause, Std: math.Abs(high.Value-low.Value) / 2 / math.Sqrt(3)}}}
	n.Estimate = calc.Covered(quantity.Combine(n.Estimate.Value, d, quantity.Term{Partial: 1, Of: n.Estimate}, quantity.Term{Partial: 1, Of: open}))
}
