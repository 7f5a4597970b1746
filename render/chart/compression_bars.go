package chart

import (
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// CompressionData is the cranking pressure of each cylinder, read in one session, and what it is held to.
type CompressionData struct {
	Unit      *quantity.Unit
	Cylinders []Cylinder
	Expected  Limit   // its standard is the band in which it is expected
	Lowest    Reading // the lowest that is allowed
	Rule      string  // which rule allows it, in words: rules disagree
}

// Cylinder is one cylinder's reading.
type Cylinder struct {
	Name    string
	Reading Reading // in Pa
	Verdict model.Verdict
	Reason  string // why there is none
}

// pressures are bars of pressure while they are drawn.
type pressures struct {
	pen
	CompressionData
	size          Size
	width, height float64
	top, foot     float64
	x             axis
	rows          []pressureRow
	low, high     float64 // of what is expected, in the unit; NaN for none
	floor         drawn
	hasFloor      bool
}

// pressureRow is one cylinder in the unit of the drawing.
type pressureRow struct {
	Cylinder
	drawn
	isRead bool
	text   string
}

const cylinderTall = 44 // of a row

// Compression appends cranking pressures, a bar a cylinder. Without a reading there is nothing to draw.
func Compression(dst []byte, data CompressionData, size Size) []byte {
	p := pressures{pen: pen{dst}, CompressionData: data, size: size, width: 640}
	if size != Wide {
		p.size, p.width = Narrow, 320
	}
	if data.Unit == nil || data.Unit.Dimension != quantity.Pressure || !p.read() || !p.scale() {
		return dst
	}
	title := p.title()
	lines := wrap(title, p.width/1.12, 4)
	floor := p.floorLines()
	p.top = 10 + float64(len(lines)+len(floor))*rowTall
	p.foot = p.top + float64(len(p.rows))*cylinderTall + 12
	p.height = p.foot + 24
	if p.hasExpected() {
		p.height += rowTall
	}
	p.open("c-pressures", p.size, p.width, p.height, title, p.describes())
	for i, line := range lines {
		p.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	p.heldTo(18+float64(len(lines))*rowTall, floor)
	for i, r := range p.rows {
		p.bar(r, p.top+float64(i)*cylinderTall)
	}
	p.axis()
	p.shut()
	return p.out
}

// read puts the readings into the unit; false if there is none.
func (p *pressures) read() bool {
	any := false
	for _, c := range p.Cylinders {
		row := pressureRow{Cylinder: c}
		if strings.Trim(c.Name, "0123456789") == "" {
			row.Name = strings.TrimSpace("cylinder " + c.Name) // a bare number beside a figure would be read as one
		}
		if row.drawn, row.isRead = c.Reading.drawnIn(p.Unit); row.isRead {
			row.text = readingText(c.Reading, p.Unit)
			any = true
		}
		p.rows = append(p.rows, row)
	}
	b := p.Expected.in(p.Unit)
	p.low, p.high = b.low, b.high
	p.floor, p.hasFloor = p.Lowest.drawnIn(p.Unit)
	p.hasFloor = p.hasFloor && !p.floor.isBracket()
	return any
}

// hasExpected reports whether there is a band: it may be open on one side.
func (p *pressures) hasExpected() bool {
	return (isDrawn(p.low) || isDrawn(p.high)) && !(p.low > p.high)
}

// scale begins at no pressure at all, so that lengths of bars compare.
func (p *pressures) scale() bool {
	figures := []float64{0}
	for _, r := range p.rows {
		if r.isRead {
			figures = append(figures, r.low-r.spread, r.low, r.high, r.high+r.spread)
		}
	}
	if p.hasExpected() {
		figures = append(figures, p.low, p.high) // what is not there is NaN, and left out
	}
	if p.hasFloor {
		figures = append(figures, p.floor.middle())
	}
	lo, hi, ok := span(figures, 0)
	p.x = axis{lo, hi + (hi/2-lo/2)*0.06, 1, p.width - 1}
	return ok && isDrawn(p.x.hi) && p.x.lo < p.x.hi
}

// title says the worst first.
func (p *pressures) title() string {
	for _, verdict := range []model.Verdict{model.Out, model.Undecided, model.Worn} {
		var list []string
		for _, r := range p.rows {
			if r.isRead && r.Verdict == verdict {
				list = append(list, r.Name+" at "+r.text)
			}
		}
		if n := len(list); n > 3 {
			list = append(list[:3], strconv.Itoa(n-3)+" more")
		}
		if len(list) > 0 {
			return "compression, " + verdict.String() + ": " + strings.Join(list, ", ")
		}
	}
	var least, most *pressureRow
	isIn := true
	for i := range p.rows {
		r := &p.rows[i]
		isIn = isIn && r.isRead && r.Verdict == model.In
		if r.isRead && (least == nil || r.middle() < least.middle()) {
			least = r
		}
		if r.isRead && (most == nil || r.middle() > most.middle()) {
			most = r
		}
	}
	title := "compression: "
	if isIn {
		title += "all in, "
	}
	if least == most {
		return title + least.Name + " at " + least.text
	}
	return title + "lowest " + least.Name + " at " + least.text + ", highest " + most.Name + " at " + most.text
}

func (p *pressures) describes() string {
	var parts []string
	for _, r := range p.rows {
		parts = append(parts, r.Name+": "+p.says(r))
	}
	if p.hasExpected() {
		parts = append(parts, p.expectedText())
	}
	if p.hasFloor {
		parts = append(parts, p.floorText())
	}
	return strings.Join(parts, "; ")
}

// says is a reading with its verdict, or why there is none.
func (p *pressures) says(r pressureRow) string {
	switch {
	case r.isRead:
		return r.text + verdictText(r.Verdict)
	case r.Reason != "":
		return "not read: " + r.Reason
	}
	return "not read"
}

func (p *pressures) expectedText() string {
	return "expected " + p.Expected.between(p.Expected.Low, p.Expected.High, p.Unit)
}

func (p *pressures) floorText() string {
	text := "lowest allowed " + readingText(p.Lowest, p.Unit)
	if p.Rule != "" {
		text += ": " + p.Rule
	}
	return text
}

func (p *pressures) floorLines() []string {
	if !p.hasFloor {
		return nil
	}
	return wrap(p.floorText(), p.width, 3)
}

// heldTo draws the band that is expected, and the line of the lowest that is allowed down from the words that say by which rule.
func (p *pressures) heldTo(y float64, floor []string) {
	if p.hasExpected() {
		left, right := p.x.from, p.x.to
		if isDrawn(p.low) {
			left = p.x.at(p.low)
		}
		if isDrawn(p.high) {
			right = p.x.at(p.high)
		}
		p.box("c-band", left, p.top, right, p.foot)
		for _, edge := range []float64{left, right} {
			if edge > p.x.from && edge < p.x.to {
				p.line("c-edge", edge, p.top, edge, p.foot)
			}
		}
		text := cut(p.expectedText(), p.width)
		half := widthOf(text) / 2
		p.label("c-name", middle, max(half, min(left/2+right/2, p.width-half)), p.foot+17+rowTall, text)
	}
	if p.hasFloor {
		x := p.x.at(p.floor.middle())
		p.line("c-floor", x, y+4+float64(len(floor)-1)*rowTall, x, p.foot)
		for i, line := range floor {
			half := widthOf(line) / 2
			p.label("c-figure", middle, max(half, min(x, p.width-half)), y+float64(i)*rowTall, line)
		}
	}
}

// bar draws one cylinder: its name and what was read above its bar. The verdict is in the words, and in how the bar is filled.
func (p *pressures) bar(r pressureRow, y float64) {
	p.group(strings.TrimSpace(r.Name + " " + p.says(r)))
	top, base := y+22, y+22+barTall
	name := cut(r.Name, p.width/3)
	p.label("c-figure c-halo", start, 8, y+17, name)
	class := verdictLabel(r.Verdict) + " c-halo"
	if !r.isRead {
		class = "c-name c-halo"
	}
	from := 8 + widthOf(name) + 10
	p.label(class, start, from, y+17, cut(p.says(r), (p.width-from)/1.12))
	if !r.isRead {
		p.line("c-broken", p.x.at(0), top+barTall/2, p.x.at(0)+44, top+barTall/2)
		p.ungroup()
		return
	}
	zero, to := p.x.at(0), p.x.at(r.middle())
	left, right := min(zero, to), max(zero, to)
	switch r.Verdict {
	case model.Out:
		p.box("c-pressure-out", left, top, right, base)
		p.line("c-out c-stroke", left, base+3, right, base+3)
	case model.Worn:
		p.hatch("c-worn c-stroke", left, top, right, base, 4.5)
		p.box("c-worn c-outline", left, top, right, base)
	case model.Undecided:
		p.box("c-pressure-undecided", left, top, right, base)
	default:
		p.box("c-pressure", left, top, right, base)
	}
	if r.spread > 0 {
		p.whisker(p.x.at(r.low-r.spread), p.x.at(r.low+r.spread), base+7)
	} else if r.isBracket() && isDrawn(r.low) && isDrawn(r.high) {
		p.whisker(p.x.at(r.low), p.x.at(r.high), base+7)
	}
	p.ungroup()
}

func (p *pressures) axis() {
	zero := p.x.at(0)
	p.line("c-axis", zero, p.top, zero, p.foot)
	p.line("c-axis", p.x.from, p.foot, p.x.to, p.foot)
	about := 6
	if p.size == Narrow {
		about = 3
	}
	at, step := p.x.ticks(about)
	unit := unitText(p.Unit)
	edge := p.width - widthOf(unit) - 8
	for _, v := range at {
		x, text := p.x.at(v), tickLabel(v, step, p.Unit)
		p.line("c-axis", x, p.foot, x, p.foot+4)
		if place := max(x, widthOf(text)/2); place+widthOf(text)/2 < edge {
			p.label("c-figure", middle, place, p.foot+17, text)
		}
	}
	p.label("c-unit", end, p.width, p.foot+17, unit)
}
