package quantity

import "math"

// Quantity is a figure with its one unit. Figures of crank events are signed: before is negative, after is positive.
type Quantity struct {
	Unit      *Unit   // never nil in what Resolve returns
	Value     float64 // in Unit; of an interval the middle, or the only end
	Low, High float64 // ends of an interval, in Unit
	Spread    float64 // what stands after ±, in Unit; per cent are worked out
	Step      float64 // size of the last digit written, in Unit; of a fraction, one over its denominator; 0 if unknown
	Words     string  // what stands after the comma
	Text      string  // as typed

	Kind            Kind  // Figure, Interval or Ratio
	Event           Event // what the figure is counted from; of an interval, what its high end is
	HasLow, HasHigh bool  // the ends that are there
	HasSpread       bool
	converted       bool  // Step comes from another unit, and says half as much about the digits
	below           int32 // denominator of a fraction, else 0

	spreadStep float64 // size of the spread's last digit; 0 for two figures
	ratio      string  // a ratio's two numbers as typed, blanks left out
}

// SI returns the value in the SI unit of its dimension.
func (q Quantity) SI() float64 { return q.Unit.SI(q.Value) }

// LowSI returns the low end of an interval in SI, −Inf if it is open below; of a figure, the figure.
func (q Quantity) LowSI() float64 {
	low, _ := q.endsSI()
	return low
}

// HighSI returns the high end of an interval in SI, +Inf if it is open above; of a figure, the figure.
func (q Quantity) HighSI() float64 {
	_, high := q.endsSI()
	return high
}

func (q Quantity) endsSI() (low, high float64) {
	if q.Kind != Interval {
		return q.SI(), q.SI()
	}
	low, high = math.Inf(-1), math.Inf(1)
	if q.HasLow {
		low = q.Unit.SI(q.Low)
	}
	if q.HasHigh {
		high = q.Unit.SI(q.High)
	}
	if !q.Unit.Reciprocal {
		return low, high
	}
	// More distance by fuel is less fuel by distance.
	if !q.HasLow {
		low = math.Inf(1)
	}
	if !q.HasHigh {
		high = math.Inf(-1)
	}
	return high, low
}

// IsOpenEnded reports whether q is a bracket that lacks an end, and so has no middle.
func (q Quantity) IsOpenEnded() bool { return q.Kind == Interval && !(q.HasLow && q.HasHigh) }

// SpreadSI returns the spread in SI, as a difference.
func (q Quantity) SpreadSI() float64 { return q.Unit.StepSI(q.Spread, q.Value) }

// StepSI returns the size of the last digit in SI, as a difference.
func (q Quantity) StepSI() float64 { return q.Unit.StepSI(q.Step, q.Value) }

// In returns q in another unit of its dimension, or false if it can't be had. Text stays as typed.
func (q Quantity) In(u *Unit) (Quantity, bool) {
	if u == nil || q.Unit == nil || !q.Unit.ConvertsTo(u) {
		return q, false
	}
	if u == q.Unit {
		return q, true
	}
	was := q
	q.Unit, q.Value = u, u.FromSI(was.SI())
	if q.HasLow {
		q.Low = u.FromSI(was.Unit.SI(was.Low))
	}
	if q.HasHigh {
		q.High = u.FromSI(was.Unit.SI(was.High))
	}
	if u.Reciprocal != was.Unit.Reciprocal {
		q.Low, q.High, q.HasLow, q.HasHigh = q.High, q.Low, q.HasHigh, q.HasLow
	}
	q.Spread = u.StepFromSI(was.SpreadSI(), q.Value)
	q.Step = u.StepFromSI(was.StepSI(), q.Value)
	q.spreadStep, q.below, q.ratio, q.converted = 0, 0, "", true
	return q, true
}
