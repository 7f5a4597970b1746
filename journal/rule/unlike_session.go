package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// unlikeSession reports sessions of pulls whose figures are those before them in another unit.
func unlikeSession(c *Context) { c.tellCauses() }

// How the figures of a whole session may be off those before it by nothing but a unit. Common practice, no source.
const (
	besidesUnit = 0.06 // by which the engine may have gained or lost beside it
	evenTimes   = 1.15 // the most over the least of how many times as large they are: a unit does the same at every engine speed, a part does not
	leastSlip   = 0.2  // by which the least of them changes figures: kW for hp
	plainSlip   = 5    // times from which on nothing but a slip does it
)

// unlikeSessions finds sessions whose figures are those of the session before in another unit, or a decimal place off, though nothing was done that makes an engine so much stronger or weaker at every engine speed alike.
func (c *Context) unlikeSessions() []*cause {
	var found []*cause
	var last *model.Pulls
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if p.Peak == nil || c.isSuspect(p.Peak) {
				continue
			}
			if last == nil {
				last = p
				continue
			}
			if k := c.otherUnit(last, p); k != nil {
				found = append(found, k)
			} else {
				last = p
			}
		}
	}
	return found
}

// otherUnit is unlikeSessions of one and the one before it; nil for nothing.
func (c *Context) otherUnit(last, p *model.Pulls) *cause {
	if last.Dyno != p.Dyno && last.Dyno != nil && p.Dyno != nil || last.Where != p.Where && last.Where != "" && p.Where != "" {
		return nil
	}
	s, before := c.Sums.Session(p), c.Sums.Session(last)
	times := s.Times(before, quantity.Power)
	odd := pullFigure{p.Peak.At(), p.Peak.Quantity.Unit, p.Peak.Estimate.Value}
	if len(p.Runs) > 0 && p.Runs[0].Unit != nil {
		odd.at, odd.unit = p.Runs[0].Head, p.Runs[0].Unit
		if p.Runs[0].Lacks == quantity.Power && p.Torque != nil {
			odd.figure = p.Torque.Estimate.Value
		}
	}
	rough := p.Peak.Estimate.Value / last.Peak.Estimate.Value
	if !(rough > 0) {
		return nil
	}
	isPlain := rough > plainSlip || rough < 1/plainSlip
	if len(times) > 0 {
		slices.Sort(times)
		rough = times[len(times)/2]
	}
	switch {
	case math.Abs(rough-1) <= leastSlip:
		return nil // of hp for PS nothing can be told
	case isPlain:
	case len(times) == 0 && c.isChanged(last, p), len(times) > 0 && times[len(times)-1]/times[0] > evenTimes, c.isResized(last, p):
		return nil
	}
	meant := quantity.Fitting(odd.quantity().OtherReadings(slipOfColumn), func(q quantity.Quantity) bool { return math.Abs(q.SI()/odd.figure*rough-1) <= besidesUnit })
	if len(meant) == 0 {
		return nil
	}
	words := "these pulls make %s times what those before them do, at every engine speed: a unit does that, and hardly a part"
	if len(times) == 0 {
		words = "the peak of these pulls is %s times that of those before them: a unit or the point does that, and no work on an engine"
	}
	return suspectPulls(p, odd, source.Warning, odd.figure/rough, fmt.Sprintf(words, quantity.Show(rough, quantity.One(), quantity.TwoFigures(rough)/10)), source.Remark{At: last.At, Message: "the pulls before"})
}

// isChanged reports whether parts were changed between two sessions.
func (c *Context) isChanged(last, p *model.Pulls) bool {
	return slices.ContainsFunc(c.Journal.Changes, func(ch model.Change) bool {
		order := c.Journal.OrderOf(ch)
		return order > last.Order && order < p.Order
	})
}

// isResized reports whether bore or stroke are others than they were: that may do it, at every engine speed.
func (c *Context) isResized(last, p *model.Pulls) bool {
	for _, path := range []string{"engine.bore", "engine.stroke", "engine.cylinders"} {
		a, b := c.Journal.At(path, last.Entry), c.Journal.At(path, p.Entry)
		if a != nil && b != nil && quantity.Compare(a.Estimate.Value, b.Estimate.Value, 0) != 0 {
			return true
		}
	}
	return false
}
