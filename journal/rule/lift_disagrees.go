package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What a lift that was measured may be off the card's, as a share of the greater; and how near another reading of its digits must come to it. Common practice, no source.
const (
	liftShare = 0.2
	sameLift  = 0.05
	rightLift = 0.02 // as near as the card's lift and the dial's are of one place, at the cam or at the valve
	cardSides = 0.3  // as near as the lifts of intake and exhaust are on one card
)

// camLifts are what cams lift by, in m: what valves lift by, less what a rocker makes of it. Common practice, no source.
var camLifts = quantity.Span{Low: model.Lifts.Low / model.RockerRatios.High, High: model.Lifts.High}

// liftDisagrees reports a cam that was measured to lift by more than a fifth more, or less, than the part that is in brings; or by as much as the rocker ratio makes, to a
// fiftieth: one of the two is at the valve; or as two digits swapped make of it. So is a card's lift that no cam has.
func liftDisagrees(c *Context) { c.tellCauses() }

// liftsApart finds them. One that is plainly a slip is suspect; else the one that is in force may well be right, and what comes from it must be told: a margin that is gone is no less so.
func (c *Context) liftsApart() []*cause {
	var found []*cause
	for _, side := range parse.Sides {
		path := "cam." + side + ".lift"
		read, brought := c.measuredNow(path), c.broughtNow(path)
		if read == nil || brought == nil || c.toldBy(brought) != "" || read.Quantity.IsOpenEnded() || brought.Quantity.IsOpenEnded() {
			continue
		}
		if d := read.Degreeing(); d != nil && d.Ratio != nil && c.isSuspect(d.Ratio) { // told where that stands
			continue
		}
		is, card := read.Estimate.Value, brought.Estimate.Value
		if math.Abs(is-card) <= liftShare*max(is, card) && !c.isByRocker(side, is, card) && !isBySwap(read, brought) {
			continue
		}
		k := &cause{}
		at, other := brought, read // which of them is wrong, and by what
		if model.Lifts.Holds(card) && !model.Lifts.Holds(is) {
			at, other = read, brought
		}
		hint := c.liftHint(side, at, other)
		if hint == "" {
			if hint = c.liftHint(side, other, at); hint != "" {
				at, other = other, at
			}
		}
		do := "look both up again: the unit, the point, whether one is the lift at the valve, and whether this is the cam that is in"
		if hint != "" {
			do = hint + "; if not, " + do
			k.against, k.weight = []*model.Value{at}, suspect
		}
		word := "measured here"
		if other == brought {
			word = "brought"
		}
		k.report = reportAbout(at, source.Warning, fmt.Sprintf("`%s` is %s by what `%s` brings, and was measured as %s", path, brought.Quantity.Shown(), brought.Part.Name, read.Quantity.Shown()), do, source.Remark{At: other.At(), Message: word})
		k.report.State = source.Open // both are what holds now
		found = append(found, k)
	}
	return append(found, c.liftless(found)...)
}

// liftless finds the lifts of cards that no cam has, but those that what was measured says to be wrong.
func (c *Context) liftless(told []*cause) []*cause {
	var found []*cause
	for _, both := range c.camsTold() {
		for i := range both {
			v, other := both[i].lift, both[1-i].lift
			if v == nil || v.Part == nil || v.Quantity.IsOpenEnded() || camLifts.Holds(v.Quantity.SI()) || slices.ContainsFunc(told, func(k *cause) bool { return k.report.At == v.At() }) {
				continue
			}
			do := "look it up again: the unit, and the point"
			meant, ok := quantity.TheOne(v.Quantity.OtherReadings(slipOfPen), func(q quantity.Quantity) bool {
				return camLifts.Holds(q.SI()) && (other == nil || math.Abs(q.SI()-other.Quantity.SI()) <= cardSides*other.Quantity.SI())
			})
			if ok {
				do = fmt.Sprintf("%s? if so write `%s`; if not, %s", meant.Why, meant.Shown(), do)
			}
			found = append(found, &cause{report: reportAbout(v, source.Warning, fmt.Sprintf("`%s` is %s by what `%s` brings: no cam lifts by that", v.Path, v.Quantity.Shown(), v.Part.Name), do),
				against: []*model.Value{v}, weight: suspect})
		}
	}
	return found
}

// isBySwap reports whether a card's lift is that which was measured but for two digits that are swapped, and they make more of a difference than the dial.
func isBySwap(read, brought *model.Value) bool {
	is, card := read.Estimate.Value, brought.Quantity
	return math.Abs(is-card.SI()) > 2*rightLift*is && slices.ContainsFunc(card.OtherReadings(quantity.SwappedDigits), func(r quantity.OtherReading) bool { return math.Abs(r.SI()-is) <= rightLift/2*is })
}

// isByRocker reports whether two lifts (m) are plainly one at the cam and one at the valve.
func (c *Context) isByRocker(side string, is, card float64) bool {
	v := c.Journal.Current("engine.rocker-ratio." + side)
	if v == nil || c.Journal.IsFitUnclear() || v.Quantity.Unit == nil || !(v.Estimate.Value > 0) || math.Abs(is-card) <= 2*rightLift*card {
		return false
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= rightLift*b }
	return near(is*v.Estimate.Value, card) || near(is/v.Estimate.Value, card)
}

// liftHint says what a lift was probably meant to be; empty where that isn't plain.
func (c *Context) liftHint(side string, at, other *model.Value) string {
	near := func(lift float64) bool { return math.Abs(lift-other.Estimate.Value) <= sameLift*other.Estimate.Value }
	meant, ok := quantity.TheOne(at.Quantity.OtherReadings(slipOfPen|quantity.SwappedDigits), func(q quantity.Quantity) bool { return near(q.SI()) })
	ratio := c.Journal.Current("engine.rocker-ratio." + side)
	switch {
	case ok && at.Origin != model.FromDegreeing:
		return fmt.Sprintf("%s? if so write `%s`", meant.Why, meant.Shown())
	case ok:
		return meant.Why + "? if so mend the file"
	case ratio != nil && ratio.Quantity.Unit != nil && ratio.Estimate.Value > 0 && near(at.Estimate.Value/ratio.Estimate.Value):
		meant := quantity.Show(at.Estimate.Value/ratio.Estimate.Value, at.Quantity.Unit, at.Quantity.StepSI())
		file := other.Degreeing()
		switch {
		case at.Degreeing() != nil && at.Degreeing().AtCam:
			return "the lift at the valve? if so take `at = \"cam\"` out of the table that the file is named in"
		case file != nil && !file.AtCam:
			return fmt.Sprintf("the lift at the valve? if so write `%s`, that at the cam; if the dial stood at the cam, write `at = \"cam\"` where the file is named", meant)
		}
		return fmt.Sprintf("the lift at the valve? if so write `%s`, that at the cam", meant)
	}
	return ""
}
