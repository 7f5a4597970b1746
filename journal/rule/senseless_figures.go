package rule

import (
	"cmp"
	"fmt"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// senselessFigures reports figures that each can be, and that make no sense together: a rod shorter than the throw, a dome larger than the chamber. What can't be worked out
// for one reason is one finding, at the newest of the figures.
func senselessFigures(c *Context) { c.tellCauses() }

// faults finds them: the numbers of now that can't be had for a fault in their figures; of those with one fault the one that comes from the fewest.
func (c *Context) faults() []*cause {
	var list []*derive.Number
	for _, n := range c.Numbers {
		if n.Fault == "" || n.Reason == "" || restsOn(n, c.isSuspect) {
			continue
		}
		switch i := slices.IndexFunc(list, func(other *derive.Number) bool { return other.Fault == n.Fault && shares(other, n) }); {
		case i < 0:
			list = append(list, n)
		case len(n.Inputs) < len(list[i].Inputs):
			list[i] = n
		}
	}
	var found []*cause
	for _, n := range list {
		k := &cause{weight: doubted}
		for _, in := range n.Inputs {
			if in.Value != nil {
				k.against = append(k.against, in.Value)
			}
		}
		if at := blamed(n, c.likelierLast); at != nil {
			k.report = reportAbout(at, source.Warning, fmt.Sprintf("`%s` can't be worked out: %s", n.Path, n.Fault), "look at the figures that it is worked out from, and at their units", inputRemarks(n, nil)...)
			found = append(found, k)
		}
	}
	return found
}

// noShim reports valves that no shim brings within their limits: none in the engine, the stock or the shop.
func noShim(c *Context) {
	for _, n := range c.Numbers {
		if n.Fault == "" || n.Reason != "" || restsOn(n, c.isDoubted) {
			continue
		}
		at := n.Inputs[0].Value
		if c.isLimitSuspect(c.Journal.LimitAt(at.Path, nil)) {
			continue
		}
		c.value(at, source.Warning, fmt.Sprintf("`%s` wants a shim of %s, and %s", at.Path, n.Shown(), n.Fault), "look for other sizes, and measure valve, seat and shim: so far off, something has worn or moved",
			inputRemarks(n, nil)[1:]...)
	}
}

// shares reports whether a value went into both numbers.
func shares(a, b *derive.Number) bool {
	return slices.ContainsFunc(a.Inputs, func(in derive.Input) bool {
		return in.Value != nil && slices.ContainsFunc(b.Inputs, func(other derive.Input) bool { return other.Value == in.Value })
	})
}

// likelierLast does what likelier does, of those that were typed: what a file of figures gives was measured as a whole, and found good. Of two alike it takes the one that stands later.
func (c *Context) likelierLast(a, b *model.Value) int {
	typed := func(v *model.Value) int {
		if v.Origin == model.FromDegreeing {
			return 0
		}
		return 1
	}
	return cmp.Or(typed(a)-typed(b), c.likelier(a, b), cmp.Compare(a.At().Start, b.At().Start))
}
