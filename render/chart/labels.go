package chart

import (
	"cmp"
	"slices"
)

// beside is a label that wants to stand at a place along a line, and where it came to stand.
type beside struct {
	text  string
	class markup
	want  float64 // its middle
	at    float64
	size  float64 // that it takes along the line
}

// spread moves labels along a line as little as keeps them from meeting, between two ends, in the order of where they want to be. What doesn't
// fit is dropped from the end of the list, so the labels that matter come first.
func spread(list []beside, lo, hi float64) []beside {
	for room(list) > hi-lo && len(list) > 0 {
		list = list[:len(list)-1]
	}
	slices.SortStableFunc(list, func(a, b beside) int { return cmp.Compare(a.want, b.want) })
	edge := lo
	for i := range list {
		l := &list[i]
		l.at = max(l.want, edge+l.size/2)
		edge = l.at + l.size/2
	}
	edge = hi
	for i := len(list) - 1; i >= 0; i-- {
		l := &list[i]
		l.at = min(l.at, edge-l.size/2)
		edge = l.at - l.size/2
	}
	return list
}

func room(list []beside) float64 {
	sum := 0.0
	for _, l := range list {
		sum += l.size
	}
	return sum
}

// row finds the row for a label whose line comes down from the axis at its left end. Labels come from right to left; starts holds the left end of the last
// label of each row. A label must end before those in its row, and before the lines down to those in lower rows. Where most rows are taken there
// is none: −1.
func row(starts []float64, from, to float64, most int) (int, []float64) {
	for k := range starts {
		if to <= slices.Min(starts[k:]) {
			starts[k] = from
			return k, starts
		}
	}
	if len(starts) == most {
		return -1, starts
	}
	return len(starts), append(starts, from)
}
