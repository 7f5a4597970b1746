package calc

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/interp"
)

// SpeedPoint is one row of a pull: an engine speed (rad/s) and a figure there: power in W, or torque in N·m.
type SpeedPoint struct{ Speed, Value float64 }

// SpeedCurve is a figure over the engine speed, straight from point to point.
type SpeedCurve struct {
	points []SpeedPoint
	line   interp.PiecewiseLinear
}

// NewSpeedCurve makes a curve of points whose speeds rise. It refuses fewer than two, speeds that don't rise, and figures that are none.
func NewSpeedCurve(points []SpeedPoint) (*SpeedCurve, error) {
	if len(points) < 2 {
		return nil, Refusal("a curve needs two points at least")
	}
	xs, ys := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		if err := first(positive("the engine speed", p.Speed), finitely(p.Value)); err != nil {
			return nil, err
		}
		if i > 0 && !(p.Speed > points[i-1].Speed) {
			return nil, Refusal("the engine speed doesn't rise")
		}
		xs[i], ys[i] = p.Speed, p.Value
	}
	c := &SpeedCurve{points: points}
	if err := c.line.Fit(xs, ys); err != nil {
		return nil, Refusal("no curve goes through these points: " + err.Error())
	}
	return c, nil
}

// Span returns the first and the last engine speed, in rad/s.
func (c *SpeedCurve) Span() (from, to float64) {
	return c.points[0].Speed, c.points[len(c.points)-1].Speed
}

// At returns the figure at an engine speed (rad/s); false beyond the ends of the curve, where nobody measured.
func (c *SpeedCurve) At(speed float64) (value float64, ok bool) {
	from, to := c.Span()
	const last = 1e-9 // of the speed: a unit that was converted
	if !(speed >= from*(1-last) && speed <= to*(1+last)) {
		return 0, false
	}
	return c.line.Predict(min(max(speed, from), to)), true
}

// Mean returns the mean of the figure over the engine speed from one speed to another (rad/s): the area under the curve there over the width of the band, exact for straight
// lines. It refuses a band that is none, or that the curve doesn't cover.
func (c *SpeedCurve) Mean(from, to float64) (float64, error) {
	if !(to > from) {
		return 0, Refusal("the band has no width")
	}
	low, ok := c.At(from)
	high, too := c.At(to)
	if !ok || !too {
		return 0, Refusal("the pull doesn't cover the band")
	}
	area, last := 0.0, SpeedPoint{from, low}
	add := func(p SpeedPoint) {
		area += (p.Speed - last.Speed) * (p.Value + last.Value) / 2
		last = p
	}
	for _, p := range c.points {
		if p.Speed > from && p.Speed < to {
			add(p)
		}
	}
	add(SpeedPoint{to, high})
	mean := area / (to - from)
	if math.IsNaN(mean) || math.IsInf(mean, 0) {
		return 0, Refusal("the figures are too large or too small to work with")
	}
	return mean, nil
}

// WeightedSum returns the sum of curves, each times its weight, over the engine speeds that all of them cover: with weights of 1/n the mean of n curves, with +1 and −1 what one is
// above the other. It has a point at every speed at which one of them has, so that straight lines stay exact. It refuses no curve, weights that don't match, and curves that have no
// range in common.
func WeightedSum(curves []*SpeedCurve, weights []float64) (*SpeedCurve, error) {
	if len(curves) == 0 || len(curves) != len(weights) {
		return nil, Refusal("each curve needs its weight")
	}
	low, high := math.Inf(-1), math.Inf(1)
	for _, c := range curves {
		from, to := c.Span()
		low, high = max(low, from), min(high, to)
	}
	if !(low < high) {
		return nil, Refusal("the pulls have no range of engine speeds in common")
	}
	speeds := []float64{low, high}
	for _, c := range curves {
		for _, p := range c.points {
			if p.Speed > low && p.Speed < high {
				speeds = append(speeds, p.Speed)
			}
		}
	}
	slices.Sort(speeds)
	speeds = slices.Compact(speeds)
	points := make([]SpeedPoint, len(speeds))
	for i, speed := range speeds {
		points[i].Speed = speed
	}
	for k, c := range curves {
		next := 0
		for i := range points {
			for c.points[next].Speed < points[i].Speed {
				next++
			}
			points[i].Value += weights[k] * c.between(next, points[i].Speed)
		}
	}
	return NewSpeedCurve(points)
}

// between is the figure at a speed that lies after the point before the next, and no later than the next.
func (c *SpeedCurve) between(next int, speed float64) float64 {
	b := c.points[next]
	if b.Speed == speed {
		return b.Value
	}
	a := c.points[next-1]
	return a.Value + (speed-a.Speed)/(b.Speed-a.Speed)*(b.Value-a.Value)
}

// Thinned returns at most so many points of the curve, at least four: those that [Telling] keeps.
func (c *SpeedCurve) Thinned(most int) []SpeedPoint {
	kept := Telling(len(c.points), most, func(i int) (x, y float64) { return c.points[i].Speed, c.points[i].Value })
	points := make([]SpeedPoint, len(kept))
	for i, k := range kept {
		points[i] = c.points[k]
	}
	return points
}

// Telling returns which of n points, in order of x, tell a line apart from its neighbours when it is drawn in few columns: no more than so many, at least four, by index and in
// order. The range of x is cut into even columns, and of each the point with the least and that with the greatest y stay, besides the first and the last of all: so the peak and the
// trough of the line are kept exactly, and a spike is never averaged away. Of points that are alike the first stays. It takes a time that grows with n alone.
//
// Source of the method: the least and the greatest of each column, common practice, no source.
func Telling(n, most int, at func(i int) (x, y float64)) []int {
	most = max(most, 4)
	kept := make([]int, 0, min(n, most))
	if n <= most {
		for i := range n {
			kept = append(kept, i)
		}
		return kept
	}
	first, _ := at(0)
	last, _ := at(n - 1)
	columns := (most - 2) / 2
	width := (last/2 - first/2) / float64(columns)
	kept = append(kept, 0)
	from := 1
	for column := range columns {
		to := n - 1
		if column < columns-1 {
			edge := first/2 + width*float64(column+1)
			to = from + sort.Search(n-1-from, func(i int) bool { x, _ := at(from + i); return x/2 >= edge })
		}
		kept = appendExtremes(kept, from, to, at)
		from = to
	}
	return append(kept, n-1)
}

// appendExtremes appends the least and the greatest of the points from one up to another, in order.
func appendExtremes(kept []int, from, to int, at func(int) (x, y float64)) []int {
	if from >= to {
		return kept
	}
	least, most := from, from
	_, low := at(from)
	high := low
	for i := from + 1; i < to; i++ {
		switch _, y := at(i); {
		case y < low:
			least, low = i, y
		case y > high:
			most, high = i, y
		}
	}
	kept = append(kept, min(least, most))
	if least != most {
		kept = append(kept, max(least, most))
	}
	return kept
}
