package model

import (
	"cmp"
	"math"

	"example.org/locknut/journal/calc"
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
		switch {
		case v.pulls == nil:
			add(v.ID(), std)
		case std > 0 && !v.scatterKnown():
			e.Shares = append(e.Shares, quantity.Share{Cause: v.ID(), Std: std, Freedom: float64(len(values) - 1)})
		}
	}
	if q.HasSpread {
		add(v.ID()+"±", q.SpreadSI()/2)
	} else if v.Tool != nil {
		v.Tool.shares(v, v.readSI(e.Value), add)
	}
	v.Estimate = calc.Covered(quantity.Combine(e.Value, e.Dimension, quantity.Term{Partial: 1, Of: e}))
}

// readSI returns the figure that the meter showed, where the value is what that stands off a target; else its own.
func (v *Value) readSI(own float64) float64 {
	if v.IsLogged() && v.ways.read > 0 {
		return v.ways.read
	}
	return own
}

// digits adds what the last digit of a figure leaves open, of one that no tool is named for and that tells no ± itself: rectangular over one step.
func (v *Value) digits() {
	q := v.Quantity
	if q.Unit == nil || q.HasSpread || q.Kind != quantity.Figure || v.Tool != nil || !(q.Step > 0) {
		return
	}
	digit := quantity.Estimate{Shares: []quantity.Share{{Cause: v.ID() + "/resolution", Std: q.StepSI() / math.Sqrt(12)}}}
	v.Estimate = calc.Covered(quantity.Combine(v.Estimate.Value, v.Estimate.Dimension, quantity.Term{Partial: 1, Of: v.Estimate}, quantity.Term{Partial: 1, Of: digit}))
}

// fewRepeats is how many repeats say less of the scatter than a tool of which it is known. Common practice, no source.
const fewRepeats = 2

// scatterKnown reports whether what is stated of a dyno tells the scatter better than the pulls do: of one there is none, and two are off by any factor.
func (v *Value) scatterKnown() bool {
	return len(v.Repeats) <= fewRepeats && v.isScatterTold()
}

// isScatterTold reports whether a dyno's repeatability is known in what it read.
func (v *Value) isScatterTold() bool {
	if v.pulls == nil || v.Tool == nil || v.Tool.Unread || !v.Tool.speaksFor(v) {
		return false
	}
	_, told := v.share(v.Tool.Repeatability, v.Quantity.SI())
	return told
}

// toolCause begins the causes that a tool has by itself, alike in all that it read.
const toolCause = "tool:"

// shares adds what the tool contributes to the uncertainty of a figure that it read.
func (t *Tool) shares(v *Value, si float64, add func(cause string, std float64)) {
	if !t.speaksFor(v) {
		return
	}
	n := float64(max(len(v.Repeats), 1))
	if std, ok := v.share(t.Uncertainty, si); ok {
		add(toolCause+t.Name+"/uncertainty", std/2)
	}
	if std, ok := v.share(t.Error, t.errorBase(si)); ok {
		add(toolCause+t.Name+"/error", std/math.Sqrt(3))
	}
	if std, ok := v.share(t.Resolution, si); ok && v.Quantity.Kind != quantity.Interval {
		add(v.ID()+"/resolution", std/math.Sqrt(12))
	}
	if std, ok := v.share(t.Repeatability, si); ok && (len(v.Repeats) == 0 || v.scatterKnown()) {
		add(v.ID()+"/repeatability", std/math.Sqrt(n))
	}
}

// errorBase returns what an error in percent is a share of: the figure that was read, or the end of the tool's range where the tool says so.
func (t *Tool) errorBase(si float64) float64 {
	if t.Fields.Text("error-of").Text != "maximum" {
		return si
	}
	if t.Range == nil || !t.Range.HasHigh {
		return 0
	}
	return t.Range.HighSI()
}

// speaksFor reports whether the tool is known for what it read. One that is for power, or for torque, speaks for both of one pull: a dyno measures one of them, and the other is P = M·ω. What it tells as a share holds for both, what it tells in watts is carried over at the engine speed.
// A meter of air-fuel ratios speaks for the lambda of a log in such.
func (t *Tool) speaksFor(v *Value) bool {
	d := v.Quantity.Unit.Dimension
	isPull := v.pulls != nil && (d == quantity.Power || d == quantity.Torque)
	return t.measures(d) || isPull && (t.measures(quantity.Power) || t.measures(quantity.Torque)) || d == quantity.Lambda && v.LambdaOne() > 0 && t.measures(quantity.AirFuel)
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

// share returns a figure of a tool as a difference in SI of what was read: in its unit, as a share of it, of pulls by P = M·ω, and of a log in
// air-fuel ratios by the one that is lambda 1. It is false where the tool's figure
// tells nothing of it.
func (v *Value) share(q *quantity.Quantity, si float64) (float64, bool) {
	if q == nil || q.Unit == nil {
		return 0, false
	}
	unit, speed := v.Quantity.Unit, 0.0
	if v.ways != nil {
		speed = v.ways.speed
	}
	switch {
	case q.Unit.Dimension == unit.Dimension && q.Unit.Offset == 0:
		return math.Abs(q.SI()), true
	case q.Unit.Dimension == quantity.TemperatureStep && unit.Dimension == quantity.Temperature:
		return math.Abs(q.SI()), true
	case q.Unit.Dimension == quantity.Pure:
		return math.Abs(q.SI() * si), true
	case q.Unit.Dimension == quantity.Power && unit.Dimension == quantity.Torque && speed > 0:
		return math.Abs(q.SI()) / speed, true
	case q.Unit.Dimension == quantity.Torque && unit.Dimension == quantity.Power && speed > 0:
		return math.Abs(q.SI()) * speed, true
	case q.Unit.Dimension == quantity.AirFuel && unit.Dimension == quantity.Lambda && v.LambdaOne() > 0:
		return math.Abs(q.SI()) / v.LambdaOne(), true
	}
	return 0, false
}

// LambdaOne returns the air-fuel ratio that is lambda 1 in the log that the value comes from; nought for none, and for a log in lambda.
func (v *Value) LambdaOne() float64 {
	if v.ways == nil || v.ways.log == nil || v.ways.log.Mixture == nil {
		return 0
	}
	return v.ways.log.Mixture.Ratio
}

// IsNear reports whether a figure that was decided by its value lies within its uncertainty of a bound, and of which: of several the nearest.
func (v *Value) IsNear() (Bound, bool) {
	if v.Limit == nil || v.Verdict != In && v.Verdict != Out && v.Verdict != Worn || v.Quantity.Unit == nil || v.Quantity.Kind == quantity.Interval || v.Verdict == Out && v.Side == 0 {
		return Bound{}, false // of a step that is wrong or missing no bound decides
	}
	u := v.Estimate.Expanded()
	if u <= 0 {
		return Bound{}, false
	}
	var nearest Bound
	for _, b := range []Bound{v.Limit.Low, v.Limit.High, v.Limit.Worn[0], v.Limit.Worn[1]} {
		off := math.Abs(v.Quantity.SI() - b.SI)
		if b.Is && quantity.Compare(off, u, v.Limit.Size) < 0 && (!nearest.Is || quantity.Compare(off, math.Abs(v.Quantity.SI()-nearest.SI), v.Limit.Size) < 0) {
			nearest = b
		}
	}
	return nearest, nearest.Is
}

// EstimateIn returns a lone figure in the middle of a limit of two bounds with the uncertainty that the tool gives it; false where the limit
// lacks a bound, it or the tool can't be read, or nothing is known of how far off the tool may be there. Leaves give none: what they leave open stands in
// a reading as its bracket.
func (t *Tool) EstimateIn(l *Limit) (quantity.Estimate, bool) {
	if l.Unread || !l.Low.Is || !l.High.Is || l.Unit == nil || t.Unread {
		return quantity.Estimate{}, false
	}
	middle := quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: l.Unit.FromSI((l.Low.SI + l.High.SI) / 2)}
	v := &Value{Path: l.Path, Tool: t, Quantity: middle}
	v.estimate()
	return v.Estimate, v.Estimate.Expanded() > 0
}

// Ratio returns how many times the width of a limit of two bounds is that of the tool's uncertainty there, from 2 standard deviations below
// to 2 above (k = 2): the test uncertainty ratio of ANSI/NCSL Z540.3 (from memory). It is false where there is none, as [Tool.EstimateIn] says.
func (t *Tool) Ratio(l *Limit) (ratio float64, ok bool) {
	e, ok := t.EstimateIn(l)
	if !ok {
		return 0, false
	}
	return l.Band() / (2 * e.Expanded()), true
}

// LeastRatio, WantedRatio and FinestRatio are what rules of thumb ask of [Tool.Ratio]: below the first the tool can't tell in from out; the second is that of
// ANSI/NCSL Z540.3, from memory; the third the older gauge maker's, common practice, no source. Compare with [quantity.Compare].
const (
	LeastRatio  = 1
	WantedRatio = 4
	FinestRatio = 10
)

// ShowRatio shows a ratio of widths to two figures, or to as many more as it takes not to be shown as a whole number that it falls short of: what
// is less than 4:1 is never shown as 4:1.
func ShowRatio(ratio float64) quantity.Shown {
	step := cmp.Or(quantity.TwoFigures(ratio), 0.1) // of a limit without width the ratio is nought
	whole := math.Ceil(ratio)
	for range 6 {
		if quantity.Compare(ratio, whole, 0) == 0 || math.Round(ratio/step)*step < whole-step/2 {
			break
		}
		step /= 10
	}
	return quantity.Show(ratio, quantity.UnitShown(":1"), step)
}
