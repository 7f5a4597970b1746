package upkeep

import (
	"cmp"
	"math"
	"slices"
	"strings"

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
	Left   float64           // from now until then, in SI of the meter; less than nothing where it is past already, and has to be read again
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

// trend works out the drift at a position; it is false where nothing there drifts that can be told.
func (r *reckoning) trend(position string, shows func(*model.Value) bool) (Trend, bool) {
	t := Trend{Path: position, Limit: r.LimitAt(position, nil)}
	if t.Limit == nil || !t.Limit.IsFigures() {
		return t, false
	}
	points := r.points(&t, shows)
	if len(points) < 2 {
		return t, false
	}
	last := *t.Values[len(t.Values)-1]
	if r.Judge(&last, nil); !last.Current || last.Verdict == model.Out || t.Limit.Dimension != last.Quantity.Unit.Dimension {
		return t, false
	}
	drift, err := calc.Trend(points)
	if err != nil {
		return t, false // no two readings of one stretch by one tool lie apart, or the figures are beyond all measure
	}
	t.Slope = quantity.Estimate{Value: drift.Slope, Shares: []quantity.Share{{Std: drift.SlopeU}}}
	drift.LevelU = math.Hypot(drift.LevelU, stdOf(last.Estimate, isOfTool))
	r.cross(&t, drift, points)
	return t, true
}

// points are the readings at a position by where the machine stood. Those of one stretch by one tool make a run: what the tool gets wrong in all alike
// shifts the run and no drift comes of it.
func (r *reckoning) points(t *Trend, shows func(*model.Value) bool) []calc.Point {
	var points []calc.Point
	runs := map[runKey]int{}
	for i, stretch := range r.Stretches(t.Path) {
		for _, v := range stretch {
			if v.Entry == nil || !shows(v) || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || math.IsNaN(r.clock.at(v.Entry)) {
				continue
			}
			key := runKey{i, v.Tool}
			if _, there := runs[key]; !there {
				runs[key] = len(runs)
			}
			points = append(points, calc.Point{X: r.clock.at(v.Entry), Y: v.Estimate.Value, U: ownStd(v), Run: runs[key]})
			t.Values = append(t.Values, v)
		}
	}
	return points
}

// runKey tells the runs of a trend apart: the stretch between two settings, and the tool.
type runKey struct {
	stretch int
	tool    *model.Tool
}

// isOfTool tells what a tool gets wrong in the same way each time.
func isOfTool(s quantity.Share) bool { return strings.HasPrefix(s.Cause, "tool:") }

// ownStd is the standard uncertainty of a value beside what its tool gets wrong each time. One that says nothing about itself is as good as the step to
// the next leaf, of a tool with leaves, else as its last digit.
func ownStd(v *model.Value) float64 {
	own := stdOf(v.Estimate, func(s quantity.Share) bool { return !isOfTool(s) })
	if own > 0 {
		return own
	}
	step := v.Quantity.StepSI()
	if v.Tool != nil && len(v.Tool.Leaves) > 1 {
		step = max(step, leafStep(v.Tool.Leaves, v.Quantity.SI()))
	}
	return step / math.Sqrt(12)
}

// leafStep is how much thicker the next leaf is, or for the thickest how much thinner the one before.
func leafStep(leaves []quantity.Quantity, si float64) float64 {
	above, below := math.Inf(1), math.Inf(1)
	for _, leaf := range leaves {
		switch off := leaf.SI() - si; {
		case quantity.Compare(leaf.SI(), si, 0) > 0:
			above = min(above, off)
		case quantity.Compare(leaf.SI(), si, 0) < 0:
			below = min(below, -off)
		}
	}
	if math.IsInf(above, 1) {
		above = below
	}
	if math.IsInf(above, 1) {
		return 0
	}
	return above
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
