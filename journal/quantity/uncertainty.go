package quantity

import (
	"cmp"
	"math"
	"slices"
)

// Share is what one cause does to a value: the change in SI that one standard deviation of the cause makes, with its sign. Causes are
// independent of each other; one cause in two values moves both together.
type Share struct {
	Cause   string
	Std     float64
	Freedom float64 // degrees of freedom of a deviation that was estimated from repeats; 0: it is known
}

// Estimate is a value with its uncertainty kept by cause, so that values which share a tool or an air stay tied when they meet again.
type Estimate struct {
	Value     float64 // in SI
	Dimension Dimension
	Shares    []Share // sorted by cause, one a cause
	Coverage  float64 // how many standard deviations make 95 %, where few repeats tell the scatter; 0: two
}

// Std returns the standard uncertainty in SI: the root of the sum of the squared shares.
func (e Estimate) Std() float64 {
	std := 0.0
	for _, s := range e.Shares {
		std = math.Hypot(std, s.Std)
	}
	return std
}

// Expanded returns the expanded uncertainty in SI: two standard deviations (k = 2), or as many more as few repeats ask for.
func (e Estimate) Expanded() float64 {
	if e.Coverage > 0 {
		return e.Coverage * e.Std()
	}
	return 2 * e.Std()
}

// Covariance returns the covariance of two estimates in SI, from the causes that they share.
func Covariance(a, b Estimate) float64 {
	sum := 0.0
	for i, j := 0, 0; i < len(a.Shares) && j < len(b.Shares); {
		switch cmp.Compare(a.Shares[i].Cause, b.Shares[j].Cause) {
		case -1:
			i++
		case 1:
			j++
		default:
			sum += a.Shares[i].Std * b.Shares[j].Std
			i++
			j++
		}
	}
	return sum
}

// Term is one input of a worked-out value: the value's partial derivative by it, both in SI, and the input.
type Term struct {
	Partial float64
	Of      Estimate
}

// Combine returns a worked-out value with the uncertainty that its inputs give it, by the first-order law of propagation (JCGM 100,
// GUM, 5.1 and 5.2): shares of one cause add with their signs, different causes in quadrature.
func Combine(value float64, dimension Dimension, terms ...Term) Estimate {
	var all []Share
	for _, t := range terms {
		for _, s := range t.Of.Shares {
			all = append(all, Share{s.Cause, t.Partial * s.Std, s.Freedom})
		}
	}
	slices.SortStableFunc(all, func(a, b Share) int { return cmp.Compare(a.Cause, b.Cause) })
	merged := all[:0]
	for _, s := range all {
		if n := len(merged); n > 0 && merged[n-1].Cause == s.Cause {
			merged[n-1].Std += s.Std
		} else {
			merged = append(merged, s)
		}
	}
	return Estimate{Value: value, Dimension: dimension, Shares: merged}
}

// Mean returns the mean of repeats and the standard deviation of that mean, s/√n (GUM 4.2.3). There must be a value; one alone says
// nothing of its scatter, and the deviation is 0: the caller has to know it from elsewhere.
//
// It sums what the values are from the first of them, and then, for what rounding leaves of that, from the mean: NIST's sets for such sums come out to what binary64 holds of their data.
func Mean(values []float64) (mean, std float64) {
	n := float64(len(values))
	for _, v := range values {
		mean += v - values[0]
	}
	mean = values[0] + mean/n
	squares, rest := 0.0, 0.0
	for _, v := range values {
		squares += (v - mean) * (v - mean)
		rest += v - mean
	}
	if n < 2 {
		return mean, 0
	}
	return mean + rest/n, math.Sqrt(max(0, squares-rest*rest/n) / (n - 1) / n)
}
