package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// otherDimension reports values below a limit that measure something else than it does, so that it does not hold for them: but for what is
// read for a number that comes from it.
func otherDimension(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Unjudged != model.OtherDimension || c.isSuspect(v) || feeds(v.Path) {
			continue
		}
		limits := c.Journal.Governing(v.Path)
		if len(limits) == 0 {
			continue
		}
		c.value(v, source.Note, fmt.Sprintf("`%s` is a figure of %s; the limit `%s` above it is for %s and does not hold for it", v.Path, v.Quantity.Unit.Dimension, limits[0].Path, limits[0].Dimension),
			"give it a limit of its own, or mend its unit", limitNote(limits[0])...)
	}
}
