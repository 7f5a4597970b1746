package chart

import (
	"strconv"
	"strings"

	"example.org/locknut/journal/quantity"
)

// GainData are the steps of power from the first pulls to now.
type GainData struct {
	Unit     *quantity.Unit
	Baseline Figure // peak power at the first pulls
	Now      Figure // peak power at the last
	Stages   []GainStage
	Total    Figure // the sum of the stages
	Reason   string // why there is no total
}

// Figure is a worked-out figure in SI, if there is one.
type Figure struct {
	Is              bool
	Value, Expanded float64 // its expanded uncertainty, k = 2; 0 if it isn't known
}

// FigureOf takes an estimate.
func FigureOf(e quantity.Estimate) Figure { return Figure{true, e.Value, e.Expanded()} }

// GainStage is one step: what was changed, and what it gave or took.
type GainStage struct {
	Label  string
	Gain   Figure
	Reason string // why its gain can't be told
}

// gains is a chart of gains while it is drawn: one row a stage, from above to below, with the power along it.
type gains struct {
	pen
	GainData
	size          Size
	width, height float64
	top           float64 // of the first row
	x             axis
	rows          []gainRow
	count         int // of stages
}

// gainRow is one row: a step from one sum to the next.
type gainRow struct {
	GainStage
	from, to, spread float64 // in the unit, from the baseline
	isBroken         bool    // its figure can't be told, and the sum goes on without it
}

const (
	gainTall = 44 // of a row
	barTall  = 14
	indent   = 8 // of labels, beside the line of the first pulls

	mostSteps = 20 // rows
)

// GainSteps appends the steps of gain; of more than twenty the earliest are one row. Without a stage whose gain is known there is nothing to draw.
func GainSteps(dst []byte, data GainData, size Size) []byte {
	g := gains{pen: pen{dst}, GainData: data, size: size, width: 640}
	if size != Wide {
		g.size, g.width = Narrow, 320
	}
	if data.Unit == nil || data.Unit.Dimension == quantity.Unknown || !g.sum() || !g.scale() {
		return dst
	}
	title := g.title()
	lines := wrap(title, g.width/1.12, 3)
	g.top = 16 + float64(len(lines))*rowTall
	g.height = g.top + float64(len(g.rows)+1)*gainTall + 44
	g.open("c-gains", g.size, g.width, g.height, title, g.describes())
	for i, line := range lines {
		g.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	g.axis()
	for i := range g.rows {
		y := g.top + float64(i)*gainTall
		next := y + gainTall + 20 // where the next bar begins
		if i == len(g.rows)-1 && !g.Total.Is {
			next = y + 20 + barTall
		}
		g.stage(i, y, next)
	}
	g.total(g.top + float64(len(g.rows))*gainTall)
	g.shut()
	return g.out
}

// merge makes one row of the earliest stages where there are very many. What their sum may be off by is not the caller's figures to tell.
func (g *gains) merge() {
	more := len(g.Stages) - mostSteps
	if more <= 0 {
		return
	}
	first := GainStage{Label: "the first " + strconv.Itoa(more+1) + " stages together", Gain: Figure{Is: true}}
	for _, s := range g.Stages[:more+1] {
		if first.Gain.Value += s.Gain.Value; !s.Gain.Is {
			first.Gain, first.Reason = Figure{}, "one of them can't be told"
			break
		}
	}
	g.Stages = append([]GainStage{first}, g.Stages[more+1:]...)
}

// sum adds the stages up; false if none has a figure.
func (g *gains) sum() bool {
	g.count = len(g.Stages)
	g.merge()
	at, any := 0.0, false
	for _, s := range g.Stages {
		row := gainRow{GainStage: s, from: at, to: at, isBroken: true}
		if gain, spread, ok := s.Gain.in(g.Unit); ok && isDrawn(at+gain) {
			row.to, row.spread, row.isBroken = at+gain, spread, false
			at, any = row.to, true
		}
		g.rows = append(g.rows, row)
	}
	return any
}

// in returns a difference and its uncertainty in a unit. Power has no offset, so a difference converts like a figure.
func (f Figure) in(u *quantity.Unit) (value, spread float64, ok bool) {
	if !f.Is {
		return 0, 0, false
	}
	value, spread = u.FromSI(f.Value), u.StepFromSI(f.Expanded, 1)
	if !(spread > 0) || !isDrawn(spread) {
		spread = 0
	}
	return value, spread, isDrawn(value)
}

// scale takes in the baseline, every step with its whisker, and the total.
func (g *gains) scale() bool {
	figures := []float64{0}
	for _, r := range g.rows {
		figures = append(figures, r.from, r.to, r.to-r.spread, r.to+r.spread)
	}
	if total, spread, ok := g.Total.in(g.Unit); ok {
		figures = append(figures, total-spread, total+spread)
	}
	lo, hi, ok := span(figures, 0)
	edge := 0.0
	if lo < 0 {
		edge = (hi/2 - lo/2) * 0.08
	}
	right := g.width - 150 // for the figures beside the bars
	if g.size == Narrow {
		right = g.width - 126
	}
	g.x = axis{lo - edge, hi, 1, right}
	return ok && isDrawn(g.x.lo) && isDrawn(g.x.hi) && g.x.lo < g.x.hi
}

// title says the answer.
func (g *gains) title() string {
	if !g.Total.Is {
		if g.Reason == "" {
			return "gain in peak power by stage"
		}
		return "gain in peak power by stage; no total: " + g.Reason
	}
	title := signed(g.Total, g.Unit) + " in " + strconv.Itoa(g.count) + " stages"
	if g.count == 1 {
		title = strings.TrimSuffix(title, "s")
	}
	// The total is the sum of the stages: a session that only measures the same engine again comes in between and is no stage.
	if g.Baseline.Is && g.Now.Is {
		title += "; the first pulls gave " + plainFigure(g.Baseline, g.Unit) + ", the last " + plainFigure(g.Now, g.Unit)
	}
	return title
}

func (g *gains) describes() string {
	var parts []string
	for _, r := range g.rows {
		if r.isBroken {
			parts = append(parts, r.Label+": "+g.reason(r))
		} else {
			parts = append(parts, r.Label+": "+signed(r.Gain, g.Unit))
		}
	}
	return strings.Join(parts, "; ")
}

func (g *gains) reason(r gainRow) string {
	if r.Reason == "" {
		return "not known"
	}
	return r.Reason
}

// show is a figure with the digits that its uncertainty leaves it; without one, to a hundredth.
func (f Figure) show(u *quantity.Unit) (value, spread quantity.Shown) {
	e := quantity.Estimate{Value: f.Value, Dimension: u.Dimension}
	if f.Expanded > 0 {
		e.Shares = []quantity.Share{{Cause: "all", Std: f.Expanded / 2}}
		return quantity.ShowEstimate(e, u)
	}
	return quantity.Show(f.Value, u, u.StepSI(0.01, 1)), quantity.Shown{}
}

func plainFigure(f Figure, u *quantity.Unit) string {
	value, _ := f.show(u)
	return value.Printed()
}

// signed is a gain as text: with its sign, and its uncertainty where it is known.
func signed(f Figure, u *quantity.Unit) string {
	value, spread := f.show(u)
	value = value.Signed(f.Value)
	if spread.Number != "" {
		value.Number += " ± " + spread.Number
	}
	return value.Printed()
}

// axis draws the line of the first pulls, and the scale below.
func (g *gains) axis() {
	foot := g.top + float64(len(g.rows)+1)*gainTall
	zero := g.x.at(0)
	g.zeroLine(zero, foot)
	g.line("c-axis", g.x.from, foot, g.x.to, foot)
	about := 5
	if g.size == Narrow {
		about = 3
	}
	at, step := g.x.ticks(about)
	for _, v := range at {
		x := g.x.at(v)
		g.line("c-axis", x, foot, x, foot+4)
		text := tickLabel(v, step, g.Unit)
		switch {
		case v == 0:
			text = "0"
		case v > 0:
			text = "+" + text
		}
		g.label("c-figure", middle, max(x, widthOf(text)/2), foot+17, text)
	}
	g.label("c-unit", start, g.x.to+20, foot+17, unitText(g.Unit))
	note := "first pulls"
	if g.Baseline.Is {
		note += ", " + plainFigure(g.Baseline, g.Unit)
	}
	g.label("c-unit", start, max(0, min(zero-widthOf(note)/2, g.width-widthOf(note))), foot+33, note)
}

// zeroLine draws the line of the first pulls, and leaves it out where it would run through a label.
func (g *gains) zeroLine(zero, foot float64) {
	from := g.top
	for i := range len(g.rows) + 1 {
		if zero < indent-2 || zero > indent+boldWidth(g.rowLabel(i))+2 {
			continue
		}
		y := g.top + float64(i)*gainTall
		if i > 0 {
			g.line("c-axis", zero, from, zero, y+2)
		}
		from = y + 19
	}
	g.line("c-axis", zero, from, zero, foot)
}

// rowLabel is what stands above the bar of a row: of a stage, or in the last row of the sum, or why there is none.
func (g *gains) rowLabel(i int) string {
	text := "now"
	switch {
	case i < len(g.rows):
		text = g.rows[i].Label
	case !g.hasTotal():
		text = "no total: not known"
		if g.Reason != "" {
			text = "no total: " + g.Reason
		}
	case g.Now.Is:
		text += ", " + plainFigure(g.Now, g.Unit)
	}
	return cut(text, g.width-indent)
}

func (g *gains) hasTotal() bool {
	_, _, ok := g.Total.in(g.Unit)
	return ok
}

// stage draws one step: what it was above, the bar below, the figure beside it, and the line down to where the next begins. A gain is solid, a
// loss is hatched, and one that lies inside its own uncertainty is a dashed outline.
func (g *gains) stage(i int, y, next float64) {
	r := g.rows[i]
	g.group(r.Label)
	g.label("c-figure c-halo", start, indent, y+14, g.rowLabel(i))
	top, base := y+20, y+20+barTall
	from, to := g.x.at(r.from), g.x.at(r.to)
	if r.isBroken {
		g.line("c-broken", from, top, from, next)
		text := cut("not told: "+g.reason(r), g.width-indent)
		g.label("c-name c-halo", start, max(indent, min(from+8, g.width-widthOf(text))), base-3, text)
		g.ungroup()
		return
	}
	left, right := min(from, to), max(from, to)
	change := r.to - r.from
	switch {
	case r.spread > 0 && change < r.spread && -change < r.spread:
		g.box("c-unsure", left, top, right, base)
	case change < 0:
		g.hatch("c-loss", left, top, right, base, 4.5)
		g.box("c-loss-edge", left, top, right, base)
	default:
		g.box("c-gain", left, top, right, base)
	}
	g.spread(r.to, r.spread, base+4)
	if next > base {
		g.line("c-link", to, base, to, next)
	}
	g.label("c-figure", start, max(right, g.x.at(r.to+r.spread))+8, base-2, signed(r.Gain, g.Unit))
	g.ungroup()
}

// spread draws an uncertainty just below the end of its bar, where nothing hides it.
func (g *gains) spread(at, spread, y float64) {
	if spread > 0 {
		g.whisker(g.x.at(at-spread), g.x.at(at+spread), y)
	}
}

func (g *gains) total(y float64) {
	value, spread, ok := g.Total.in(g.Unit)
	if !ok {
		g.label("c-name c-halo", start, indent, y+14, g.rowLabel(len(g.rows)))
		return
	}
	top, base := y+20, y+20+barTall
	g.label("c-value c-say-now c-halo", start, indent, y+14, g.rowLabel(len(g.rows)))
	zero, to := g.x.at(0), g.x.at(value)
	g.box("c-total", min(zero, to), top, max(zero, to), base)
	g.spread(value, spread, base+4)
	g.label("c-value c-say-now", start, max(zero, g.x.at(value+spread))+8, base-2, signed(g.Total, g.Unit))
}
