package rule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// mostMargin is more than anybody asks for between a spring and coil bind, or a retainer and its guide, in m. Common practice, no source.
const mostMargin = 5e-3

// usualMargin is about what is asked for, in m. Common practice, no source.
var usualMargin = quantity.Span{Low: 0.5e-3, High: 3e-3}

// best is a figure that nothing is better than.
type best struct {
	path string
	si   float64
	what string
}

// bests are those that there are: cylinders that are all alike, a bore that is round, a chain that is new.
var bests = []best{
	{"spread.compression", 1, "cylinders that are all alike"},
	{"taper", 0, "a bore that is straight"},
	{"out-of-round", 0, "a bore that is round"},
	{"chain.elongation", 0, "a chain that is new"},
}

// oddLimits finds limits that are wrong by themselves, or by two figures of other sources that agree with each other.
func (c *Context) oddLimits() []*cause {
	var found []*cause
	retired := c.retired()
	for _, l := range c.Journal.Limits {
		if !l.IsFigures() || c.isLimitSuspect(l) {
			continue
		}
		for _, k := range []*cause{c.refusesBest(l), c.oddMargin(l), c.centreLimit(l), retiredCause(retired[l])} {
			if k != nil {
				k.limits = []*model.Limit{l}
				found = append(found, k)
				break
			}
		}
	}
	return found
}

// aboutLimit makes what is told of a limit: an error where something is out of it, since it stands for that finding.
func (c *Context) aboutLimit(l *model.Limit, at source.Range, message, do string, notes ...source.Remark) *cause {
	f := source.Finding{Severity: source.Warning, At: at, Subject: l.Path, Origin: string(model.FromSheet), Message: message, Do: do, Notes: notes}
	if l.Part != nil {
		f.Origin = string(model.FromPart)
	}
	if slices.ContainsFunc(c.Numbers, func(n *derive.Number) bool { return n.Limit == l && n.Verdict == model.Out }) || c.isOutUnder(l, func(*model.Value) bool { return true }) {
		f.Severity = source.Error
	}
	return &cause{report: report{f, -1}}
}

// refusesBest finds a bound that stands on the wrong side: the best figure that there can be is out of it.
func (c *Context) refusesBest(l *model.Limit) *cause {
	i := slices.IndexFunc(bests, func(b best) bool { return parse.IsAtOrBelow(l.Path, b.path) })
	if i < 0 || l.Dimension != quantity.Pure && bests[i].si != 0 {
		return nil
	}
	best := bests[i]
	bound, key, right := l.High, "high", "low"
	if best.si == 0 {
		bound, key, right = l.Low, "low", "high"
	}
	if !bound.Is || quantity.Compare(bound.SI, best.si, 1) == 0 || (bound.SI > best.si) != (best.si == 0) {
		return nil
	}
	k := c.aboutLimit(l, bound.At, fmt.Sprintf("the limit `%s` is %s: %s, at %s, would be out of it", l.Path, l.BoundsText(), best.what, quantity.Show(best.si, l.Unit, 0)),
		fmt.Sprintf("a limit there has no %s bound: look it up again", key))
	if f := l.Fields.Get(key); f != nil && f.At == bound.At && l.Fields.Get(right) == nil {
		k.report.Do = fmt.Sprintf("`%s`, and not `%s`? look it up again", right, key)
		k.report.At = f.KeyAt.To(f.At)
		k.report.Fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", right), f.KeyAt, right)}
	}
	return k
}

// oddMargin finds a margin that no spring is asked to have.
func (c *Context) oddMargin(l *model.Limit) *cause {
	if !parse.IsAtOrBelow(l.Path, "margin") || l.Unit == nil || l.Unit.Dimension != quantity.Length || !l.Low.Is || !(l.Low.SI > mostMargin) {
		return nil
	}
	k := c.aboutLimit(l, l.Low.At, fmt.Sprintf("the limit `%s` is %s: what is asked for is about %s", l.Path, l.BoundsText(),
		quantity.Between(quantity.Show(usualMargin.Low, l.Unit, 0), quantity.Show(usualMargin.High, l.Unit, 0))), "look it up again, its point and its unit")
	low := quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: l.Unit.FromSI(l.Low.SI)}
	if meant, ok := quantity.TheOne(low.OtherReadings(slipOfPen), func(q quantity.Quantity) bool { return usualMargin.Holds(q.SI()) }); ok {
		k.report.Do = fmt.Sprintf("%s? %s", quantity.Show(meant.SI(), meant.Unit, 0), k.report.Do)
	}
	return k
}

// centreLimit finds a limit of cam timing that what the part brings and what was measured are both far out of, while they agree with each other.
func (c *Context) centreLimit(l *model.Limit) *cause {
	if l.Event == quantity.NoEvent || !strings.HasPrefix(l.Path, "cam.") {
		return nil
	}
	brought, measured := c.broughtNow(l.Path), c.measuredNow(l.Path)
	isFar := func(v *model.Value) bool {
		return v != nil && v.Limit == l && v.Verdict == model.Out && math.Abs(v.Quantity.SI()-passed(v).SI) > otherEvent
	}
	if !isFar(brought) || !isFar(measured) {
		return nil
	}
	a, ok := model.OverlapAngle(l.Path, brought.Quantity)
	b, too := model.OverlapAngle(l.Path, measured.Quantity)
	if !ok || !too || math.Abs(a-b) > sameEvent {
		return nil
	}
	k := c.aboutLimit(l, l.PathAt, fmt.Sprintf("the limit `%s` is %s: %s, as `%s` brings it, and %s, as it was measured, agree with each other and not with it", l.Path, l.BoundsText(),
		brought.Quantity.Shown(), brought.Part.Name, measured.Quantity.Shown()), "look the limit up again, its digits and its dead centre",
		source.Remark{At: brought.At(), Message: "brought"}, source.Remark{At: measured.At(), Message: "measured"})
	if l.Nominal == nil {
		return k
	}
	side, what := sideOf(l.Path), parse.LastSegment(l.Path)
	meant, ok := quantity.TheOne(otherwiseTold(*l.Nominal, side, what, quantity.AnotherCentre|quantity.OnePlace|quantity.SwappedDigits), func(q quantity.Quantity) bool {
		other := *l
		by := q.SI() - l.Nominal.SI()
		other.Low.SI, other.High.SI = l.Low.SI+by, l.High.SI+by
		return holdsIn(&other, brought.Quantity) && holdsIn(&other, measured.Quantity)
	})
	if ok {
		k.report.Do = fmt.Sprintf("`%s`? if so write that; if not, %s", meant.Shown(), k.report.Do)
	}
	return k
}

// retired returns the readings under each limit that is no longer in force where they stand, since what a part brought has taken its place, and that they are all out of.
func (c *Context) retired() map[*model.Limit]*limitSlip {
	slips := c.outWhere(func(v *model.Value) bool { return !v.Current })
	if len(slips) == 0 {
		return nil
	}
	for _, v := range c.Journal.Values {
		if isJudgedReading(v) && (v.Current || v.Verdict != model.Out || !couldSlip(v)) {
			delete(slips, v.Limit)
		}
	}
	return slips
}

// retiredCause is what is told of such a limit where one slip explains most of its readings, and what was last left at each path; nil for nothing.
func retiredCause(s *limitSlip) *cause {
	if s == nil || len(s.readings) < fewReadings {
		return nil
	}
	readings := s.readings
	s.readings, s.most = nil, true
	last := map[string]int{}
	for i, v := range readings {
		last[v.Path] = i
	}
	for i, v := range readings {
		if last[v.Path] == i {
			s.readings = append(s.readings, v)
		} else {
			s.older = append(s.older, v)
		}
	}
	if s.meant = s.otherwise(); s.meant == "" {
		return nil
	}
	return s.cause()
}
