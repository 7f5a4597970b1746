package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// unlikeSession reports sessions of pulls whose figures are those of the others in another unit, or that measured the same engine on the same dyno and found another one.
func unlikeSession(c *Context) { c.tellCauses() }

// How the figures of a whole session may be off those of the others by nothing but a unit. Common practice, no source.
const (
	besidesUnit = 0.06 // by which the engine may have gained or lost beside it
	evenTimes   = 1.15 // the most over the least of how many times as large they are: a unit does the same at every engine speed, a part does not
	leastSlip   = 0.2  // by which the least of them changes figures: kW for hp
	plainSlip   = 5    // times from which on nothing but a slip does it
	mostUntouch = 0.08 // by which two sessions of one engine, with nothing done to it, may be apart: the day, the tyre, the oil
	claimedMost = 2    // times what is claimed for parts they may give
)

// alikes are sessions that go with each other, in order of time.
type alikes struct {
	all    []*model.Pulls
	beside *alikes      // those before them, which they are off by a unit; nil for none
	next   *model.Pulls // of those, the one that the first of them is held against
	times  timesAs      // what the first of them makes of that
	gone   bool         // told already
	latest *model.Pulls
}

// timesAs is how many times as much one session makes as another.
type timesAs struct {
	rough  float64
	curves bool // at all engine speeds, and not by the peaks alone
	fromIs bool // the figures of the earlier one would agree in another unit
	toIs   bool // the figures of the later one would
}

// unlikeSessions finds sessions whose figures are those of the others in another unit, or a decimal place off, though nothing was done that makes an engine so much stronger or weaker at every engine speed alike. The odd ones are the fewer.
func (c *Context) unlikeSessions() []*cause {
	var crowds []*alikes
	var found []*cause
	var last *model.Pulls
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if p.Peak == nil || c.isSuspect(p.Peak) {
				continue
			}
			nearest, times := c.nearest(crowds, p)
			switch {
			case nearest == nil:
				if k := c.otherUnitElsewhere(last, p); k != nil {
					found = append(found, k)
				}
				crowds = append(crowds, &alikes{all: []*model.Pulls{p}, latest: p})
			case (times.fromIs || times.toIs) && c.isLatestOdd(nearest, p):
				alone := nearest.latest
				nearest.all[len(nearest.all)-1], nearest.latest = p, p
				crowds = append(crowds, &alikes{all: []*model.Pulls{alone}, latest: alone, beside: nearest, next: p, times: timesAs{1 / times.rough, times.curves, times.toIs, times.fromIs}})
			case times.fromIs || times.toIs:
				crowds = append(crowds, &alikes{all: []*model.Pulls{p}, latest: p, beside: nearest, next: nearest.latest, times: times})
			default:
				nearest.all, nearest.latest = append(nearest.all, p), p
			}
			last = p
		}
	}
	for _, k := range crowds {
		if k.beside == nil {
			continue
		}
		odd, other, rough := k, k.next, k.times.rough
		if isEarlierOdd(k) {
			odd, other, rough = k.beside, k.all[0], 1/rough
		}
		if !odd.gone {
			odd.gone = true
			found = append(found, c.otherUnit(odd, other, rough, k.times.curves))
		}
	}
	return append(found, c.untouched(found)...)
}

// isEarlierOdd reports whether, of sessions and those before them that they are off by a unit, those before are the odd ones: by their number, else by which of the two would be right in another unit.
func isEarlierOdd(k *alikes) bool {
	switch n, m := len(k.beside.all), len(k.all); {
	case n != m:
		return n < m
	default:
		return !k.times.toIs
	}
}

// nearest returns the sessions whose latest makes the nearest to what one makes, and how many times as much that is; nil where there is none that it can be held against.
func (c *Context) nearest(crowds []*alikes, p *model.Pulls) (*alikes, timesAs) {
	var nearest *alikes
	var times timesAs
	for _, k := range crowds {
		if isElsewhere(k.latest, p) {
			continue
		}
		at := c.timesOf(k.latest, p)
		if at.rough > 0 && (nearest == nil || math.Abs(math.Log(at.rough)) < math.Abs(math.Log(times.rough))) {
			nearest, times = k, at
		}
	}
	return nearest, times
}

// isLatestOdd reports whether a session goes with the last but one of others, and not with the last, which doesn't go with that either: then that one is the odd one.
func (c *Context) isLatestOdd(k *alikes, p *model.Pulls) bool {
	if len(k.all) < 2 {
		return false
	}
	before := k.all[len(k.all)-2]
	isNear := func(times timesAs) bool { return math.Abs(times.rough-1) <= leastSlip }
	return isNear(c.timesOf(before, p)) && !isNear(c.timesOf(before, k.latest))
}

// isElsewhere reports whether two sessions were on two dynos, or their figures count at the wheel and at the crank.
func isElsewhere(a, b *model.Pulls) bool {
	return a.Dyno != b.Dyno && a.Dyno != nil && b.Dyno != nil || a.Where != b.Where && a.Where != "" && b.Where != ""
}

// timesOf tells how many times as much a session makes as an earlier one, and whether a unit does that.
func (c *Context) timesOf(last, p *model.Pulls) timesAs {
	times := c.Sums.Session(p).Times(c.Sums.Session(last), quantity.Power)
	at := timesAs{rough: p.Peak.Estimate.Value / last.Peak.Estimate.Value, curves: len(times) > 0}
	if !(at.rough > 0) {
		return timesAs{}
	}
	isPlain := at.rough > plainSlip || at.rough < 1/plainSlip
	if at.curves {
		slices.Sort(times)
		at.rough = times[len(times)/2]
	}
	switch {
	case math.Abs(at.rough-1) <= leastSlip:
		return at // of hp for PS nothing can be told
	case isPlain:
	case at.curves && times[len(times)-1]/times[0] > evenTimes, c.isResized(last, p), c.areGiven(last, p, at):
		return at
	}
	at.toIs, at.fromIs = isOtherUnit(p, at.rough), isOtherUnit(last, 1/at.rough)
	return at
}

// isOtherUnit reports whether the figures of a session, which are so many times what they should be, are those in another unit, or a decimal place off.
func isOtherUnit(p *model.Pulls, times float64) bool {
	odd := figureOfPulls(p)
	return len(quantity.Fitting(odd.quantity().OtherReadings(slipOfColumn), func(q quantity.Quantity) bool { return math.Abs(q.SI()/odd.figure*times-1) <= besidesUnit })) > 0
}

// figureOfPulls is what stands for a whole session.
func figureOfPulls(p *model.Pulls) pullFigure {
	odd := pullFigure{p.Peak.At(), p.Peak.Quantity.Unit, p.Peak.Estimate.Value}
	if len(p.Runs) > 0 && p.Runs[0].Unit != nil {
		odd.at, odd.unit = p.Runs[0].Head, p.Runs[0].Unit
		if p.Runs[0].Lacks == quantity.Power && p.Torque != nil {
			odd.figure = p.Torque.Estimate.Value
		}
	}
	return odd
}

// areGiven reports whether the parts that were changed between two sessions may make the difference. Of curves a part that is claimed to give it may; of peaks alone one of which nothing is claimed as well.
func (c *Context) areGiven(last, p *model.Pulls, at timesAs) bool {
	claimed := 0.0
	for _, part := range c.changedBetween(last, p) {
		table := part.Fields.Table("claim")
		v := table.Value("power")
		if v == nil {
			if !at.curves {
				return true
			}
			continue
		}
		if q, slip := v.Resolve(table.Get("power").Key.Want()); slip == nil {
			claimed += math.Abs(q.HighSI())
		}
	}
	return math.Abs(p.Peak.Estimate.Value-last.Peak.Estimate.Value) <= claimedMost*claimed
}

// otherUnit makes the cause of sessions that are in another unit than the others, of which the nearest is named.
func (c *Context) otherUnit(odd *alikes, other *model.Pulls, rough float64, curves bool) *cause {
	first := odd.all[0]
	figure := figureOfPulls(first)
	beside, note := "before them", "the pulls before"
	if other.Order > first.Order {
		beside, note = "after them", "the pulls after"
	}
	words := "these pulls make %s times what those %s do, at every engine speed: a unit does that, and hardly a part"
	if !curves {
		words = "the peak of these pulls is %s times that of those %s: a unit or the point does that, and hardly any work on an engine"
	}
	message := fmt.Sprintf(words, quantity.Show(rough, quantity.One(), quantity.TwoFigures(rough)/10), beside)
	if n := len(odd.all) - 1; n > 0 {
		message += fmt.Sprintf("; so it is in %s more", quantity.Counted(n, "session"))
	}
	k := suspectPulls(first, figure, source.Warning, figure.figure/rough, message, source.Remark{At: other.At, Message: note})
	for _, more := range odd.all[1:] {
		k.report.Notes = append(k.report.Notes, source.Remark{At: figureOfPulls(more).at, Message: "likewise"})
		k.against = append(k.against, peaksOf(more)...)
	}
	return k
}

// otherUnitElsewhere makes the cause of the first session on a dyno, whose figures are those of the session before on another one in another unit, though nothing was done in between; nil for nothing. Two dynos may differ, so that nothing is held against it.
func (c *Context) otherUnitElsewhere(last, p *model.Pulls) *cause {
	if last == nil || last.Where == "" || last.Where != p.Where || c.isChanged(last, p) {
		return nil
	}
	times := c.timesOf(last, p)
	if !times.toIs {
		return nil
	}
	figure := figureOfPulls(p)
	k := suspectPulls(p, figure, source.Note, figure.figure/times.rough, fmt.Sprintf("these pulls make %s times what those before them do, on another dyno, and nothing was done to the engine in between", quantity.Show(times.rough, quantity.One(), quantity.TwoFigures(times.rough)/10)), source.Remark{At: last.At, Message: "the pulls before"})
	k.against = nil
	return k
}

// peaksOf are the peaks of a session.
func peaksOf(p *model.Pulls) []*model.Value {
	return slices.DeleteFunc([]*model.Value{p.Peak, p.Torque}, func(v *model.Value) bool { return v == nil })
}

// untouched finds sessions that are far from those before them on the same dyno, though nothing was done to the engine in between. Which of two is the odd one nobody can tell; the one that is off those on both sides of it is.
func (c *Context) untouched(units []*cause) []*cause {
	var found []*cause
	var last *model.Pulls
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if p.Peak == nil || c.isSuspect(p.Peak) || slices.ContainsFunc(units, func(k *cause) bool { return slices.Contains(k.against, p.Peak) }) {
				continue
			}
			if last != nil && last.Dyno != nil && last.Dyno == p.Dyno && last.Where == p.Where && last.Gear == p.Gear && !c.isChanged(last, p) && !isRunBack(last.Entry, p.Entry) && !c.Journal.IsFitUnclear() {
				if k := c.offUntouched(last, p); k != nil {
					found = append(found, k)
				}
			}
			last = p
		}
	}
	return found
}

// isRunBack reports whether the meter showed less in an entry than in an earlier one: one of their dates is wrong, and nobody knows what was done in between.
func isRunBack(earlier, e *model.Entry) bool {
	a, b := metered(earlier), metered(e)
	return a != nil && b != nil && b.SI() < a.SI()
}

// offUntouched is untouched of one session and the one before it; nil for nothing.
func (c *Context) offUntouched(last, p *model.Pulls) *cause {
	before, after := c.Sums.Session(last), c.Sums.Session(p)
	if derive.WhyApart(before, after) != "" {
		return nil
	}
	was, reason := before.Corrected(last.Peak)
	is, why := after.Corrected(p.Peak)
	if reason != "" || why != "" || !(was.Value > 0) {
		return nil
	}
	times := is.Value / was.Value
	half := math.Hypot(was.Expanded(), is.Expanded())
	if math.Abs(times-1) <= mostUntouch || math.Abs(is.Value-was.Value) <= half {
		return nil
	}
	unit := p.Peak.Quantity.Unit
	step := quantity.TwoFigures(unit.FromSI(is.Value)) * unit.Factor / 10
	return &cause{report: report{source.Finding{
		Severity: source.Warning, At: p.At, Subject: p.Peak.Path, Entry: p.Entry.Path,
		Message: fmt.Sprintf("these pulls peak at %s, compared alike, and those before them at %s: nothing was done to the engine in between, and pulls of one engine on one dyno agree within %.0f %%", quantity.Show(is.Value, unit, step), quantity.Show(was.Value, unit, step), 100*mostUntouch),
		Do:      "look at the air, the gear and the unit of both; if they are right, see what happened to the engine, or write down what was done",
		Notes:   []source.Remark{{At: last.At, Message: "the pulls before"}},
	}, p.Order}}
}

// isChanged reports whether anything was done to the engine between two sessions.
func (c *Context) isChanged(last, p *model.Pulls) bool {
	if len(c.changedBetween(last, p)) > 0 {
		return true
	}
	for _, e := range c.Journal.Entries[last.Entry.Index : p.Entry.Index+1] {
		if e.Plan || e == last.Entry && last.State != "before" || e == p.Entry && p.State == "before" {
			continue
		}
		if len(e.Set) > 0 {
			return true
		}
	}
	return false
}

// changedBetween returns the parts that went in or out between two sessions.
func (c *Context) changedBetween(last, p *model.Pulls) []*model.Part {
	in, out := c.Journal.ChangedBetween(last.Order, p.Order)
	return slices.Concat(in, out)
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
