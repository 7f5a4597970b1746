package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What a lift that was measured may be off the card's, as a share of the greater; how near another reading of its digits must come to it; and from where on a lift is one that a valve has, in m.
// Common practice, no source.
const (
	liftShare = 0.2
	sameLift  = 0.05
	leastLift = 2e-3
	mostLift  = 40e-3
)

// liftDisagrees reports a cam that was measured to lift by more than a fifth more, or less, than the part that is in brings.
func liftDisagrees(c *Context) {
	for _, side := range parse.Sides {
		path := "cam." + side + ".lift"
		read, brought := c.measuredNow(path), c.broughtNow(path)
		if read == nil || brought == nil || c.isToldOf(brought) || read.Quantity.IsOpenEnded() || brought.Quantity.IsOpenEnded() {
			continue
		}
		is, card := read.Estimate.Value, brought.Estimate.Value
		if math.Abs(is-card) <= liftShare*max(is, card) {
			continue
		}
		message := fmt.Sprintf("`%s` is %s by what `%s` brings, and was measured as %s", path, brought.Quantity.Shown(), brought.Part.Name, read.Quantity.Shown())
		both := [][2]*model.Value{{brought, read}, {read, brought}} // which of them is wrong, and by what
		if isLift(card) && !isLift(is) {
			both[0], both[1] = both[1], both[0]
		}
		at, other := both[0][0], both[0][1]
		do := "look both up again: the unit, the point, whether one is the lift at the valve, and whether this is the cam that is in"
		for _, pair := range both {
			if hint := c.liftHint(side, pair[0], pair[1]); hint != "" {
				at, other, do = pair[0], pair[1], hint+"; if not, "+do
				break
			}
		}
		word := "measured here"
		if other == brought {
			word = "brought"
		}
		c.value(at, source.Warning, message, do, source.Remark{At: other.At(), Message: word})
		c.findings[len(c.findings)-1].State = source.Open // both are what holds now
	}
}

func isLift(lift float64) bool { return lift >= leastLift && lift <= mostLift }

// liftHint says what a lift was probably meant to be; empty where that isn't plain.
func (c *Context) liftHint(side string, at, other *model.Value) string {
	near := func(lift float64) bool { return math.Abs(lift-other.Estimate.Value) <= sameLift*other.Estimate.Value }
	var found []slip
	for _, s := range otherReadings(at.Quantity) {
		if near(s.meant.SI()) {
			found = append(found, s)
		}
	}
	ratio := c.Journal.Current("engine.rocker-ratio." + side)
	switch {
	case len(found) == 1 && at.Origin != model.FromDegreeing:
		return fmt.Sprintf("%s? if so write `%s`", found[0].why, found[0].meant.Shown())
	case len(found) == 1:
		return found[0].why + "? if so mend the file"
	case ratio != nil && ratio.Quantity.Unit != nil && ratio.Estimate.Value > 0 && near(at.Estimate.Value/ratio.Estimate.Value):
		meant := quantity.Show(at.Estimate.Value/ratio.Estimate.Value, at.Quantity.Unit, at.Quantity.StepSI())
		return fmt.Sprintf("the lift at the valve? if so write `%s`, that at the cam", meant)
	}
	return ""
}
