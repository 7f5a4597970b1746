package rule

import (
	"fmt"

	"example.org/locknut/journal/source"
)

// acceptUnused reports accepts that match no finding.
func acceptUnused(c *Context) {
	for _, a := range c.Journal.Accepts {
		if a.Used || a.Firm || c.isUnclear(a.Path) {
			continue
		}
		message := fmt.Sprintf("nothing is found any more that this accepts: `%s`", a.Finding.Name)
		if a.Path != "" {
			message += fmt.Sprintf(" at `%s`", a.Path)
		}
		do, fixes := "take it out, or mend its name and place", []source.Fix(nil)
		if find(c.rules, a.Finding.Name) == nil {
			message = fmt.Sprintf("there is no finding called `%s`", a.Finding.Typed)
			if near := source.Nearest(a.Finding.Name, c.names()); near != "" {
				do = fmt.Sprintf("did you mean `%s`?", near)
				fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), a.At, `"`+near+`"`)}
			}
		}
		c.report(source.Finding{Severity: source.Warning, At: a.At, Subject: a.Finding.Name, Origin: a.Path, Entry: a.Entry.Path, Message: message, Do: do, Fixes: fixes}, c.Journal.EndOf(a.Entry))
	}
}

// isUnclear reports whether something at a path, or a whole file, can't be read, so that a finding there may be missing for that alone.
func (c *Context) isUnclear(path string) bool {
	if len(c.Journal.Withheld) > 0 || path != "" && c.Journal.IsUnread(path) {
		return true
	}
	for _, l := range c.Journal.Limits {
		if l.Path == path && (l.Unread || l.Fields.IsBad("basis")) {
			return true
		}
	}
	return false
}

func (c *Context) names() []string {
	all := make([]string, len(c.rules))
	for i := range c.rules {
		all[i] = c.rules[i].Name
	}
	return all
}
