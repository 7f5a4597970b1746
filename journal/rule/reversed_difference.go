package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// reversedDifference reports limits that are held by a difference of two sizes which stand the wrong way about, so that nothing is worked out or what is lies below nought.
func reversedDifference(c *Context) {
	for _, l := range c.Journal.Limits {
		if len(l.Of()) != 2 || !c.Sums.IsReversed(l) {
			continue
		}
		of := l.Fields.Get("of")
		first, second := of.Names[0], of.Names[1]
		swapped := source.Fix{Title: "swap the two", Edits: []source.Edit{
			{File: first.At.File, Start: first.At.Start, End: first.At.End, Text: second.At.Text()},
			{File: second.At.File, Start: second.At.Start, End: second.At.End, Text: first.At.Text()},
		}}
		c.report(source.Finding{Severity: source.Error, At: of.At, Subject: l.Path, Message: fmt.Sprintf("`of` takes `%s` from `%s`: the inner size is taken from the outer one", second.Typed, first.Typed),
			Do: fmt.Sprintf("write the outer one first: `of = [\"%s\", \"%s\"]`", second.Typed, first.Typed), Fixes: []source.Fix{swapped}}, -1)
	}
}
