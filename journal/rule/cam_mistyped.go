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

// measuredOpen returns for how long the lobe of a card was measured to be open, in rad of the crank, at the card's own lift: how early or late the cam stood doesn't matter to that. 0 where it wasn't.
func (c *Context) measuredOpen(l lobeTold) float64 {
	if l.opens == nil || l.closes == nil || l.opens.Part == nil || c.broughtNow(l.opens.Path) != l.opens || c.broughtNow(l.closes.Path) != l.closes {
		return 0
	}
	opens, closes := c.measuredNow(l.opens.Path), c.measuredNow(l.closes.Path)
	if opens == nil || closes == nil || opens.Entry != closes.Entry {
		return 0
	}
	first, ok := c.eventLate(opens)
	second, too := c.eventLate(closes)
	if !ok || !too {
		return 0
	}
	return max(0, second.wanted+second.by-first.wanted-first.by)
}

// longer returns by how much longer a lobe is told to be open than it was measured, in rad; 0 where it wasn't.
func (l lobeTold) longer(a lobeAngles) float64 {
	if l.open == 0 {
		return 0
	}
	return a.closes - a.opens - l.open
}

// slip finds the figure of a lobe that contradicts the two others, or what was measured of them; nil for none. A card without a middle contradicts itself where it makes one that no lobe has.
func (l lobeTold) slip(side string) *camSlip {
	a, ok := l.angles(side)
	if !ok {
		return nil
	}
	at, meant, worked := l.mistyped(side)
	switch {
	case a.middled && !a.agrees():
	case a.middled && math.Abs(l.longer(a)) > otherOpen && worked && math.Abs(a.centre-(a.opens+a.closes)/2) > workedMiddle:
	case !a.middled && l.opens.Part != nil && at != nil && a.closes > a.opens && math.Abs((a.opens+a.closes)/2-model.UsualMiddle(side)) > oddMiddle:
	default:
		return nil
	}
	s := &camSlip{at: l.centre, about: slices.DeleteFunc([]*model.Value{l.opens, l.closes, l.centre}, func(v *model.Value) bool { return v == nil })}
	s.do = "look all three up again: one is mistyped, counted from another dead centre, or of another cam"
	if l.centre == nil {
		s.do = "look both up again: one is mistyped, counted from another dead centre, or of another cam"
	}
	if at == nil {
		at = l.unlikeWheel(a)
	}
	if at != nil {
		if s.at = at; meant.Unit != nil {
			s.do = fmt.Sprintf("`%s`? if so write that; if not, %s", meant.Shown(), s.do)
		}
	}
	s.message = l.contradicted(side, s.at, a)
	for _, v := range s.about {
		if v != s.at {
			s.notes = append(s.notes, source.Remark{At: v.At(), Message: parse.LastSegment(v.Path)})
		}
	}
	return s
}

// contradicted says what one figure of a lobe makes with the others.
func (l lobeTold) contradicted(side string, at *model.Value, a lobeAngles) string {
	middle := shownEvent((a.opens + a.closes) / 2)
	measured := ""
	if off := l.longer(a); math.Abs(off) > otherOpen {
		measured = fmt.Sprintf("; it would be open for %s, and was measured as %s", shownSpan(a.closes-a.opens), shownSpan(l.open))
	}
	if at == l.centre {
		return fmt.Sprintf("`%s` is %s, but the middle between opening at %s and closing at %s is %s%s", l.centre.Path, l.centre.Quantity.Shown(), l.opens.Quantity.Shown(), l.closes.Quantity.Shown(), middle, measured)
	}
	other, does := l.closes, "closing"
	if at == l.closes {
		other, does = l.opens, "opening"
	}
	told := fmt.Sprintf("where no %s lobe has its", side)
	if l.centre != nil {
		told = "but it is told as " + l.centre.Quantity.Shown().String()
	}
	return fmt.Sprintf("`%s` is %s; with %s at %s the middle would be %s, %s%s", at.Path, at.Quantity.Shown(), does, other.Quantity.Shown(), middle, told, measured)
}

// shownSpan shows how long a valve is open.
func shownSpan(angle float64) quantity.Shown {
	return quantity.Show(angle, quantity.UnitOf("°", quantity.Angle), model.WheelStep)
}

// unlikeWheel finds the figure that is wrong by what was measured, whatever it was meant to be: the middle where the lobe is open as long as it is told to be, else the event that alone is off by
// middle and measured length. Nil where that isn't plain.
func (l lobeTold) unlikeWheel(a lobeAngles) *model.Value {
	if l.open == 0 || !a.middled {
		return nil
	}
	opens, closes := math.Abs(a.opens-(a.centre-l.open/2)), math.Abs(a.closes-(a.centre+l.open/2))
	switch {
	case math.Abs(l.longer(a)) <= sameOpen:
		return l.centre
	case opens > sameEvent && closes <= sameEvent:
		return l.opens
	case closes > sameEvent && opens <= sameEvent:
		return l.closes
	}
	return nil
}

// mistyped finds the one figure of a lobe which, read otherwise, makes a lobe with the others, and one that is open for as long as was measured. What makes the very middle that is told comes first, however it was mistyped, for
// cards work it out from the events; then what makes about that, by another dead centre or side before a point before changed digits. Nil where it isn't plain which; worked reports that it is the very middle.
func (l lobeTold) mistyped(side string) (at *model.Value, meant quantity.Quantity, worked bool) {
	fits := l.otherFits(side)
	exact := slices.DeleteFunc(slices.Clone(fits), func(f otherFit) bool { return f.off > workedMiddle+1e-9 })
	if l.centre != nil && len(exact) > 0 {
		at, meant = onlyOne(exact)
		return at, meant, at != nil
	}
	for _, way := range camWays {
		if by := slices.DeleteFunc(slices.Clone(fits), func(f otherFit) bool { return f.way != way }); len(by) > 0 {
			at, meant = onlyOne(by)
			return at, meant, false
		}
	}
	for _, v := range []*model.Value{l.opens, l.closes, l.centre} { // none stands half a turn from the dead centre that it is counted from
		if v != nil && math.Abs(v.Quantity.SI()) > math.Pi {
			return v, quantity.Quantity{}, false
		}
	}
	return nil, quantity.Quantity{}, false
}

// camWays are those in which an event of a card is mistyped, the likeliest first.
var camWays = []quantity.Misreading{quantity.AnotherCentre, quantity.OnePlace, quantity.SwappedDigits}

// otherFit is another reading of one figure by which a lobe's figures agree.
type otherFit struct {
	at    *model.Value
	meant quantity.Quantity
	way   quantity.Misreading
	off   float64 // rad: of the middle from that which is told, or from where it usually is
}

// otherFits returns them, of all figures of the lobe.
func (l lobeTold) otherFits(side string) []otherFit {
	var fits []otherFit
	for _, what := range []string{"opens", "closes", "centre"} {
		v := *l.field(what)
		if v == nil {
			continue
		}
		for _, r := range otherwiseTold(v.Quantity, side, what, quantity.AnotherCentre|quantity.OnePlace|quantity.SwappedDigits) {
			other, changed := l, *v
			changed.Quantity = r.Quantity
			*other.field(what) = &changed
			a, ok := other.angles(side)
			if !ok || !a.isLobe(side) || math.Abs(other.longer(a)) > sameOpen {
				continue
			}
			from := a.centre
			if !a.middled {
				from = model.UsualMiddle(side)
			}
			off := math.Abs(from - (a.opens+a.closes)/2)
			if a.middled || off <= usedMiddle {
				fits = append(fits, otherFit{v, r.Quantity, r.Way, off})
			}
		}
	}
	return fits
}

// onlyOne returns the figure that all of some fits are of, and the nearest of what it may be meant to be; nil where they are of several.
func onlyOne(fits []otherFit) (at *model.Value, meant quantity.Quantity) {
	best := fits[0]
	for _, f := range fits {
		if f.at != best.at {
			return nil, quantity.Quantity{}
		}
		if f.off < best.off {
			best = f
		}
	}
	return best.at, best.meant
}
