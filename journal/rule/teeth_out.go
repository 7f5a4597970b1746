package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// nearTooth is how far from a whole number of teeth a cam may be out for the chain to be blamed: common practice, no source.
const nearTooth = 0.2

// late is how late a lobe was measured to be, beside what it should be.
type late struct {
	by     float64 // rad of the crank
	value  *model.Value
	wanted source.Remark
	beside string // what it is held against, in words
}

// teethOut reports lobes that were measured to stand about a whole number of teeth of the cam sprocket from where the fitted part, or else the limit, wants them. Both sides
// out by the same is one chain.
func teethOut(c *Context) {
	sprocket := c.Journal.Current("engine.cam-sprocket")
	if sprocket == nil || sprocket.Quantity.Unit == nil || c.Journal.IsFitUnclear() {
		return
	}
	tooth, err := calc.ToothAngle(sprocket.Estimate.Value)
	if err != nil {
		return
	}
	before, reported := 0.0, -1
	for _, side := range []string{"intake", "exhaust"} {
		l, ok := c.late(side)
		if !ok {
			continue
		}
		teeth, err := calc.TeethOut(l.by, sprocket.Estimate.Value)
		whole := math.Round(teeth)
		if err != nil || whole == 0 || math.Abs(teeth-whole) > nearTooth {
			continue
		}
		if reported >= 0 && whole == before {
			f := &c.findings[reported]
			f.Notes = append(f.Notes, source.Remark{At: l.value.At(), Message: "the " + side + " is out by as much"})
			continue
		}
		way := "late"
		if whole < 0 {
			way = "early"
		}
		angle := quantity.UnitOf("°", quantity.Angle)
		c.value(l.value, source.Warning, fmt.Sprintf("the %s cam stands %s %s of %s: about %s, each %s at the crank", side, quantity.Show(math.Abs(l.by), angle, model.WheelStep), way, l.beside, teethWords(math.Abs(whole)),
			quantity.Show(tooth, angle, model.WheelStep)), "see whether the chain or belt sits that far round on the cam sprocket; if it doesn't, measure again. Don't turn the engine over while it may be out", l.wanted)
		before, reported = whole, len(c.findings)-1
	}
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
		wanted, from, beside, known := c.wantedCentre(side)
		return late{by: at - wanted, value: centre, wanted: from, beside: beside}, ok && known
	}
	opens, closes := c.measuredNow(path+"opens"), c.measuredNow(path+"closes")
	if opens == nil || closes == nil {
		return late{}, false
	}
	first, ok := c.eventLate(opens)
	second, too := c.eventLate(closes)
	if !ok || !too || math.Abs(first.by-second.by) > math.Pi/36 { // 5°: what moves one event and not the other is no chain
		return late{}, false
	}
	first.by = (first.by + second.by) / 2
	return first, true
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
	return late{by: angle - wanted, value: v, wanted: source.Remark{At: brought.At(), Message: "brought"}, beside: "what `" + brought.Part.Name + "` brings"}, true
}

// wantedCentre returns where the middle of a side's lobe should be: as the fitted part brings it, itself or by its events, else as the limit has it.
func (c *Context) wantedCentre(side string) (angle float64, from source.Remark, beside string, ok bool) {
	path := "cam." + side + "."
	if v := c.broughtNow(path + "centre"); v != nil {
		angle, ok = model.OverlapAngle(v.Path, v.Quantity)
		return angle, source.Remark{At: v.At(), Message: "brought"}, "what `" + v.Part.Name + "` brings", ok
	}
	opens, closes := c.broughtNow(path+"opens"), c.broughtNow(path+"closes")
	if opens != nil && closes != nil && opens.Part == closes.Part {
		first, told := model.OverlapAngle(opens.Path, opens.Quantity)
		second, too := model.OverlapAngle(closes.Path, closes.Quantity)
		return (first + second) / 2, source.Remark{At: opens.At(), Message: "its events are brought here"}, "the middle of what `" + opens.Part.Name + "` brings", told && too
	}
	limit := c.Journal.LimitAt(path+"centre", nil)
	if limit == nil || limit.Nominal == nil {
		return 0, from, "", false
	}
	angle, ok = model.OverlapAngle(path+"centre", *limit.Nominal)
	return angle, source.Remark{At: limit.PathAt, Message: "limit"}, "the limit's nominal", ok
}
