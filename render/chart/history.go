package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// HistoryData is what spoke for one path over time. Places along the axis are days, as Day gives them.
type HistoryData struct {
	About  string         // the path
	Unit   *quantity.Unit // of the readings
	Points []HistoryPoint
	Limits []LimitFrom // in the order of their places
	Fitted []Fitted
}

// HistoryPoint is one reading. Those at one place stand in the order in which they were taken.
type HistoryPoint struct {
	At      float64
	Reading Reading
	Found   bool // as found, and not as set
	Stale   bool // a part that was fitted since made it void
	Verdict model.Verdict
}

// LimitFrom is a limit that is in force from a place on, until the next. One without figures ends the one before it.
type LimitFrom struct {
	At    float64
	Limit Limit
}

// Fitted is a part that went in, or out, or whatever else happened, in words.
type Fitted struct {
	At    float64
	Label string
}

// history is a history while it is drawn.
type history struct {
	plot
	HistoryData
	marks   []fittedMark
	rows    int          // of labels of parts
	words   [][3]float64 // labels of points: left end, base line, width
	isCrowd bool         // more points than are drawn
}

// fittedMark is a mark along the axis, with the labels of all that happened there.
type fittedMark struct {
	at, x float64
	label string
	row   int
}

const (
	rowTall = 17 // from one line of labels to the next
	dotSize = 4  // radius of a point
)

// History appends the readings of a path over time with the limits that were in force. Without a reading there is nothing to draw.
func History(dst []byte, data HistoryData, size Size) []byte {
	h := history{plot: plot{pen: pen{dst}, size: size, width: 640, left: 46, right: 640 - 104}, HistoryData: data}
	if size != Wide {
		h.size, h.width, h.left, h.right = Narrow, 320, 42, 320-46
	}
	if data.Unit == nil || !h.sort() {
		return dst
	}
	h.scaleAlong()
	title := h.title()
	lines := wrap(title, h.width/1.12, 2)
	h.top = 20 + float64(len(lines))*rowTall
	h.bottom = h.top + 190
	if !h.scaleUp() {
		return dst
	}
	h.placeMarks()
	h.height = h.bottom + 40 + float64(h.rows)*rowTall
	if h.rows > 0 {
		h.height += 6
	}
	describes := h.describes()
	h.Points = h.uncrowded()
	h.open("c-history", h.size, h.width, h.height, title, describes)
	for i, line := range lines {
		h.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	h.limits()
	h.fittedMarks()
	h.axes()
	h.trace()
	h.points()
	h.shut()
	return h.out
}

// sort puts what can be drawn in order, and leaves out what can't; false if no reading is left.
func (h *history) sort() bool {
	out := func(at float64) bool { return !isDay(at) }
	hidden := func(p HistoryPoint) bool {
		_, ok := p.Reading.drawnIn(h.Unit)
		return !ok || out(p.At)
	}
	byPlace := func(a, b HistoryPoint) int { return cmp.Compare(a.At, b.At) }
	if slices.ContainsFunc(h.Points, hidden) || !slices.IsSortedFunc(h.Points, byPlace) { // else they can stay the caller's
		h.Points = slices.DeleteFunc(slices.Clone(h.Points), hidden)
		slices.SortStableFunc(h.Points, byPlace)
	}
	h.Limits = slices.DeleteFunc(slices.Clone(h.Limits), func(l LimitFrom) bool { return math.IsNaN(l.At) })
	h.Fitted = slices.DeleteFunc(slices.Clone(h.Fitted), func(f Fitted) bool { return out(f.At) })
	slices.SortStableFunc(h.Limits, func(a, b LimitFrom) int { return cmp.Compare(a.At, b.At) })
	slices.SortStableFunc(h.Fitted, func(a, b Fitted) int { return cmp.Compare(a.At, b.At) })
	return len(h.Points) > 0
}

func (h *history) scaleAlong() {
	places := make([]float64, 0, len(h.Points)+len(h.Fitted))
	for _, p := range h.Points {
		places = append(places, p.At)
	}
	for _, f := range h.Fitted {
		places = append(places, f.At)
	}
	lo, hi, ok := span(places, 5)
	if !ok {
		lo, hi = 0, 1
	}
	edge := (hi - lo) * 0.04
	h.x = axis{lo - edge, hi + edge, h.left, h.right}
}

// scaleUp makes the scale of the readings: all of them and the limits, but nothing farther from the limits than thrice their width, so
// that one slip doesn't squash the rest.
func (h *history) scaleUp() bool {
	var bounds []float64
	figures := make([]float64, 0, 2*len(h.Points)+8)
	step := 0.0
	for _, l := range h.Limits {
		if l.At < h.x.hi {
			bounds = append(bounds, l.Limit.in(h.Unit).figures()...)
			step = max(step, h.Unit.StepFromSI(l.Limit.Step, 1))
		}
	}
	for _, p := range h.Points {
		d, _ := p.Reading.drawnIn(h.Unit)
		figures = append(figures, d.low-d.spread, d.high+d.spread)
	}
	lo, hi, ok := span(append(figures, bounds...), step)
	if blo, bhi, is := span(bounds, step); is && len(bounds) > 1 {
		lo, hi = max(lo, blo-3*(bhi-blo)), min(hi, bhi+3*(bhi-blo))
	}
	edge := (hi/2 - lo/2) * 0.16
	h.y = axis{lo - edge, hi + edge, h.bottom, h.top}
	return ok && isDrawn(h.y.lo) && isDrawn(h.y.hi) && h.y.lo < h.y.hi && h.x.lo < h.x.hi
}

// title says where the path stands.
func (h *history) title() string {
	text := ""
	if h.About != "" {
		text = h.About + ": "
	}
	last := h.Points[len(h.Points)-1]
	text += readingText(last.Reading, h.Unit)
	switch {
	case last.Stale:
		return text + ", stale since a part was fitted"
	case last.Verdict != model.NoLimit:
		text += verdictText(last.Verdict)
	}
	return text
}

// describes tells what the drawing shows besides.
func (h *history) describes() string {
	var b strings.Builder
	for i, p := range h.Points {
		if i > 0 {
			b.WriteString("; ")
		}
		b.WriteString(dateText(p.At) + " ")
		if p.Found {
			b.WriteString("found ")
		}
		b.WriteString(readingText(p.Reading, h.Unit) + verdictText(p.Verdict))
		if p.Stale {
			b.WriteString(", stale")
		}
		if i == 20 && len(h.Points) > 50 {
			b.WriteString("; and more, as in the table")
			break
		}
	}
	return b.String()
}

// limits draws each limit from where it came into force until the next did.
func (h *history) limits() {
	for i, l := range h.Limits {
		from, to := h.x.lo, h.x.hi
		if l.At > from {
			from = l.At
		}
		if i+1 < len(h.Limits) {
			to = min(to, h.Limits[i+1].At)
		}
		if from < to {
			h.band(l.Limit.in(h.Unit), h.x.at(from), h.x.at(to))
		}
	}
	h.limitLabels()
}

// limitLabels labels the limit in force at the end.
func (h *history) limitLabels() {
	if n := len(h.Limits); n > 0 && h.Limits[n-1].At < h.x.hi {
		h.boundLabels(h.Limits[n-1].Limit, h.Unit)
	}
}
