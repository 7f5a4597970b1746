package calc

import (
	"math"
	"slices"
)

// Steady is the mean and the spread of a quantity of which each figure counts for as long as it was seen. The zero value has seen nothing.
//
// Source of the method: D. H. D. West, Updating mean and variance estimates, Communications of the ACM 22 (1979), from memory; figures that lie far from nought lose no digits by it.
type Steady struct {
	Seen    float64 // sum of the weights: s, or rows
	mean    float64
	squares float64 // of the distances from the mean, weighted
}

// Add takes in a figure with its weight, which is more than zero.
func (s *Steady) Add(x, weight float64) {
	s.Seen += weight
	off := x - s.mean
	s.mean += off * weight / s.Seen
	s.squares += weight * off * (x - s.mean)
}

// Mean returns the weighted mean, 0 of nothing seen.
func (s *Steady) Mean() float64 { return s.mean }

// Deviation returns the standard deviation about the mean, each figure weighted: of what was seen, not of a sample. 0 of nothing seen.
func (s *Steady) Deviation() float64 {
	if !(s.Seen > 0) {
		return 0
	}
	return math.Sqrt(max(s.squares/s.Seen, 0))
}

// NearestBreakpoint returns which breakpoint a figure is nearest to, of breakpoints that rise; of two as near the upper. Outermost squares reach as far outwards as inwards; beyond that, or
// with no breakpoint, it is false. A single breakpoint takes everything.
func NearestBreakpoint(breakpoints []float64, x float64) (int, bool) {
	last := len(breakpoints) - 1
	switch {
	case last < 0 || math.IsNaN(x):
		return 0, false
	case last == 0:
		return 0, true
	case x < breakpoints[0]-(breakpoints[1]-breakpoints[0])/2, x > breakpoints[last]+(breakpoints[last]-breakpoints[last-1])/2:
		return 0, false
	}
	above, _ := slices.BinarySearch(breakpoints, x)
	if above == 0 {
		return 0, true
	}
	if above > last {
		return last, true
	}
	low, high := x-breakpoints[above-1], breakpoints[above]-x
	if low < high-1e-9*(low+high) {
		return above - 1, true
	}
	return above, true
}

// SpanOfBreakpoint returns from where to where figures are nearest to a breakpoint, of several that rise: that is the square that [NearestBreakpoint] finds. False of a single one, which
// takes everything, and of one that isn't there.
func SpanOfBreakpoint(breakpoints []float64, i int) (from, to float64, ok bool) {
	last := len(breakpoints) - 1
	if last < 1 || i < 0 || i > last {
		return 0, 0, false
	}
	below, above := breakpoints[max(i, 1)]-breakpoints[max(i, 1)-1], breakpoints[min(i, last-1)+1]-breakpoints[min(i, last-1)]
	return breakpoints[i] - below/2, breakpoints[i] + above/2, true
}

// Trace is the course of a quantity, kept in few figures however long it is: its time is parted into stretches, of which the least and the greatest figure are kept. When the stretches become
// too many, two neighbours become one. No peak is lost. The zero value is ready.
type Trace struct {
	Stretches []Stretch
	width     float64 // of a stretch, in the time's unit; 0: a figure each
}

// Stretch is a stretch of a trace: when it begins, and its least and greatest figure.
type Stretch struct{ Begin, Least, Greatest float64 }

// MostStretches is how many stretches a trace has at most: as many as a chart can tell apart.
const MostStretches = 512

// Add takes in a figure and its time. Times must not fall.
func (t *Trace) Add(time, x float64) {
	if n := len(t.Stretches); n > 0 && time-t.Stretches[n-1].Begin < t.width {
		s := &t.Stretches[n-1]
		s.Least, s.Greatest = min(s.Least, x), max(s.Greatest, x)
		return
	}
	if len(t.Stretches) == MostStretches {
		t.halve(time)
	}
	t.Stretches = append(t.Stretches, Stretch{time, x, x})
}

// halve makes stretches twice as wide, at least so wide that half as many hold the time so far.
func (t *Trace) halve(now float64) {
	t.width = max(2*t.width, 2*(now-t.Stretches[0].Begin)/MostStretches)
	kept := t.Stretches[:1]
	for _, s := range t.Stretches[1:] {
		last := &kept[len(kept)-1]
		if s.Begin-last.Begin < t.width {
			last.Least, last.Greatest = min(last.Least, s.Least), max(last.Greatest, s.Greatest)
			continue
		}
		kept = append(kept, s)
	}
	t.Stretches = kept
}
