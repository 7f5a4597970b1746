package chart

import (
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// axes draws the axis of the readings on the left and the axis of time below, with the units on their ends.
func (h *history) axes() {
	h.frame(h.Unit)
	most := 8
	if h.size == Narrow {
		most = 4
	}
	for _, t := range h.x.dateTicks(most) {
		x := h.x.at(t.at)
		h.line("c-axis", x, h.bottom, x, h.bottom+4)
		h.label("c-figure c-halo", middle, x, h.bottom+17, t.label)
		if t.year != "" {
			h.label("c-unit c-halo", middle, x, h.bottom+32, t.year)
		}
	}
}

// unitText is a unit as it stands on the end of an axis.
func unitText(u *quantity.Unit) string {
	return quantity.Show(u.SI(2), u, u.StepSI(1, 2)).Unit
}

// placeMarks gathers what happened at one place into one mark, and finds rows for the labels.
func (h *history) placeMarks() {
	for _, f := range h.Fitted {
		x := h.x.at(f.At)
		if n := len(h.marks); n > 0 && x-h.marks[n-1].x < 1 {
			h.marks[n-1].label += ", " + f.Label
			continue
		}
		h.marks = append(h.marks, fittedMark{at: f.At, x: x, label: f.Label})
	}
	starts := make([]float64, 0, 4) // of the leftmost label in each row
	for i := len(h.marks) - 1; i >= 0; i-- {
		if m := &h.marks[i]; !h.isFlipped(*m) {
			m.row, starts = row(starts, m.x, m.x+14+widthOf(cut(m.label, labelWide)), mostRows)
		}
	}
	for i := range h.marks {
		if m := &h.marks[i]; h.isFlipped(*m) {
			m.row = -1
			if len(starts) < mostRows {
				m.row, starts = len(starts), append(starts, m.x)
			}
		}
	}
	h.rows = len(starts)
}

const (
	labelWide = 150 // the most that the label of a mark may take
	mostRows  = 4
)

// isFlipped reports whether a mark stands so far to the right that its label goes to its left. Such labels go below all others.
func (h *history) isFlipped(m fittedMark) bool {
	return m.x+8+widthOf(cut(m.label, labelWide)) > h.width
}

// fittedMarks draws a line up through the plot at each part fitted, and its label below. Where too many stand too close the label is
// left to the title of the mark, and to the table.
func (h *history) fittedMarks() {
	for _, m := range h.marks {
		h.group(dateText(m.at) + ": " + m.label)
		foot := h.bottom
		if m.row >= 0 {
			foot += 46 + float64(m.row)*rowTall
		}
		h.line("c-mark", m.x, h.top, m.x, foot)
		h.shape("c-flag", m.x, h.bottom-7, m.x+4, h.bottom, m.x-4, h.bottom)
		if m.row >= 0 {
			text := cut(m.label, labelWide)
			if h.isFlipped(m) {
				h.label("c-name", end, m.x-5, foot+3, text)
			} else {
				h.label("c-name", start, m.x+5, foot+3, text)
			}
		}
		h.ungroup()
	}
}

// trace joins the figures in the order in which they were read. It breaks where the engine became another: between what is stale and what
// isn't.
func (h *history) trace() {
	joined := make([]float64, 0, 2*len(h.Points))
	finish := func() {
		if len(joined) > 2 {
			h.line("c-trace", joined...)
		}
		joined = joined[:0]
	}
	for i, p := range h.Points {
		d, _ := p.Reading.drawnIn(h.Unit)
		y, off := h.y.place(d.middle())
		if off != 0 || d.isBracket() {
			finish()
			continue
		}
		if i > 0 && h.Points[i-1].Stale != p.Stale {
			finish()
		}
		joined = append(joined, h.x.at(p.At), y)
	}
	finish()
}

// points draws the readings: hollow as found, filled as set, brackets as bars, what is stale in grey; and labels the last.
func (h *history) points() {
	for _, p := range h.Points {
		h.point(p)
	}
	last := len(h.Points) - 1
	found := ""
	if last > 0 && h.Points[last-1].Found && !h.Points[last].Found && h.Points[last-1].At == h.Points[last].At {
		found = "found "
	}
	is := ""
	switch {
	case found != "":
		is = "set "
	case h.Points[last].Found:
		is = "found "
	}
	h.pointLabel(h.Points[last], is)
	if found != "" && h.isApart(last-1, last) {
		p := h.Points[last-1]
		h.placeLabel(p, "c-name", found+numberOf(p.Reading, h.Unit))
	}
}

// isApart reports whether two points stand so far from each other that each can have its label.
func (h *history) isApart(i, k int) bool {
	_, a := h.spot(h.Points[i])
	_, b := h.spot(h.Points[k])
	return math.Abs(a-b) > 16
}

func numberOf(r Reading, u *quantity.Unit) string {
	if s := r.shown(); s.Number != "" {
		return s.Number
	}
	return readingText(r, u)
}

// pointLabel writes a point's reading beside it, after what it is.
func (h *history) pointLabel(p HistoryPoint, is string) {
	text := is + readingText(p.Reading, h.Unit)
	class := verdictLabel(p.Verdict)
	if p.Stale {
		class = "c-name"
	}
	h.placeLabel(p, class, text)
}

// placeLabel writes a label beside a point, where it covers the fewest of the points: to the left, above, below, or to the right.
func (h *history) placeLabel(p HistoryPoint, class markup, text string) {
	x, y := h.spot(p)
	wide := boldWidth(text)
	best, fewest := [2]float64{}, math.MaxInt
	for _, at := range [][2]float64{{x - 10 - wide, y + 4.5}, {x - wide + 8, y - 12}, {x - wide + 8, y + 21}, {x + 10, y + 4.5}, {x - 8, y - 12}, {x - 8, y + 21}} {
		if at[0] < h.left+2 || at[0]+wide > h.right+2 || at[1] > h.bottom-3 || at[1] < h.top+8 {
			continue
		}
		if n := h.covered(at[0], at[1], wide); n < fewest {
			best, fewest = at, n
		}
	}
	if fewest == math.MaxInt {
		best = [2]float64{max(0, x-10-wide), y + 4.5}
	}
	h.words = append(h.words, [3]float64{best[0], best[1], wide})
	h.label(class+" c-halo", start, best[0], best[1], text)
}

// spot is where a point is drawn.
func (h *history) spot(p HistoryPoint) (x, y float64) {
	d, _ := p.Reading.drawnIn(h.Unit)
	y, _ = h.y.place(d.middle())
	return h.x.at(p.At), y
}

// covered counts the points, and the labels before it, that a label would cover.
func (h *history) covered(left, base, wide float64) int {
	n := 0
	for _, p := range h.Points {
		if x, y := h.spot(p); x > left-6 && x < left+wide+6 && y > base-16 && y < base+9 {
			n++
		}
	}
	for _, w := range h.words {
		if w[0] < left+wide+4 && left < w[0]+w[2]+4 && math.Abs(w[1]-base) < 16 {
			n += 10
		}
	}
	return n
}

func (h *history) point(p HistoryPoint) {
	d, _ := p.Reading.drawnIn(h.Unit)
	class := verdictClass(p.Verdict)
	switch {
	case p.Stale:
		class = "c-stale"
	case p.Found && p.Verdict == model.NoLimit:
		class = "c-found"
	}
	x := h.x.at(p.At)
	if d.isBracket() {
		h.bracket(d, x, class)
		return
	}
	y, off := h.y.place(d.low)
	if off != 0 {
		tip := h.top - 1
		if off < 0 {
			tip = h.bottom + 1
		}
		base := tip + float64(off)*9
		h.shape(pointClass(class, p), x, tip, x+5, base, x-5, base)
		return
	}
	if d.spread > 0 {
		y0, _ := h.y.place(d.low - d.spread)
		y1, _ := h.y.place(d.low + d.spread)
		h.begin(class + " c-stroke")
		h.step("M", x, y0)
		h.step("V", y1)
		for _, y := range []float64{y0, y1} {
			if !h.isCrowd { // the ends of many would run into each other
				h.step("M", x-3, y)
				h.step("H", x+3)
			}
		}
		h.end()
	}
	h.ring(pointClass(class, p), x, y, dotSize)
	if p.Verdict == model.Out && !p.Stale {
		h.ring(class+" c-outline", x, y, dotSize+3)
	}
}

// pointClass is the class of a point: hollow as found. What shines through a hollow point is paper.
func pointClass(class markup, p HistoryPoint) markup {
	if p.Found {
		return class + " c-outline c-hollow"
	}
	return class
}

// bracket draws a bar between the ends, hollow where one is known and running out of the plot where none is.
func (h *history) bracket(d drawn, x float64, class markup) {
	y0, off0 := h.y.place(d.low)
	y1, off1 := h.y.place(d.high)
	const r = 3
	if off0 == 0 {
		h.ring(class+" c-outline", x, y0, r)
		y0 -= r
	}
	if off1 == 0 {
		h.ring(class+" c-outline", x, y1, r)
		y1 += r
	}
	if y1 < y0 {
		h.box(class+" c-bar", x-1.5, y1, x+1.5, y0)
	}
}
