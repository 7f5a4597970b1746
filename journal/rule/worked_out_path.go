package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// workedOutPath reports what is read, or brought by a part, at the path of a number that is worked out from other values: nothing is worked out from it, and it stands beside
// the number or in its way.
func workedOutPath(c *Context) {
	worked := map[string]*parse.Pattern{}
	for _, v := range c.Journal.Values {
		if !v.IsReading() && v.Origin != model.FromPart {
			continue
		}
		row, done := worked[v.Path]
		if !done {
			row = parse.FindWorked(v.Path)
			if row != nil && !c.isWorkedFrom(row.SourceOf(v.Path)) {
				row = nil // a free path of that name
			}
			worked[v.Path] = row
		}
		if row == nil || v.Quantity.Unit == nil || !slices.Contains(row.Dimensions, v.Quantity.Unit.Dimension) {
			continue
		}
		c.value(v, source.Warning, fmt.Sprintf("`%s` is worked out, and never written: %s", v.Path, row.Doc), fmt.Sprintf("write what it is worked out from, which `locknut explain %s` says", v.Path)).At = v.PathAt()
	}
}

// isWorkedFrom reports whether something was told at or below a path that a number is worked out from, or nobody knows which that is.
func (c *Context) isWorkedFrom(path string) bool { return path == "" || c.isToldBelow(path) }
