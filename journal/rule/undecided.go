package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// undecided reports intervals and repeats that lie on both sides of a bound, and figures that prove nothing to a limit that asks for proof; worked-out
// numbers too.
func undecided(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Undecided {
			continue
		}
		if v.Limit.Guarded && v.Quantity.Kind != quantity.Interval {
			c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, and the limit asks for proof: %s; %s", v.Path, shown(v), uncertaintyWords(v), boundsWords(v.Limit))+heldBy(v), "measure with a finer tool, or set it further inside", limitNote(v.Limit)...)
			continue
		}
		if len(v.Repeats) > 0 {
			c.value(v, source.Warning, fmt.Sprintf("the repeats at `%s` lie on both sides of a bound: %s; %s", v.Path, repeatsWords(v), boundsWords(v.Limit))+heldBy(v), "measure again, or with a finer tool", limitNote(v.Limit)...)
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, which straddles a bound: %s", v.Path, shown(v), boundsWords(v.Limit))+heldBy(v), decidingWords(v), boundNote(v.Limit, straddled(v))...)
	}
	c.judgedNumbers(source.Warning, "undecided", "measure what it is worked out from with a finer tool", func(n *derive.Number) string {
		if n.Verdict != model.Undecided { // a single figure, so the limit asks for proof
			return ""
		}
		return fmt.Sprintf("works out at %s, and the limit asks for proof: %s; %s", n.Shown(), uncertaintyWords(n.Judged()), boundsWords(n.Limit))
	})
}

// uncertaintyWords says how unsure a figure is.
func uncertaintyWords(v *model.Value) string {
	if v.Estimate.Expanded() <= 0 {
		return "nobody says how unsure the figure is"
	}
	_, u := quantity.ShowEstimate(v.Estimate, v.Quantity.Unit)
	return fmt.Sprintf("it is unsure by %s", u)
}

func repeatsWords(v *model.Value) string {
	text := ""
	for i, q := range v.Repeats {
		if i > 0 {
			text += ", "
		}
		text += q.Shown().String()
	}
	return text
}

// decidingWords says which figure between the bracket's ends would decide it.
func decidingWords(v *model.Value) string {
	if b := straddled(v); b.Is {
		return leafWords(v, b)
	}
	return "measure with a finer tool"
}

// straddled returns the first bound that lies between the ends of a bracket; none where none does.
func straddled(v *model.Value) model.Bound {
	l, q := v.Limit, v.Quantity
	for _, b := range []model.Bound{l.Low, l.High, l.Worn[0], l.Worn[1]} {
		above := !q.HasLow || quantity.Compare(b.SI, q.LowSI(), l.Size) > 0
		below := !q.HasHigh || quantity.Compare(b.SI, q.HighSI(), l.Size) < 0
		if b.Is && above && below {
			return b
		}
	}
	return model.Bound{}
}

// leafWords says what to try to decide on which side of a bound a bracket lies: leaves that the builder owns, if the tool lists them.
func leafWords(v *model.Value, b model.Bound) string {
	l, q := v.Limit, v.Quantity
	if v.Tool == nil || len(v.Tool.Leaves) == 0 {
		return fmt.Sprintf("try a leaf of %s, or measure with a finer tool", l.Show(b))
	}
	low, high := math.Inf(-1), math.Inf(1)
	if q.HasLow {
		low = q.LowSI()
	}
	if q.HasHigh {
		high = q.HighSI()
	}
	leaves := make([]float64, len(v.Tool.Leaves))
	for i, leaf := range v.Tool.Leaves {
		leaves[i] = leaf.SI()
	}
	var names []string
	for _, picked := range calc.DecidingLeaves(leaves, low, high, b.SI) {
		names = append(names, v.Tool.Leaves[slices.Index(leaves, picked)].Shown().String())
	}
	switch len(names) {
	case 0:
		return fmt.Sprintf("no leaf of `%s`, nor two of them together, lies between: measure with a finer tool", v.Tool.Name)
	case 1:
		return fmt.Sprintf("try the leaf of %s, which you have", names[0])
	}
	return fmt.Sprintf("try the leaves of %s and %s together, which you have", names[0], names[1])
}
