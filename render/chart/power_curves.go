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
	Wanted   []Wanted       // of lambda at full throttle; none where nothing is said of it
	Sessions []Session
	Earlier  int // sessions more, between the first and the second
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

// Session is one session: the mean of its pulls, in SI by rad/s.
type Session struct {
	Label      string
	Role       Role
	Power      []CurvePoint
	Torque     []CurvePoint
	Lambda     []CurvePoint // of the mixture; none where it wasn't read
	PeakPower  Figure       // as the page tells it; the curve's own is of the mean, which is a little less than the mean of peaks
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
	notes         []string // lines of words below
	fewBands      bool     // so many curves share the drawing that those between the first and the last have none
}

// panel is one plot: power, or torque.
type panel struct {
	unit        *quantity.Unit
	top, bottom float64
	curves      []curve
	wanted      []Wanted // of lambda, its speeds in the unit of the chart
	y           axis
	few         bool // names: those of the baseline and the current state alone
}

// curve is one session in a panel, in the units of the chart.
type curve struct {
	label  string
	role   Role
	dash   markup // of one of several between the first and the last: what tells its line and its leader from the others'
	points []CurvePoint
	isBand bool // it is known how far off the mean may be
	peak   Figure
}

// What a drawing may take: the wide one and the narrow one of a page together 30 kB at most.
const (
	MostSessions = 16  // that are told apart in one drawing
	mostNamed    = 8   // with more, the earlier ones have their names beside the upper plot alone
	mostPoints   = 200 // of one curve
	pointBytes   = 10  // that a point takes, about
	wantedBytes  = 60  // that a lambda that is wanted over a range of speeds takes
	curveBytes   = 420 // that a curve takes besides: its name and what leads to it
)

// bytes is how many bytes a drawing of a size may take.
func (s Size) bytes() int {
	if s == Wide {
		return 17500
	}
	return 12000
}

// Curves appends power over engine speed, and torque below it: of each session the mean of its pulls, and about it, where that is known, a band that holds the mean in 95 % of cases. Curves
// have at most 200 points, peaks kept exactly, and fewer where many share a drawing, so that it stays below 17.5 kB, a narrow one below 12 kB. Of more than 16 sessions the oldest between
// baseline and now are left out, and the drawing says how many.
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
	top := 24 + float64(len(lines))*rowTall
	c.panel(c.Power, top, 220, powerOf)
	if n := len(c.panels); c.Torque != nil && n > 0 {
		c.panel(c.Torque, c.panels[0].bottom+34, 130, torqueOf)
	} else if c.Torque != nil {
		c.panel(c.Torque, top, 220, torqueOf)
	}
	if n := len(c.panels); n > 0 {
		c.panel(quantity.UnitShown("λ"), c.panels[n-1].bottom+34, 90, c.lambdaOf())
	}
	if len(c.panels) == 0 || !c.scaleAlong() {
		return dst
	}
	most := c.mostPoints()
	c.note()
	c.height = c.panels[len(c.panels)-1].bottom + 24 + float64(len(c.notes))*rowTall
	c.open("c-curves", c.size, c.width, c.height, title, c.describes())
	for i, line := range lines {
		c.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	for i := range c.panels {
		c.plot(&c.panels[i], most)
	}
	for i, line := range c.notes {
		c.label("c-name", start, 0, c.height-4-float64(len(c.notes)-1-i)*rowTall, line)
	}
	c.shut()
	return c.out
}

// choose keeps the sessions that can be told apart: baselines and the current ones, and the latest of the others.
func (c *curves) choose() {
	keep := MostSessions
	for _, s := range c.Sessions {
		if s.Role != Earlier {
			keep--
		}
	}
	var chosen []Session
	for i := len(c.Sessions) - 1; i >= 0; i-- {
		s := c.Sessions[i]
		switch {
		case s.Role != Earlier && len(chosen) < 2*MostSessions:
		case s.Role == Earlier && keep > 0:
			keep--
		default:
			c.Earlier++
			continue
		}
		chosen = append(chosen, s)
	}
	slices.Reverse(chosen)
	c.Sessions = chosen
}

func powerOf(s Session) ([]CurvePoint, Figure)  { return s.Power, s.PeakPower }
func torqueOf(s Session) ([]CurvePoint, Figure) { return s.Torque, s.PeakTorque }

// panel adds a plot, if any session has something for it. It is as tall as asked, and taller where the names of all sessions need it.
func (c *curves) panel(u *quantity.Unit, top, tall float64, of func(Session) ([]CurvePoint, Figure)) {
	p := panel{unit: u, top: top, few: len(c.panels) > 0 && len(c.Sessions) > mostNamed}
	var values []float64
	for i, s := range c.Sessions {
		points, peak := of(s)
		one := curve{label: s.Label, role: s.Role, dash: c.dash(i), points: shownIn(points, c.Speed, u), peak: peak}
		if len(one.points) == 0 {
			continue
		}
		one.isBand = hasBand(one.points)
		for _, pt := range one.points {
			values = append(values, pt.low(), pt.high())
		}
		p.curves = append(p.curves, one)
	}
	if p.isLambda() && len(p.curves) > 0 {
		p.wanted = c.wanted(p.curves)
		for _, w := range p.wanted {
			values = append(values, w.Lambda-w.Tolerance, w.Lambda+w.Tolerance)
		}
	}
	p.bottom = top + max(tall, room(c.named(&p, p.curves, 0))-12)
	lo, hi, ok := span(values, 0)
	edge := (hi/2 - lo/2) * 0.08
	p.y = axis{lo - edge, hi + edge, p.bottom, p.top}
	if ok && isDrawn(p.y.lo) && isDrawn(p.y.hi) && p.y.lo < p.y.hi {
		c.panels = append(c.panels, p)
	}
}

func (c *curves) scaleAlong() bool {
	var speeds []float64
	for _, p := range c.panels {
		for _, one := range p.curves {
			speeds = append(speeds, one.points[0].Speed, one.points[len(one.points)-1].Speed)
		}
	}
	lo, hi, ok := span(speeds, 0)
	c.x = axis{lo, hi, c.left, c.right}
	return ok && isDrawn(lo) && isDrawn(hi) && lo < hi
}

// note says what the bands are, or why there are none, and what is left out.
func (c *curves) note() {
	all, some, wanted := true, false, false
	for _, p := range c.panels {
		wanted = wanted || len(p.wanted) > 0
		for _, one := range p.curves {
			if p.isLambda() {
				continue
			}
			all, some = all && one.isBand, some || one.isBand
		}
	}
	text := "no bands: how far pulls scatter is not known"
	switch {
	case all:
		text = "band: where the mean lies, by the scatter of the pulls, 95 %"
	case some && c.fewBands:
		text = "band, of the first and the last alone: where the mean lies, by the scatter of the pulls, 95 %"
	case some:
		text = "band: where the mean lies, by the scatter of the pulls, 95 %; without one: not known"
	case c.fewBands:
		text = "no bands: there are too many curves"
	}
	if wanted {
		text += "; below, grey: the lambda that is wanted at full throttle, with its tolerance"
	}
	c.notes = wrap(text, c.width, 4)
	if c.Earlier > 0 {
		c.notes = append(c.notes, "and "+strconv.Itoa(c.Earlier)+" earlier, in the table")
	}
}

// fewestPoints is how many points a curve of a drawing with bands should have at least: with fewer it is no longer the curve.
const fewestPoints = 24

// mostPoints shares the bytes that a drawing may have among its lines. A band has the points of its line at both edges, so that the line never leaves it; where that leaves too few for all, the
// curves between the first and the last have no band.
func (c *curves) mostPoints() int {
	most, any := c.sharedPoints()
	if most >= fewestPoints || !any {
		return most
	}
	for _, p := range c.panels {
		for i := range p.curves {
			if one := &p.curves[i]; one.isBand && one.role == Earlier {
				one.isBand, c.fewBands = false, true
			}
		}
	}
	most, _ = c.sharedPoints()
	return most
}

// sharedPoints is how many points each curve has of the bytes that there are, and whether there is a band between the first and the last.
func (c *curves) sharedPoints() (most int, any bool) {
	lines, bytes := 0, c.size.bytes()-1500
	for _, p := range c.panels {
		bytes -= wantedBytes * len(p.wanted)
		for _, one := range p.curves {
			lines++
			bytes -= curveBytes
			if one.isBand {
				lines += 2
				any = any || one.role == Earlier
			}
		}
	}
	return min(mostPoints, max(0, bytes)/pointBytes/lines), any
}

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
		text += lambdaText(s.Lambda)
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// plot draws one panel: its axes, the bands, the lines from the earliest to now, the peaks, the labels.
func (c *curves) plot(p *panel, most int) {
	c.drawWanted(p)
	c.axes(p)
	on := field{c.x, p.y}
	order := slices.Clone(p.curves)
	slices.SortStableFunc(order, func(a, b curve) int { return cmp.Compare(rank(a.role), rank(b.role)) })
	for _, one := range order {
		if one.isBand {
			c.between(one.role.class()+" c-scatter", on, thinned(one.points, most), CurvePoint.high, CurvePoint.low)
		}
	}
	for _, one := range order {
		points := thinned(one.points, most)
		if len(points) > 1 {
			c.through(one.role.class()+" c-run"+one.dash, on, points)
		}
		if p.isLambda() {
			continue
		}
		top := peak(points)
		c.ring(one.role.class()+" c-peak", c.x.at(top.Speed), p.y.at(top.Value), 2.6)
	}
	c.labels(p, order)
}

// dash is the class of a session's line beside those of others between the first and the last.
func (c *curves) dash(i int) markup {
	before, all := 0, 0
	for k, s := range c.Sessions {
		if s.Role == Earlier {
			all++
			if k < i {
				before++
			}
		}
	}
	if c.Sessions[i].Role != Earlier || all < 2 {
		return ""
	}
	return [...]markup{"", " c-dashed", " c-dotted", " c-mixed"}[before%4]
}

// rank is the order in which lines are drawn: what matters comes last, on top.
func rank(r Role) int { return [...]int{Earlier: 1, Baseline: 0, Current: 2}[r] }

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
