package calc

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"
)

// The sums are done by hand, in hundredths of a millimetre.
func TestDecidingLeaves(t *testing.T) {
	set := []float64{5, 6, 8, 10, 13, 15, 20}
	inf := 1e9
	for _, c := range []struct {
		low, high, bound float64
		want             []float64
	}{
		{8, 13, 10, []float64{10}},      // the bound itself
		{10, 13, 12, []float64{5, 6}},   // no 12: 11 by two leaves
		{13, 15, 14, []float64{6, 8}},   // 14 by two leaves
		{15, 20, 17, []float64{5, 13}},  // 18 by 5 and 13, and 16 by 6 and 10, are both one off: the first
		{5, 6, 5.5, nil},                // nothing between
		{20, inf, 25, []float64{5, 20}}, // 25 by two
		{-inf, 5, 4, nil},
	} {
		got := DecidingLeaves(set, c.low, c.high, c.bound)
		if !slices.Equal(got, c.want) {
			t.Errorf("between %v and %v for %v: %v, want %v", c.low, c.high, c.bound, got, c.want)
		}
	}
}

// All stacks of one and two out of random sets, in whole thousandths, sorted by how far off they are: whatever is picked must be as near as the
// nearest, and nothing is picked only where there is none.
func TestDecidingLeavesAgainstASecondMethod(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		var set []float64
		var whole []int
		for range 1 + r.IntN(9) {
			n := 20 + r.IntN(300)
			whole, set = append(whole, n), append(set, float64(n)/1000)
		}
		low := r.IntN(300)
		high := low + 1 + r.IntN(80)
		bound := low + r.IntN(high-low+1)
		var off []int
		for mask := 1; mask < 1<<len(whole); mask++ {
			if bits.OnesCount(uint(mask)) > 2 {
				continue
			}
			thick := 0
			for i, n := range whole {
				thick += n * (mask >> i & 1)
			}
			if thick > low && thick < high {
				off = append(off, max(thick-bound, bound-thick))
			}
		}
		picked := DecidingLeaves(set, float64(low)/1000, float64(high)/1000, float64(bound)/1000)
		sum := 0.0
		for _, leaf := range picked {
			sum += leaf
		}
		if len(off) == 0 != (len(picked) == 0) || len(off) > 0 && math.Abs(math.Abs(sum*1000-float64(bound))-float64(slices.Min(off))) > 1e-6 {
			t.Fatalf("of %v between %d and %d for %d: %v, off by %v", whole, low, high, bound, picked, off)
		}
	}
}

// For every whole thousandth that a gap may have, the pair says that it is within the limit only if it is; and there is no pair only where no leaf
// lies between the bounds.
func TestLeavesWithinAgainstASecondMethod(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		whole := make([]int, 1+r.IntN(9))
		set := make([]float64, len(whole))
		for i := range whole {
			whole[i] = 20 + r.IntN(300)
			set[i] = float64(whole[i]) / 1000
		}
		low := 20 + r.IntN(250)
		high := low + r.IntN(80)
		goes, stops := LeavesWithin(set, float64(low)/1000, float64(high)/1000)
		between := slices.ContainsFunc(whole, func(n int) bool { return low <= n && n <= high })
		if (goes >= 0) != between || (stops >= 0) != between {
			t.Fatalf("of %v from %d to %d: %d and %d", whole, low, high, goes, stops)
		}
		if !between {
			continue
		}
		for gap := range 400 {
			passes := gap >= whole[goes] && gap <= whole[stops] // the second at most drags
			if passes && (gap < low || gap > high) {
				t.Fatalf("of %v from %d to %d: %d passes by %d and %d", whole, low, high, gap, whole[goes], whole[stops])
			}
		}
		for i, n := range whole { // no other pair of leaves proves more
			if n >= low && n < whole[goes] || n <= high && n > whole[stops] {
				t.Fatalf("of %v from %d to %d: leaf %d is the better", whole, low, high, i)
			}
		}
	}
}
