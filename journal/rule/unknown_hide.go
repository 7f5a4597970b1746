package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// unknownHide reports names in `hide` that are neither a known word nor a tag of an entry, whenever that is. Until it is clear what they mean
// nothing may be published.
func unknownHide(c *Context) {
	tags := c.Journal.Tags
	for _, name := range c.Journal.Build.Fields.Table("site").Names("hide") {
		if slices.Contains(parse.HideWords, name.Name) || slices.Contains(tags, name.Name) {
			continue
		}
		do := "it knows " + strings.Join(parse.HideWords, ", ") + ", and the tags of entries"
		var fixes []source.Fix
		if near := source.Nearest(name.Name, append(slices.Clone(parse.HideWords), tags...)); near != "" {
			do = fmt.Sprintf("did you mean `%s`?", near)
			fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), name.At, `"`+near+`"`)}
		}
		c.report(source.Finding{Severity: source.Error, At: name.At, Subject: name.Name, Message: fmt.Sprintf("`hide` does not know `%s`, so no site is written", name.Typed), Do: do, Fixes: fixes}, -1)
	}
}
