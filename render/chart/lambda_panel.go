package chart

import (
	"math"
	"slices"

	"example.org/locknut/journal/quantity"
)

// Wanted is the lambda that is wanted over a range of engine speeds, in SI.
type Wanted struct{ From, To, Lambda, Tolerance float64 }

// mostLambda is how many sessions have their lambda drawn: the first that holds it, and the last ones.
const mostLambda = 4

// lambdaOf returns what finds the lambda of the sessions that are drawn with it.
func (c *curves) lambdaOf() func(Session) ([]CurvePoint, Figure) {
	var names []string
	for _, s := range c.Sessions {
		if len(s.Lambda) > 0 {
			names = append(names, s.Label)
		}
	}
	if more := len(names) - mostLambda; more > 0 {
		names = slices.Delete(names, 1, 1+more)
	}
	return func(s Session) ([]CurvePoint, Figure) {
		if !slices.Contains(names, s.Label) {
			return nil, Figure{}
		}
		return s.Lambda, Figure{}
	}
}

// isLambda reports whether the panel holds the mixture, which has neither peaks nor bands.
func (p *panel) isLambda() bool { return p.unit.Dimension == quantity.Lambda }

// wanted are the lambdas that are wanted where curves of it run, with the engine speeds in the unit of the chart.
func (c *curves) wanted(over []curve) (wanted []Wanted) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, one := range over {
		low, high = min(low, one.points[0].Speed), max(high, one.points[len(one.points)-1].Speed)
	}
	for _, w := range c.Wanted {
		w.From, w.To = max(low, c.Speed.FromSI(w.From)), min(high, c.Speed.FromSI(w.To))
		switch last := len(wanted) - 1; {
		case !(w.From < w.To) || !isDrawn(w.Lambda) || !isDrawn(w.Tolerance):
		case last >= 0 && wanted[last].To == w.From && wanted[last].Lambda == w.Lambda && wanted[last].Tolerance == w.Tolerance:
			wanted[last].To = w.To
		default:
			wanted = append(wanted, w)
		}
	}
	return wanted
}

// drawWanted draws what is wanted behind the curves.
func (c *curves) drawWanted(p *panel) {
	if len(p.wanted) == 0 {
		return
	}
	c.begin("c-band")
	for _, w := range p.wanted {
		c.step("M", c.x.at(w.From), p.y.at(w.Lambda+w.Tolerance))
		c.step("H", c.x.at(w.To))
		c.step("V", p.y.at(w.Lambda-w.Tolerance))
		c.step("H", c.x.at(w.From))
		c.put("Z")
	}
	c.end()
	c.begin("c-aim")
	for _, w := range p.wanted {
		c.step("M", c.x.at(w.From), p.y.at(w.Lambda))
		c.step("H", c.x.at(w.To))
	}
	c.end()
}

// lambdaText tells from where to where the mixture went.
func lambdaText(points []CurvePoint) string {
	if len(points) == 0 {
		return ""
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, pt := range points {
		low, high = min(low, pt.Value), max(high, pt.Value)
	}
	if !isDrawn(low) || !isDrawn(high) {
		return ""
	}
	from, to := quantity.Show(low, quantity.One(), 0.01), quantity.Show(high, quantity.One(), 0.01)
	if from == to {
		return ", lambda " + from.Printed()
	}
	return ", lambda " + quantity.Between(from, to).Printed()
}
