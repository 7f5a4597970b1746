package chart

import (
	"math"

	"example.org/locknut/journal/quantity"
)

// Wanted is the lambda that is wanted over a range of engine speeds, in SI.
type Wanted struct{ From, To, Lambda, Tolerance float64 }

func lambdaOf(s Session) ([]CurvePoint, Figure) { return s.Lambda, Figure{} }

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
		if w.From < w.To && isDrawn(w.Lambda) && isDrawn(w.Tolerance) {
			wanted = append(wanted, w)
		}
	}
	return wanted
}

// drawWanted draws what is wanted behind the curves.
func (c *curves) drawWanted(p *panel) {
	for _, w := range p.wanted {
		c.box("c-band", c.x.at(w.From), p.y.at(w.Lambda+w.Tolerance), c.x.at(w.To), p.y.at(w.Lambda-w.Tolerance))
		c.line("c-aim", c.x.at(w.From), p.y.at(w.Lambda), c.x.at(w.To), p.y.at(w.Lambda))
	}
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
