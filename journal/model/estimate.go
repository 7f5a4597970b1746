package model

import (
	"math"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// estimate works out the uncertainty of a value from what was written and from its tool: a list of independent causes, each with its
// standard deviation in SI. The factors are those of the GUM (JCGM 100:2008, 4.3): an expanded figure is halved (k = 2), a greatest
// permitted error is rectangular (a/√3), a resolution is rectangular over one step (r/√12), a bracket is rectangular between its ends.
// What a tool gets wrong in the same way each time is one cause for all that it read.
func (v *Value) estimate() {
	q := v.Quantity
	if q.Unit == nil {
		return
	}
	e := quantity.Estimate{Value: q.SI(), Dimension: q.Unit.Dimension}
	add := func(cause string, std float64) {
		if std > 0 && !math.IsInf(std, 0) && !math.IsNaN(std) {
			e.Shares = append(e.Shares, quantity.Share{Cause: cause, Std: std})
		}
	}
	switch {
	case q.Kind == quantity.Interval && q.HasLow && q.HasHigh:
		e.Value = (q.LowSI() + q.HighSI()) / 2
		add(v.ID(), (q.HighSI()-q.LowSI())/math.Sqrt(12))
	case len(v.Repeats) > 0:
		values := make([]float64, len(v.Repeats))
		for i, r := range v.Repeats {
			values[i] = r.SI()
		}
		_, std := quantity.Mean(values)
		add(v.ID(), std)
	}
	if q.HasSpread {
		add(v.ID()+"±", q.SpreadSI()/2)
	} else if v.Tool != nil {
		v.Tool.shares(v, e.Value, add)
	}
	v.Estimate = quantity.Combine(e.Value, e.Dimension, quantity.Term{Partial: 1, Of: e})
}

// shares adds what the tool contributes to the uncertainty of a figure that it read.
func (t *Tool) shares(v *Value, si float64, add func(cause string, std float64)) {
	if !t.measures(v.Quantity.Unit.Dimension) {
		return
	}
	n := float64(max(len(v.Repeats), 1))
	if std, ok := share(t.Uncertainty, si, v.Quantity.Unit); ok {
		add("tool:"+t.Name+"/uncertainty", std/2)
	}
	if std, ok := share(t.Error, si, v.Quantity.Unit); ok {
		add("tool:"+t.Name+"/error", std/math.Sqrt(3))
	}
	if std, ok := share(t.Resolution, si, v.Quantity.Unit); ok && v.Quantity.Kind != quantity.Interval {
		add(v.ID()+"/resolution", std/math.Sqrt(12))
	}
	if std, ok := share(t.Repeatability, si, v.Quantity.Unit); ok && len(v.Repeats) == 0 {
		add(v.ID()+"/repeatability", std/math.Sqrt(n))
	}
}

// measures reports whether the tool measures figures of a dimension: that of its range, else that which its paths hold first. A torque
// wrench says nothing about the angle of a last step.
func (t *Tool) measures(d quantity.Dimension) bool {
	if t.Range != nil && t.Range.Unit != nil {
		return t.Range.Unit.Dimension == d
	}
	for _, path := range t.For {
		if pattern := parse.FindPattern(path.Name); pattern == nil || len(pattern.Dimensions) == 0 || pattern.Dimensions[0] == d {
			return true
		}
	}
	return len(t.For) == 0
}

// share returns a figure of a tool as a difference in SI: in the unit of what was read, or as a share of it.
func share(q *quantity.Quantity, si float64, unit *quantity.Unit) (float64, bool) {
	switch {
	case q == nil || q.Unit == nil:
		return 0, false
	case q.Unit.Dimension == unit.Dimension && q.Unit.Offset == 0:
		return math.Abs(q.SI()), true
	case q.Unit.Dimension == quantity.TemperatureStep && unit.Dimension == quantity.Temperature:
		return math.Abs(q.SI()), true
	case q.Unit.Dimension == quantity.Pure:
		return math.Abs(q.SI() * si), true
	}
	return 0, false
}

// IsNear reports whether a figure that was decided by its value lies within its uncertainty of a bound.
func (v *Value) IsNear() (Bound, bool) {
	if v.Limit == nil || v.Verdict != In && v.Verdict != Out && v.Verdict != Worn || v.Quantity.Unit == nil || v.Quantity.Kind == quantity.Interval {
		return Bound{}, false
	}
	u := v.Estimate.Expanded()
	if u <= 0 {
		return Bound{}, false
	}
	for _, b := range []Bound{v.Limit.Low, v.Limit.High, v.Limit.Worn[0], v.Limit.Worn[1]} {
		if b.Is && quantity.Compare(math.Abs(v.Quantity.SI()-b.SI), u, v.Limit.Size) < 0 {
			return b, true
		}
	}
	return Bound{}, false
}
