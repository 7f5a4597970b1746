package model

import (
	"fmt"
	"math"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// bounds works out what the limit holds a value to. A limit of which something can't be read holds nothing to anything.
func (l *linker) bounds(limit *Limit) {
	before := len(l.findings)
	l.readBounds(limit)
	l.contradicts(limit)
	l.difference(limit)
	for _, f := range l.findings[before:] {
		limit.Unread = limit.Unread || f.Severity == source.Error
	}
	if limit.Unread {
		limit.Nominal, limit.Low, limit.High, limit.Steps, limit.Expect, limit.Also = nil, Bound{}, Bound{}, nil, nil, nil
		limit.Worn, limit.Misplaced = [2]Bound{}, [2]Bound{}
		limit.Dimension, limit.Unit = quantity.Unknown, nil // what it measures may be what was mistyped
	}
}

func (l *linker) readBounds(limit *Limit) {
	if limit.Line == nil && limit.Fields == nil {
		return
	}
	if limit.Line != nil {
		l.lineBounds(limit)
		return
	}
	f := limit.Fields
	for _, word := range f.Texts("expect") {
		limit.Expect = append(limit.Expect, FoldWords(word.Text))
	}
	l.dimension(limit, "nominal", "low", "high", "service")
	if v := f.Value("nominal"); v != nil && v.Kind == quantity.Steps {
		l.steps(limit, v)
	} else if nominal := l.limitFigure(limit, "nominal", 0); nominal != nil {
		l.nominal(limit, *nominal, v.At)
	}
	l.tolerances(limit)
	if q := l.limitFigure(limit, "low", 0); q != nil {
		limit.Low = limit.bound(q.SI(), f.Value("low").At)
	}
	if q := l.limitFigure(limit, "high", 0); q != nil {
		limit.High = limit.bound(q.SI(), f.Value("high").At)
	}
	if limit.Low.Is && limit.High.Is && quantity.Compare(limit.Low.SI, limit.High.SI, limit.Size) > 0 {
		if !l.inTwoUnits(limit) {
			l.report("reversed-limit", source.Error, limit.High.At, limit.Path, fmt.Sprintf("the low bound of `%s` lies above its high bound", limit.Path), "swap the two, or mend the one that is mistyped",
				source.Remark{At: limit.Low.At, Message: "the low bound"})
		}
		limit.Low, limit.High = Bound{}, Bound{}
	}
	if q := l.limitFigure(limit, "service", 0); q != nil {
		l.service(limit, *q, f.Value("service"))
	}
	l.allowance(limit)
	if v := f.Value("also"); v != nil {
		if q, ok := l.resolve(v, quantity.Want{Dimensions: known(limit.Dimension)}, limit.Path); ok {
			limit.Also = &q
		}
	}
}

func known(d quantity.Dimension) []quantity.Dimension {
	if d == quantity.Unknown {
		return nil
	}
	return []quantity.Dimension{d}
}

func (l *linker) lineBounds(limit *Limit) {
	if limit.Line.Kind == quantity.Steps {
		l.steps(limit, limit.Line)
		return
	}
	if limit.Line.Kind == quantity.Words {
		limit.Expect = []string{FoldWords(limit.Line.Text)}
		return
	}
	q, ok := l.resolve(limit.Line, l.limitWant(limit, limit.Line), limit.Path)
	if !ok {
		return
	}
	limit.Dimension, limit.Unit = q.Unit.Dimension, q.Unit
	l.nominal(limit, q, limit.Line.At)
}

// nominal takes a figure that may carry its own tolerance, an interval, or steps.
func (l *linker) nominal(limit *Limit, q quantity.Quantity, at source.Range) {
	limit.size(q)
	if q.Kind == quantity.Interval {
		if q.HasLow {
			limit.Low = limit.bound(q.LowSI(), at)
		}
		if q.HasHigh {
			limit.High = limit.bound(q.HighSI(), at)
		}
		return
	}
	limit.Nominal = &q
	if q.HasSpread {
		limit.Low, limit.High = limit.bound(q.SI()-q.SpreadSI(), at), limit.bound(q.SI()+q.SpreadSI(), at)
	}
}

// tolerances puts the bounds around nominal: `tolerance` both ways, `plus` and `minus` one way each, the other then being zero.
func (l *linker) tolerances(limit *Limit) {
	f := limit.Fields
	for _, name := range []string{"tolerance", "plus", "minus"} {
		v := f.Value(name)
		if v == nil {
			continue
		}
		if limit.Nominal == nil {
			if f.Get("nominal") == nil && !f.IsBad("nominal") {
				l.report("missing-key", source.Error, v.At, limit.Path, fmt.Sprintf("`%s` needs a `nominal` to stand around", name), "add `nominal`, or write `low` and `high`")
			}
			continue
		}
		q := l.limitFigure(limit, name, limit.Nominal.SI())
		if q == nil {
			continue
		}
		way := q.SpreadSI()
		if way < 0 {
			l.slip(v, &quantity.Slip{Kind: "bad-spread", End: len(v.Text), Message: fmt.Sprintf("`%s` is a tolerance below nought", v.Text), Do: "write how far, without a sign: `minus` says that it is downward"}, limit.Path)
			continue
		}
		low, high := limit.Nominal.SI(), limit.Nominal.SI()
		if limit.Low.Is {
			low = limit.Low.SI
		}
		if limit.High.Is {
			high = limit.High.SI
		}
		if name != "plus" {
			low = limit.Nominal.SI() - way
		}
		if name != "minus" {
			high = limit.Nominal.SI() + way
		}
		limit.Low, limit.High = limit.bound(low, v.At), limit.bound(high, v.At)
	}
}

// limitFigure resolves a figure of a limit. Tolerances (base is nominal, in SI) come back as a spread: a difference, or a share of base.
func (l *linker) limitFigure(limit *Limit, name string, base float64) *quantity.Quantity {
	v := limit.Fields.Value(name)
	if v == nil {
		return nil
	}
	want := l.limitWant(limit, v)
	tolerance := name == "tolerance" || name == "plus" || name == "minus"
	switch {
	case tolerance || name == "allowance":
		want.Floor, want.Most, want.Centre = quantity.NoFloor, 0, quantity.NoCentre // differences, which have either sign and are counted from the nominal
	case want.Floor == quantity.OverZero && (name == "low" || name == "service"):
		want.Floor = quantity.ZeroFloor // what is more than nought is never below it
	}
	if tolerance && limit.Dimension == quantity.Temperature {
		want.Dimensions = []quantity.Dimension{quantity.TemperatureStep}
	}
	if share, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Pure}}); tolerance && slip == nil && limit.Dimension != quantity.Temperature {
		want.Dimensions = []quantity.Dimension{share.Unit.Dimension}
	}
	q, ok := l.resolve(v, want, limit.Path)
	if !ok {
		return nil
	}
	if !tolerance {
		limit.size(q)
		return &q
	}
	if step := q.StepSI(); q.Unit.Dimension != quantity.Pure && step > 0 {
		limit.Step = min(limit.Step, step)
	}
	q.HasSpread, q.Spread = true, q.Value
	if q.Unit.Dimension == quantity.Pure && limit.Dimension != quantity.Pure {
		share := q.SI() * math.Abs(base) / limit.Unit.Factor
		q.Unit, q.Spread = limit.Unit, share
	}
	return &q
}

func (l *linker) limitWant(limit *Limit, v *parse.Value) quantity.Want {
	want := l.journal.wantHeld(limit.Path, v.Written().Units)
	if limit.Dimension != quantity.Unknown {
		want.Dimensions = known(limit.Dimension)
		if want.Bare != nil && want.Bare.Dimension != limit.Dimension {
			want.Bare = nil
		}
	}
	return want
}

// dimension finds out what the limit measures, from the first of its figures that says so.
func (l *linker) dimension(limit *Limit, names ...string) {
	for _, name := range names {
		v := limit.Fields.Value(name)
		if v == nil {
			continue
		}
		want := l.journal.wantHeld(limit.Path, v.Written().Units)
		want.Floor, want.Most, want.Centre = quantity.NoFloor, 0, quantity.NoCentre
		q, slip := v.Resolve(want)
		if slip == nil && q.Unit != nil {
			limit.Dimension, limit.Unit = q.Unit.Dimension, q.Unit
			return
		}
	}
}

// size keeps the size and the fineness of a figure that a bound is made from.
func (limit *Limit) size(q quantity.Quantity) {
	if step := q.StepSI(); step > 0 && (limit.Step == 0 || step < limit.Step) {
		limit.Step, limit.figureStep = step, step
	}
	if limit.Event == quantity.NoEvent {
		limit.Event = q.Event
	}
	for _, x := range []float64{q.SI(), q.LowSI(), q.HighSI()} {
		if !math.IsNaN(x) && !math.IsInf(x, 0) {
			limit.Size = max(limit.Size, math.Abs(x))
		}
	}
}

// bound makes a bound, and refines the limit's digits until they tell it: 10 ± 0.1 N·m is 9.9 to 10.1 N·m. One that no digits tell, of a tolerance in another
// unit or of a share, is told to two figures of how far it is from nominal.
func (limit *Limit) bound(si float64, at source.Range) Bound {
	x, step := limit.Unit.FromSI(si), limit.Step
	for {
		digit := limit.Unit.StepFromSI(step, x)
		if digit <= 0 || quantity.Compare(math.Round(x/digit)*digit, x, limit.Unit.StepFromSI(limit.Size, x)) == 0 {
			break
		}
		if step <= limit.figureStep*maxRefinement*(1+1e-9) {
			step = min(limit.Step, limit.twoFigures(si))
			break
		}
		step /= 10
	}
	limit.Step = step
	return Bound{Is: true, SI: si, At: at}
}

// twoFigures returns the digit that tells to two figures how far a bound is from nominal, in SI; without a nominal a digit more than the figures have.
func (limit *Limit) twoFigures(si float64) float64 {
	if limit.Nominal == nil || si == limit.Nominal.SI() {
		return limit.figureStep / 10
	}
	x := limit.Unit.FromSI(si)
	return limit.Unit.StepSI(quantity.TwoFigures(limit.Unit.StepFromSI(math.Abs(si-limit.Nominal.SI()), x)), x)
}

// maxRefinement is how fine the digits of a bound may be beside those of its figures: one that is worked out from a share may have no
// last digit.
const maxRefinement = 1e-3
