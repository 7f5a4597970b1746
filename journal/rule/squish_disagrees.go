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

// squishAgrees is by how much, in m, a squish that was measured and the one that deck and gasket make may differ before one is doubted: what a gasket crushes and a piston rocks by. Common
// practice, no source.
const squishAgrees = 0.1e-3

// squishDisagrees reports the squish that was measured, of several cylinders the one furthest off, where it is not what deck and gasket make. What was measured at several places round one piston is
// one squish, their mean.
func squishDisagrees(c *Context) {
	n := c.soundNumberAt("engine.squish")
	if n == nil || n.Verdict == model.Out && !c.acceptsOut(n.Path) {
		return // it has a finding
	}
	var worst *measuredSquish
	far := 0.0
	for _, s := range c.measuredSquishes() {
		off := math.Abs(s.mean - n.Estimate.Value)
		may := squishAgrees + math.Hypot(s.expanded, n.Estimate.Expanded())
		if quantity.Compare(off, may, n.Estimate.Value) > 0 && off > far {
			worst, far = s, off
		}
	}
	if worst == nil {
		return
	}
	v := worst.read[0]
	measured := fmt.Sprintf("`%s` was measured as %s", v.Path, v.Quantity.Shown())
	notes := inputRemarks(n, nil)
	if many := len(worst.read); many > 1 {
		measured = fmt.Sprintf("`%s` was measured as %s, the mean of %d places", worst.path, quantity.Show(worst.mean, v.Quantity.Unit, v.Quantity.StepSI()), many)
		for _, other := range worst.read[1:] {
			notes = append(notes, source.Remark{At: other.At(), Message: fmt.Sprintf("`%s`", other.Path)})
		}
	}
	c.value(v, source.Note, fmt.Sprintf("%s; deck and gasket make %s", measured, n.Shown()),
		"the one that was measured counts: look at the deck again, at which side the piston leans to, and at how thick the gasket is once it is pulled down", notes...)
}

// measuredSquish is what was measured round one piston.
type measuredSquish struct {
	path           string
	read           []*model.Value
	mean, expanded float64 // in m
}

// measuredSquishes returns the squish of each cylinder that was measured; that of a place which is out of its limit has its finding, and its cylinder is left out.
func (c *Context) measuredSquishes() []*measuredSquish {
	var all []*measuredSquish
	for _, v := range c.Journal.Values {
		if !v.Current || v.Settled || !v.IsReading() || v.Path != "squish" && !strings.HasPrefix(v.Path, "squish.") || v.Quantity.Unit == nil || v.Quantity.Kind == quantity.Interval {
			continue
		}
		path := "squish"
		if words := strings.Split(v.Path, "."); len(words) > 1 && slices.Contains(c.Journal.Cylinders, words[1]) {
			path += "." + words[1]
		}
		i := slices.IndexFunc(all, func(s *measuredSquish) bool { return s.path == path })
		if i < 0 {
			i = len(all)
			all = append(all, &measuredSquish{path: path})
		}
		all[i].read = append(all[i].read, v)
	}
	all = slices.DeleteFunc(all, func(s *measuredSquish) bool { return slices.ContainsFunc(s.read, c.isUnsound) })
	for _, s := range all {
		for _, v := range s.read {
			s.mean += v.Estimate.Value / float64(len(s.read))
			s.expanded = max(s.expanded, v.Estimate.Expanded())
		}
	}
	return all
}

// isSquishFarOut reports whether the squish of deck and gasket is so far out of its limit, and not accepted, that one of them is mistyped by the looks of it: what a ratio rests on waits for that.
func (c *Context) isSquishFarOut() bool {
	n := c.soundNumberAt("engine.squish")
	return n != nil && n.Verdict == model.Out && !c.acceptsOut(n.Path) && farOff(n.Judged())
}

// acceptsOut reports whether the builder accepts that the number at a path is out.
func (c *Context) acceptsOut(path string) bool {
	return slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool { return a.Path == path && a.Finding.Name == "out-of-limits" })
}
