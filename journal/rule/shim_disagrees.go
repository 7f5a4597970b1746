package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What lash and shim may be together beside what they were, in m, with no part fitted: beyond what either is uncertain by, and with what wears where the engine ran between the two. Common practice, no source.
const (
	sumMoves = 0.05e-3
	sumWears = 0.15e-3
)

// shimDisagrees reports shims that don't account for how the lash moved when they went in. Lash and shim together are the room that there is, and that stays what it is.
func shimDisagrees(c *Context) { c.tellCauses() }

// shimsApart finds them. Which of the two is wrong nobody knows; of the lash all is told, since more than the next shim comes from it: what is left before a spring is solid, too.
func (c *Context) shimsApart() []*cause {
	if c.Journal.IsFitUnclear() {
		return nil
	}
	var found []*cause
	for _, s := range c.Journal.ShimSwaps() {
		if !disagrees(s) {
			continue
		}
		k := &cause{report: shimReport(s)}
		if again := s; s.Last != s.Lash {
			if again.Lash = s.Last; !disagrees(again) { // it was read again, and fits
				k.report.State = source.Settled
			}
		}
		if k.report.State == source.Open {
			k.against, k.weight = []*model.Value{s.In}, doubted
		}
		found = append(found, k)
	}
	return found
}

// shimReport is what is told of a shim and a lash that disagree.
func shimReport(s model.ShimSwap) report {
	before, now := s.Sums()
	unit, step := s.In.Quantity.Unit, min(s.In.Quantity.StepSI(), s.Lash.Quantity.StepSI())
	return reportAbout(s.In, source.Warning, fmt.Sprintf("`%s` of %s and a lash of %s are %s together, where %s and %s were %s: the two can't both be right", s.In.Path, s.In.Quantity.Shown(), s.Lash.Quantity.Shown(), quantity.Show(now.Value, unit, step),
		s.Out.Quantity.Shown(), s.Before.Quantity.Shown(), quantity.Show(before.Value, unit, step)),
		fmt.Sprintf("look at both again: with that lash the shim would be %s; what else moves it, as a valve, a seat or a cam does, is written as a part that was fitted", quantity.Show(before.Value-s.Lash.Estimate.Value, unit, s.In.Quantity.StepSI())),
		source.Remark{At: s.Lash.At(), Message: "the lash with it"}, source.Remark{At: s.Out.At(), Message: "the shim before it"}, source.Remark{At: s.Before.At(), Message: "the lash before it"})
}

// disagrees reports whether a shim doesn't account for how the lash moved.
func disagrees(s model.ShimSwap) bool {
	before, now := s.Sums()
	may := sumMoves
	if s.Ran {
		may = sumWears
	}
	moved := quantity.Combine(now.Value-before.Value, quantity.Length, quantity.Term{Partial: 1, Of: now}, quantity.Term{Partial: -1, Of: before})
	return quantity.Compare(math.Abs(moved.Value), may+moved.Expanded(), now.Value) > 0
}
