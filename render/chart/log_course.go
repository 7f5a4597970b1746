package chart

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// CourseData is a column of a log over its time, and what it is held to.
type CourseData struct {
	About     string         // its path
	Unit      *quantity.Unit // of its figures
	Time      *quantity.Unit // of a duration; nil where the log counts rows
	Stretches []calc.Stretch // each begins at a time in s, or after so many rows, and lasts until the next; figures in SI
	End       float64        // where the last stretch ends: s, or rows
	Limit     Limit
	Worst     Reading // the figure that is worst for the limit
	WorstAt   float64 // s, or rows
	Verdict   model.Verdict
}

// course is a column of a log while it is drawn. Places along are in the unit of time, figures in that of the column.
type course struct {
	plot
	CourseData
	clock       *quantity.Unit // one where rows are counted
	least, most []CurvePoint   // of each stretch, where it begins
	low, high   float64        // of all of them
	last        float64        // where the last stretch ends
	worst       drawn
	worstAt     float64
	isMarked    bool      // the worst stands at a time of the log
	times       []float64 // ticks
	tick        float64   // from one to the next
}

const (
	courseTall = 190
	pxAPoint   = 1.5 // of the plot, for each point of an edge
)

// Course appends the course of one column of a log: a shape from the least to the greatest of what was seen in each stretch, with the limit. Without a figure there is nothing to draw.
//
// Of more stretches than have room each edge of the shape is thinned by itself as a curve of power is: of each even part of the time its least and its greatest point stay. So every peak
// stands at its own height, and no further from its time than its stretch is long.
func Course(dst []byte, data CourseData, size Size) []byte {
	c := course{plot: plot{pen: pen{dst}, size: size, width: 640, left: 52, right: 640 - 104}, CourseData: data, clock: data.Time}
	if size != Wide {
		c.size, c.width, c.left, c.right = Narrow, 320, 46, 320-46
	}
	if c.clock == nil {
		c.clock = quantity.One()
	} else if c.clock.Dimension != quantity.Duration {
		return dst
	}
	if data.Unit == nil || !c.read() {
		return dst
	}
	title := c.title()
	lines := wrap(title, c.width/1.12, 3)
	c.top = 26 + float64(len(lines))*rowTall
	c.bottom = c.top + courseTall
	if !c.scale() {
		return dst
	}
	c.height = c.bottom + 24
	c.open("c-course", c.size, c.width, c.height, title, c.describes())
	for i, line := range lines {
		c.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	c.band(c.Limit.in(c.Unit), c.left, c.right)
	c.boundLabels(c.Limit, c.Unit)
	c.envelope()
	c.frame(c.Unit)
	c.timeAxis()
	c.mark()
	c.shut()
	return c.out
}

// read puts the stretches in order and into the units; of those that begin at one time it makes one. False where none can be drawn.
func (c *course) read() bool {
	c.low, c.high = math.Inf(1), math.Inf(-1)
	stretches := slices.Clone(c.Stretches)
	slices.SortStableFunc(stretches, func(a, b calc.Stretch) int { return cmp.Compare(a.Begin, b.Begin) })
	for _, s := range stretches {
		at, least, most := c.clock.FromSI(s.Begin), c.Unit.FromSI(s.Least), c.Unit.FromSI(s.Greatest)
		if !isDrawn(at) || !isDrawn(least) || !isDrawn(most) {
			continue
		}
		least, most = min(least, most), max(least, most) // a reciprocal unit turns them about
		c.low, c.high = min(c.low, least), max(c.high, most)
		if n := len(c.least) - 1; n >= 0 && c.least[n].Speed == at {
			c.least[n].Value, c.most[n].Value = min(c.least[n].Value, least), max(c.most[n].Value, most)
			continue
		}
		c.least, c.most = append(c.least, CurvePoint{Speed: at, Value: least}), append(c.most, CurvePoint{Speed: at, Value: most})
	}
	if len(c.least) == 0 {
		return false
	}
	if c.last = c.clock.FromSI(c.End); !isDrawn(c.last) || c.last < c.least[len(c.least)-1].Speed {
		c.last = c.least[len(c.least)-1].Speed
	}
	c.worstAt = c.clock.FromSI(c.WorstAt)
	worst, ok := c.Worst.drawnIn(c.Unit)
	c.worst, c.isMarked = worst, ok && !worst.isBracket() && c.worstAt >= c.least[0].Speed && c.worstAt <= c.last
	return true
}

// scale makes room for all that was seen and for the limit: what lies far out is what a log is looked at for.
func (c *course) scale() bool {
	from, to := c.least[0].Speed, c.last
	if !(from/2 < to/2) {
		to = from + max(1, math.Abs(from)*0.04)
	}
	c.x = axis{from, to, c.left, c.right}
	figures := append(c.Limit.in(c.Unit).figures(), c.low, c.high)
	if c.isMarked {
		figures = append(figures, c.worst.low)
	}
	lo, hi, ok := span(figures, c.Unit.StepFromSI(c.Limit.Step, c.low))
	below, above := 0.16, 0.16 // of half of it
	switch {
	case c.isMarked && c.isLow():
		below = 0.42 // its label stands there
	case c.isMarked:
		above = 0.3
	}
	c.y = axis{lo - (hi/2-lo/2)*below, hi + (hi/2-lo/2)*above, c.bottom, c.top}
	about := 8
	if c.size == Narrow {
		about = 4
	}
	if ok && isDrawn(c.y.lo) && isDrawn(c.y.hi) && c.y.lo < c.y.hi && isDrawn(to) {
		if c.Time == nil {
			about = max(1, int(min(float64(about), to-from))) // no ticks between rows
		}
		c.times, c.tick = c.x.ticks(about)
		return true
	}
	return false
}

// isLow reports whether the worst is nearer to the least than to the greatest that was seen.
func (c *course) isLow() bool { return c.worst.low < c.low/2+c.high/2 }

// title says the worst.
func (c *course) title() string {
	text := ""
	if c.About != "" {
		text = c.About + ": "
	}
	if !c.Worst.Is {
		return text + c.between(c.low, c.high)
	}
	text += readingText(c.Worst, c.Unit)
	if c.isMarked {
		text += c.when()
	}
	return text + verdictText(c.Verdict)
}

// when says when the worst was seen.
func (c *course) when() string {
	if c.Time == nil {
		return " after " + c.timeText(c.worstAt)
	}
	return " at " + c.timeText(c.worstAt)
}

// timeText tells a time as fine as a drawing can.
func (c *course) timeText(at float64) string {
	if c.Time == nil {
		return quantity.Counted(int(math.Round(at)), "row")
	}
	step := math.Pow(10, math.Round(math.Log10((c.last/2-c.least[0].Speed/2)/100)))
	if !(step > 0) || !isDrawn(step) {
		step = 0
	}
	return quantity.Show(c.clock.SI(at), c.clock, c.clock.StepSI(step, at)).Printed()
}

func (c *course) between(low, high float64) string {
	from, to := quantity.Show(c.Unit.SI(low), c.Unit, 0), quantity.Show(c.Unit.SI(high), c.Unit, 0)
	if from == to {
		return from.Printed()
	}
	return quantity.Between(from, to).Printed()
}

// describes tells the course from tick to tick of the time, and the limit. A stretch counts wherever it lasts. What reads alike before and after a tick is told once.
func (c *course) describes() string {
	var parts []string
	said := ""
	i, from := 0, math.Inf(-1)
	for _, to := range append(slices.Clone(c.times), math.Inf(1)) {
		low, high := math.Inf(1), math.Inf(-1)
		for ; i < len(c.least) && c.least[i].Speed < to; i++ {
			low, high = min(low, c.least[i].Value), max(high, c.most[i].Value)
		}
		if low <= high && (from < c.last || parts == nil) {
			if text := c.between(low, high); text != said {
				parts, said = append(parts, ""), text
			}
			parts[len(parts)-1] = said + " until " + c.timeText(min(to, c.last))
		}
		from = to
		if i > 0 && (i == len(c.least) || c.least[i].Speed > to) {
			i-- // it goes on
		}
	}
	if words := c.Limit.words(c.Unit); words != "" {
		parts = append(parts, words)
	}
	return strings.Join(parts, "; ")
}

// envelope draws the shape from the least to the greatest. Where the two are alike its edges are one line.
func (c *course) envelope() {
	room := int((c.right - c.left) / pxAPoint)
	most, least := thinned(c.most, room), thinned(c.least, room)
	c.begin("c-envelope")
	letter := markup("M")
	for _, p := range most {
		c.step(letter, c.x.at(p.Speed), c.y.at(p.Value))
		letter = "L"
	}
	if end := c.x.at(c.last); end > c.x.at(most[len(most)-1].Speed) {
		c.step("H", end)
		c.step("V", c.y.at(least[len(least)-1].Value))
	}
	for _, p := range slices.Backward(least) {
		c.step("L", c.x.at(p.Speed), c.y.at(p.Value))
	}
	c.put("Z")
	c.end()
}

func (c *course) timeAxis() {
	unit := "rows"
	if c.Time != nil {
		unit = unitText(c.Time)
	}
	free := c.right // of labels, to the right
	for _, v := range c.times {
		x, text := c.x.at(v), tickLabel(v, c.tick, c.clock)
		c.line("c-axis", x, c.bottom, x, c.bottom+4)
		if to := x + widthOf(text)/2; to+8+widthOf(unit) <= c.width {
			c.label("c-figure", middle, x, c.bottom+17, text)
			free = max(free, to)
		}
	}
	c.label("c-unit", start, free+8, c.bottom+17, unit)
}

// mark draws the worst figure where it was seen, with its label outside of the shape.
func (c *course) mark() {
	if !c.isMarked {
		return
	}
	class := verdictClass(c.Verdict)
	x, y := c.x.at(c.worstAt), c.y.at(c.worst.low)
	c.ring(class, x, y, dotSize)
	if c.Verdict == model.Out {
		c.ring(class+" c-outline", x, y, dotSize+3)
	}
	base := y - 12
	if c.isLow() {
		base = y + 21
	}
	text := cut(readingText(c.Worst, c.Unit)+verdictText(c.Verdict), (c.right-c.left)/1.12)
	half := boldWidth(text) / 2
	c.label(verdictLabel(c.Verdict)+" c-halo", middle, max(c.left+half+4, min(x, c.right-half)), base, text)
}
