package derive

import (
	"cmp"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// curves returns the curve of each run.
func curves(runs []model.Run, d quantity.Dimension) []*calc.SpeedCurve {
	all := make([]*calc.SpeedCurve, len(runs))
	for i, run := range runs {
		all[i] = curve(run, d)
	}
	return all
}

// curve returns a run's power, torque or lambda over the engine speed as it was read: by rising speed, rows of one speed as their mean. Nil for a run that has no curve.
func curve(run model.Run, d quantity.Dimension) *calc.SpeedCurve {
	points := make([]calc.SpeedPoint, 0, len(run.Points))
	for _, p := range run.Points {
		value := p.Power
		switch d {
		case quantity.Torque:
			value = p.Torque
		case quantity.Lambda:
			if value = p.Lambda; value == 0 {
				continue // it wasn't read there
			}
		}
		points = append(points, calc.SpeedPoint{Speed: p.Speed, Value: value})
	}
	slices.SortStableFunc(points, func(a, b calc.SpeedPoint) int { return cmp.Compare(a.Speed, b.Speed) })
	merged := points[:0]
	for i := 0; i < len(points); {
		at, sum, n := points[i].Speed, 0.0, 0
		for ; i < len(points) && points[i].Speed == at; i++ {
			sum += points[i].Value
			n++
		}
		merged = append(merged, calc.SpeedPoint{Speed: at, Value: sum / float64(n)})
	}
	c, err := calc.NewSpeedCurve(merged)
	if err != nil {
		return nil
	}
	return c
}

// band is a range of engine speeds in rad/s.
type band struct{ from, to float64 }

// bandOf returns the band of a key; false where it is not there, or has one end.
func bandOf(v *quantity.Quantity) (band, bool) {
	if v == nil || v.Kind != quantity.Interval || v.IsOpenEnded() {
		return band{}, false
	}
	return band{v.LowSI(), v.HighSI()}, true
}

// speed returns the engine speed at which what a dyno is off by in power is so much less in torque as in the mean over the band: the mean of 1/ω is ln(to/from)/(to − from).
// The other way about it is the mean of ω.
func (b band) speed(d quantity.Dimension) float64 {
	if d == quantity.Torque && b.to > b.from && b.from > 0 {
		return (b.to - b.from) / math.Log(b.to/b.from)
	}
	return (b.from + b.to) / 2
}

// mean returns the mean over a band of the curves of a session as they are compared, or the reason why there is none.
func (s *Session) mean(over band, d quantity.Dimension, what string) (e quantity.Estimate, reason string) {
	e = quantity.Estimate{Dimension: d}
	runs, reason := s.curvesOf(d)
	if reason != "" {
		return e, reason
	}
	figures := make([]float64, len(runs))
	for i, c := range runs {
		mean, err := c.Mean(over.from, over.to)
		if err != nil {
			return e, err.Error() + ": " + s.Pulls.Runs[i].File.Name
		}
		figures[i] = mean
	}
	return s.reckon(s.Pulls.Estimate(model.Figures{What: what, Dimension: d, Speed: over.speed(d), Of: figures}))
}

// difference is what a figure of the session after a stage is more than that before it, or the reason why that can't be told.
func (s *Stage) difference(of func(*Session) (quantity.Estimate, string)) (quantity.Estimate, string) {
	then, why := of(s.from)
	now, reason := of(s.to)
	switch {
	case s.Reason != "":
		reason = s.Reason
	case why != "":
		reason = "before: " + why
	case reason != "":
		reason = "after: " + reason
	}
	if reason != "" {
		return quantity.Estimate{Dimension: now.Dimension}, reason
	}
	gain := calc.Covered(quantity.Combine(now.Value-then.Value, now.Dimension, quantity.Term{Partial: 1, Of: now}, quantity.Term{Partial: -1, Of: then}))
	if !s.from.Pulls.IsScatterKnown(gain.Dimension) || !s.to.Pulls.IsScatterKnown(gain.Dimension) {
		gain.Shares = nil // what is known of the rest says nothing of how far off it may be
	}
	return gain, ""
}
