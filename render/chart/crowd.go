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

// mostDots is how many points are drawn at most where there are many, so that the two drawings of a page stay below 30 kB.
func (s Size) mostDots() int {
	if s == Wide {
		return 54
	}
	return 30
}

// uncrowded returns the points that can be told from each other: where there are many, only two of those of one kind that stand in one column, the one that reaches lowest and the one that
// reaches highest. Columns are as wide as that takes. The newest two, which have labels, stay.
func (h *history) uncrowded() []HistoryPoint {
	most := h.size.mostDots()
	if len(h.Points) <= most {
		return h.Points
	}
	h.isCrowd = true
	for wide := max(dotSize, 2*(h.right-h.left)/float64(most)); ; wide *= 1.2 {
		if points := h.extremesIn(wide); len(points) <= most || wide > h.width {
			return points
		}
	}
}

// extremesIn returns those two of each kind in each column of a width.
func (h *history) extremesIn(wide float64) []HistoryPoint {
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
		if x := h.x.at(p.At); x >= from+wide {
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
	var points []HistoryPoint
	for i, p := range h.Points {
		if kept[i] {
			points = append(points, p)
		}
	}
	return points
}
