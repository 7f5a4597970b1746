package rule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// slipOfPen is how a figure that was looked at once is usually misread or mistyped.
const slipOfPen = quantity.AnotherUnit | quantity.OnePlace | quantity.TwoPlaces

// slipRule is the name of the rule.
const slipRule = "suspected-slip"

// suspectedSlip reports figures that are far out, but for one way of misreading or mistyping them that lands inside.
func suspectedSlip(c *Context) { c.tellCauses() }

// slips finds them.
func (c *Context) slips() []*cause {
	var found []*cause
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Out {
			continue
		}
		meant, ok := c.meantBy(v)
		next := c.mendedItself(v)
		if !ok && next != nil {
			meant, ok = c.slipAfterAll(v)
		}
		if !ok {
			continue
		}
		k := &cause{report: slipReport(v, meant), instead: []*model.Value{v}}
		if next != nil {
			k.report.standsIn(v, next)
		}
		if !v.Settled || next != nil {
			k.against, k.weight = k.instead, suspect
		}
		found = append(found, k)
	}
	return found
}

// slipReport is what is told of a slip.
func slipReport(v *model.Value, meant quantity.OtherReading) report {
	otherwise := "measure again"
	if isOverTightened(v) {
		otherwise = lookAtFastener
	}
	text := ""
	for _, step := range v.Steps() {
		text += step.Shown().String() + " then "
	}
	text += meant.Shown().String()
	r := reportAbout(v, source.Error, fmt.Sprintf("`%s` is %s, far outside its limit (%s): %s would be inside", v.Path, shown(v), boundsWords(v.Limit), meant.Shown()),
		fmt.Sprintf("%s? if so write `%s`; if not, %s", meant.Why, text, otherwise), boundNote(v.Limit, passed(v))...)
	if v.Entry != nil {
		r.Fixes = writeInstead(v, text)
	}
	return r
}

// mendedItself returns what was found inside next, where an out figure stood and nothing was set or fitted in between; nil where there is no such thing. Nothing mends itself: the figure was never
// there, or what put it right was never written down.
func (c *Context) mendedItself(v *model.Value) *model.Value {
	if !v.Settled {
		return nil
	}
	next := c.Journal.ReadNext(v)
	if len(next) == 0 || slices.ContainsFunc(next, func(w *model.Value) bool { return w.Verdict != model.In && w.Verdict != model.Worn }) {
		return nil
	}
	if isPressureLost(v) && c.mayHaveMended(v, next[0]) {
		return nil
	}
	return next[0]
}

// isPressureLost reports whether a cylinder held too little, which all kinds of parts put right.
func isPressureLost(v *model.Value) bool {
	return v.Side < 0 && parse.IsAtOrBelow(v.Path, "compression") || v.Side > 0 && parse.IsAtOrBelow(v.Path, "leak")
}

// mayHaveMended reports whether between two readings a part went in, or came out, that says nothing of what it has to do with.
func (c *Context) mayHaveMended(v, next *model.Value) bool {
	if v.Entry == nil || next.Entry == nil {
		return true
	}
	return slices.ContainsFunc(c.Journal.Entries[v.Entry.Index:next.Entry.Index], func(e *model.Entry) bool {
		return slices.ContainsFunc(slices.Concat(e.Fitted, e.Removed), func(ref model.Ref) bool {
			return ref.Part == nil || len(ref.Part.Brings) == 0 && len(ref.Part.Fields.Names("then")) == 0
		})
	})
}

// slipAfterAll returns what an out figure was meant to be that alone would not be taken for a slip: with the point elsewhere, or two of its digits swapped, inside; false where that isn't plain.
func (c *Context) slipAfterAll(v *model.Value) (meant quantity.OtherReading, ok bool) {
	l := v.Limit
	if meant, ok = c.tenfold(v); ok {
		return meant, ok
	}
	if !couldSlip(v) || c.toldBy(v) != "" || c.isLimitUnsure(l) || !isPast(v, 1) {
		return meant, false
	}
	return quantity.TheOne(v.Quantity.OtherReadings(slipOfPen|quantity.SwappedDigits), func(q quantity.Quantity) bool { return holdsIn(l, q) })
}

// standsIn says of a slip that a later reading would settle that it stands in the record.
func (r *report) standsIn(v, next *model.Value) {
	r.Severity, r.State = source.Warning, source.Open
	r.Message += fmt.Sprintf(", and %s was found next, with nothing set between", shown(next))
	r.Do, _, _ = strings.Cut(r.Do, "; if not, ")
	r.Do += "; if it was so, and put right after, write that in its entry under `[set]`"
	r.Notes = append(r.Notes, source.Remark{At: next.At(), Message: "found next"})
}

// writeInstead offers a text in the place of a value's; nothing for one of several repeats.
func writeInstead(v *model.Value, text string) []source.Fix {
	if len(v.Written.Repeats) > 0 {
		return nil
	}
	return []source.Fix{source.Replace(fmt.Sprintf("write `%s`", text), v.Written.Span(0, len(v.Written.Text)), text)}
}

// slipBands is how many bands a figure must stand from the nearer bound before it is taken for a slip. Common practice, no source.
const slipBands = 3

// swapBands is how many bands each of two figures must stand from its bound before they are taken for swapped. Limits of intake and exhaust often touch, so that three are never reached; less than
// a third is wear. Common practice, no source.
const swapBands = 1.0 / 3

// meantBy returns what an out figure was probably meant to be; false where that isn't plain. Repeats are never taken for one.
func (c *Context) meantBy(v *model.Value) (meant quantity.OtherReading, ok bool) {
	l := v.Limit
	if v.IsLogged() || v.Origin == model.FromPulls || v.Origin == model.FromDegreeing || l == nil || !l.IsFigures() || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || len(v.Repeats) > 0 || v.Setting() != nil || v.Side == 0 || c.toldBy(v) != "" || c.isLimitUnsure(l) {
		return meant, false
	}
	if other := c.swapped(v); other != nil {
		return quantity.OtherReading{Quantity: other.Quantity, Why: "intake and exhaust swapped"}, true
	}
	if !farOff(v) {
		return meant, false
	}
	meant, ok = quantity.TheOne(v.Quantity.OtherReadings(slipOfPen), func(q quantity.Quantity) bool { return holdsIn(l, q) })
	if other, swapped := swappedDigits(v); ok && swapped && quantity.Compare(other.SI(), meant.SI(), 0) != 0 {
		return meant, false // nothing says which of the two it is
	}
	return meant, ok
}

// lowShare is the share of its low bound below which a figure stands that ten times as large fits: of a limit that is wide beside its figures none is bands off downwards. Common practice, no source.
const lowShare = 1.0 / 3

// tenfold returns ten times a figure that is far too small, where that is inside; false where it isn't. It may be a slip; a tight valve, or a cylinder that has lost its pressure, reads so too.
func (c *Context) tenfold(v *model.Value) (meant quantity.OtherReading, ok bool) {
	l := v.Limit
	if l == nil || !l.IsFigures() || !v.IsReading() || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || len(v.Repeats) > 0 || v.Setting() != nil || c.isLimitUnsure(l) {
		return meant, false
	}
	if v.Side >= 0 || !(l.Low.SI > 0) || !l.High.Is || !(v.Quantity.SI() > 0) || quantity.Compare(v.Quantity.HighSI(), lowShare*l.Low.SI, l.Size) >= 0 {
		return meant, false
	}
	more := slices.DeleteFunc(v.Quantity.OtherReadings(quantity.OnePlace), func(r quantity.OtherReading) bool { return r.SI() < v.Quantity.SI() })
	return quantity.TheOne(more, func(q quantity.Quantity) bool { return holdsIn(l, q) })
}

// mistypings returns what a torque outside its limit would be in another unit, or with its point elsewhere, that is inside: where there are several, or it isn't far off, it is no
// plain slip, and still may be one. None where the limit is doubted.
func (c *Context) mistypings(v *model.Value) []quantity.OtherReading {
	l := v.Limit
	if v.Verdict != model.Out || v.Side == 0 || !isTorque(v) || !v.IsReading() || l == nil || !l.IsFigures() || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || len(v.Repeats) > 0 || v.Setting() != nil || c.isLimitUnsure(l) {
		return nil
	}
	return quantity.Fitting(v.Quantity.OtherReadings(quantity.AnotherUnit|quantity.OnePlace), func(q quantity.Quantity) bool { return holdsIn(l, q) })
}

// farOff reports whether a figure stands more than three bands from the bound that it is past.
func farOff(v *model.Value) bool { return isPast(v, slipBands) }

// isPast reports whether a figure stands more than so many bands from the bound that it is past.
func isPast(v *model.Value, bands float64) bool {
	bound := passed(v)
	off := min(math.Abs(v.Quantity.LowSI()-bound.SI), math.Abs(v.Quantity.HighSI()-bound.SI))
	return bound.Is && quantity.Compare(off, bands*v.Limit.Band(), max(v.Limit.Size, v.Quantity.SI(), -v.Quantity.SI())) > 0
}

// holdsIn reports whether a figure lies inside standard.
func holdsIn(l *model.Limit, q quantity.Quantity) bool { return holdsBetween(l, q.LowSI(), q.HighSI()) }

// holdsBetween reports whether all between two figures, in SI, lies inside standard.
func holdsBetween(l *model.Limit, low, high float64) bool {
	return !(l.Low.Is && quantity.Compare(low, l.Low.SI, l.Size) < 0 || l.High.Is && quantity.Compare(high, l.High.SI, l.Size) > 0)
}

// swapped returns the reading on the other side of the engine, intake or exhaust, that was taken at the same moment and is out too, where
// each of the two figures is well out and fits the other's limit; nil for none.
func (c *Context) swapped(v *model.Value) *model.Value {
	other := otherSide(v.Path)
	if other == "" || v.Entry == nil || !isPast(v, swapBands) {
		return nil
	}
	for _, w := range v.Entry.Values {
		if w.Path != other || w.Origin != v.Origin || w.Verdict != model.Out || w.Limit == nil || w.Quantity.Unit == nil || w.Quantity.Kind == quantity.Interval || len(w.Repeats) > 0 {
			continue
		}
		if isPast(w, swapBands) && holdsIn(v.Limit, w.Quantity) && holdsIn(w.Limit, v.Quantity) {
			return w
		}
	}
	return nil
}

// otherSide returns the path with intake and exhaust exchanged, "" where it has neither.
func otherSide(path string) string {
	words := strings.Split(path, ".")
	for i, w := range words {
		switch w {
		case "intake":
			words[i] = "exhaust"
			return strings.Join(words, ".")
		case "exhaust":
			words[i] = "intake"
			return strings.Join(words, ".")
		}
	}
	return ""
}
