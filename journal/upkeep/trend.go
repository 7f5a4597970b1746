package upkeep

import (
	"cmp"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Trend is how a reading drifts as the machine runs, and when it will leave its limit if it goes on so.
type Trend struct {
	Path   string
	Limit  *model.Limit
	Values []*model.Value    // that it is told from, the oldest first
	Slope  quantity.Estimate // SI of the reading a SI of the meter; its shares are of no use elsewhere
	Bound  model.Bound       // that it makes for: a service bound where the limit has one
	At     quantity.Estimate // what the meter will show then, in SI
	Left   float64           // from now until then, in SI of the meter
	Reason string            // why that can't be told; empty if it can
}

// most is how far ahead a trend is believed, as a multiple of the distance that it was told from: common practice, no source.
const most = 10

// Trends returns the drifts of the readings that a limit holds now, as the entries and values that are shown tell them: those that leave it first come
// first, those of which nothing can be told last. One slope is taken from all readings since a part made the older ones stale, each stretch between two
// settings with a level of its own; see [calc.Trend].
func Trends(j *model.Journal, showsEntry func(*model.Entry) bool, shows func(*model.Value) bool) []Trend {
	r := newReckoning(j, showsEntry, j.Today)
	if r.begun == nil || r.shown == nil || j.IsWithheld("entries") || j.IsWithheld("limits") || j.IsFitUnclear() {
		return nil
	}
	var list []Trend
	for _, position := range j.Positions.All() {
		if t, ok := r.trend(position, shows); ok {
			list = append(list, t)
		}
	}
	slices.SortStableFunc(list, func(a, b Trend) int {
		return cmp.Or(cmp.Compare(min(1, len(a.Reason)), min(1, len(b.Reason))), cmp.Compare(a.Left, b.Left))
	})
	return list
}

// trend works out the drift at a position; it is false where nothing there could drift.
func (r *reckoning) trend(position string, shows func(*model.Value) bool) (Trend, bool) {
	t := Trend{Path: position}
	for _, v := range r.Since(position) {
		if v.Entry == nil || !shows(v) || v.Quantity.Unit == nil || v.Quantity.Kind == quantity.Interval && !(v.Quantity.HasLow && v.Quantity.HasHigh) {
			continue
		}
		if !math.IsNaN(r.clock.at(v.Entry)) {
			t.Values = append(t.Values, v)
		}
	}
	if len(t.Values) < 2 {
		return t, false
	}
	last := t.Values[len(t.Values)-1]
	t.Limit = last.Limit
	if t.Limit == nil || !t.Limit.IsFigures() || !last.Current || last.Verdict == model.Out || t.Limit.Dimension != last.Quantity.Unit.Dimension {
		return t, false
	}
	common := commonCauses(t.Values)
	var points []calc.Point
	run := 0
	for i, v := range t.Values {
		if v.Origin == model.Set && i > 0 {
			run++ // set anew
		}
		points = append(points, calc.Point{X: r.clock.at(v.Entry), Y: v.Estimate.Value, U: ownStd(v, common), Run: run})
	}
	drift, err := calc.Trend(points)
	if err != nil {
		return t, false // it was only ever set, or read once since
	}
	t.Slope = quantity.Estimate{Value: drift.Slope, Shares: []quantity.Share{{Std: drift.SlopeU}}}
	drift.LevelU = math.Hypot(drift.LevelU, stdOf(last.Estimate, func(s quantity.Share) bool { return slices.Contains(common, s.Cause) }))
	r.cross(&t, drift, points)
	return t, true
}

// commonCauses are the causes of uncertainty that all values share, such as the error of the one tool: they shift all alike, and no drift comes of them.
func commonCauses(values []*model.Value) []string {
	var common []string
	for _, share := range values[0].Estimate.Shares {
		if !slices.ContainsFunc(values, func(v *model.Value) bool {
			return !slices.ContainsFunc(v.Estimate.Shares, func(s quantity.Share) bool { return s.Cause == share.Cause })
		}) {
			common = append(common, share.Cause)
		}
	}
	return common
}

// ownStd is the standard uncertainty of a value beside what it shares with the others. One that says nothing about itself is good to its last digit.
func ownStd(v *model.Value, common []string) float64 {
	own := stdOf(v.Estimate, func(s quantity.Share) bool { return !slices.Contains(common, s.Cause) })
	if own > 0 {
		return own
	}
	return v.Quantity.StepSI() / math.Sqrt(12)
}

func stdOf(e quantity.Estimate, counts func(quantity.Share) bool) float64 {
	std := 0.0
	for _, s := range e.Shares {
		if counts(s) {
			std = math.Hypot(std, s.Std)
		}
	}
	return std
}

// cross works out where a drift leaves the limit.
func (r *reckoning) cross(t *Trend, drift calc.Drift, points []calc.Point) {
	side, bound := 1, t.Limit.High
	if drift.Slope < 0 {
		side, bound = 0, t.Limit.Low
	}
	if t.Limit.Worn[side].Is {
		bound = t.Limit.Worn[side]
	}
	x, u, err := calc.Crossing(drift, bound.SI)
	told := points[len(points)-1].X - points[0].X
	switch {
	case err != nil:
		t.Reason = err.Error()
	case !bound.Is:
		t.Reason = "it drifts to the side that has no limit"
	case x-r.now > most*told:
		t.Reason = "not within ten times the distance that it was read over"
	default:
		t.Bound, t.Left = bound, x-r.now
		t.At = quantity.Estimate{Value: r.shown.SI() + t.Left, Dimension: r.unit.Dimension, Shares: []quantity.Share{{Std: u}}}
	}
}
