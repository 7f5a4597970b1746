package chart

import (
	"math"
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
)

// GainCurvesData are gains over the engine speed, a plot each, in order of time.
type GainCurvesData struct {
	Speed   *quantity.Unit // along
	Power   *quantity.Unit
	Stages  []GainCurve
	Earlier int // stages more, before those
}

// GainCurve is what one stage gave and took, or several together.
type GainCurve struct {
	Label   string
	IsTotal bool         // of all stages together
	Points  []CurvePoint // in SI by rad/s
	Reason  string       // why there are none
}

// gainCurves are gains over the engine speed while they are drawn.
type gainCurves struct {
	pen
	GainCurvesData
	size          Size
	width, height float64
	x             axis
	plots         []gainPlot
	notes         []string
	most          int     // points of one line
	gap           float64 // from stroke to stroke where power was lost
}

// gainPlot is one stage, in the units of the chart.
type gainPlot struct {
	GainCurve
	points      []CurvePoint
	isBand      bool
	words       []string // lines above the plot
	top, bottom float64  // of the plot
	y           axis
}

const (
	gainPlotTall  = 170 // of the plot with the widest range; the others have the same scale
	gainPlotLeast = 44
	strokeBytes   = 16   // of a stroke, about
	strokesBytes  = 3200 // that all strokes may take, on a narrow drawing half of that
	gainPlotBytes = 1600 // that a plot takes besides its lines
)

// MostGains is how many plots a drawing of gains has room for.
const MostGains = 6

// GainCurves appends what stages gave and took over the engine speed, all on one scale. Where power was gained the plot is filled from nought up to the curve, where it was lost it is hatched
// from nought down: where the band of 95 % is known, only where all of it lies on that side. Lines have at most 200 points, the greatest gain and the greatest loss kept exactly. Without a
// stage that has a curve there is nothing to draw. Of more than MostGains the earliest are left out, and the drawing says how many.
func GainCurves(dst []byte, data GainCurvesData, size Size) []byte {
	g := gainCurves{pen: pen{dst}, GainCurvesData: data, size: size, width: 640}
	right := 628.0
	if size != Wide {
		g.size, g.width, right = Narrow, 320, 312
	}
	if data.Speed == nil || data.Power == nil || data.Speed.Reciprocal || data.Power.Reciprocal {
		return dst
	}
	g.x = axis{from: 42, to: right}
	if !g.take() || !g.place() {
		return dst
	}
	title := g.title()
	lines := wrap(title, g.width/1.12, 3)
	g.lay(8 + float64(len(lines))*rowTall)
	g.share()
	g.open("c-over", g.size, g.width, g.height, title, g.describes())
	for i, line := range lines {
		g.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	for i := range g.plots {
		g.plot(&g.plots[i])
	}
	for i, line := range g.notes {
		g.label("c-name", start, 0, g.height-4-float64(len(g.notes)-1-i)*rowTall, line)
	}
	g.shut()
	return g.out
}

// take puts the stages in the units of the drawing; false if none has a curve.
func (g *gainCurves) take() bool {
	any := false
	if more := len(g.Stages) - MostGains; more > 0 {
		g.Stages, g.Earlier = g.Stages[more:], g.Earlier+more
	}
	for _, s := range g.Stages {
		p := gainPlot{GainCurve: s, points: shownIn(s.Points, g.Speed, g.Power)}
		if len(p.points) < 2 || s.Reason != "" {
			p.points = nil
			if p.Reason == "" {
				p.Reason = "not known"
			}
		}
		p.isBand = hasBand(p.points)
		any = any || len(p.points) > 0
		g.plots = append(g.plots, p)
	}
	return any
}

// place makes the axes: engine speeds from the first to the last of all, gains on one scale that has nought on it.
func (g *gainCurves) place() bool {
	var speeds []float64
	widest := 0.0
	for i := range g.plots {
		p := &g.plots[i]
		if len(p.points) == 0 {
			continue
		}
		speeds = append(speeds, p.points[0].Speed, p.points[len(p.points)-1].Speed)
		values := []float64{0}
		for _, pt := range p.points {
			values = append(values, pt.low(), pt.high())
		}
		lo, hi, ok := span(values, 0)
		if !ok || !isDrawn(hi-lo) || !(hi > lo) {
			return false
		}
		edge := (hi - lo) * 0.04
		p.y = axis{lo: lo - edge, hi: hi + edge}
		widest = max(widest, p.y.hi-p.y.lo)
	}
	lo, hi, ok := span(speeds, 0)
	g.x.lo, g.x.hi = lo, hi
	if !ok || !isDrawn(widest) || !(lo < hi) {
		return false
	}
	least := widest * gainPlotLeast / gainPlotTall
	for i := range g.plots {
		if y := &g.plots[i].y; len(g.plots[i].points) > 0 && y.hi-y.lo < least {
			more := (least - (y.hi - y.lo)) / 2
			y.lo, y.hi = y.lo-more, y.hi+more
		}
		g.plots[i].y.to = (g.plots[i].y.hi - g.plots[i].y.lo) / widest * gainPlotTall // how tall it will be
	}
	return true
}

// lay finds where everything stands, from above to below.
func (g *gainCurves) lay(y float64) {
	for i := range g.plots {
		p := &g.plots[i]
		p.words = g.wordsOf(p)
		y += float64(len(p.words)) * rowTall
		p.top = y + 10
		p.bottom = p.top + p.y.to
		p.y.from, p.y.to = p.bottom, p.top
		y = p.bottom + 40
		if len(p.points) == 0 {
			y = p.top
		}
	}
	g.notes = wrap(g.note(), g.width, 4)
	if g.Earlier > 0 {
		g.notes = append(g.notes, "and "+strconv.Itoa(g.Earlier)+" earlier, in the table")
	}
	g.height = y + 2 + float64(len(g.notes))*rowTall
}

// title says the answer for one stage, and what it is of several.
func (g *gainCurves) title() string {
	if len(g.plots) > 1 {
		return "gain in power over engine speed, stage by stage"
	}
	return "gain in power over engine speed: " + g.extremes(&g.plots[0])
}

func (g *gainCurves) describes() string {
	var parts []string
	for i := range g.plots {
		p := &g.plots[i]
		text := p.Label + ": "
		if len(p.points) == 0 {
			parts = append(parts, text+"not told: "+p.Reason)
			continue
		}
		text += g.extremes(p)
		if where := g.where(p); where != "" {
			text += "; " + where
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// wordsOf are the lines above a plot: what it is of, the greatest gain and loss, and where there was either.
func (g *gainCurves) wordsOf(p *gainPlot) []string {
	words := []string{cut(p.Label, g.width/1.12)}
	if len(p.points) == 0 {
		return append(words, wrap("not told: "+p.Reason, g.width, 3)...)
	}
	if len(g.plots) > 1 {
		words = append(words, wrap(g.extremes(p), g.width, 2)...)
	}
	if where := g.where(p); where != "" {
		words = append(words, wrap(where, g.width, 2)...)
	}
	return words
}

// trough is the point with the least value, the first of those that are alike.
func trough(points []CurvePoint) CurvePoint {
	least := points[0]
	for _, p := range points {
		if p.Value < least.Value {
			least = p
		}
	}
	return least
}

// extremes tells the greatest gain and the greatest loss, or the least gain, and at which engine speed.
func (g *gainCurves) extremes(p *gainPlot) string {
	tell := func(pt CurvePoint) string {
		return signed(Figure{true, g.Power.SI(pt.Value), g.Power.StepSI(pt.Expanded, 1)}, g.Power) + " at " + g.speed(pt.Speed, 10)
	}
	return tell(peak(p.points)) + ", " + tell(trough(p.points)) + "\u202f" + unitText(g.Speed)
}

func (g *gainCurves) speed(at, step float64) string {
	return quantity.Show(g.Speed.SI(at), g.Speed, g.Speed.StepSI(step, at)).Number
}

// where says from which to which engine speed power was gained, and where it was lost: of long lists it says nothing.
func (g *gainCurves) where(p *gainPlot) string {
	type stretch struct{ from, to string }
	stretches := map[int][]stretch{}
	sure := false
	_, fine := g.x.ticks(6)
	fine /= 20 // where a straight line crosses nought is no closer than that
	round := func(at float64) string {
		if fine > 0 {
			at = math.Round(at/fine) * fine
		}
		return g.speed(at, fine/5)
	}
	for _, s := range sides(p.points) {
		sure = sure || s.sign != 0
		from, to := s.points[0].Speed, s.points[len(s.points)-1].Speed
		if to-from > (g.x.hi-g.x.lo)/100 {
			one := stretch{round(from), round(to)}
			if list := stretches[s.sign]; len(list) > 0 && list[len(list)-1].to == one.from {
				list[len(list)-1].to = one.to // they touch, as finely as they are told
				continue
			}
			stretches[s.sign] = append(stretches[s.sign], one)
		}
	}
	var parts []string
	last := -1 // of those with engine speeds
	for _, side := range []struct {
		sign int
		word string
	}{{1, "gained "}, {-1, "lost "}} {
		switch list := stretches[side.sign]; {
		case len(list) > 3:
			parts = append(parts, side.word+"in "+strconv.Itoa(len(list))+" places")
		case len(list) > 0:
			var told []string
			for _, one := range list {
				told = append(told, one.from+" to "+one.to)
			}
			parts, last = append(parts, side.word+strings.Join(told, " and ")), len(parts)
		}
	}
	switch {
	case !sure && p.isBand:
		return "nowhere more than the scatter"
	case len(parts) == 0:
		return ""
	}
	if last >= 0 {
		parts[last] += "\u202f" + unitText(g.Speed)
	}
	return strings.Join(parts, "; ")
}

// note says what the drawing shows of how far off the curves may be.
func (g *gainCurves) note() string {
	all, some := true, false
	for _, p := range g.plots {
		if len(p.points) > 0 {
			all, some = all && p.isBand, some || p.isBand
		}
	}
	text := "filled: gained; hatched: lost"
	switch {
	case all:
		return text + "; band: 95 % interval, and where it holds nought there is neither"
	case some:
		return text + "; band: 95 % interval, and where it holds nought there is neither; without a band nothing tells how far off the curve may be"
	}
	return text + "; no band: nothing tells how far off the curve may be"
}

// plot draws one stage: the words, the axes, what was gained and lost, the band, the curve, and its greatest gain and loss.
func (g *gainCurves) plot(p *gainPlot) {
	class := markup("c-value c-halo")
	if p.IsTotal {
		class = "c-value c-say-now c-halo"
	}
	for i, line := range p.words {
		if i > 0 {
			class = "c-figure c-halo"
		}
		g.label(class, start, 0, p.top-10-float64(len(p.words)-1-i)*rowTall, line)
	}
	if len(p.points) == 0 {
		return
	}
	g.axes(p)
	on := field{g.x, p.y}
	points := thinned(p.points, g.most)
	g.filling(on, sides(points))
	g.strokes(on, sides(points))
	if p.isBand {
		g.between("c-now c-scatter", on, thinned(p.points, g.most/2), CurvePoint.high, CurvePoint.low)
	}
	g.through("c-now c-run", on, points)
	for _, at := range []CurvePoint{peak(points), trough(points)} {
		g.ring("c-now c-peak", g.x.at(at.Speed), p.y.at(at.Value), 2.6)
	}
}

// axes draws a light grid, the line of nought, and the figures of both axes.
func (g *gainCurves) axes(p *gainPlot) {
	about := 4
	if p.bottom-p.top < 100 {
		about = 2
	}
	up, step := p.y.ticks(about)
	for _, v := range up {
		y := p.y.at(v)
		text := tickLabel(v, step, g.Power)
		switch {
		case v == 0:
			text = "0"
		case v > 0:
			text = "+" + text
		}
		g.label("c-figure", end, g.x.from-6, y+4.5, text)
	}
	about = 6
	if g.size == Narrow {
		about = 3
	}
	at, step := g.x.ticks(about)
	for i, v := range at {
		x := g.x.at(v)
		text := tickLabel(v, step, g.Speed)
		if i == len(at)-1 {
			text += "\u202f" + unitText(g.Speed)
		}
		g.label("c-figure", middle, min(x, g.width-widthOf(text)/2), p.bottom+18, text)
	}
	if len(up)+len(at) > 0 {
		g.begin("c-grid")
		for _, v := range up {
			g.step("M", g.x.from, p.y.at(v))
			g.step("H", g.x.to)
		}
		for _, v := range at {
			g.step("M", g.x.at(v), p.top)
			g.step("V", p.bottom+4)
		}
		g.end()
	}
	zero := p.y.at(0)
	g.line("c-axis", g.x.from, zero, g.x.to, zero)
	g.label("c-unit c-halo", start, g.x.from+4, p.top+10, unitText(g.Power))
}
