package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// allowance takes how far a worn part may go beyond standard: above the high bound, below the low one where that is the only one or where it is less than
// nought. What it makes is a service bound.
func (l *linker) allowance(limit *Limit) {
	f := limit.Fields
	v := f.Value("allowance")
	if v == nil {
		return
	}
	if other := f.Get("service"); other != nil {
		l.report("defined-twice", source.Error, v.At, limit.Path, fmt.Sprintf("`%s` has an `allowance` and `service`: which of them counts can't be told", limit.Path), "keep the one that its source prints",
			source.Remark{At: other.At, Message: "the other one"})
		return
	}
	if !limit.Low.Is && !limit.High.Is {
		if limit.Nominal != nil || !slices.ContainsFunc([]string{"nominal", "low", "high"}, func(key string) bool { return f.Get(key) != nil || f.IsBad(key) }) {
			l.report("missing-key", source.Error, v.At, limit.Path, "`allowance` needs a bound to go beyond", "add `low` or `high`, or a `tolerance` to the `nominal`")
		}
		return
	}
	q := l.limitFigure(limit, "allowance", 0)
	if q == nil {
		return
	}
	if q.Kind != quantity.Figure || q.HasSpread || limit.Dimension == quantity.Temperature {
		l.report("bad-quantity", source.Error, v.At, limit.Path, fmt.Sprintf("`%s` is not one figure: an allowance is a step beyond standard", v.Text), "write how far, as in `0.10 mm`; a bound goes into `service`")
		return
	}
	side := 1
	if q.SI() < 0 || !limit.High.Is {
		side = 0
	}
	standard := limit.standard(side)
	if !standard.Is {
		limit.Misplaced[side] = Bound{Is: true, SI: q.SI(), At: v.At}
		return
	}
	beyond := limit.bound(limit.beyond(side, q.SI()), v.At)
	if !limit.isFarOff(side, beyond.SI) {
		limit.Worn[side] = beyond
		return
	}
	offer := ""
	if isOutside := side == 1 && q.SI() > standard.SI || side == 0 && q.SI() < standard.SI; isOutside && !limit.isFarOff(side, q.SI()) {
		offer = "service = \"" + openEnded(*q, side).Shown().String() + "\""
	}
	l.farOff(limit, f.Get("allowance"), offer, fmt.Sprintf("an allowance of %s takes `%s` to %s, where standard goes to %s", q.Shown(), limit.Path, limit.Show(beyond), limit.Show(standard)))
}

// service takes the bounds named for worn parts, each if it stands outside standard.
func (l *linker) service(limit *Limit, q quantity.Quantity, v *parse.Value) {
	bounds := [2]Bound{{Is: q.HasLow, SI: q.LowSI(), At: v.At}, {Is: q.HasHigh, SI: q.HighSI(), At: v.At}}
	lone := -1
	if q.Kind != quantity.Interval {
		lone = limit.sideFor(q.SI())
		bounds[lone] = Bound{Is: true, SI: q.SI(), At: v.At}
	}
	for side, b := range bounds {
		isInside := limit.Low.Is && limit.High.Is && b.SI >= limit.Low.SI && b.SI <= limit.High.SI // which is another finding: standard may be what is wrong
		if standard := limit.standard(side); b.Is && standard.Is && !isInside && limit.isFarOff(side, b.SI) {
			offer := ""
			if (lone >= 0 || q.IsOpenEnded()) && b.SI > 0 && !limit.isFarOff(side, limit.beyond(side, b.SI)) {
				one := q
				one.Kind, one.Value, one.HasLow, one.HasHigh = quantity.Figure, limit.Unit.FromSI(b.SI), false, false
				offer = "allowance = \"" + one.Shown().String() + "\""
			}
			l.farOff(limit, limit.Fields.Get("service"), offer, fmt.Sprintf("the service bound %s of `%s` is far from standard, which goes to %s", limit.Show(b), limit.Path, limit.Show(standard)))
			return
		}
	}
	if lone >= 0 {
		slip := &quantity.Slip{Kind: "bad-quantity", End: len(v.Text), Message: fmt.Sprintf("`%s` is one figure, and a service bound has an open end", v.Text), Do: "write on which side of standard it lies"}
		if !q.HasSpread {
			slip.Offers = []string{openEnded(q, lone).Shown().String()}
		}
		l.slip(v, slip, limit.Path)
		return
	}
	for side, b := range bounds {
		standard := limit.standard(side)
		beyond := quantity.Compare(b.SI, standard.SI, limit.Size)
		switch {
		case !b.Is:
		case !standard.Is || side == 0 && beyond > 0 || side == 1 && beyond < 0:
			limit.Misplaced[side] = b
		default:
			limit.Worn[side] = b
		}
	}
}

// standard returns the low bound of standard for side 0, the high one for 1.
func (limit *Limit) standard(side int) Bound { return [2]Bound{limit.Low, limit.High}[side] }

// sideFor returns the side of standard that a lone service bound is most likely meant for: the one that it lies on, else the high one where there is one.
func (limit *Limit) sideFor(si float64) int {
	if limit.High.Is && !(limit.Low.Is && si < limit.Low.SI && !limit.isFarOff(0, si)) {
		return 1
	}
	return 0
}

// beyond returns the service bound that an allowance makes on a side.
func (limit *Limit) beyond(side int, allowance float64) float64 {
	if side == 0 {
		return limit.Low.SI - math.Abs(allowance)
	}
	return limit.High.SI + allowance
}

// openEnded returns a figure as the end of an interval that is open beyond: on side 1 the high end.
func openEnded(q quantity.Quantity, side int) quantity.Quantity {
	q.Kind, q.HasLow, q.HasHigh, q.Low, q.High = quantity.Interval, side == 0, side == 1, q.Value, q.Value
	return q
}

// How far a service bound may lie from standard: common practice, no source. Worn clearances and errors of shape are let go to some five times their
// standard, and a slip of one decimal place takes any service bound beyond ten. No machined size, told by bounds that lie together within a two-hundredth
// of it, or as a single length of four digits, wears by a tenth.
const (
	mostTimes   = 10
	fitShare    = 1.0 / 200
	fitDigits   = 1000
	mostFitWear = 0.1
)

// A machined size over 20 mm is done long before it has worn by a hundredth: common practice, no source.
const (
	leastMachined    = 20e-3 // m
	mostMachinedWear = 0.01
)

// isMachined reports whether a limit is for a size that was machined to a fit, by its two bounds, and that no spring or chain is.
func (limit *Limit) isMachined(standard float64) bool {
	if !limit.Low.Is || !limit.High.Is || limit.Dimension != quantity.Length || standard < leastMachined {
		return false
	}
	return !slices.ContainsFunc(strings.Split(limit.Path, "."), func(word string) bool { return slices.Contains(stretched, word) })
}

// stretched are words of the paths of what sets, stretches or is ground by a lining.
var stretched = []string{"spring", "springs", "chain", "belt", "drum", "cable", "clutch"}

// isFarOff reports whether a service bound on a side, in SI, lies absurdly far from standard. Of angles and temperatures, whose nought is a convention, it
// can't be told.
func (limit *Limit) isFarOff(side int, si float64) bool {
	standard := limit.standard(side).SI
	if !(standard > 0) || si == 0 || limit.Dimension == quantity.Angle || limit.Dimension == quantity.Temperature {
		return false
	}
	times := si / standard
	if quantity.Compare(times, mostTimes, 0) > 0 || quantity.Compare(times, 1.0/mostTimes, 0) < 0 {
		return true
	}
	isFit := limit.Low.Is && limit.High.Is && limit.High.SI-limit.Low.SI <= fitShare*standard ||
		side == 1 && !limit.Low.Is && limit.Dimension == quantity.Length && limit.figureStep > 0 && standard >= fitDigits*limit.figureStep
	if isFit && limit.isMachined(standard) {
		return quantity.Compare(math.Abs(times-1), mostMachinedWear, 0) > 0
	}
	return isFit && math.Abs(times-1) > mostFitWear
}

// farOff reports a service bound, or an allowance that makes one, that lies absurdly far from standard. Offer is what was most likely meant, "" where that
// can't be told.
func (l *linker) farOff(limit *Limit, f *parse.Field, offer, message string) {
	do := "look the figure up again, its decimal point and its unit"
	if offer != "" {
		do = "a service bound is where a worn part is at its end, an allowance how far beyond standard that is: write `" + offer + "`"
	}
	finding := l.report("far-off-service", source.Error, f.At, limit.Path, message, do)
	if offer != "" {
		finding.Fixes = []source.Fix{source.Replace("write `"+offer+"`", f.KeyAt.To(f.At), offer)}
	}
}
