package derive

import (
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// Levels returns the mean of each pull over the engine speeds that all of the session cover, of power or torque as they were read, in SI; none where there are none.
func (s *Session) Levels(d quantity.Dimension) []float64 {
	runs, reason := s.curvesOf(d)
	if reason != "" {
		return nil
	}
	from, to := commonSpan(runs)
	levels := make([]float64, len(runs))
	for i, c := range runs {
		mean, err := c.Mean(from, to)
		if err != nil {
			return nil
		}
		levels[i] = mean
	}
	return levels
}

// ratioPoints is how many engine speeds two sessions are held against each other at.
const ratioPoints = 9

// Times returns how many times as large power, or torque, is as in another session, as both were read: at engine speeds over all that the pulls of both cover; none where there are none.
func (s *Session) Times(other *Session, d quantity.Dimension) []float64 {
	own, reason := s.curvesOf(d)
	others, why := other.curvesOf(d)
	if reason != "" || why != "" {
		return nil
	}
	from, to := commonSpan(append(own[:len(own):len(own)], others...))
	if !(to > from) {
		return nil
	}
	var times []float64
	for i := range ratioPoints {
		speed := from + (to-from)*float64(i)/(ratioPoints-1)
		a, _ := quantity.Mean(figuresAt(own, speed, d).Of)
		b, _ := quantity.Mean(figuresAt(others, speed, d).Of)
		if a > 0 && b > 0 {
			times = append(times, a/b)
		}
	}
	return times
}

// commonSpan returns the engine speeds that all curves cover: from is above to where there are none.
func commonSpan(runs []*calc.SpeedCurve) (from, to float64) {
	from, to = 0, math.Inf(1)
	for _, c := range runs {
		low, high := c.Span()
		from, to = max(from, low), min(to, high)
	}
	return from, to
}
