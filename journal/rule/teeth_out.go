package rule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// How far from a whole number of teeth a cam may be out, and by how many, for the chain to be blamed: common practice, no source.
const (
	nearTooth  = 0.2
	mostTeeth  = 3
	movedAlike = math.Pi / 36 // 5°: by how much both events may be out by otherwise; what moves one and not the other is no chain
)

// late is how late a lobe was measured to be, beside what it should be.
type late struct {
	by      float64 // rad of the crank
	wanted  float64 // rad of the crank after the top dead centre of overlap
	value   *model.Value
	from    source.Remark
	beside  string         // what it is held against, in words
	brought []*model.Value // that, where a part brings it
}

// toothSlip is a chain that sits a tooth or so round, by the lobes that are out by as much.
type toothSlip struct {
	teeth float64 // late
	lobes []late
}

// teethOut reports lobes that were measured to stand about a whole number of teeth of the cam sprocket from where the fitted part, or else the limit, wants them. Both sides
// out by the same is one chain.
func teethOut(c *Context) { c.tellCauses() }

// cause is what is told of it, where a tooth is so much at the crank, in rad. The events that were read with a middle are as far out: of what comes from those no verdict is told besides.
func (s *toothSlip) cause(c *Context, tooth float64) *cause {
	angle := quantity.UnitOf("°", quantity.Angle)
	l, severity, way := s.lobes[0], source.Warning, "late"
	if s.teeth < 0 {
		way = "early"
	}
	k, notes := &cause{weight: doubted}, []source.Remark{l.from}
	for i, lobe := range s.lobes {
		k.instead = append(k.instead, lobe.value)
		k.against = append(k.against, c.besideMiddle(lobe.value)...)
		if lobe.value.Verdict == model.Out { // it stands for that finding
			severity = source.Error
		}
		if i > 0 {
			notes = append(notes, source.Remark{At: lobe.value.At(), Message: "the " + sideOf(lobe.value.Path) + " is out by as much"})
		}
	}
	message := fmt.Sprintf("the %s cam stands %s %s of %s: about %s, each %s at the crank", sideOf(l.value.Path), quantity.Show(math.Abs(l.by), angle, model.WheelStep), way, l.beside, teethWords(math.Abs(s.teeth)), quantity.Show(tooth, angle, model.WheelStep))
	k.report = reportAbout(l.value, severity, message, s.advice(), notes...)
	return k
}

// advice says what to look at first: lobes that are out by as much were read on one wheel, and a nought that is off moves them so.
func (s *toothSlip) advice() string {
	const chain, still = "see whether the chain or belt sits that far round on the cam sprocket; if it doesn't, measure again", ". Don't turn the engine over while it may be out"
	if len(s.lobes) > 1 {
		return "find top dead centre again first: both lobes are out by as much, and so they are by a wheel whose nought is elsewhere (`zero`, `timing.stop`); if it is right, " + chain + still
	}
	return chain + still
}

// sideOf returns the side of the engine that a path of cam timing is of.
func sideOf(path string) string {
	if strings.HasPrefix(path, "cam.intake.") {
		return "intake"
	}
	return "exhaust"
}

// tooth returns what a tooth of the cam sprocket is at the crank, in rad; false where that isn't known.
func (c *Context) tooth() (angle float64, ok bool) {
	sprocket := c.Journal.Current("engine.cam-sprocket")
	if sprocket == nil || sprocket.Quantity.Unit == nil || c.Journal.IsFitUnclear() {
		return 0, false
	}
	angle, err := calc.ToothAngle(sprocket.Estimate.Value)
	return angle, err == nil
}

// teethSlips finds the lobes that stand a tooth or so out by figures that nothing else contradicts.
func (c *Context) teethSlips() []*cause {
	tooth, ok := c.tooth()
	if !ok {
		return nil
	}
	var slips []*toothSlip
	for _, side := range parse.Sides {
		l, ok := c.late(side)
		whole := wholeTeeth(l.by, tooth)
		if !ok || whole == 0 || c.toldBy(l.value) != "" || slices.ContainsFunc(l.brought, func(v *model.Value) bool { return c.toldBy(v) != "" }) {
			continue
		}
		if len(slips) > 0 && slips[0].teeth == whole {
			slips[0].lobes = append(slips[0].lobes, l)
			continue
		}
		slips = append(slips, &toothSlip{teeth: whole, lobes: []late{l}})
	}
	var found []*cause
	for _, s := range slips {
		found = append(found, s.cause(c, tooth))
	}
	return found
}

// wholeTeeth returns by how many teeth of so much at the crank a lobe is late that is late by so much, both in rad; 0 where it is by about none, by more than a chain is, or by no whole number.
func wholeTeeth(by, tooth float64) float64 {
	whole := math.Round(by / tooth)
	if math.Abs(whole) > mostTeeth || math.Abs(by/tooth-whole) > nearTooth {
		return 0
	}
	return whole
}

func teethWords(n float64) string {
	if n == 1 {
		return "one tooth of the cam sprocket"
	}
	return fmt.Sprintf("%.0f teeth of the cam sprocket", n)
}

// late returns how late a side's lobe was measured to be: its middle, else both events at one lift.
func (c *Context) late(side string) (late, bool) {
	path := "cam." + side + "."
	if centre := c.measuredNow(path + "centre"); centre != nil {
		at, ok := model.OverlapAngle(centre.Path, centre.Quantity)
		l, known := c.wantedCentre(side)
		l.by, l.value = at-l.wanted, centre
		return l, ok && known
	}
	opens, closes := c.measuredNow(path+"opens"), c.measuredNow(path+"closes")
	if opens == nil || closes == nil {
		return late{}, false
	}
	first, ok := c.eventLate(opens)
	second, too := c.eventLate(closes)
	if !ok || !too || math.Abs(first.by-second.by) > movedAlike {
		return late{}, false
	}
	first.by = (first.by + second.by) / 2
	return first, true
}

// besideMiddle returns the events that were measured with the middle of a lobe, in one entry and the same way: what the middle is out by, they are.
func (c *Context) besideMiddle(centre *model.Value) []*model.Value {
	var events []*model.Value
	for _, what := range []string{"opens", "closes"} {
		v := c.measuredNow("cam." + sideOf(centre.Path) + "." + what)
		if v != nil && v != centre && v.Entry == centre.Entry && v.Degreeing() == centre.Degreeing() {
			events = append(events, v)
		}
	}
	return events
}

// isWithMiddleOut reports whether an event was measured with the middle of its lobe, by one file, and that middle is out and told of: whatever the event makes is out by as much.
func (c *Context) isWithMiddleOut(v *model.Value) bool {
	d := v.Degreeing()
	if d == nil || v.Path != d.Of+".opens" && v.Path != d.Of+".closes" {
		return false
	}
	centre := c.measuredNow(d.Of + ".centre")
	return centre != nil && centre.Degreeing() == d && centre.Verdict == model.Out && !centre.Settled && !c.isOutAccepted(centre)
}

// measuredNow returns what was measured and is current at a path, nil for nothing.
func (c *Context) measuredNow(path string) *model.Value {
	v := c.Journal.Current(path)
	if v == nil || !v.IsReading() && v.Origin != model.FromDegreeing || v.Quantity.Unit == nil {
		return nil
	}
	return v
}

// broughtNow returns what a part that is in brings at a path, read since or not; nil for nothing.
func (c *Context) broughtNow(path string) *model.Value {
	history := c.Journal.History(path)
	for i := len(history) - 1; i >= 0; i-- {
		if v := history[i]; v.Origin == model.FromPart && v.Part.IsFitted() && v.Quantity.Unit != nil {
			return v
		}
	}
	return nil
}

// eventLate returns how much later an event was measured than the fitted part brings it, where both are at one lift.
func (c *Context) eventLate(v *model.Value) (late, bool) {
	brought := c.broughtNow(v.Path)
	if brought == nil {
		return late{}, false
	}
	at, other := c.Journal.CheckingLift(v), c.Journal.CheckingLift(brought)
	angle, ok := model.OverlapAngle(v.Path, v.Quantity)
	wanted, too := model.OverlapAngle(brought.Path, brought.Quantity)
	if !ok || !too || at == nil || other == nil || !model.SameLift(at, other) {
		return late{}, false
	}
	return late{by: angle - wanted, wanted: wanted, value: v, from: source.Remark{At: brought.At(), Message: "brought"}, beside: "what `" + brought.Part.Name + "` brings", brought: []*model.Value{brought}}, true
}

// wantedCentre returns where the middle of a side's lobe should be: as the fitted part brings it, itself or by its events, else as the limit has it.
func (c *Context) wantedCentre(side string) (l late, ok bool) {
	path := "cam." + side + "."
	if v := c.broughtNow(path + "centre"); v != nil {
		l = late{from: source.Remark{At: v.At(), Message: "brought"}, beside: "what `" + v.Part.Name + "` brings", brought: []*model.Value{v}}
		l.wanted, ok = model.OverlapAngle(v.Path, v.Quantity)
		return l, ok
	}
	opens, closes := c.broughtNow(path+"opens"), c.broughtNow(path+"closes")
	if opens != nil && closes != nil && opens.Part == closes.Part {
		first, told := model.OverlapAngle(opens.Path, opens.Quantity)
		second, too := model.OverlapAngle(closes.Path, closes.Quantity)
		return late{wanted: (first + second) / 2, from: source.Remark{At: opens.At(), Message: "its events are brought here"}, beside: "the middle of what `" + opens.Part.Name + "` brings", brought: []*model.Value{opens, closes}}, told && too
	}
	limit := c.Journal.LimitAt(path+"centre", nil)
	if limit == nil || limit.Nominal == nil {
		return l, false
	}
	l = late{from: source.Remark{At: limit.PathAt, Message: "limit"}, beside: "the limit's nominal"}
	l.wanted, ok = model.OverlapAngle(path+"centre", *limit.Nominal)
	return l, ok
}
