package rule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// slip is what a figure that is far out was probably meant to be.
type slip struct {
	meant quantity.Quantity
	why   string
}

// suspectedSlip reports figures that are far out, but for one way of misreading or mistyping them that lands inside.
func suspectedSlip(c *Context) {
	for _, v := range c.Journal.Values {
		s := c.slipOf(v)
		if s == nil {
			continue
		}
		otherwise := "measure again"
		if isOverTightened(v) {
			otherwise = lookAtFastener
		}
		meant := ""
		for _, step := range v.Steps() {
			meant += step.Shown().String() + " then "
		}
		meant += s.meant.Shown().String()
		c.value(v, source.Error, fmt.Sprintf("`%s` is %s, far outside its limit (%s): %s would be inside", v.Path, shown(v), boundsWords(v.Limit), s.meant.Shown()),
			fmt.Sprintf("%s? if so write `%s`; if not, %s", s.why, meant, otherwise), boundNote(v.Limit, passed(v))...)
		if f := &c.findings[len(c.findings)-1]; v.Entry != nil && len(v.Written.Repeats) == 0 {
			f.Fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", meant), v.Written.Span(0, len(v.Written.Text)), meant)}
		}
	}
}

// slipBands is how many bands a figure must stand from the nearer bound before it is taken for a slip.
const slipBands = 3

// swapBands is how many bands each of two figures must stand from its bound before they are taken for swapped. Limits of intake and exhaust often touch, so that three are never reached; less than
// a third is wear. Common practice, no source.
const swapBands = 1.0 / 3

// slipOf returns what an out figure was probably meant to be, nil where that isn't plain. Repeats are never taken for
// one.
func (c *Context) slipOf(v *model.Value) *slip {
	l := v.Limit
	if v.Verdict != model.Out || v.Origin == model.FromPulls || v.Origin == model.FromDegreeing || l == nil || !l.IsFigures() || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || len(v.Repeats) > 0 || v.Setting() != nil || v.Side == 0 || c.isToldOf(v) || c.doubts().limits[l] != nil {
		return nil
	}
	if s := c.swapped(v); s != nil {
		return s
	}
	if !farOff(v) {
		return nil
	}
	var inside []slip
	for _, s := range otherReadings(v.Quantity) {
		if !holdsIn(l, s.meant) || slices.ContainsFunc(inside, func(x slip) bool { return quantity.Compare(x.meant.SI(), s.meant.SI(), l.Size) == 0 }) {
			continue
		}
		inside = append(inside, s)
	}
	if len(inside) != 1 {
		return nil
	}
	return &inside[0]
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
func holdsIn(l *model.Limit, q quantity.Quantity) bool {
	return !(l.Low.Is && quantity.Compare(q.LowSI(), l.Low.SI, l.Size) < 0 || l.High.Is && quantity.Compare(q.HighSI(), l.High.SI, l.Size) > 0)
}

// confused lists the units that are written down one for the other.
var confused = [][]string{{"mm", "in", "thou"}, {"N·m", "lbf·ft", "lbf·in", "kgf·m"}, {"kPa", "psi", "bar"}}

// otherReadings returns what else the digits that were typed could mean: in another unit, then with the point elsewhere. Of two that come to
// the same quantity the first counts.
func otherReadings(q quantity.Quantity) []slip {
	var all []slip
	for _, group := range confused {
		if !slices.Contains(group, q.Unit.Symbol) {
			continue
		}
		for _, symbol := range group {
			if symbol == q.Unit.Symbol || q.Unit.Symbol != "mm" && symbol == "thou" {
				continue
			}
			other := q
			if other.Unit = quantity.UnitOf(symbol, q.Unit.Dimension); other.Unit == nil {
				continue
			}
			all = append(all, slip{other, "a figure in " + symbol})
		}
	}
	for _, f := range []struct {
		factor float64
		why    string
	}{{10, "a decimal place too few"}, {0.1, "a decimal place too many"}, {100, "two decimal places too few"}, {0.01, "two decimal places too many"}} {
		other := q
		other.Value, other.Low, other.High, other.Step, other.Text = q.Value*f.factor, q.Low*f.factor, q.High*f.factor, q.Step*f.factor, ""
		all = append(all, slip{other, f.why})
	}
	return all
}

// swapped finds the reading on the other side of the engine, intake or exhaust, that was taken at the same moment and is out too, where
// each of the two figures is well out and fits the other's limit.
func (c *Context) swapped(v *model.Value) *slip {
	other := otherSide(v.Path)
	if other == "" || v.Entry == nil || !isPast(v, swapBands) {
		return nil
	}
	for _, w := range v.Entry.Values {
		if w.Path != other || w.Origin != v.Origin || w.Verdict != model.Out || w.Limit == nil || w.Quantity.Unit == nil || w.Quantity.Kind == quantity.Interval || len(w.Repeats) > 0 {
			continue
		}
		if isPast(w, swapBands) && holdsIn(v.Limit, w.Quantity) && holdsIn(w.Limit, v.Quantity) {
			meant := w.Quantity
			return &slip{meant, "intake and exhaust swapped"}
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
