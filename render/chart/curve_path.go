package chart

import (
	"math"
	"slices"
)

// field is where curves are drawn: an axis along and one up.
type field struct{ x, y axis }

// through draws a line through points.
func (p *pen) through(class markup, on field, points []CurvePoint) {
	p.begin(class)
	p.along(on, points, middleOf)
	p.end()
}

// between fills what lies between two ends of each point, such as those of its interval.
func (p *pen) between(class markup, on field, points []CurvePoint, upper, lower func(CurvePoint) float64) {
	p.begin(class)
	x, y := p.along(on, points, upper)
	back := slices.Clone(points)
	slices.Reverse(back)
	p.steps(on, back, lower, x, y)
	p.put("Z")
	p.end()
}

func middleOf(p CurvePoint) float64 { return p.Value }

// along moves to the first of some points and writes the way through the others. It returns where that ends, in tenths of a px.
func (p *pen) along(on field, points []CurvePoint, of func(CurvePoint) float64) (x, y float64) {
	first := points[0]
	x, y = tenths(on.x.at(first.Speed)), tenths(on.y.at(of(first)))
	p.step("M", x/10, y/10)
	return p.steps(on, points[1:], of, x, y)
}

// steps writes the way on through points, from a place in tenths of a px. Each is written as what it is from the one before, which takes two thirds of the bytes; since
// that is rounded as the places are, errors don't add up.
func (p *pen) steps(on field, points []CurvePoint, of func(CurvePoint) float64, x, y float64) (toX, toY float64) {
	for i, point := range points {
		nextX, nextY := tenths(on.x.at(point.Speed)), tenths(on.y.at(of(point)))
		switch dx := nextX - x; {
		case i == 0:
			p.put("l")
			p.num(dx / 10)
		case dx < 0:
			p.num(dx / 10)
		default:
			p.put(" ")
			p.num(dx / 10)
		}
		if dy := nextY - y; dy >= 0 {
			p.put(" ")
		}
		p.num((nextY - y) / 10)
		x, y = nextX, nextY
	}
	return x, y
}

func tenths(x float64) float64 { return math.Round(x * 10) }
