package rule

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// noLimit reports the newest reading of a path without a limit where a path beside it has one.
func noLimit(c *Context) {
	if c.Journal.IsWithheld("limits") || c.Journal.IsWithheld("parts") {
		return
	}
	known := c.paths().known
	newest := map[string]*model.Value{}
	for _, v := range c.Journal.Values {
		if v.IsReading() && v.Counts {
			newest[v.Path] = v
		}
	}
	for _, v := range c.Journal.Values {
		if newest[v.Path] != v || v.Limit != nil || v.Unjudged != model.Judged || len(c.Journal.Governing(v.Path)) > 0 || c.rightPath(v.Path, known) != "" || feeds(v.Path) || parse.IsWorked(v.Path) {
			continue
		}
		if sibling := c.limitBeside(v); sibling != nil {
			c.value(v, source.Note, fmt.Sprintf("`%s` has no limit, though `%s` beside it has one", v.Path, sibling.Path), "add one to the limits, if anyone says what it should be")
		}
	}
}

// limitBeside returns a limit for the same kind of thing at a path that differs from the value's in its last segment alone.
func (c *Context) limitBeside(v *model.Value) *model.Limit {
	folder := v.Path[:strings.LastIndexByte(v.Path, '.')+1]
	if folder == "" {
		return nil
	}
	for _, l := range c.Journal.Limits {
		rest, ok := strings.CutPrefix(l.Path, folder)
		if l.EachCylinder && l.IsFor(folder+parse.LastSegment(l.Path)) && !c.paths().isAnyWrongBeside(l.Path) && (l.Part == nil || l.Part.IsFitted()) && isAlike(l, v) {
			return l // of a fellow below the same cylinder
		}
		if ok && l.Path != v.Path && !strings.Contains(rest, ".") && (l.Part == nil || l.Part.IsFitted()) && isAlike(l, v) {
			return l
		}
	}
	return nil
}

// isAlike reports whether a limit could hold a value if it stood at its path: words by words, figures of its dimension.
func isAlike(l *model.Limit, v *model.Value) bool {
	if v.Quantity.Unit == nil {
		return len(l.Expect) > 0
	}
	return l.IsFigures() && l.Dimension == v.Quantity.Unit.Dimension
}

// feeds reports whether a path is read for a number that comes from it.
func feeds(path string) bool {
	pattern := parse.FindPattern(path)
	return pattern != nil && pattern.IsFeeder(path)
}
