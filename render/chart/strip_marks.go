package chart

import (
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// mark draws one reading below the rule. What it is never rests on its colour: in is solid, worn half filled, undecided an outline with
// a bar across, out solid and underlined; a value as found is a bare outline.
func (s *strip) mark(d drawn, class markup, verdict model.Verdict) {
	if d.isBracket() {
		s.bracket(d, class)
		return
	}
	x, off := s.scale.place(d.low)
	if off != 0 {
		s.pinned(off, class)
		return
	}
	if d.spread > 0 {
		s.whisker(class, d.low-d.spread, d.low+d.spread)
	}
	top, base := s.rule+1, s.rule+1+s.tall
	switch {
	case class == "c-found":
		s.shape(class+" c-outline", x, top+0.5, x+s.half, base, x-s.half, base)
	case verdict == model.Worn:
		s.shape(class, x, top, x, base, x-s.half, base)
		s.shape(class+" c-outline", x, top+0.5, x+s.half, base, x-s.half, base)
	case verdict == model.Undecided:
		s.shape(class+" c-outline", x, top+0.5, x+s.half, base, x-s.half, base)
		s.line(class+" c-stroke", x-s.half, base-s.tall/2, x+s.half, base-s.tall/2)
	default:
		s.shape(class, x, top, x+s.half, base, x-s.half, base)
	}
	if verdict == model.Out {
		s.line(class+" c-stroke", x-s.half-1, base+1, x+s.half+1, base+1)
	}
}

// level is the height of what lies level with the pointer's middle.
func (s *strip) level() float64 { return s.rule + 1 + s.tall*0.48 }

// pinned points at what lies beyond the scale.
func (s *strip) pinned(off int, class markup) {
	x, tip := s.scale.from+1, 1.0
	if off > 0 {
		x, tip = s.scale.to-1, s.width-1
	}
	y := s.level()
	outline := class
	if class == "c-found" || class == "c-reading c-undecided" {
		outline += " c-outline"
	}
	s.shape(outline, tip, y, x, y-s.half, x, y+s.half)
}

// whisker draws an uncertainty from one figure to another. An end beyond the scale has no cap.
func (s *strip) whisker(class markup, from, to float64) {
	x0, off0 := s.scale.place(from)
	x1, off1 := s.scale.place(to)
	y, tip := s.level(), s.tall*0.25
	s.begin(class + " c-stroke")
	s.step("M", x0, y)
	s.step("H", x1)
	for _, e := range []struct {
		x   float64
		off int
	}{{x0, off0}, {x1, off1}} {
		if e.off == 0 {
			s.step("M", e.x, y-tip)
			s.step("V", y+tip)
		}
	}
	s.end()
}

// bracket draws a bar with hollow ends, running off the scale on the side that has no figure.
func (s *strip) bracket(d drawn, class markup) {
	x0, off0 := s.scale.place(d.low)
	x1, off1 := s.scale.place(d.high)
	if off0 > 0 || off1 < 0 {
		s.pinned(off0+off1, class)
		return
	}
	y, r := s.level(), s.tall*0.3
	if off0 != 0 {
		x0 = 0
	} else {
		s.ring(class+" c-outline", x0, y, r)
		x0 += r
	}
	if off1 != 0 {
		x1 = s.width
	} else {
		s.ring(class+" c-outline", x1, y, r)
		x1 -= r
	}
	bar := class + " c-bar"
	if class == "c-reading c-undecided" || class == "c-found" {
		s.line(class+" c-stroke", x0, y-r*0.6, x1, y-r*0.6)
		s.line(class+" c-stroke", x0, y+r*0.6, x1, y+r*0.6)
		return
	}
	if x1 > x0 {
		s.box(bar, x0, y-r*0.6, x1, y+r*0.6)
	}
}

// arrow leads from the value as found to the value as set, where there is room for one between the two.
func (s *strip) arrow(found, set drawn) {
	from, _ := s.scale.place(found.middle())
	to, _ := s.scale.place(set.middle())
	way := 1.0
	if to < from {
		way = -1
	}
	from, to = from+way*(s.half+0.5), to-way*(s.half+0.5)
	head := s.half * 0.8
	if (to-from)*way < head+1 {
		return
	}
	y := s.rule + 1 + s.tall*0.9
	s.line("c-arrow", from, y, to, y)
	s.line("c-arrow", to-way*head, y-head*0.6, to, y, to-way*head, y+head*0.6)
}

// figures writes the figures of the bounds above a large strip, what the bands are above those, and the readings below.
func (s *strip) figures() {
	const names, numbers = 14, 34
	unit := quantity.Show(s.Gauge.unit.SI(1), s.Gauge.unit, s.Gauge.unit.StepSI(1, 1)).Unit
	s.label("c-unit", end, s.width, numbers, unit)
	right := s.width
	if unit != "" {
		right -= widthOf(unit) + 6
	}
	s.row("c-figure", numbers, right, s.boundLabels())
	s.row("c-name", names, s.width, s.bandNames())
	s.row("c-value", s.height-6, s.width, s.readingLabels())
}

func (s *strip) row(class markup, y, right float64, list []beside) {
	for _, l := range spread(list, 0, right) {
		c := class
		if l.class != "" {
			c = l.class
		}
		s.label(c, middle, l.at, y, l.text)
	}
}

func (s *strip) boundLabels() []beside {
	var list []beside
	for _, b := range []struct {
		at    float64
		class markup
	}{{s.low, ""}, {s.high, ""}, {s.serviceLow, "c-name"}, {s.serviceHigh, "c-name"}, {s.nominal, "c-name"}} {
		if !math.IsNaN(b.at) && !(b.at == s.nominal && (b.at == s.low || b.at == s.high) && b.class != "") {
			text := s.Gauge.limit.show(Bound{true, s.Gauge.unit.SI(b.at)}, s.Gauge.unit).Number
			list = append(list, beside{text: text, class: b.class, want: s.scale.at(b.at), size: widthOf(text) + 6})
		}
	}
	return list
}

// bandNames names the bands, and the nominal where there is no band.
func (s *strip) bandNames() []beside {
	var list []beside
	add := func(text string, at float64) {
		if !math.IsNaN(at) {
			list = append(list, beside{text: text, want: at, size: widthOf(text) + 8})
		}
	}
	edge := func(x, open float64) float64 {
		if math.IsNaN(x) {
			return open
		}
		return s.scale.at(x)
	}
	if math.IsNaN(s.low) && math.IsNaN(s.high) {
		add("target", s.scale.at(s.nominal))
	} else {
		add("standard", (edge(s.low, 0)+edge(s.high, s.width))/2)
	}
	add("service", (s.scale.at(s.serviceLow)+s.scale.at(s.low))/2)
	add("service", (s.scale.at(s.high)+s.scale.at(s.serviceHigh))/2)
	return list
}

func (s *strip) readingLabels() []beside {
	var list []beside
	add := func(r Reading, class markup, text string) {
		d, ok := r.drawnIn(s.Gauge.unit)
		if !ok {
			return
		}
		at, _ := s.scale.place(d.middle())
		list = append(list, beside{text: text, class: class, want: at, size: boldWidth(text) + 12})
	}
	text := readingText(s.Reading, s.Gauge.unit)
	if s.Found.Is {
		text = "set " + text
	}
	add(s.Reading, verdictLabel(s.Verdict), text+verdictText(s.Verdict))
	add(s.Found, "c-name", "found "+readingText(s.Found, s.Gauge.unit))
	return list
}

func verdictLabel(v model.Verdict) markup {
	return [...]markup{model.NoLimit: "c-value", model.In: "c-value", model.Worn: "c-value c-say-worn", model.Undecided: "c-value c-say-undecided", model.Out: "c-value c-say-out"}[v]
}

func verdictText(v model.Verdict) string {
	if v == model.NoLimit {
		return ""
	}
	return ", " + v.String()
}

// readingText is a reading as the page writes it, or if that isn't known, as its figures are.
func readingText(r Reading, u *quantity.Unit) string {
	if s := r.shown(); s.Number != "" {
		return s.Printed()
	}
	low, high := quantity.Show(r.Low, u, 0), quantity.Show(r.High, u, 0)
	switch {
	case r.Low == r.High:
		return low.Printed()
	case math.IsInf(r.Low, 0):
		return ".." + high.Printed()
	case math.IsInf(r.High, 0):
		low.Number += ".."
		return low.Printed()
	}
	return low.Number + ".." + high.Printed()
}

// says tells the strip to those who don't see it.
func (s *strip) says() string {
	text := ""
	if s.About != "" {
		text = s.About + ": "
	}
	if s.Reading.Is {
		if s.Found.Is {
			text += "set "
		}
		text += readingText(s.Reading, s.Gauge.unit) + verdictText(s.Verdict) + "; "
	}
	if s.Found.Is {
		text += "found " + readingText(s.Found, s.Gauge.unit) + "; "
	}
	return text + s.Gauge.words
}
