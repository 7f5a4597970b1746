package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// brokenLink reports links of our own in the text that lead nowhere.
func brokenLink(c *Context) {
	for _, l := range c.links() {
		broken, near := l.Broken, l.Near
		if l.Worked && c.workedOut(l.Path, l.Entry) == nil && !c.areInputsUnclear(l.Path) {
			broken = fmt.Sprintf("no number is worked out at `%s`", l.Path)
		}
		if broken != "" && near == "" && l.hole.Scheme == markdown.SchemeValue && l.Path == parse.FoldPath(l.hole.Target) {
			near = source.Nearest(l.Path, c.numbersAt(l.Entry))
		}
		if broken == "" || c.linkWithheld(l.hole.Scheme) || l.isSlip() {
			continue
		}
		do, fixes := "mend the target, or take the link out", []source.Fix(nil)
		if near != "" {
			target := near
			if l.hole.Scheme != "" {
				target = l.hole.Scheme + ":" + near
			}
			do = fmt.Sprintf("did you mean `%s`?", target)
			fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", target), l.hole.TargetAt, target)}
		}
		c.report(source.Finding{Severity: source.Error, At: l.hole.TargetAt, Subject: l.hole.Scheme + ":" + l.hole.Target, Entry: l.entry(),
			Message: "the link leads nowhere: " + broken, Do: do, Fixes: fixes}, l.order)
	}
}

// link is a link of ours with the body that it stands in.
type link struct {
	*model.Mention
	hole  *markdown.Hole
	body  *markdown.Body
	order int
}

// allLinks returns the links in the words for the front page and in the entries.
func (c *Context) allLinks() []link {
	var all []link
	if home := c.Journal.Build.Home; home != nil {
		for _, m := range c.Journal.Home {
			all = append(all, link{m, &home.Holes[m.Hole], home, -1})
		}
	}
	for _, e := range c.Journal.Entries {
		for _, m := range e.Links {
			all = append(all, link{m, &e.Body.Holes[m.Hole], e.Body, c.Journal.EndOf(e)})
		}
	}
	return all
}

// entry returns the path of the entry that the link stands in, "" for the front page.
func (l link) entry() string {
	if l.Entry == nil {
		return ""
	}
	return l.Entry.Path
}

// isSlip reports whether the target is mistyped in a way that has a finding of its own.
func (l link) isSlip() bool {
	return slices.ContainsFunc(l.body.Findings, func(f source.Finding) bool { return f.At == l.hole.TargetAt })
}

// workedOut returns the number at a path: as an entry left it, or now; nil if none is worked out there.
func (c *Context) workedOut(path string, e *model.Entry) *derive.Number {
	numbers := c.numbers(e)
	i := slices.IndexFunc(numbers, func(n *derive.Number) bool { return n.Path == path })
	if i < 0 {
		return nil
	}
	return numbers[i]
}

// areInputsUnclear reports whether something that a number which isn't there may be worked out from can't be read.
func (c *Context) areInputsUnclear(path string) bool {
	j := c.Journal
	if !parse.IsWorked(path) {
		return false
	}
	return j.IsAnyUnread() || j.Build.Fields.IsBad("engine") || holdsBad(j.Build.Fields.Table("engine")) ||
		slices.ContainsFunc(j.Parts, func(p *model.Part) bool { return p.Fields.IsBad("brings") })
}

// holdsBad reports whether a value in a table, or in one below it, can't be read.
func holdsBad(t *parse.Fields) bool {
	return t != nil && (len(t.Bad) > 0 || slices.ContainsFunc(t.List, func(f *parse.Field) bool { return holdsBad(f.Table) }))
}

// numbers returns the numbers as an entry left them, or as they are now.
func (c *Context) numbers(e *model.Entry) []*derive.Number {
	if e == nil {
		return c.Numbers
	}
	return c.Sums.AsLeft(e)
}

// numbersAt returns the paths of those numbers.
func (c *Context) numbersAt(e *model.Entry) []string {
	var paths []string
	for _, n := range c.numbers(e) {
		paths = append(paths, n.Path)
	}
	return paths
}

// linkWithheld reports whether files that could hold the target of a link can't be read.
func (c *Context) linkWithheld(scheme string) bool {
	kind := map[string]string{"part": "parts", "limit": "limits", "tool": "tools", "entry": "entries", "value": "entries"}[scheme]
	return kind != "" && c.Journal.IsWithheld(kind)
}
