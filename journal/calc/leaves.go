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

// LeavesWithin returns which leaves prove that a gap lies within its limit: goes is the thinnest that is no thinner than low, and stops the thickest
// that is no thicker than high. Where the one goes and the other drags or does not go, the gap is neither too small nor too wide. Each is -1 where
// no leaf will do. All in one unit.
//
// Method: what a leaf that goes, or does not, says of a gap; common practice, no source.
func LeavesWithin(leaves []float64, low, high float64) (goes, stops int) {
	goes, stops = -1, -1
	for i, leaf := range leaves {
		if quantity.Compare(leaf, low, 0) >= 0 && quantity.Compare(leaf, high, 0) <= 0 {
			if goes < 0 || leaf < leaves[goes] {
				goes = i
			}
			if stops < 0 || leaf > leaves[stops] {
				stops = i
			}
		}
	}
	return goes, stops
}
