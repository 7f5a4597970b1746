package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// notReadAgain reports what must be read after a part went in, or what an entry expects, and nobody has read since.
func notReadAgain(c *Context) {
	if c.Journal.IsFitUnclear() {
		return
	}
	inVain := c.lastInVain()
	for _, r := range c.Journal.Requests {
		if c.isAskedByMistake(r) || parse.IsOfMixture(r.Path) && r.Order <= inVain || c.paths().isWrong(r.Path) || slices.ContainsFunc(r.Missing, c.paths().isWrongSize) {
			continue // has a finding of its own
		}
		f := source.Finding{Severity: source.Warning, At: r.At, Subject: r.Path, Entry: r.Entry.Path, Do: "read it and write it under `[set]`"}
		if parse.IsOfMixture(r.Path) {
			f.Do = "log it, under load too, and name the file in `[[fuelling]]`"
		}
		missing := ""
		if r.Sizes {
			missing = ", nor what it is worked out from"
			f.Do = "read both sizes and write them under `[set]`"
		}
		if len(r.Missing) != 1 || r.Missing[0] != r.Path {
			missing += ": " + strings.Join(r.Missing, ", ")
		}
		if r.Part != nil {
			f.Origin = r.Part.Name
			f.Message = fmt.Sprintf("`%s` has not been read since `%s` went in%s", r.Path, r.Part.Name, missing)
			f.Notes = []source.Remark{{At: r.From, Message: "asked for here"}}
		} else {
			f.Message = fmt.Sprintf("`%s` is expected here and has not been read since%s", r.Path, missing)
		}
		c.report(f, c.Journal.EndOf(r.Entry))
	}
}
