package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// undecided reports intervals and repeats that lie on both sides of a bound.
func undecided(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Undecided {
			continue
		}
		if v.Limit.Guarded && v.Quantity.Kind != quantity.Interval {
			c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, and the limit asks for proof: %s; %s", v.Path, shown(v), uncertaintyWords(v), boundsWords(v.Limit)), "measure with a finer tool, or set it further inside", limitNote(v.Limit)...)
			continue
		}
		if len(v.Repeats) > 0 {
			c.value(v, source.Warning, fmt.Sprintf("the repeats at `%s` lie on both sides of a bound: %s; %s", v.Path, repeatsWords(v), boundsWords(v.Limit)), "measure again, or with a finer tool", limitNote(v.Limit)...)
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` is %s, which straddles a bound: %s", v.Path, shown(v), boundsWords(v.Limit)), decidingWords(v), limitNote(v.Limit)...)
	}
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
	l, q := v.Limit, v.Quantity
	for _, b := range []model.Bound{l.Low, l.High, l.Worn[0], l.Worn[1]} {
		above := !q.HasLow || quantity.Compare(b.SI, q.LowSI(), l.Size) > 0
		below := !q.HasHigh || quantity.Compare(b.SI, q.HighSI(), l.Size) < 0
		if b.Is && above && below {
			return fmt.Sprintf("try a leaf of %s, or measure with a finer tool", l.Show(b))
		}
	}
	return "measure with a finer tool"
}
