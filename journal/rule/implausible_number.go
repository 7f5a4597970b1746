package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// implausibleNumber reports figures that each can be, and that make an engine which nobody builds: at the one that alone would put it right.
func implausibleNumber(c *Context) { c.tellCauses() }

// oddity is a value that makes figures which no engine has.
type oddity struct {
	at      *model.Value
	trait   *trait                 // the first of those figures
	meant   *quantity.OtherReading // the value as it would put it right; nil where no value alone does
	suspect []*model.Value         // the value, or those of which nobody knows which it is
}

// cause is what is told of it.
func (o *oddity) cause() *cause {
	var notes []source.Remark
	for _, v := range o.trait.inputs {
		if v != o.at {
			notes = append(notes, source.Remark{At: v.At(), Message: fmt.Sprintf("`%s`", v.Path)})
		}
	}
	return &cause{report: reportAbout(o.at, source.Warning, o.trait.message(), o.advice(), notes...), against: o.suspect, weight: suspect}
}

// oddities finds the values that make figures which no engine has. Of several that would put things right that one counts which puts the most right, and nothing else wrong; what it
// doesn't put right though it went in is left until it is mended.
func (c *Context) oddities() []*cause {
	all := c.traits()
	var found []*oddity
	var causes []*cause
	for {
		bad := slices.DeleteFunc(slices.Clone(all), func(t *trait) bool {
			return !t.isBad() || slices.ContainsFunc(found, func(o *oddity) bool { return slices.ContainsFunc(t.inputs, o.suspects) })
		})
		first := slices.IndexFunc(bad, (*trait).isTold)
		if first < 0 {
			return causes
		}
		o := likeliest(all, bad)
		if o == nil {
			o = onlySwapped(all, bad)
		}
		if o == nil {
			t := bad[first]
			o = &oddity{at: t.inputs[0], trait: t, suspect: t.inputs[:min(t.own, len(t.inputs))]}
		}
		found, causes = append(found, o), append(causes, o.cause())
	}
}

// asMistyped are the ways in which a value of an engine may be mistyped: the point first, and in another unit where that comes to something else.
func asMistyped(v *model.Value) []quantity.OtherReading {
	return slices.Concat(v.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces|quantity.ThreePlaces), v.Quantity.OtherReadings(quantity.AnotherUnit))
}

// likeliest returns the value that would put most bad figures right if it were mistyped, and none of all wrong; nil for none.
func likeliest(all, bad []*trait) *oddity {
	var best *oddity
	most := 0
	for _, t := range bad {
		if !t.isTold() {
			continue
		}
		for _, v := range t.inputs {
			for _, r := range asMistyped(v) {
				times := r.SI() / v.Quantity.SI()
				if mended := mends(all, v, times); mended > most && t.isMended(v, times) {
					best, most = &oddity{at: v, trait: t, meant: &r, suspect: []*model.Value{v}}, mended
				}
			}
		}
	}
	return best
}

// onlySwapped returns the value that would put most bad numbers right with two of its digits swapped, and none of all wrong; nil for none, and where several would put as many right. Two sizes that don't go together
// can be swapped in too many ways.
func onlySwapped(all, bad []*trait) *oddity {
	var best rivals
	for _, t := range bad {
		if !t.isTold() || t.number == nil {
			continue
		}
		for _, v := range t.inputs {
			for _, r := range v.Quantity.OtherReadings(quantity.SwappedDigits) {
				times := r.SI() / v.Quantity.SI()
				if mended := mends(all, v, times); mended > 0 && t.isMended(v, times) {
					best.take(&oddity{at: v, trait: t, meant: &r, suspect: []*model.Value{v}}, mended)
				}
			}
		}
	}
	return best.alone()
}

// rivals are different readings of values that put as many figures right, the most of all.
type rivals struct {
	all    []*oddity
	mended int
}

// take takes in a reading that puts so many right; one and the same may come once for each figure.
func (r *rivals) take(o *oddity, mended int) {
	if mended > r.mended {
		r.all, r.mended = nil, mended
	}
	if mended == r.mended && !slices.ContainsFunc(r.all, func(other *oddity) bool {
		return other.at == o.at && quantity.Compare(other.meant.SI(), o.meant.SI(), 0) == 0
	}) {
		r.all = append(r.all, o)
	}
}

// alone returns the one that has no rival; nil for none.
func (r *rivals) alone() *oddity {
	if len(r.all) != 1 {
		return nil
	}
	return r.all[0]
}

// mends returns how many bad figures a value would put right if it were so many times as large; none where it would put another wrong.
func mends(all []*trait, v *model.Value, times float64) int {
	mended := 0
	for _, t := range all {
		if !slices.Contains(t.inputs, v) {
			continue
		}
		switch mends := t.isMended(v, times); {
		case !mends && !t.isBad(), t.isSpoilt(v, times):
			return 0
		case mends && t.isBad():
			mended++
		}
	}
	return mended
}

// isMended reports whether the figure would be one that an engine has if one of its inputs were so many times as large.
func (t *trait) isMended(v *model.Value, times float64) bool {
	value, ok := t.with(v, times)
	return ok && !t.isOut(value)
}

// isSpoilt reports whether a figure that is inside its limit would be outside if one of its inputs were so many times as large.
func (t *trait) isSpoilt(v *model.Value, times float64) bool {
	if t.number == nil || t.number.Verdict != model.In || !t.number.Limit.IsFigures() {
		return false
	}
	value, ok := t.with(v, times)
	return ok && !holdsBetween(t.number.Limit, value, value)
}

// advice says what to look at, and what would fit.
func (o *oddity) advice() string {
	switch {
	case o.meant == nil && o.trait.path == "port.blowdown":
		return "look whether the two ports are swapped, or one of them was written twice"
	case o.meant == nil && o.trait.beside == "engine.valve.intake":
		return "swapped? look at both figures again; where one exhaust valve stands beside two intake valves, accept it"
	case o.meant == nil && o.trait.alone:
		return "look at it again: it is valve movement over cam movement"
	case o.meant == nil && o.trait.number == nil:
		return "look at both figures again, and at their units"
	case o.meant == nil:
		return "look at the figures that it comes from again, and at their units"
	}
	meant := o.meant.Quantity
	if same, ok := quantity.TheOne(o.at.Quantity.OtherReadings(quantity.AnotherUnit), func(q quantity.Quantity) bool { return quantity.Compare(q.SI(), meant.SI(), 0) == 0 }); ok {
		meant = same.Quantity // with the same digits
	}
	meant.HasSpread = false
	return fmt.Sprintf("look at its digits and its unit again: %s would fit", meant.Shown())
}

func (o *oddity) suspects(v *model.Value) bool { return slices.Contains(o.suspect, v) }
