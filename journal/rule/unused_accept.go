package rule

import (
	"fmt"
	"slices"
	"strconv"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// acceptUnused reports accepts that match no finding.
func acceptUnused(c *Context) {
	for _, a := range c.Journal.Accepts {
		if a.Used || a.Firm || c.isUnclear(a.Path) || slices.Contains(toolRules, a.Finding.Name) && (c.isReadUnclear(a.Path) || c.isReadDoubted(a.Path) || c.isToolWrong()) || c.isHeldBackAt(a.Path) {
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
		} else if near := c.nearSubject(a); near != "" {
			do = fmt.Sprintf("did you mean `%s`?", near)
			fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), a.PathAt, strconv.Quote(near))}
		}
		c.report(source.Finding{Severity: source.Warning, At: a.At, Subject: a.Finding.Name, Origin: a.Path, Entry: a.Entry.Path, Message: message, Do: do, Fixes: fixes}, c.Journal.EndOf(a.Entry))
	}
}

// nearSubject returns what an accept that accepts nothing was most likely meant to be about: what an open finding of that name, made up to then, is about; "" where none is near.
func (c *Context) nearSubject(a *model.Accept) string {
	if a.Path == "" {
		return ""
	}
	var subjects []string
	for _, r := range c.reports {
		if r.Rule == a.Finding.Name && r.State == source.Open && r.order <= c.Journal.EndOf(a.Entry) {
			subjects = append(subjects, r.Subject)
		}
	}
	return source.Nearest(a.Path, subjects)
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

// isHeldBackAt reports whether nothing is told of the number at a path.
func (c *Context) isHeldBackAt(path string) bool {
	n := c.numberAt(path)
	return n != nil && c.isHeldBack(n)
}

// toolRules are those whose findings rest on what a tool is, or on which one was used.
var toolRules = []string{"calibration-expired", "coarse-tool", "near-bound", "outside-range", "tool-unclear"}

// isReadUnclear reports whether something of what reads at a path, or of what a tool reads, can't be read: the tool, what it read, what that is
// held to, or which tool an entry used.
func (c *Context) isReadUnclear(path string) bool {
	tool := c.Journal.Tool(path)
	for _, t := range c.Journal.Tools {
		if (t == tool || t.Reads(path) || t.Fields.IsBad("for")) && (t.Unread || len(t.Fields.Bad) > 0) {
			return true
		}
	}
	if tool != nil && slices.ContainsFunc(tool.For, func(of parse.Name) bool { return c.Journal.IsUnread(of.Name) }) ||
		tool != nil && slices.ContainsFunc(c.Journal.Limits, func(l *model.Limit) bool { return l.Unread && tool.Reads(l.Path) }) {
		return true
	}
	return slices.ContainsFunc(c.Journal.Entries, func(e *model.Entry) bool {
		return c.Journal.AreToolsUnclear(e) && (tool != nil || slices.ContainsFunc(e.Values, func(v *model.Value) bool { return parse.IsAtOrBelow(v.Path, path) }))
	})
}

// isReadDoubted reports whether a finding says that what reads at a path, or what a tool read, was mistyped, or that its limit was: what the tool is worth there is told once that is mended.
func (c *Context) isReadDoubted(path string) bool {
	tool := c.Journal.Tool(path)
	return slices.ContainsFunc(c.Journal.Values, func(v *model.Value) bool {
		return (v.Tool != nil && v.Tool == tool || parse.IsAtOrBelow(v.Path, path)) && (c.isLimitSuspect(v.Limit) || c.isToolSuspect(v.Tool) || c.toldBy(v) != "" || len(c.mistypings(v)) > 0)
	})
}

// isToolWrong reports whether a finding says that another tool was used than the one that is named: what that one is worth is told once it is mended.
func (c *Context) isToolWrong() bool {
	return slices.ContainsFunc(c.reports, func(r *report) bool { return r.Rule == "tool-not-for" && r.State == source.Open })
}

func (c *Context) names() []string {
	all := make([]string, len(c.rules))
	for i := range c.rules {
		all[i] = c.rules[i].Name
	}
	return all
}
