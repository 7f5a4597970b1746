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

// swappedCam finds a cam whose intake has the figures of an exhaust, and the other way about; nil where that isn't plain.
func swappedCam(told *[2]lobeTold) *camSlip {
	s := &camSlip{all: true, do: "look at the card's events again: sides, signs, and which are the intake's"}
	for i, side := range parse.Sides {
		other := parse.Sides[1-i]
		own, known := told[i].angles(side)
		if !known {
			if len(told[i].values()) > 0 {
				return nil // something is told of that side, and it doesn't bear it out
			}
			continue
		}
		if as, _ := told[i].angles(other); own.agrees() && own.closes > own.opens || !as.isLobe(other) {
			return nil
		}
		l := told[i]
		s.about = append(s.about, l.values()...)
		if s.at != nil {
			s.notes = append(s.notes, source.Remark{At: l.opens.At(), Message: "and these would be an " + other})
			continue
		}
		s.at = l.opens
		s.message = fmt.Sprintf("`cam.%s` opens at %s and closes at %s: that is how an %s is timed, and no %s", side, l.opens.Quantity.Shown(), l.closes.Quantity.Shown(), other, side)
	}
	if s.at == nil {
		return nil
	}
	return s
}

// cardSlip finds the figure of the part that is in which what was measured contradicts, other than by a chain; nil for none.
func (c *Context) cardSlip(side string) *camSlip {
	path := "cam." + side + "."
	var off [2]late
	var ok [2]bool
	for i, what := range []string{"opens", "closes"} {
		if v := c.measuredNow(path + what); v != nil {
			off[i], ok[i] = c.eventLate(v)
		}
	}
	for i := range off {
		if mine, other := off[i], off[1-i]; ok[0] && ok[1] && math.Abs(mine.by) > otherEvent && math.Abs(other.by) <= sameEvent {
			s := cardSaysOther(mine)
			s.message += ", while the other event agrees"
			return s
		}
	}
	if ok[0] && ok[1] && math.Abs(off[0].by-off[1].by) > otherEvent {
		if s := otherLength(off); s != nil {
			return s
		}
	}
	l, known := c.late(side)
	far := noChain
	if tooth, any := c.tooth(); any {
		far = (mostTeeth + nearTooth) * tooth
	}
	if !known || len(l.brought) == 0 || math.Abs(l.by) <= far {
		return nil
	}
	s := cardSaysOther(l)
	if s.at.Path != l.value.Path {
		s.message = fmt.Sprintf("the middle of the %s lobe was measured at %s, and what `%s` brings makes it %s", side, l.value.Quantity.Shown(), s.at.Part.Name, shownEvent(l.wanted))
	}
	s.message += ": a chain is not that far out"
	return s
}

// otherLength finds the event of a card without which the lobe would be open as long as it was measured, though the cam stands early or late: that which alone can be read so that both are out alike. Nil for none.
func otherLength(off [2]late) *camSlip {
	var found *camSlip
	for i, mine := range off {
		v := mine.brought[0]
		if math.Abs(mine.by) <= otherEvent { // a cam stands so far out, or a lobe is another than its card's
			continue
		}
		for _, r := range otherwiseTold(v.Quantity, sideOf(v.Path), parse.LastSegment(v.Path), quantity.AnotherCentre|quantity.OnePlace|quantity.SwappedDigits) {
			angle, ok := model.OverlapAngle(v.Path, r.Quantity)
			if by := mine.wanted + mine.by - angle; !ok || math.Abs(by-off[1-i].by) > movedAlike {
				continue
			}
			if found != nil && found.at != v {
				return nil
			}
			if found == nil {
				told, measured := off[1].wanted-off[0].wanted, off[1].wanted+off[1].by-off[0].wanted-off[0].by
				found = &camSlip{at: v, about: append(slices.Clone(off[0].brought), off[1].brought...), notes: []source.Remark{{At: mine.value.At(), Message: "measured here"}},
					message: fmt.Sprintf("`%s` is %s by what `%s` brings, which would be open for %s, and was measured as %s", v.Path, v.Quantity.Shown(), v.Part.Name, shownSpan(told), shownSpan(measured)),
					do:      fmt.Sprintf("`%s`? if so write that; if not, look at the card's events again: sides, signs, and which are the intake's", r.Shown())}
			}
		}
	}
	return found
}

// cardSaysOther is what a part brings and what was measured.
func cardSaysOther(l late) *camSlip {
	at := l.brought[0]
	s := &camSlip{at: at, about: l.brought, message: fmt.Sprintf("`%s` is %s by what `%s` brings, and was measured at %s", at.Path, at.Quantity.Shown(), at.Part.Name, l.value.Quantity.Shown()),
		do: "look at the card's events again: sides, signs, and which are the intake's", notes: []source.Remark{{At: l.value.At(), Message: "measured here"}}}
	if at.Path != l.value.Path {
		return s
	}
	measured, _ := model.OverlapAngle(at.Path, l.value.Quantity)
	side, what := sideOf(at.Path), parse.LastSegment(at.Path)
	nearest, found := sameEvent, quantity.Quantity{}
	for _, r := range otherwiseTold(at.Quantity, side, what, quantity.AnotherCentre|quantity.OnePlace|quantity.SwappedDigits) {
		if angle, ok := model.OverlapAngle(at.Path, r.Quantity); ok && math.Abs(angle-measured) <= nearest {
			nearest, found = math.Abs(angle-measured), r.Quantity
		}
	}
	if found.Unit != nil {
		s.do = fmt.Sprintf("`%s`? if so write that; if not, %s", found.Shown(), s.do)
	}
	return s
}
