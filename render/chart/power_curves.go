package chart

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
)

// CurvesData are sessions of pulls laid over each other, in order of time.
type CurvesData struct {
	Speed    *quantity.Unit // along
	Power    *quantity.Unit
	Torque   *quantity.Unit // nil: power alone
	Sessions []Session
}

// Role is what a session is to the build as it stands. Its zero value is Earlier.
type Role uint8

// The roles.
const (
	Earlier Role = iota
	Baseline
	Current
)

func (r Role) class() markup { return [...]markup{"c-earlier", "c-baseline", "c-now"}[r] }

// Session is one session: its repeats, each in SI by rad/s.
type Session struct {
	Label      string
	Role       Role
	Power      [][]CurvePoint // a list a pull
	Torque     [][]CurvePoint
	PeakPower  Figure // as the page tells it; the curve's own is of the mean, which is a little less than the mean of peaks
	PeakTorque Figure
}

// curves are power curves while they are drawn.
type curves struct {
	pen
	CurvesData
	size          Size
	width, height float64
	left, right   float64
	panels        []panel
	x             axis
	leftOut       int
}

// panel is one plot: power, or torque.
type panel struct {
	unit        *quantity.Unit
	top, bottom float64
	curves      []curve
	y           axis
}

// curve is one session in a panel, in the units of the chart.
type curve struct {
	label           string
	role            Role
	low, high, mean []CurvePoint
	repeats         int
	peak            Figure
}

const (
	mostSessions = 8     // that are told apart
	mostPoints   = 200   // of one curve
	mostBytes    = 23000 // of all points together, so that the whole stays below 30 kB
	pointBytes   = 12    // that a point takes, about
)

// Curves appends power over engine speed, and torque below it: of each session the mean of its repeats, and behind the baseline and the current
// state a light band from the least to the greatest of them. Curves have at most 200 points: of each even part of the range of speeds the least and the
// greatest, so that no peak is lost. Of more than eight sessions the oldest between baseline and now are left out, and the drawing says how many.
func Curves(dst []byte, data CurvesData, size Size) []byte {
	c := curves{pen: pen{dst}, CurvesData: data, size: size, width: 640, left: 40, right: 640 - 190}
	if size != Wide {
		c.size, c.width, c.left, c.right = Narrow, 320, 36, 320-106
	}
	if data.Speed == nil || data.Power == nil {
		return dst
	}
	c.choose()
	title := c.title()
	lines := wrap(title, c.width/1.12, 3)
	c.panel(c.Power, 24+float64(len(lines))*rowTall, 220, powerOf)
	if n := len(c.panels); c.Torque != nil && n > 0 {
		c.panel(c.Torque, c.panels[0].bottom+34, 130, torqueOf)
	} else if c.Torque != nil {
		c.panel(c.Torque, 24+float64(len(lines))*rowTall, 220, torqueOf)
	}
	if len(c.panels) == 0 || !c.scaleAlong() {
		return dst
	}
	c.height = c.panels[len(c.panels)-1].bottom + 24
	if c.leftOut > 0 {
		c.height += 18
	}
	c.open("c-curves", c.size, c.width, c.height, title, c.describes())
	for i, line := range lines {
		c.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	most := c.mostPoints()
	for i := range c.panels {
		c.plot(&c.panels[i], most)
	}
	if c.leftOut > 0 {
		c.label("c-name", start, 0, c.height-4, "and "+strconv.Itoa(c.leftOut)+" earlier, in the table")
	}
	c.shut()
	return c.out
}

// choose keeps the sessions that can be told apart: baselines and the current ones, and the latest of the others.
func (c *curves) choose() {
	keep := mostSessions
	for _, s := range c.Sessions {
		if s.Role != Earlier {
			keep--
		}
	}
	var chosen []Session
	for i := len(c.Sessions) - 1; i >= 0; i-- {
		s := c.Sessions[i]
		switch {
		case s.Role != Earlier && len(chosen) < 2*mostSessions:
		case s.Role == Earlier && keep > 0:
			keep--
		default:
			c.leftOut++
			continue
		}
		chosen = append(chosen, s)
	}
	slices.Reverse(chosen)
	c.Sessions = chosen
}

func powerOf(s Session) ([][]CurvePoint, Figure)  { return s.Power, s.PeakPower }
func torqueOf(s Session) ([][]CurvePoint, Figure) { return s.Torque, s.PeakTorque }

// panel adds a plot, if any session has something for it.
func (c *curves) panel(u *quantity.Unit, top, tall float64, of func(Session) ([][]CurvePoint, Figure)) {
	p := panel{unit: u, top: top, bottom: top + tall}
	var values []float64
	for _, s := range c.Sessions {
		runs, peak := of(s)
		one := curve{label: s.Label, role: s.Role, peak: peak}
		var shown [][]CurvePoint
		for _, run := range runs {
			if r := clean(shownIn(run, c.Speed, u)); len(r) > 0 {
				shown = append(shown, r)
			}
		}
		one.repeats = len(shown)
		one.low, one.high, one.mean = repeats(shown)
		if len(one.mean) == 0 {
			continue
		}
		for i := range one.low {
			values = append(values, one.low[i].Value, one.high[i].Value)
		}
		p.curves = append(p.curves, one)
	}
	lo, hi, ok := span(values, 0)
	edge := (hi/2 - lo/2) * 0.08
	p.y = axis{lo - edge, hi + edge, p.bottom, p.top}
	if ok && isDrawn(p.y.lo) && isDrawn(p.y.hi) && p.y.lo < p.y.hi {
		c.panels = append(c.panels, p)
	}
}

func shownIn(run []CurvePoint, speed, value *quantity.Unit) []CurvePoint {
	shown := make([]CurvePoint, len(run))
	for i, p := range run {
		shown[i] = CurvePoint{speed.FromSI(p.Speed), value.FromSI(p.Value)}
	}
	return shown
}

func (c *curves) scaleAlong() bool {
	var speeds []float64
	for _, p := range c.panels {
		for _, one := range p.curves {
			speeds = append(speeds, one.low[0].Speed, one.low[len(one.low)-1].Speed)
		}
	}
	lo, hi, ok := span(speeds, 0)
	c.x = axis{lo, hi, c.left, c.right}
	return ok && isDrawn(lo) && isDrawn(hi) && lo < hi
}

// mostPoints shares the bytes that a drawing may have among its lines.
func (c *curves) mostPoints() int {
	lines := 0
	for _, p := range c.panels {
		for _, one := range p.curves {
			lines++
			if one.hasBand() {
				lines += 2
			}
		}
	}
	return min(mostPoints, mostBytes/pointBytes/lines)
}

func (one *curve) hasBand() bool { return one.repeats > 1 && one.role != Earlier }

// title says the peaks then and now.
func (c *curves) title() string {
	name := "power"
	if c.Torque != nil {
		name = "power and torque"
	}
	var baseline, now Figure
	for _, s := range c.Sessions {
		if s.Role == Baseline && !baseline.Is {
			baseline = s.PeakPower
		}
		if s.Role == Current {
			now = s.PeakPower
		}
	}
	switch {
	case baseline.Is && now.Is:
		return name + ": " + plainFigure(baseline, c.Power) + " at baseline, " + plainFigure(now, c.Power) + " now"
	case baseline.Is:
		return name + ": " + plainFigure(baseline, c.Power) + " at baseline"
	case now.Is:
		return name + ": " + plainFigure(now, c.Power) + " now"
	}
	return name + " over engine speed"
}

func (c *curves) describes() string {
	var parts []string
	for _, s := range c.Sessions {
		text := s.Label
		if s.PeakPower.Is {
			text += " " + plainFigure(s.PeakPower, c.Power)
		}
		if s.PeakTorque.Is && c.Torque != nil {
			text += ", " + plainFigure(s.PeakTorque, c.Torque)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// plot draws one panel: its axes, the bands, the lines from the earliest to now, the peaks, the labels.
func (c *curves) plot(p *panel, most int) {
	c.axes(p)
	order := slices.Clone(p.curves)
	slices.SortStableFunc(order, func(a, b curve) int { return cmp.Compare(rank(a.role), rank(b.role)) })
	for _, one := range order {
		if one.hasBand() {
			c.begin(one.role.class() + " c-scatter")
			c.run(p, "M", thinned(one.high, most))
			low := thinned(one.low, most)
			slices.Reverse(low)
			c.run(p, "L", low)
			c.put("Z")
			c.end()
		}
	}
	for _, one := range order {
		points := thinned(one.mean, most)
		if len(points) > 1 {
			c.begin(one.role.class() + " c-run")
			c.run(p, "M", points)
			c.end()
		}
		top := peak(points)
		c.ring(one.role.class()+" c-peak", c.x.at(top.Speed), p.y.at(top.Value), 2.6)
	}
	c.labels(p, order)
}

// rank is the order in which lines are drawn: what matters comes last, on top.
func rank(r Role) int { return [...]int{Earlier: 1, Baseline: 0, Current: 2}[r] }

func (c *curves) run(p *panel, first markup, points []CurvePoint) {
	c.step(first)
	for i, pt := range points {
		if i > 0 {
			c.put(" ")
		}
		c.num(c.x.at(pt.Speed))
		c.put(" ")
		c.num(p.y.at(pt.Value))
	}
}

// axes draws a light grid, since values are read off a curve anywhere, and the figures of both axes.
func (c *curves) axes(p *panel) {
	about := 5
	if p.bottom-p.top < 150 {
		about = 3
	}
	at, step := p.y.ticks(about)
	for _, v := range at {
		y := p.y.at(v)
		c.line("c-grid", c.left, y, c.right, y)
		c.label("c-figure", end, c.left-6, y+4.5, tickLabel(v, step, p.unit))
	}
	c.label("c-unit", end, c.left-6, p.top-8, unitText(p.unit))
	c.line("c-axis", c.left, p.bottom, c.right, p.bottom)
	about = 6
	if c.size == Narrow {
		about = 3
	}
	isLast := p == &c.panels[len(c.panels)-1]
	at, step = c.x.ticks(about)
	for _, v := range at {
		x := c.x.at(v)
		c.line("c-axis", x, p.bottom, x, p.bottom+4)
		if isLast {
			c.label("c-figure", middle, x, p.bottom+18, tickLabel(v, step, c.Speed))
		}
	}
	if isLast {
		c.label("c-unit", start, c.right+22, p.bottom+18, unitText(c.Speed))
	}
}
