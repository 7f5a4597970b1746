package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// wordsForFigure reports words where a figure is due: they count as not measured.
func wordsForFigure(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Unjudged == model.NoFigure {
			c.value(v, source.Note, fmt.Sprintf("`%s` is words (`%s`) where a figure is due: it counts as not measured", v.Path, v.Words), "write the figure, and the words after a comma")
		}
	}
}
