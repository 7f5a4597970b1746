package chart

import (
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Gauge is a limit made ready for its strips in a unit: what all of them have in common is worked out once. A limit without a figure, in
// Nominal at least, gives no strip.
type Gauge struct {
	limit  Limit
	unit   *quantity.Unit
	bounds bounds
	lo, hi float64 // ends of the scale
	ok     bool    // it has one
	words  string  // what the limit says
	cell   []byte  // the bands of a strip in a cell
}

// NewGauge makes a limit ready. No unit, no strip.
func NewGauge(limit Limit, unit *quantity.Unit) *Gauge {
	g := &Gauge{limit: limit, unit: unit}
	if unit == nil {
		return g
	}
	g.bounds = limit.in(unit)
	if g.lo, g.hi, g.ok = g.bounds.scale(unit.StepFromSI(limit.Step, 1)); g.ok {
		g.words = limit.words(unit)
		s := newStrip(nil, StripData{Gauge: g}, Cell)
		s.bands()
		g.cell = s.out
	}
	return g
}

// StripData is a limit and the reading that it holds.
type StripData struct {
	About   string // what is read, for those who don't see the strip: a path
	Gauge   *Gauge
	Reading Reading // in force, or as set
	Found   Reading // before it was set, if it was
	Verdict model.Verdict
}

// stripShape are the measures of a strip in px.
type stripShape struct {
	width, height float64
	margin        float64 // beside the scale: where what lies beyond it points outward
	rule          float64 // height of the rule, from above
	band          float64 // height of the bands above it
	half, tall    float64 // of the pointer below it
	gap           float64 // between strokes of hatching
}

var stripShapes = [...]stripShape{
	Cell:   {width: 120, height: 18, margin: 7, rule: 9, band: 6, half: 3.6, tall: 7, gap: 3},
	Wide:   {width: 640, height: 92, margin: 16, rule: 54, band: 14, half: 7, tall: 13, gap: 5},
	Narrow: {width: 320, height: 92, margin: 14, rule: 54, band: 12, half: 6.5, tall: 12, gap: 5},
}

// strip is a limit strip while it is drawn.
type strip struct {
	pen
	stripShape
	StripData
	bounds
	scale axis
}

// Strip appends a limit strip. Its scale depends on the limit and the unit alone, so that two strips of one path compare; what lies
// beyond it is pinned to the end, pointing outward.
func Strip(dst []byte, data StripData, size Size) []byte {
	if data.Gauge == nil || !data.Gauge.ok {
		return dst
	}
	s := newStrip(dst, data, size)
	s.open("c-strip", size, s.width, s.height, s.says(), "")
	if size == Cell {
		s.out = append(s.out, data.Gauge.cell...)
	} else {
		s.bands()
	}
	s.readings()
	if size.isLarge() {
		s.figures()
	}
	s.shut()
	return s.out
}

func newStrip(dst []byte, data StripData, size Size) *strip {
	g := data.Gauge
	s := &strip{pen: pen{dst}, stripShape: stripShapes[size], StripData: data, bounds: g.bounds}
	s.scale = axis{g.lo, g.hi, s.margin, s.width - s.margin}
	return s
}

// scale returns the ends of the scale that a limit has: its figures, and beyond the outermost as much room as tells how far out a
// reading is. Where a side is open, standard runs on to the end of the scale.
func (b bounds) scale(step float64) (lo, hi float64, ok bool) {
	figures := b.figures()
	lo, hi, ok = span(figures, step)
	if !ok {
		return 0, 0, false
	}
	width := hi - lo
	single := len(figures) == 1
	if single {
		// One figure says no width of its own: its size is the measure, as it is for slips.
		lo, hi = figures[0], figures[0]
		if width = math.Abs(lo); width == 0 {
			width = max(20*step, 1)
		}
	}
	closed := width / 2
	if standard := b.high - b.low; standard > 0 {
		closed = max(standard/2, width/4)
	}
	room := func(bound, other float64) float64 {
		switch {
		case !math.IsNaN(bound) || math.IsNaN(other):
			return closed
		case single:
			return width
		}
		return 2 * width
	}
	lo, hi = lo-room(b.low, b.high), hi+room(b.high, b.low)
	return lo, hi, isDrawn(lo) && isDrawn(hi) && hi > lo
}

// bands draws the rule, the standard band with the notch of the nominal, and the service bands.
func (s *strip) bands() {
	top := s.rule - s.band
	s.serviceBand(s.serviceLow, s.low)
	s.serviceBand(s.high, s.serviceHigh)
	left, right := s.scale.from, s.scale.to
	openLow, openHigh := math.IsNaN(s.low), math.IsNaN(s.high)
	if !openLow {
		left = s.scale.at(s.low)
	}
	if !openHigh {
		right = s.scale.at(s.high)
	}
	if !openLow || !openHigh {
		if openLow {
			left = 0
		}
		if openHigh {
			right = s.width
		}
		s.standard(left, right, top)
	}
	ruleLeft, ruleRight := s.scale.from, s.scale.to
	if openLow && !openHigh {
		ruleLeft = 0
	}
	if openHigh && !openLow {
		ruleRight = s.width
	}
	s.begin("c-rule")
	s.step("M", ruleLeft, s.rule)
	s.step("H", ruleRight)
	for _, x := range []float64{s.scale.from, s.scale.to} {
		if x >= ruleLeft && x <= ruleRight && !(x == s.scale.from && ruleLeft == 0) && !(x == s.scale.to && ruleRight == s.width) {
			s.step("M", x, s.rule-s.band*0.6)
			s.step("V", s.rule+s.band*0.4)
		}
	}
	s.end()
	s.boundTicks("c-bound", s.low, s.high)
	s.boundTicks("c-bound-service", s.serviceLow, s.serviceHigh)
}

// standard draws the standard band, with a notch cut into it where the nominal is.
func (s *strip) standard(left, right, top float64) {
	notch, deep := s.scale.at(s.nominal), s.band*0.55
	s.begin("c-band")
	s.step("M", left, s.rule)
	s.step("V", top)
	if notch >= left && notch <= right {
		wide := deep * 0.7
		s.step("H", max(left, notch-wide))
		s.step("L", notch, top+deep)
		s.step("L", min(right, notch+wide), top)
	}
	s.step("H", right)
	s.step("V", s.rule)
	s.put("Z")
	s.end()
	if math.IsNaN(notch) || notch >= left && notch <= right {
		return
	}
	s.target(notch, top)
}

// target marks a nominal that no band surrounds.
func (s *strip) target(x, top float64) {
	deep := s.band * 0.7
	s.line("c-nominal", x-deep*0.6, s.rule-deep, x, s.rule, x+deep*0.6, s.rule-deep)
}

func (s *strip) serviceBand(from, to float64) {
	if from < to {
		s.hatch("c-service", s.scale.at(from), s.rule-s.band, s.scale.at(to), s.rule, s.gap)
	}
}

func (s *strip) boundTicks(class markup, at ...float64) {
	for _, x := range at {
		if !math.IsNaN(x) {
			s.line(class, s.scale.at(x), s.rule-s.band-1, s.scale.at(x), s.rule+1)
		}
	}
}

// readings draws the reading, the value as found, and the arrow from that to this.
func (s *strip) readings() {
	if math.IsNaN(s.low) && math.IsNaN(s.high) && !math.IsNaN(s.nominal) {
		s.target(s.scale.at(s.nominal), s.rule-s.band)
	}
	found, isFound := s.Found.drawnIn(s.Gauge.unit)
	reading, isRead := s.Reading.drawnIn(s.Gauge.unit)
	if isFound {
		s.mark(found, "c-found", model.NoLimit)
	}
	if isRead {
		s.mark(reading, verdictClass(s.Verdict), s.Verdict)
	}
	if isFound && isRead {
		s.arrow(found, reading)
	}
}

func verdictClass(v model.Verdict) markup {
	return [...]markup{model.NoLimit: "c-reading", model.In: "c-reading c-in", model.Worn: "c-reading c-worn", model.Undecided: "c-reading c-undecided", model.Out: "c-reading c-out"}[v]
}
