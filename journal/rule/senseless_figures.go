package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// senselessFigures reports figures that each can be, and that make no sense together: a rod shorter than the throw, a dome larger than the chamber. What can't be worked out
// for one reason is one finding, at the newest of the figures.
func senselessFigures(c *Context) {
	for _, n := range c.faults() {
		at := newestInput(n)
		if at == nil || c.restsOnOdd(n) {
			continue
		}
		c.value(at, source.Warning, fmt.Sprintf("`%s` can't be worked out: %s", n.Path, n.Fault), "look at the figures that it is worked out from, and at their units", inputRemarks(n, nil)...)
	}
}

// noShim reports valves that no shim brings within their limits: none in the engine, the stock or the shop.
func noShim(c *Context) {
	for _, n := range c.Numbers {
		if n.Fault == "" || n.Reason != "" {
			continue
		}
		at := n.Inputs[0].Value
		if c.doubts().limits[c.Journal.LimitAt(at.Path, nil)] != nil {
			continue
		}
		c.value(at, source.Warning, fmt.Sprintf("`%s` wants a shim of %s, and %s", at.Path, n.Shown(), n.Fault), "look for other sizes, and measure valve, seat and shim: so far off, something has worn or moved",
			inputRemarks(n, nil)[1:]...)
	}
}

// faults returns the numbers of now that can't be had for a fault in their figures; of those with one fault the one that comes from the fewest.
func (c *Context) faults() []*derive.Number {
	var list []*derive.Number
	for _, n := range c.Numbers {
		if n.Fault == "" || n.Reason == "" || c.restsOnDoubt(n) {
			continue
		}
		switch i := slices.IndexFunc(list, func(other *derive.Number) bool { return other.Fault == n.Fault && shares(other, n) }); {
		case i < 0:
			list = append(list, n)
		case len(n.Inputs) < len(list[i].Inputs):
			list[i] = n
		}
	}
	return list
}

// shares reports whether a value went into both numbers.
func shares(a, b *derive.Number) bool {
	return slices.ContainsFunc(a.Inputs, func(in derive.Input) bool {
		return in.Value != nil && slices.ContainsFunc(b.Inputs, func(other derive.Input) bool { return other.Value == in.Value })
	})
}

// newestInput returns the newest of the values that went into a number, of those that were typed: what a file of figures gives was measured as a whole, and found good. It returns nil where there is
// none.
func newestInput(n *derive.Number) *model.Value {
	var newest *model.Value
	for _, in := range n.Inputs {
		v := in.Value
		if in.Number != nil {
			v = newestInput(in.Number)
		}
		if v != nil && (newest == nil || isLater(v, newest)) {
			newest = v
		}
	}
	return newest
}

// isLater reports whether one value is rather wrong than another: typed, then newer, then further on in its file.
func isLater(v, other *model.Value) bool {
	typed, before := v.Origin != model.FromDegreeing, other.Origin != model.FromDegreeing
	if typed != before {
		return typed
	}
	return v.Order > other.Order || v.Order == other.Order && v.At().Start > other.At().Start
}
