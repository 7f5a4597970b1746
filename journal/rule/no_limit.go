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
		if newest[v.Path] != v || v.Limit != nil || v.Unjudged != model.Judged || len(c.Journal.Governing(v.Path)) > 0 || c.rightPath(v.Path, known) != "" || feeds(v.Path) {
			continue
		}
		if sibling := c.limitBeside(v.Path); sibling != nil {
			c.value(v, source.Note, fmt.Sprintf("`%s` has no limit, though `%s` beside it has one", v.Path, sibling.Path), "add one to the limits, if anyone says what it should be")
		}
	}
}

// limitBeside returns a limit at a path that differs from the given one in its last segment alone.
func (c *Context) limitBeside(path string) *model.Limit {
	folder := path[:strings.LastIndexByte(path, '.')+1]
	if folder == "" {
		return nil
	}
	for _, l := range c.Journal.Limits {
		rest, ok := strings.CutPrefix(l.Path, folder)
		if ok && l.Path != path && !strings.Contains(rest, ".") && (l.IsFigures() || len(l.Expect) > 0) && (l.Part == nil || l.Part.IsFitted()) {
			return l
		}
	}
	return nil
}

// feeds reports whether a path is read for a number that comes from it.
func feeds(path string) bool {
	pattern := parse.FindPattern(path)
	return pattern != nil && pattern.Feeds
}
