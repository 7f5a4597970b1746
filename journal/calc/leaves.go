package calc

import (
	"math"

	"example.org/locknut/journal/quantity"
)

// DecidingLeaves returns the leaf, or the stack of two, that lies between the ends of a bracket and closest to a bound: the one to try next. A
// single leaf is taken before a stack that is no closer. It returns none where nothing of the builder's lies between the ends. All in one unit; an
// end that the bracket lacks is infinite.
//
// Method: every leaf and every pair is tried; a set of feeler leaves has a few dozen.
func DecidingLeaves(leaves []float64, low, high, bound float64) []float64 {
	var best []float64
	nearest := math.Inf(1)
	try := func(stack ...float64) {
		thick := 0.0
		for _, leaf := range stack {
			thick += leaf
		}
		apart := math.Abs(thick - bound)
		if quantity.Compare(thick, low, 0) <= 0 || quantity.Compare(thick, high, 0) >= 0 || quantity.Compare(apart, nearest, bound) >= 0 {
			return
		}
		best, nearest = append([]float64(nil), stack...), apart
	}
	for _, leaf := range leaves {
		try(leaf)
	}
	for i, leaf := range leaves {
		for _, other := range leaves[i+1:] {
			try(leaf, other)
		}
	}
	return best
}
