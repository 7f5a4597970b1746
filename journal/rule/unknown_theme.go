package rule

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/source"
)

// unknownTheme reports a theme that isn't there. The site is written all the same, in the usual one.
func unknownTheme(c *Context) {
	name := c.Journal.Build.Fields.Table("site").Name("theme")
	if name.Name == "" || len(c.Themes) == 0 || slices.Contains(c.Themes, name.Name) {
		return
	}
	do := "there are " + strings.Join(c.Themes, ", ")
	var fixes []source.Fix
	if near := source.Nearest(name.Name, c.Themes); near != "" {
		do = fmt.Sprintf("did you mean `%s`?", near)
		fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), name.At, `"`+near+`"`)}
	}
	c.report(source.Finding{Severity: source.Error, At: name.At, Subject: name.Name, Message: fmt.Sprintf("there is no theme `%s`", name.Typed), Do: do, Fixes: fixes}, -1)
}
