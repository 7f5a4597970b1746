package chart

import (
	"strings"

	"example.org/locknut/journal/quantity"
)

// GearsData is how fast the machine goes in each gear.
type GearsData struct {
	Rotation *quantity.Unit // of the engine, along
	Speed    *quantity.Unit // on the road, up
	Redline  Reading        // in rad/s
	Gears    []Gear         // from the lowest on
}

// Gear is one gear.
type Gear struct {
	Name      string
	AtRedline Reading // the road speed in m/s
	Drop      Reading // what the engine speed falls by, in rad/s, where this gear takes over from the one before at the redline, as the page tells it
}

// gears are the gears while they are drawn.
type gears struct {
	pen
	GearsData
	size          Size
	width, height float64
	left, right   float64
	top, bottom   float64
	x, y          axis
	lines         []gearLine
}

// gearLine is one gear in the units of the drawing.
type gearLine struct {
	name, text string
	number     string  // the text without its unit, which stands on the axis
	speed      float64 // at the redline
	drop       string  // into it, from the one before
	from       float64 // the engine speed that it takes over at; the redline where there is none before it, or none that is lower
}

// mostGears are told apart.
const mostGears = 12

// GearSpeeds appends the road speed over the engine speed for each gear, and the saw tooth of changing up at the redline. Without a redline and a gear there is nothing to
// draw.
func GearSpeeds(dst []byte, data GearsData, size Size) []byte {
	g := gears{pen: pen{dst}, GearsData: data, size: size, width: 640, left: 44, right: 640 - 176}
	if size != Wide {
		g.size, g.width, g.left, g.right = Narrow, 320, 36, 320-116
	}
	if data.Rotation == nil || data.Rotation.Dimension != quantity.Rotation || data.Speed == nil || data.Speed.Dimension != quantity.Speed || !g.fan() {
		return dst
	}
	title := g.title()
	lines := wrap(title, g.width/1.12, 4)
	g.top = 40 + float64(len(lines))*rowTall
	g.bottom = g.top + 260
	g.height = g.bottom + 24
	g.y.from, g.y.to = g.bottom, g.top
	g.open("c-gears", g.size, g.width, g.height, title, g.describes())
	for i, line := range lines {
		g.label("c-title", start, 0, 13+float64(i)*rowTall, line)
	}
	g.axes()
	for _, l := range g.lines {
		g.line("c-earlier c-run", g.x.at(0), g.y.at(0), g.x.to, g.y.at(l.speed))
	}
	g.teeth()
	g.names()
	g.shut()
	return g.out
}

// fan takes the gears in, from no speed up to the redline; false where there is nothing to draw.
func (g *gears) fan() bool {
	redline, ok := g.Redline.drawnIn(g.Rotation)
	if !ok || redline.isBracket() || !(redline.middle() > 0) {
		return false
	}
	g.x = axis{0, redline.middle(), g.left, g.right}
	for _, one := range g.Gears {
		speed, ok := one.AtRedline.drawnIn(g.Speed)
		if !ok || speed.isBracket() || !(speed.middle() > 0) || len(g.lines) == mostGears {
			continue
		}
		l := gearLine{name: one.Name, text: readingText(one.AtRedline, g.Speed), number: numberOf(one.AtRedline, g.Speed), speed: speed.middle(), from: g.x.hi}
		if n := len(g.lines); n > 0 && g.lines[n-1].speed < l.speed {
			l.from = g.x.hi * (g.lines[n-1].speed / l.speed)
			if _, ok := one.Drop.drawnIn(g.Rotation); ok {
				l.drop = readingText(one.Drop, g.Rotation)
			}
		}
		g.lines = append(g.lines, l)
		g.y.hi = max(g.y.hi, l.speed)
	}
	return len(g.lines) > 0
}

// title says how fast the fastest gear goes, and where the engine falls the farthest.
func (g *gears) title() string {
	fastest, widest := g.lines[0], gearLine{from: g.x.hi}
	before := ""
	for i, l := range g.lines {
		if l.speed > fastest.speed {
			fastest = l
		}
		if l.from < widest.from && l.drop != "" {
			widest, before = l, g.lines[i-1].name
		}
	}
	title := "gear " + fastest.name + ": " + fastest.text + " at " + readingText(g.Redline, g.Rotation)
	if widest.drop != "" {
		title += "; the widest drop is " + widest.drop + ", from " + before + " to " + widest.name
	}
	return title
}

func (g *gears) describes() string {
	var parts []string
	for _, l := range g.lines {
		text := "gear " + l.name + ": " + l.text
		if l.drop != "" {
			text += ", drop into it " + l.drop
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// axes draws the speeds of the road and of the engine, and the redline.
func (g *gears) axes() {
	at, step := g.y.ticks(6)
	for _, v := range at {
		y := g.y.at(v)
		g.line("c-grid", g.left, y, g.right, y)
		g.label("c-figure", end, g.left-6, y+4.5, tickLabel(v, step, g.Speed))
	}
	g.label("c-unit", start, 0, g.top-14, unitText(g.Speed))
	g.line("c-axis", g.left, g.bottom, g.right, g.bottom)
	g.line("c-axis", g.right, g.top-8, g.right, g.bottom)
	redline := "redline " + readingText(g.Redline, g.Rotation)
	g.label("c-figure", end, g.right+widthOf("redline")/2, g.top-14, redline)
	about := 6
	if g.size == Narrow {
		about = 3
	}
	at, step = g.x.ticks(about)
	for _, v := range at {
		x := g.x.at(v)
		g.line("c-axis", x, g.bottom, x, g.bottom+4)
		g.label("c-figure", middle, x, g.bottom+18, tickLabel(v, step, g.Rotation))
	}
	g.label("c-unit", start, g.right+26, g.bottom+18, unitText(g.Rotation))
}

// teeth draws the way through the gears: up each line, and at the redline back along the road speed to where the next takes over. A gear that is no faster than the one
// before it takes over nowhere, and the way ends.
func (g *gears) teeth() {
	from := 0.0
	for i, l := range g.lines {
		if i > 0 {
			if from = l.from; from >= g.x.hi {
				return
			}
			y := g.y.at(g.lines[i-1].speed)
			g.line("c-drop", g.x.to, y, g.x.at(from), y)
		}
		g.line("c-now c-run", g.x.at(from), g.y.at(l.speed*(from/g.x.hi)), g.x.to, g.y.at(l.speed))
	}
}

// names writes each gear and its speed at the end of its line.
func (g *gears) names() {
	list := make([]beside, 0, len(g.lines))
	for i := len(g.lines) - 1; i >= 0; i-- {
		l := g.lines[i]
		one := beside{text: "gear " + l.name + ": " + l.text, class: "c-figure", want: g.y.at(l.speed), size: 16}
		if g.size == Narrow {
			one.text = l.name + ": " + l.number
		}
		if l.speed == g.y.hi {
			one.class = "c-value c-say-now"
		}
		list = append(list, one)
	}
	const far = 20
	for _, b := range spread(list, g.top-12, g.bottom+4) {
		g.line("c-leader", g.right+2, b.want, g.right+8, b.at, g.right+16, b.at)
		g.label(b.class, start, g.right+far, b.at+4.5, cut(b.text, (g.width-g.right-far)/1.12))
	}
}
