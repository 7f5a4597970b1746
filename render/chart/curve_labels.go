package chart

import (
	"slices"

	"example.org/locknut/journal/quantity"
)

// labels names each curve at its end, with its peak where there is room, and leads to a name that had to move. The current state and
// the baseline are named before the others.
func (c *curves) labels(p *panel, order []curve) {
	list, isTall := c.named(p, order, peakTall), true
	if room(list) > p.bottom-p.top+12 || p.bottom-p.top < 150 {
		list, isTall = c.named(p, order, 0), false
	}
	for _, l := range spread(list, p.top-12, p.bottom) {
		one := order[slices.IndexFunc(order, func(o curve) bool { return o.label == l.text && endOf(p, o) == l.want })]
		last := one.points[len(one.points)-1]
		x, y := c.x.at(last.Speed), p.y.at(last.Value)
		room := c.labelRoom(one.role)
		lines := wrap(l.text, room, labelLines)
		peak := c.peakText(p, one)
		if n := len(lines) - 1; peak != "" && !isTall && widthOf(lines[n]+" "+peak) <= room {
			lines[n] += " " + peak
		}
		if isTall {
			lines = append(lines, cut(peak, room))
		}
		near := l.at - 7*float64(len(lines)-1)
		c.line("c-leader"+one.dash, x+2, y, c.right+8, near, c.right+16, near)
		class := markup("c-figure")
		switch one.role {
		case Current:
			class = "c-value c-say-now"
		case Baseline:
			class = "c-name"
		}
		for i, line := range lines {
			if line != "" {
				c.label(class, start, c.right+20, near+4.5+15.5*float64(i), line)
			}
		}
	}
}

// labelLines is how many lines a name may take: what tells the sessions of one day apart comes last in it, and must not be cut.
const labelLines = 2

// labelRoom is how wide a name may be. That of the current state is bold.
func (c *curves) labelRoom(role Role) float64 {
	room := c.width - c.right - 20
	if role == Current {
		return room / 1.12
	}
	return room
}

func endOf(p *panel, one curve) float64 { return p.y.at(one.points[len(one.points)-1].Value) }

// peakTall is how tall the line of a peak is, below the name of its curve.
const peakTall = 18

// named are the labels of the curves of a panel, each with room for so much below its name.
func (c *curves) named(p *panel, order []curve, below float64) []beside {
	var list []beside
	for _, role := range []Role{Current, Baseline, Earlier} {
		for i := len(order) - 1; i >= 0; i-- {
			one := order[i]
			if one.role != role || p.few && role == Earlier {
				continue
			}
			tall := 16*float64(len(wrap(one.label, c.labelRoom(role), labelLines))) + below
			list = append(list, beside{text: one.label, want: endOf(p, one), size: tall})
		}
	}
	return list
}

// peakText is the peak as the page tells it, on a wide drawing with the speed at which the mean has it.
func (c *curves) peakText(p *panel, one curve) string {
	if !one.peak.Is {
		return ""
	}
	text := plainFigure(one.peak, p.unit)
	if c.size == Wide && p.bottom-p.top > 150 {
		at := peak(one.points).Speed
		text += " at " + quantity.Show(c.Speed.SI(at), c.Speed, c.Speed.StepSI(10, at)).Number
	}
	return text
}
