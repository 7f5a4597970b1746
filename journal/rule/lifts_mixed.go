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

// liftsMixed reports events in force that belong together and were taken at different checking lifts: nothing can be worked out from the two.
func liftsMixed(c *Context) {
	c.tellCauses()
	for _, pair := range [][2]string{{"cam.intake.opens", "cam.intake.closes"}, {"cam.exhaust.opens", "cam.exhaust.closes"}, {"cam.intake.opens", "cam.exhaust.closes"}} {
		a, b := c.Journal.Current(pair[0]), c.Journal.Current(pair[1])
		if a == nil || b == nil || a.Quantity.Unit == nil || b.Quantity.Unit == nil || c.Journal.IsUnread(pair[0]) || c.Journal.IsUnread(pair[1]) {
			continue
		}
		at, other := c.Journal.CheckingLift(a), c.Journal.CheckingLift(b)
		if at == nil || other == nil || model.SameLift(at, other) || c.isSuspect(at) || c.isSuspect(other) {
			continue
		}
		if a.Order > b.Order {
			a, b, at, other = b, a, other, at
		}
		c.value(b, source.Warning, fmt.Sprintf("`%s` was taken at a lift of %s, `%s` at %s: nothing can be worked out from the two", b.Path, other.Quantity.Shown(), a.Path, at.Quantity.Shown()),
			"take both at one lift", source.Remark{At: a.At(), Message: "the other event"}, source.Remark{At: other.At(), Message: "its lift"})
	}
}

// cardLifts finds checking lifts that one part brings for its two lobes and that differ: at the one whose events, as they were measured there, agree less with the card's.
func (c *Context) cardLifts() []*cause {
	intake, exhaust := c.broughtNow("cam.intake.at"), c.broughtNow("cam.exhaust.at")
	if intake == nil || exhaust == nil || intake.Part != exhaust.Part || model.SameLift(intake, exhaust) {
		return nil
	}
	if slices.ContainsFunc(parse.Sides[:], func(side string) bool {
		return c.Journal.IsUnread("cam."+side+".opens") || c.Journal.IsUnread("cam."+side+".closes")
	}) {
		return nil // what was measured has a finding, which may be of the same lift
	}
	at, other := exhaust, intake
	first, known := c.eventsOff("intake")
	second, also := c.eventsOff("exhaust")
	isIntake := later(intake, exhaust)
	switch {
	case known && also:
		isIntake = first > second
	case known:
		isIntake = first > sameEvent
	case also:
		isIntake = second <= sameEvent
	}
	if isIntake {
		at, other = intake, exhaust
	}
	message := fmt.Sprintf("`%s` is %s and `%s` %s: what `%s` brings tells its events at two lifts, and nothing can be worked out from the two", at.Path, at.Quantity.Shown(), other.Path, other.Quantity.Shown(), at.Part.Name)
	do := "look at the card again: its point and its unit"
	if meant, ok := quantity.TheOne(at.Quantity.OtherReadings(slipOfPen), func(q quantity.Quantity) bool { return quantity.Compare(q.SI(), other.Quantity.SI(), 0) == 0 }); ok {
		do = fmt.Sprintf("%s? %s", quantity.Show(meant.SI(), meant.Unit, 0), do)
	}
	k := &cause{report: reportAbout(at, source.Warning, message, do, source.Remark{At: other.At(), Message: "the other lift"}), against: []*model.Value{at}, weight: suspect}
	k.report.State = source.Open // what was measured takes its place, and doesn't mend the card
	return []*cause{k}
}

// eventsOff returns how far both events of a side, as they were measured, are from what the part brings for the same lift, in rad; false where they aren't known.
func (c *Context) eventsOff(side string) (float64, bool) {
	sum := 0.0
	for _, what := range []string{"opens", "closes"} {
		v := c.measuredNow("cam." + side + "." + what)
		if v == nil {
			return 0, false
		}
		l, ok := c.eventLate(v)
		if !ok {
			return 0, false
		}
		sum += math.Abs(l.by)
	}
	return sum, true
}
