package chart

import (
	"math"

	"example.org/locknut/journal/model"
)

// kind is what the look of a point tells, its place aside.
type kind struct {
	verdict               model.Verdict
	found, stale, bracket bool
}

// extremes are the points of one kind that reach lowest and highest in their column, by index.
type extremes struct {
	low, high       float64
	lowest, highest int
}

// uncrowded returns the points that can be told from each other: where there are many more than have room side by side, only two of those of
// one kind that stand closer than a point is wide, the one that reaches lowest and the one that reaches highest. The newest two, which have
// labels, stay.
func (h *history) uncrowded() []HistoryPoint {
	columns := int((h.right - h.left) / dotSize)
	if len(h.Points) <= 2*columns {
		return h.Points
	}
	kept := make([]bool, len(h.Points))
	kept[len(kept)-2], kept[len(kept)-1] = true, true
	column := map[kind]extremes{}
	finish := func() {
		for _, e := range column {
			kept[e.lowest], kept[e.highest] = true, true
		}
		clear(column)
	}
	from := math.Inf(-1) // where the column begins
	for i, p := range h.Points {
		if x := h.x.at(p.At); x >= from+dotSize {
			finish()
			from = x
		}
		d, _ := p.Reading.drawnIn(h.Unit)
		low, high := d.low-d.spread, d.high+d.spread
		k := kind{p.Verdict, p.Found, p.Stale, d.isBracket()}
		e, seen := column[k]
		if !seen || low < e.low {
			e.low, e.lowest = low, i
		}
		if !seen || high > e.high {
			e.high, e.highest = high, i
		}
		column[k] = e
	}
	finish()
	points := make([]HistoryPoint, 0, 4*columns)
	for i, p := range h.Points {
		if kept[i] {
			points = append(points, p)
		}
	}
	return points
}
