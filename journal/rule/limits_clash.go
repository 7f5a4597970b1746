package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// limitsClash reports two parts that are in and both limit one path: the one fitted later wins.
func limitsClash(c *Context) {
	by := map[string]*model.Limit{}
	for _, part := range c.Journal.Fitted {
		for _, l := range part.Limits {
			if !l.IsFigures() && len(l.Expect) == 0 {
				continue
			}
			first := by[l.Path]
			by[l.Path] = l
			if first == nil {
				continue
			}
			c.report(source.Finding{Severity: source.Warning, At: l.PathAt, Subject: l.Path, Origin: part.Name,
				Message: fmt.Sprintf("`%s` and `%s` are both in and both limit `%s`: that of `%s`, fitted later, holds", first.Part.Name, part.Name, l.Path, part.Name),
				Do:      "take the limit out of one of the two", Notes: []source.Remark{{At: first.PathAt, Message: "the other one"}}}, -1)
		}
	}
}
