package chart

import (
	"math"

	"example.org/locknut/journal/quantity"
)

// plot is a drawing of figures in a unit, up, over something along.
type plot struct {
	pen
	size                     Size
	width, height            float64
	left, right, top, bottom float64 // of what lies between the axes
	x, y                     axis
}

// frame draws both axes, and the ticks of the one up with its unit on its end.
func (p *plot) frame(u *quantity.Unit) {
	p.line("c-axis", p.left, p.top, p.left, p.bottom)
	p.line("c-axis", p.left, p.bottom, p.right, p.bottom)
	at, step := p.y.ticks(4)
	for _, v := range at {
		y := p.y.at(v)
		p.line("c-axis", p.left-4, y, p.left, y)
		p.label("c-figure", end, p.left-7, y+4.5, tickLabel(v, step, u))
	}
	p.label("c-unit", end, p.left-7, p.top-9, unitText(u))
}

// band draws a limit from one place along to another.
func (p *plot) band(b bounds, x0, x1 float64) {
	up := func(v, open float64) float64 {
		if math.IsNaN(v) {
			return open
		}
		y, _ := p.y.place(v)
		return y
	}
	if !math.IsNaN(b.low) || !math.IsNaN(b.high) {
		p.box("c-band", x0, up(b.high, p.top), x1, up(b.low, p.bottom))
	}
	if b.serviceLow < b.low {
		p.hatch("c-service", x0, up(b.low, 0), x1, up(b.serviceLow, 0), 7)
	}
	if b.serviceHigh > b.high {
		p.hatch("c-service", x0, up(b.serviceHigh, 0), x1, up(b.high, 0), 7)
	}
	for _, e := range []struct {
		at    float64
		class markup
	}{{b.low, "c-edge"}, {b.high, "c-edge"}, {b.serviceLow, "c-edge-service"}, {b.serviceHigh, "c-edge-service"}, {b.nominal, "c-aim"}} {
		if y, off := p.y.place(e.at); !math.IsNaN(e.at) && off == 0 {
			p.line(e.class, x0, y, x1, y)
		}
	}
}

// boundLabels writes the figures of a limit beside its bounds, on the right.
func (p *plot) boundLabels(l Limit, u *quantity.Unit) {
	b := l.in(u)
	var list []beside
	for _, e := range []struct {
		at   float64
		name string
	}{{b.low, ""}, {b.high, ""}, {b.serviceLow, " service"}, {b.serviceHigh, " service"}, {b.nominal, " nominal"}} {
		y, off := p.y.place(e.at)
		if math.IsNaN(e.at) || off != 0 || e.name == " nominal" && (e.at == b.low || e.at == b.high) {
			continue
		}
		text := l.show(Bound{true, u.SI(e.at)}, u).Number
		if p.size == Wide {
			text += e.name
		}
		list = append(list, beside{text: text, want: y, size: 14})
	}
	for _, one := range spread(list, p.top-8, p.bottom+8) {
		p.label("c-name", start, p.right+6, one.at+4.5, cut(one.text, p.width-p.right-6))
	}
}
