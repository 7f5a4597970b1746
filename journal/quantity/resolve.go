package quantity

import (
	"math"
	"strings"
)

// Want is what a place asks of its figure. Its zero value takes any figure with a unit.
type Want struct {
	Dimensions []Dimension // in order of preference; empty takes any
	Bare       *Unit       // the unit that a bare number takes; nil: none may stand there
	Offer      *Unit       // the unit to offer first where a number lacks one; nil for none
	Money      string      // ISO 4217 code that an unclear sign means, if it is one of the sign's
	Ratio      bool        // `82/10` is a ratio, a pure number
	SupplyHeld bool        // `80/72` is a leak-down reading, supply over held: the share lost, in per cent
	Floor      Floor       // the least that the figure can be
	Least      float64     // the least that it can be where that isn't nought, in SI; 0: anything
	Most       float64     // the most that it can be, in SI and whatever its sign; 0: anything
	Centre     Centre      // the dead centre that it must be counted from
}

// Centre says which dead centre a figure must be counted from.
type Centre uint8

// The centres.
const (
	NoCentre     Centre = iota // it may stand without one
	EitherCentre               // the top or the bottom one
	TopCentre                  // the top one
)

// Floor says how small a figure can be.
type Floor uint8

// The floors.
const (
	NoFloor      Floor = iota // of any sign
	ZeroFloor                 // nought, or more
	OverZero                  // more than nought
	BothOverZero              // both ends of a range, which has them, are more than nought
)

// Resolve picks the unit that the place asks for and returns the figure in it. Steps give the last one. A Slip says why there is no
// figure: none written, another dimension, a unit that still reads two ways, a number without one.
func (w Written) Resolve(want Want) (Quantity, *Slip) {
	s := scan{w.whole, mendings}
	switch w.Kind {
	case Blank:
		return Quantity{}, s.slip("not-measured", 0, len(w.whole), "nothing is measured here", "write a figure, or leave the key out")
	case Words:
		do := "write a number with its unit"
		if len(want.Dimensions) == 1 {
			do += ", as in `" + Sample(want.Dimensions[0]) + "`"
		}
		return Quantity{}, s.slip("not-a-figure", 0, len(w.whole), s.quote(0, len(w.whole))+" holds no figure", do)
	case Steps:
		q, slip := w.Steps[len(w.Steps)-1].Resolve(want)
		q.Words = w.Words
		return q, slip
	}
	if slip := s.isApart(&w); slip != nil {
		return Quantity{}, slip
	}
	if w.first.sign == '/' {
		if want.SupplyHeld && (w.unit.absent() || w.unit.units[0].Dimension == Pressure) && w.Kind != Interval && !w.spread.has {
			return s.leakDown(&w)
		}
		if w.first.apart {
			return Quantity{}, s.slip("ratio-unclear", w.first.start, w.first.end, s.quote(w.first.start, w.first.end)+" is one figure over another", "write the figure that is meant")
		}
		if w.Kind == Ratio && !want.Ratio {
			return Quantity{}, s.slip("ratio-unclear", w.first.start, w.first.end, s.quote(w.first.start, w.first.end)+" is a fraction without a unit, or a ratio",
				"write the unit of a fraction; a ratio as one number")
		}
	}
	u, slip := s.unit(&w, want)
	if slip != nil {
		return Quantity{}, slip
	}
	q := Quantity{Kind: w.Kind, Unit: u, Event: w.event, Words: w.Words, Text: w.Text}
	if w.Kind == Interval {
		slip = s.fillInterval(&q, &w)
	} else {
		slip = s.fillFigure(&q, &w)
	}
	if slip == nil {
		slip = s.possible(q, &w)
	}
	if slip == nil {
		slip = s.outside(q, &w, want)
	}
	if slip == nil {
		slip = s.counted(q, &w, want)
	}
	if slip != nil {
		return Quantity{}, slip
	}
	return q, nil
}

// isApart is about one figure over another, each in a unit of its own, beside a third.
func (s scan) isApart(w *Written) *Slip {
	if !w.last.apart && !w.spread.apart && !(w.first.apart && (w.Kind == Interval || w.spread.has)) {
		return nil
	}
	return s.slip("ratio-unclear", w.first.start, len(s.text), s.quote(w.first.start, len(s.text))+" has one figure over another beside a third", "write the figure that is meant")
}

// unit picks the unit of the whole.
func (s scan) unit(w *Written, want Want) (*Unit, *Slip) {
	if !w.unit.absent() {
		u, slip := s.pick(w.unit, want)
		if slip != nil && w.Kind == Ratio {
			if clock := s.clockTime(w.first, w.first.end, want); clock != nil {
				return nil, clock
			}
		}
		if slip == nil {
			slip = s.minuteOrMinimum(w, u, want)
		}
		if slip == nil && w.event != NoEvent && u.Dimension != Angle && u.Dimension != Length {
			return nil, s.slip("wrong-dimension", w.unit.start, w.unit.end, "a figure of "+u.Dimension.String()+" can't be counted from a dead centre",
				"count an angle, or the piston's height")
		}
		return u, slip
	}
	if w.first.sign == '/' && w.Kind == Ratio {
		return table().number, nil
	}
	if want.Bare != nil {
		return want.Bare, nil
	}
	return nil, s.noUnit(w, want)
}

// pick chooses among the units that a spelling may mean: those of the first wanted dimension that there is, else those that it means
// without being asked. One must be left.
func (s scan) pick(m mark, want Want) (*Unit, *Slip) {
	from, to := 0, m.plain
	if to == 0 {
		to = len(m.units)
	}
	if len(want.Dimensions) > 0 {
		if from, to = m.of(want.Dimensions); from == to {
			return nil, s.wrongDimension(m, want)
		}
	}
	choice := m.units[from:to]
	if len(choice) == 1 {
		return choice[0], nil
	}
	if choice[0].Dimension != Money {
		return nil, s.ambiguous(m, choice)
	}
	for _, u := range choice {
		if u.Currency == want.Money {
			return u, nil
		}
	}
	return nil, s.moneyUnclear(m, choice, want)
}

// of returns the run of units of the first dimension that there is. Units are sorted by dimension, the plain ones first.
func (m mark) of(dimensions []Dimension) (from, to int) {
	for _, d := range dimensions {
		for from = 0; from < len(m.units) && m.units[from].Dimension != d; from++ {
		}
		for to = from; to < len(m.units) && m.units[to].Dimension == d && (to == from || to != m.plain); to++ {
		}
		if to > from {
			return from, to
		}
	}
	return 0, 0
}

// fillFigure sets the value, step and spread of a figure or ratio.
func (s scan) fillFigure(q *Quantity, w *Written) *Slip {
	q.Value, q.Step = w.first.share()
	q.Value = w.event.signed(q.Value)
	q.below = int32(w.first.below)
	if w.Kind == Ratio {
		q.below = 0
		if w.first.sign == '/' || w.first.over.value != 1 {
			q.ratio = strings.Map(dropSpace, s.text[w.first.start:w.first.end])
		}
	}
	if !w.spread.has {
		return nil
	}
	q.HasSpread = true
	value, step := w.spread.share()
	if isPercent(w.spread.unit) && q.Unit != table().percent {
		if q.Unit.Offset != 0 || w.event != NoEvent {
			return s.slip("bad-spread", w.spread.start, w.spread.stop, "per cent of a "+q.Unit.Dimension.String()+" that is counted from a set point says nothing",
				"write the spread in "+q.Unit.Symbol)
		}
		q.Spread = math.Abs(q.Value) * value / 100
		return nil
	}
	q.Spread, q.spreadStep = value, step
	if w.first.unit.absent() || w.spread.unit.absent() || w.first.money || w.first.unit.sameAs(w.spread.unit) {
		return nil
	}
	v, slip := s.pick(w.spread.unit, alike(q.Unit))
	if slip != nil {
		return slip
	}
	if v == q.Unit || v.Factor == q.Unit.Factor && !v.Reciprocal {
		return nil
	}
	if v.Reciprocal || q.Unit.Reciprocal {
		return s.slip("bad-spread", w.spread.start, w.spread.stop, "the spread is in another unit than the figure", "write the spread in "+q.Unit.Symbol)
	}
	q.Spread, q.spreadStep = q.Unit.StepFromSI(v.StepSI(value, 0), 0), 0
	return nil
}

// alike wants what goes with a unit: its dimension, and its currency.
func alike(u *Unit) Want {
	return Want{Dimensions: []Dimension{u.Dimension}, Money: u.Currency}
}

func dropSpace(r rune) rune {
	if isSpace(r) {
		return -1
	}
	return r
}

// fillInterval sets the ends, the middle and the step of an interval.
func (s scan) fillInterval(q *Quantity, w *Written) *Slip {
	low, lowStep := w.first.shareOrNone()
	high, highStep := w.last.shareOrNone()
	q.HasLow, q.HasHigh = w.first.has, w.last.has
	low, high = w.first.event.signed(low), w.last.event.signed(high)
	if q.HasLow && q.HasHigh && !w.first.unit.absent() && !w.first.money && !w.first.unit.sameAs(w.last.unit) {
		v, slip := s.pick(w.first.unit, alike(q.Unit))
		if slip != nil {
			return s.twoUnits(w, slip)
		}
		if !v.ConvertsTo(q.Unit) {
			return s.slip("two-units", w.first.unit.start, w.last.stop, "the two ends are in different currencies", "write both in one")
		}
		if v != q.Unit {
			lowStep = q.Unit.StepFromSI(v.StepSI(lowStep, low), q.Unit.FromSI(v.SI(low)))
			low = q.Unit.FromSI(v.SI(low))
		}
	}
	q.below = int32(max(w.first.below, w.last.below))
	if q.HasLow && q.HasHigh && low > high {
		switch {
		case w.first.event == w.last.event && w.event != NoEvent: // `10..14° BTDC`: named from the centre outward
			low, high, lowStep, highStep = high, low, highStep, lowStep
		case Compare(low, high, 0) > 0:
			return s.swapped(w)
		}
	}
	q.Low, q.High = low, high
	switch {
	case !q.HasLow:
		q.Value, q.Step, q.Low = high, highStep, 0
	case !q.HasHigh:
		q.Value, q.Step, q.High = low, lowStep, 0
	default:
		q.Value, q.Step = low+(high-low)/2, min(lowStep, highStep)
	}
	return nil
}

func (o operand) shareOrNone() (value, step float64) {
	if !o.has {
		return 0, 0
	}
	return o.share()
}

// outside is about a figure that is less, or more, than its place allows.
func (s scan) outside(q Quantity, w *Written, want Want) *Slip {
	start, end := w.first.start, max(w.first.stop, w.last.stop, w.unit.end)
	least := q.Value
	if q.Kind == Interval {
		if least = q.Low; !q.HasLow {
			least = q.High
		}
	}
	switch {
	case q.Unit.Dimension == Links && q.Kind == Figure && q.Value != math.Trunc(q.Value):
		return s.slip("impossible", start, end, s.quote(start, end)+" is no whole number of links", "count them again, from pin to pin")
	case want.Floor != NoFloor && least < 0:
		return s.slip("impossible", start, end, s.quote(start, end)+" is below nought", "check its sign: no such figure is")
	case want.Floor == BothOverZero && q.IsOpenEnded():
		return s.slip("impossible", start, end, s.quote(start, end)+" has one end", "write both ends, as in `0.10..0.16`")
	case (want.Floor == BothOverZero || want.Floor == OverZero && q.Kind != Interval) && least == 0:
		return s.slip("impossible", start, end, s.quote(start, end)+" is nothing at all", "write what it is, or leave it out")
	case want.Least != 0 && (q.Kind == Interval && q.HasLow && q.LowSI() < want.Least || q.Kind != Interval && q.SI() < want.Least):
		return s.slip("impossible", start, end, s.quote(start, end)+" is less than there is anywhere", "check the number and its unit")
	case q.isBeyond(want.Most) && q.Event != NoEvent:
		return s.slip("impossible", start, end, s.quote(start, end)+" is further from its dead centre than there is anywhere", "check the number, and which dead centre it is counted from: the nearer one")
	case q.isBeyond(want.Most):
		return s.slip("impossible", start, end, s.quote(start, end)+" is more than there is anywhere", "check the number and its unit")
	}
	return nil
}

// isBeyond reports whether a figure, or an end of an interval, is more than so much (SI) either way; nothing is where that is 0.
func (q Quantity) isBeyond(most float64) bool {
	beyond := func(si float64) bool { return most > 0 && Compare(math.Abs(si), most, most) > 0 }
	if q.Kind != Interval {
		return beyond(q.SI())
	}
	return q.HasLow && beyond(q.Unit.SI(q.Low)) || q.HasHigh && beyond(q.Unit.SI(q.High))
}

// counted is about a figure that says nothing of the dead centre which its place is counted from, or counts from the other one.
func (s scan) counted(q Quantity, w *Written, want Want) *Slip {
	start, end := w.first.start, max(w.first.stop, w.last.stop, w.spread.stop, w.unit.end)
	switch centre, counted := q.Event.Centre(); {
	case want.Centre == NoCentre:
		return nil
	case !counted && want.Centre == TopCentre:
		return s.slip("no-side", start, end, s.quote(start, end)+" doesn't say whether it is before or after top dead centre", "write which: BTDC or ATDC",
			s.with(end, end, " BTDC"), s.with(end, end, " ATDC"))
	case !counted:
		return s.slip("no-side", start, end, s.quote(start, end)+" doesn't say which dead centre it is counted from, and to which side", "write it: BTDC, ATDC, BBDC or ABDC")
	case want.Centre == TopCentre && centre != 0:
		return s.slip("impossible", start, end, s.quote(start, end)+" is counted from bottom dead centre", "count it from top dead centre: BTDC or ATDC")
	}
	return nil
}

// leakDown reads supply over held.
func (s scan) leakDown(w *Written) (Quantity, *Slip) {
	supply, held := w.first.numeral, w.first.over
	if w.first.value <= 0 {
		return Quantity{}, s.slip("impossible", w.first.start, w.first.end, s.quote(w.first.start, w.first.end)+" has no supply",
			"write the supply first, then what was held")
	}
	if held.value > supply.value {
		i := w.first.start + strings.IndexByte(s.text[w.first.start:], '/')
		top, below := strings.TrimSpace(s.text[w.first.start:i]), strings.TrimSpace(s.text[i+1:w.first.end])
		return Quantity{}, s.slip("held-above-supply", w.first.start, w.first.end, s.quote(w.first.start, w.first.end)+" holds more than was supplied",
			"write the supply first, then what was held", s.with(w.first.start, w.first.end, below+"/"+top))
	}
	return Quantity{
		Kind: Figure, Unit: table().percent, Words: w.Words, Text: w.Text,
		Value: (supply.value - held.value) / supply.value * 100,
		Step:  held.step / supply.value * 100,
	}, nil
}

// possible returns a slip for a figure that its dimension can't have.
func (s scan) possible(q Quantity, w *Written) *Slip {
	start, end := w.first.start, max(w.first.stop, w.last.stop, w.spread.stop)
	ends := [3]float64{q.Value, q.Value, q.Value}
	if q.HasLow {
		ends[1] = q.Low
	}
	if q.HasHigh {
		ends[2] = q.High
	}
	for _, x := range ends {
		if q.Unit.Reciprocal && x <= 0 {
			return s.slip("impossible", start, end, s.quote(start, end)+" would be fuel without end", "check the number")
		}
		si := q.Unit.SI(x)
		if math.IsInf(si, 0) || math.IsNaN(si) || si == 0 && x != 0 && q.Unit.Offset == 0 {
			return s.beyond(start, end)
		}
		if d := q.Unit.Dimension; (d == Temperature || d == PressureAbs) && Compare(si, 0, 1) < 0 {
			return s.slip("impossible", start, end, s.quote(start, end)+" is below absolute zero", "check the number and its unit")
		}
	}
	if math.IsInf(q.SpreadSI(), 0) || math.IsInf(q.StepSI(), 0) {
		return s.beyond(start, end)
	}
	return nil
}
