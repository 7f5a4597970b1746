package rule

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// told is what a rule has to say of a worked-out number.
type told struct {
	number *derive.Number
	text   string // after the number's path
}

// judgedNumbers reports what a rule has to say of the numbers, each at the figure that most likely makes it so. What one figure does to several is one finding, which says that the others are, as
// `out`, too; one that the builder has accepted stands alone, so that the rest is not accepted with it. Of a number that rests on a figure with an error of its own nothing is told, nor of one whose limit is suspect.
func (c *Context) judgedNumbers(severity source.Severity, as, do string, say func(*derive.Number) string) {
	type place struct {
		at *model.Value
		of string // the number's path, of one that stands alone
	}
	var order []place
	found := map[place][]told{}
	for _, n := range c.Numbers {
		text := say(n)
		if text == "" || (c.isHeldBack(n) || c.isLimitSuspect(n.Limit)) && !c.accepts(n.Path) {
			continue
		}
		at := place{at: blamed(n, c.likelier)}
		if at.at == nil || c.accepts(n.Path) {
			at.of = n.Path
		}
		if len(found[at]) == 0 {
			order = append(order, at)
		}
		found[at] = append(found[at], told{n, text})
	}
	for _, at := range order {
		c.number(at.at, severity, found[at], as, do)
	}
}

// judgedAsFound reports what a rule has to say of the numbers as entries found the engine, each entry of its own: settled, for what they rest on was replaced there and then. One that rests on a figure which has a finding itself is not told.
func (c *Context) judgedAsFound(severity source.Severity, do string, say func(*derive.Number) string) {
	for _, n := range c.Sums.FoundOutside() {
		text := say(n)
		if text == "" || restsOn(n, func(v *model.Value) bool { return v.Verdict >= model.Worn || c.isDoubted(v) }) {
			continue
		}
		at := blamed(n, c.likelier)
		f := source.Finding{Severity: severity, State: source.Settled, At: at.At(), Message: fmt.Sprintf("`%s`, as found, %s", n.Path, text), Do: do, Subject: n.Path, Origin: string(model.Found), Entry: n.Entry.Path,
			Notes: inputRemarks(n, boundNote(n.Limit, passed(n.Judged())))}
		f.Notes = slices.DeleteFunc(f.Notes, func(r source.Remark) bool { return r.At == f.At })
		c.report(f, c.Journal.EndOf(n.Entry))
	}
}

// number adds a finding about worked-out numbers, at a figure that went into all of them; at the limit where none did. The limit and the other figures are shown beside it.
func (c *Context) number(at *model.Value, severity source.Severity, all []told, as, do string) {
	first := all[0].number
	f := source.Finding{Severity: severity, At: first.Limit.PathAt, Message: fmt.Sprintf("`%s` %s%s", first.Path, all[0].text, alsoWords(at, all[1:], as)), Do: do, Subject: first.Path, Origin: string(model.FromWorked)}
	if at != nil {
		f.At = at.At()
		if at.Entry != nil {
			f.Entry = at.Entry.Path
		}
		f.Notes = boundNote(first.Limit, passed(first.Judged()))
	}
	for _, t := range all {
		f.Notes = inputRemarks(t.number, f.Notes)
	}
	f.Notes = slices.DeleteFunc(f.Notes, func(r source.Remark) bool { return r.At == f.At })
	c.report(f, -1)
}

// alsoWords names the other numbers that a figure goes into and of which the same is to be said; more than two are counted.
func alsoWords(at *model.Value, others []told, as string) string {
	if len(others) == 0 {
		return ""
	}
	if len(others) > 2 {
		return fmt.Sprintf("; %d more that `%s` goes into are %s too", len(others), at.Path, as)
	}
	var names []string
	for _, t := range others {
		names = append(names, fmt.Sprintf("`%s`, %s,", t.number.Path, t.number.Shown()))
	}
	verb := "is"
	if len(others) > 1 {
		verb = "are"
	}
	return fmt.Sprintf("; %s %s %s too", strings.Join(names, " and "), verb, as)
}

// accepts reports whether the builder accepts the finding of the running rule at a path.
func (c *Context) accepts(path string) bool {
	return slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool { return a.Path == path && a.Finding.Name == c.rule.Name })
}

// restsOn reports whether a value of which something holds went into a number, or into one that it is worked out from.
func restsOn(n *derive.Number, holds func(*model.Value) bool) bool {
	return slices.ContainsFunc(n.Inputs, func(in derive.Input) bool {
		return in.Number != nil && restsOn(in.Number, holds) || in.Value != nil && holds(in.Value)
	})
}

// soundNumberAt returns the number that was worked out at a path, nil where there is none, it can't be had, or a figure that it rests on is suspect.
func (c *Context) soundNumberAt(path string) *derive.Number {
	if n := c.numberAt(path); n != nil && !restsOn(n, c.isSuspect) {
		return n
	}
	return nil
}

// numberAt returns the number that was worked out at a path, nil where there is none or it can't be had.
func (c *Context) numberAt(path string) *derive.Number {
	for _, n := range c.Numbers {
		if n.Path == path && n.Reason == "" {
			return n
		}
	}
	return nil
}

// isHeldBack reports whether nothing is told of a number's verdict, because a figure that it rests on is to be mended first.
func (c *Context) isHeldBack(n *derive.Number) bool {
	return restsOn(n, func(v *model.Value) bool { return c.isUnsound(v) || c.isWithMiddleOut(v) })
}

// blamed returns the one of the figures that went into a number that most likely makes it what it is, by a comparison of two; of those alike the first of the formula. Nil where there is none.
func blamed(n *derive.Number, likelier func(a, b *model.Value) int) *model.Value {
	var best *model.Value
	for _, in := range n.Inputs {
		v := in.Value
		if in.Number != nil {
			v = blamed(in.Number, likelier)
		}
		if v != nil && (best == nil || likelier(v, best) > 0) {
			best = v
		}
	}
	return best
}

// likelier compares how likely two figures are to be what is wrong: a reading rather than what stands in a sheet, then one that is outside its own limit, then the newer, then the one that is further from its
// fellows, then of readings the one of a smaller place. Of the pressures of several cylinders it is the lowest.
func (c *Context) likelier(a, b *model.Value) int {
	isRead := func(v *model.Value) int {
		if v.IsReading() {
			return 1
		}
		return 0
	}
	isOff := func(v *model.Value) int {
		if v.Verdict == model.Worn || v.Verdict == model.Out {
			return 1
		}
		return 0
	}
	smaller := 0
	if a.IsReading() && b.IsReading() {
		smaller = strings.Count(a.Path, ".") - strings.Count(b.Path, ".")
	}
	lower := 0
	if a.Estimate.Dimension == quantity.Pressure && b.Estimate.Dimension == quantity.Pressure {
		lower = cmp.Compare(b.Estimate.Value, a.Estimate.Value)
	}
	return cmp.Or(isRead(a)-isRead(b), isOff(a)-isOff(b), cmp.Compare(a.Order, b.Order), lower, c.compareStraying(a, b), smaller)
}

// compareStraying compares how far two figures are from their fellows; nought where one has too few to tell.
func (c *Context) compareStraying(a, b *model.Value) int {
	of := c.causes().crowds.of
	x, ok := of[a]
	y, too := of[b]
	if !ok || !too || len(x.members) < leastCrowd || len(y.members) < leastCrowd || a.Estimate.Dimension != b.Estimate.Dimension {
		return 0
	}
	return cmp.Compare(x.off(a), y.off(b))
}
