package calc

import (
	"math"

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
