package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// oddity is a value that makes figures which no engine has.
type oddity struct {
	at      *model.Value
	trait   *trait         // the first of those figures
	times   float64        // so many times the value would put it right; 0 where no value alone does
	suspect []*model.Value // the value, or those of which nobody knows which it is
}

// slipsOfPen are by how many times a figure that was mistyped is too small or too large: the point in another place, a unit for the next one, inches for millimetres.
var slipsOfPen = []float64{10, 0.1, 100, 0.01, 1000, 0.001, 25.4, 1 / 25.4}

// findOddities finds the values that make figures which no engine has. Of several that would put things right that one counts which puts the most right, and nothing else wrong; what it
// doesn't put right though it went in is left until it is mended.
func (c *Context) findOddities() []*oddity {
	all := c.traits()
	var found []*oddity
	for {
		bad := slices.DeleteFunc(slices.Clone(all), func(t *trait) bool {
			return !t.isBad() || slices.ContainsFunc(found, func(o *oddity) bool { return slices.ContainsFunc(t.inputs, o.suspects) })
		})
		first := slices.IndexFunc(bad, (*trait).isTold)
		if first < 0 {
			return found
		}
		o := likeliest(all, bad)
		if o == nil {
			t := bad[first]
			o = &oddity{at: t.inputs[0], trait: t, suspect: t.inputs[:min(t.own, len(t.inputs))]}
		}
		found = append(found, o)
	}
}

// likeliest returns the value that would put most bad figures right if it were a slip of the pen, and none of all wrong; nil for none.
func likeliest(all, bad []*trait) *oddity {
	var best *oddity
	most := 0
	for _, t := range bad {
		if !t.isTold() {
			continue
		}
		for _, v := range t.inputs {
			for _, times := range slipsOfPen {
				if mended := mends(all, v, times); mended > most && t.isMended(v, times) {
					best, most = &oddity{at: v, trait: t, times: times, suspect: []*model.Value{v}}, mended
				}
			}
		}
	}
	return best
}

// mends returns how many bad figures a value would put right if it were so many times as large; none where it would put another wrong.
func mends(all []*trait, v *model.Value, times float64) int {
	mended := 0
	for _, t := range all {
		if !slices.Contains(t.inputs, v) {
			continue
		}
		switch mends := t.isMended(v, times); {
		case !mends && !t.isBad():
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

// advice says what to look at, and what would fit.
func (o *oddity) advice() string {
	switch {
	case o.times == 0 && o.trait.path == "port.blowdown":
		return "look whether the two ports are swapped, or one of them was written twice"
	case o.times == 0 && o.trait.number == nil:
		return "look at both figures again, and at their units"
	case o.times == 0:
		return "look at the figures that it comes from again, and at their units"
	}
	return fmt.Sprintf("look at its digits and its unit again: %s would fit", o.meant().Shown())
}

// meant returns the value so many times as large: with the same digits where that is another unit of those that are taken for each other.
func (o *oddity) meant() quantity.Quantity {
	q := o.at.Quantity
	q.HasSpread, q.Text = false, ""
	for _, symbol := range []string{"mm", "in", "mm³", "cm³"} {
		u := quantity.UnitOf(symbol, q.Unit.Dimension)
		if u != nil && math.Abs(u.Factor/q.Unit.Factor/o.times-1) < 1e-6 {
			q.Unit = u
			return q
		}
	}
	q.Value, q.Low, q.High, q.Step = q.Value*o.times, q.Low*o.times, q.High*o.times, q.Step*o.times
	return q
}

func (o *oddity) suspects(v *model.Value) bool { return slices.Contains(o.suspect, v) }

// isOdd reports whether one of the values was reported as one that makes no engine, or may be meant.
func (c *Context) isOdd(values ...*model.Value) bool {
	return slices.ContainsFunc(c.oddities(), func(o *oddity) bool { return slices.ContainsFunc(values, o.suspects) })
}

// isDoubtful reports whether a value went into a number of which another finding says that it makes no sense, alone or with others: nothing more is said of what comes from it.
func (c *Context) isDoubtful(n *derive.Number) bool {
	return restsOn(n, func(v *model.Value) bool { return c.isSuspect(v) || c.doubted()[v] })
}

// findDoubted returns the values that make no sense together, or contradict each other at a port.
func (c *Context) findDoubted() map[*model.Value]bool {
	doubted := map[*model.Value]bool{}
	for _, v := range c.inDisagreement() {
		doubted[v] = true
	}
	for _, fault := range c.faults() {
		for _, in := range fault.Inputs {
			if in.Value != nil {
				doubted[in.Value] = true
			}
		}
	}
	return doubted
}
