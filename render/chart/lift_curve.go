package chart

import (
	"math"
	"strings"

	"example.org/locknut/journal/quantity"
)

// LiftData is the lift of the valves over the crank, as a degree wheel and a dial told it: as it is now, and as it was before.
type LiftData struct {
	Angle, Lift *quantity.Unit
	Now, Before Lobes
}

// Lobes are the measured lobes of both sides. The exhaust's events are counted as in [Valves], and so are the intake's.
type Lobes struct {
	Label           string // what cam it was; "before" where nothing says
	Exhaust, Intake Lobe
}

// Lobe is one measured lobe. What is worked out from it is the caller's: a lobe alone is drawn as a bare curve.
type Lobe struct {
	Points []LiftPoint // in any order; between two of them the drawing is straight
	Opening
	Peak Reading // in m
	At   Reading // the checking lift in m, at which it opens and closes
}

// lifts are lift curves while they are drawn.
type lifts struct {
	pen
	LiftData
	size          Size
	width, height float64
	left, right   float64
	top, bottom   float64
	x, y          axis
	lobes         []lobe
}

// lobe is one lobe in the units of the drawing: degrees of the crank, and the unit of lift.
type lobe struct {
	name   string // the side
	label  string // of the peak
	peak   string
	role   Role
	points []CurvePoint
	events stretch
	at     float64 // the checking lift; NaN for none
	atText string
}

const (
	liftTall  = 190 // of the plot
	farthest  = 720 // degrees that a wheel is read to
	mostLifts = 120 // points of one curve
)

// LiftCurves appends the lift of the valves over the crank angle. Without a lobe of two points there is nothing to draw.
func LiftCurves(dst []byte, data LiftData, size Size) []byte {
	l := lifts{pen: pen{dst}, LiftData: data, size: size, width: 640, left: 36, right: 640 - 108}
	if size != Wide {
		l.size, l.width, l.left, l.right = Narrow, 320, 30, 320-66
	}
	if data.Angle == nil || data.Angle.Dimension != quantity.Angle || data.Lift == nil || data.Lift.Dimension != quantity.Length {
		return dst
	}
	before := data.Before.Label
	if before == "" {
		before = "before"
	}
	l.add("exhaust", before, Baseline, data.Before.Exhaust, -180, 0)
	l.add("intake", before, Baseline, data.Before.Intake, 0, 180)
	l.add("exhaust", "exhaust", Current, data.Now.Exhaust, -180, 0)
	l.add("intake", "intake", Current, data.Now.Intake, 0, 180)
	if len(l.lobes) == 0 {
		return dst
	}
	title := l.title()
	lines := wrap(title, l.width/1.12, 4)
	l.top = 30 + float64(len(lines)+l.states())*rowTall
	l.bottom = l.top + liftTall
	if !l.scale() {
		return dst
	}
	l.height = l.bottom + 14 + float64(l.eventRows())*rowTall
	if l.note() != "" {
		l.height += rowTall
	}
	l.open("c-lift", l.size, l.width, l.height, title, l.describes())
	for i, line := range lines {
		l.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	l.axes()
	l.checking()
	for _, one := range l.lobes {
		l.curve(one)
	}
	l.peaks()
	l.events()
	if note := l.note(); note != "" {
		l.label("c-name", start, 0, l.height-4, cut(note, l.width))
	}
	l.shut()
	return l.out
}

// add takes a lobe in, if it has two points that can be drawn.
func (l *lifts) add(name, label string, role Role, from Lobe, opens, closes deadCentre) {
	points := make([]CurvePoint, 0, len(from.Points))
	for _, p := range from.Points {
		if at := degree().FromSI(p.Angle); math.Abs(at) <= farthest {
			points = append(points, CurvePoint{Speed: at, Value: l.Lift.FromSI(p.Lift)})
		}
	}
	if points = clean(points); len(points) < 2 {
		return
	}
	one := lobe{name: name, label: label, role: role, points: points, events: from.stretch(opens, closes, l.Angle), at: math.NaN()}
	if _, ok := from.Peak.drawnIn(l.Lift); ok {
		one.peak = readingText(from.Peak, l.Lift)
	}
	if at, ok := from.At.drawnIn(l.Lift); ok && !at.isBracket() {
		one.at, one.atText = at.middle(), readingText(from.At, l.Lift)
	}
	l.lobes = append(l.lobes, one)
}

// of are the lobes of a state.
func (l *lifts) of(role Role) []lobe {
	var some []lobe
	for _, one := range l.lobes {
		if one.role == role {
			some = append(some, one)
		}
	}
	return some
}

// states are how many of now and before are drawn.
func (l *lifts) states() int { return min(len(l.of(Baseline)), 1) + min(len(l.of(Current)), 1) }

func (l *lifts) eventRows() int {
	rows := 0
	for _, one := range l.lobes {
		if one.events.is() {
			rows++
		}
	}
	return rows
}

// main are the lobes that the drawing is about: those of now, or where there are none, of before.
func (l *lifts) main() []lobe {
	if now := l.of(Current); len(now) > 0 {
		return now
	}
	return l.of(Baseline)
}

// scale takes in all points and the checking lifts along and up, from no lift on.
func (l *lifts) scale() bool {
	var along []float64
	up := []float64{0}
	for _, one := range l.lobes {
		along = append(along, one.points[0].Speed, one.points[len(one.points)-1].Speed)
		along = append(along, one.events.figures()...)
		if isDrawn(one.at) {
			up = append(up, one.at)
		}
		for _, p := range one.points {
			up = append(up, p.Value)
		}
	}
	l.x = crankSpan(along, l.left, l.right)
	lo, hi, ok := span(up, 0)
	if l.y = (axis{lo, hi, l.bottom, l.top}); lo < 0 {
		l.y.lo -= (hi/2 - lo/2) * 0.04
	}
	return ok && isDrawn(l.y.lo) && l.y.lo < l.y.hi && l.x.lo < l.x.hi
}

// title says the peaks and the lobe centres.
func (l *lifts) title() string {
	var peaks, centres []string
	for _, one := range l.main() {
		if one.peak != "" {
			peaks = append(peaks, one.name+" "+one.peak)
		}
		if one.events.centre.is {
			centres = append(centres, one.name+" "+one.events.centre.text)
		}
	}
	title := "lift"
	switch {
	case len(peaks) > 0:
		title += ": " + strings.Join(peaks, ", ")
	case len(l.main()) == 1:
		title = l.main()[0].name + " " + title + " over the crank"
	default:
		title += " over the crank"
	}
	switch len(centres) {
	case 0:
	case 1:
		title += "; lobe centre: " + centres[0]
	default:
		title += "; lobe centres: " + strings.Join(centres, ", ")
	}
	return title
}

func (l *lifts) describes() string {
	var parts []string
	for _, one := range l.lobes {
		text := one.name
		if one.role == Baseline {
			text += ", " + one.label + ":"
		}
		if one.peak != "" {
			text += " peak " + one.peak
		}
		if words := one.events.words(); words != "" {
			text += " " + words
			if one.atText != "" {
				text += " at " + one.atText
			}
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// axes draws the grid of lifts, the scale of the crank below, and a line with its name at each dead centre.
func (l *lifts) axes() {
	at, step := l.y.ticks(4)
	for _, v := range at {
		y := l.y.at(v)
		l.line("c-grid", l.left, y, l.right, y)
		l.label("c-figure", end, l.left-6, y+4.5, tickLabel(v, step, l.Lift))
	}
	names := l.top - 6 - float64(l.states())*rowTall
	l.label("c-unit", start, 0, names, unitText(l.Lift))
	for _, c := range l.crankTicks(l.x, l.bottom, ticksApart(l.size)) {
		x := l.x.at(float64(c))
		l.line("c-grid", x, names+5, x, l.bottom)
		l.label("c-figure c-halo", middle, x, names, c.label())
	}
}

// checking draws the lift at which events are told: one line if it is one for all, else each as far as its own curve, with the figure on the right.
func (l *lifts) checking() {
	var list []beside
	main := l.main()
	isOne := true
	for _, one := range main {
		isOne = isOne && (one.atText == main[0].atText && one.at == main[0].at)
	}
	for i, one := range main {
		if math.IsNaN(one.at) || isOne && i > 0 {
			continue
		}
		y, from, to := l.y.at(one.at), l.x.at(one.points[0].Speed), l.x.at(one.points[len(one.points)-1].Speed)
		text := one.atText
		if isOne {
			from, to = l.left, l.right
		} else {
			text = one.name + " " + text
		}
		l.line("c-check", from, y, to, y)
		list = append(list, beside{text: text, want: y, size: 16 * float64(len(wrap(text, l.width-l.right-8, 2)))})
	}
	for _, b := range spread(list, l.top, l.bottom+8) {
		lines := wrap(b.text, l.width-l.right-8, 2)
		for i, line := range lines {
			l.label("c-figure", start, l.right+8, b.at+4.5-8*float64(len(lines)-1)+16*float64(i), line)
		}
	}
	if l.size == Wide && isOne && len(list) > 0 {
		l.label("c-name", start, l.right+8, l.y.at(main[0].at)-11, "checking lift")
	}
}

// curve draws a lobe: the line of its middle, the curve, and where that crosses the checking lift.
func (l *lifts) curve(one lobe) {
	class := one.role.class()
	points := thinned(one.points, mostLifts)
	top := peak(points)
	if c := one.events.centre; c.is && one.role == l.main()[0].role {
		l.line("c-aim", l.x.at(c.at), l.bottom, l.x.at(c.at), l.y.at(top.Value))
	}
	l.through(class+" c-run", field{l.x, l.y}, points)
	l.ring(class+" c-peak", l.x.at(top.Speed), l.y.at(top.Value), 2.6)
	if math.IsNaN(one.at) {
		return
	}
	y := l.y.at(one.at)
	for _, e := range []crankEvent{one.events.opens, one.events.closes} {
		if !e.is {
			continue
		}
		if one.role == l.main()[0].role {
			l.line("c-leader", l.x.at(e.at), y, l.x.at(e.at), l.bottom)
		}
		if e.from < e.to {
			l.whisker(l.x.at(e.from), l.x.at(e.to), y)
		}
		l.ring(class+" c-peak", l.x.at(e.at), y, 2.6)
	}
}

// peaks names each curve over its peak: those of now on one line, those of before on the next.
func (l *lifts) peaks() {
	y := l.top - 6
	for _, role := range []Role{Baseline, Current} {
		lobes := l.of(role)
		if len(lobes) == 0 {
			continue
		}
		class := markup("c-name c-halo")
		if role == Current {
			class = "c-value c-say-now c-halo"
		}
		for _, b := range spread(l.peakLabels(lobes), -4, l.width+4) {
			l.label(class, middle, b.at, y, b.text)
		}
		y -= rowTall
	}
}

// peakLabels are what the curves of a state are called, each with its peak; without the room for that, the peaks alone.
func (l *lifts) peakLabels(lobes []lobe) []beside {
	var list []beside
	for _, isLong := range []bool{true, false} {
		list = list[:0]
		for _, one := range lobes {
			text := one.peak
			if isLong || text == "" {
				text = strings.TrimSpace(one.label + " " + text)
			}
			text = cut(text, l.width/1.12)
			list = append(list, beside{text: text, want: l.x.at(peak(one.points).Speed), size: boldWidth(text) + 8})
		}
		if room(list) <= l.width+8 {
			break
		}
	}
	return list
}

// note says what the grey curves are, where that stands beside none of them.
func (l *lifts) note() string {
	before := l.of(Baseline)
	if len(before) == 0 || strings.HasPrefix(l.peakLabels(before)[0].text, cut(before[0].label, l.width/1.12)) {
		return ""
	}
	return "grey: " + before[0].label
}

// events writes the events of each curve below the scale, a line a curve.
func (l *lifts) events() {
	y := l.bottom + 23
	for _, name := range []string{"exhaust", "intake"} {
		for _, role := range []Role{Current, Baseline} {
			for _, one := range l.of(role) {
				if one.name != name || !one.events.is() {
					continue
				}
				class := markup("c-name")
				if role == Current {
					class = "c-value c-say-now"
				}
				l.eventRow(class, name, l.x, y, l.width, one.events)
				y += rowTall
			}
		}
	}
}
