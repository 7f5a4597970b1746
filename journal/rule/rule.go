// Package rule checks a linked journal: one rule a file, with its page beside it.
//
// A journal and its numbers go in; findings come out, each open, settled or accepted. The one invariant: a rule only reads. What it
// reports points at the builder's text and says what is wrong with the figures in it and what to do.
package rule

import (
	"embed"
	"strings"
	"sync"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parallel"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/upkeep"
)

// Rule is one kind of finding.
type Rule struct {
	Name string
	// Check reports the findings of this kind. It is nil for those that reading the files makes: a text that can't be read is found where
	// it is read.
	Check func(*Context)
	// Firm findings can't be accepted: text that can't be read, and what can't be.
	Firm bool
}

// Context is what a rule reads, and where it reports.
type Context struct {
	Journal *model.Journal
	Sums    *derive.Sums
	Numbers []*derive.Number // as they are now
	Upkeep  []upkeep.Item
	Themes  []string // that the site can have; none: not known

	links   func() []link // in the words for the front page and in the entries
	paths   func() naming
	farOff  func() map[*model.Entry]bool // entries whose date can't be
	causes  func() *causes               // why figures and limits are not believed as they are written
	rules   []Rule
	rule    *Rule
	reports []*report
}

// report is a finding, and the moment that it is about: what is accepted later is not accepted there.
type report struct {
	source.Finding
	order int
}

//go:embed *.md
var pages embed.FS

// Title returns the first line of the page of a rule, "# `name`: clause", without reading the rest; "" if there is none of that name.
func Title(name string) string { return source.FirstLine(pages, pageFile(name)) }

func pageFile(name string) string { return strings.ReplaceAll(name, "-", "_") + ".md" }

// Page returns the page of a rule, in Markdown; "" if there is no rule of that name.
func Page(name string) string {
	text, err := pages.ReadFile(pageFile(name))
	if err != nil {
		return ""
	}
	return string(text)
}

// Find returns the rule of a name, nil if there is none.
func Find(name string) *Rule { return find(All, name) }

func find(rules []Rule, name string) *Rule {
	for i := range rules {
		if rules[i].Name == name {
			return &rules[i]
		}
	}
	return nil
}

// Run checks a journal by all rules. Findings are those of reading and linking it; they come back among the rules' own, accepted where
// the builder has accepted them. Themes are the names that a site's theme can have; none where that is not known.
func Run(sums *derive.Sums, numbers []*derive.Number, items []upkeep.Item, themes []string, findings []source.Finding) []source.Finding {
	c := &Context{rules: All, Journal: sums.Journal, Sums: sums, Numbers: numbers, Upkeep: items, Themes: themes}
	c.farOff = sync.OnceValue(c.farOffEntries)
	c.links, c.paths, c.causes = sync.OnceValue(c.allLinks), sync.OnceValue(c.naming), sync.OnceValue(c.findCauses)
	for _, f := range findings {
		c.reports = append(c.reports, &report{Finding: f})
	}
	for _, found := range c.checkAll() {
		c.reports = append(c.reports, found.reports...)
	}
	c.accept()
	c.rule = find(c.rules, unusedAccept)
	c.rule.Check(c)
	return c.findings()
}

// findings returns those that were reported.
func (c *Context) findings() []source.Finding {
	all := make([]source.Finding, len(c.reports))
	for i, r := range c.reports {
		all[i] = r.Finding
	}
	return all
}

// UpkeepFindings returns the findings about what there is to do again, for other items than those of the whole journal: those that may be published.
func UpkeepFindings(sums *derive.Sums, items []upkeep.Item) []source.Finding {
	c := &Context{rules: All, Journal: sums.Journal, Sums: sums, Upkeep: items}
	c.paths, c.farOff = sync.OnceValue(c.naming), sync.OnceValue(c.farOffEntries)
	for _, name := range UpkeepRules {
		c.rule = find(c.rules, name)
		c.rule.Check(c)
	}
	c.accept()
	all := c.findings()
	source.Number(all)
	return all
}

// UpkeepRules are the names of the rules that tell of what there is to do again.
var UpkeepRules = []string{"due", "overdue", "recheck-due"}

// checkAll runs the rules but for the last, in parallel: a rule only reads. What each found comes in the order of the rules.
func (c *Context) checkAll() []*Context {
	found := make([]*Context, len(All))
	parallel.Each(len(All), func(i int) {
		own := *c
		own.rule, own.reports = &All[i], nil
		found[i] = &own
		if All[i].Check != nil && All[i].Name != unusedAccept {
			All[i].Check(found[i])
		}
	})
	return found
}

// report adds a finding of the rule that is running, and returns it for what it is to say besides. The moment is the one it is about, for accepting.
func (c *Context) report(f source.Finding, order int) *source.Finding {
	f.Rule = c.rule.Name
	r := &report{f, order}
	c.reports = append(c.reports, r)
	return &r.Finding
}

// value adds a finding about a value, and returns it for what it is to say besides.
func (c *Context) value(v *model.Value, severity source.Severity, message, do string, notes ...source.Remark) *source.Finding {
	r := reportAbout(v, severity, message, do, notes...)
	return c.report(r.Finding, r.order)
}

// reportAbout makes a finding about a value: settled once a newer reading has taken its place.
func reportAbout(v *model.Value, severity source.Severity, message, do string, notes ...source.Remark) report {
	f := source.Finding{Severity: severity, At: v.At(), Message: message, Do: do, Subject: v.Path, Origin: string(v.Origin), Notes: notes}
	if v.Entry != nil {
		f.Entry = v.Entry.Path
	}
	if v.Settled {
		f.State = source.Settled
	}
	return report{f, v.Order}
}

// covers reports whether an accept is of a finding.
func (c *Context) covers(a *model.Accept, f *report) bool {
	if f.Rule != a.Finding.Name || f.order > c.Journal.EndOf(a.Entry) {
		return false
	}
	if a.Path != "" && f.Subject != a.Path && f.Origin != a.Path && parse.FoldPath(f.Subject) != a.Path || a.Path == "" && f.Entry != a.Entry.Path {
		return false
	}
	rule := find(c.rules, f.Rule)
	return rule != nil && !rule.Firm
}

// accept marks the findings that the builder has accepted.
func (c *Context) accept() {
	for _, a := range c.Journal.Accepts {
		for _, f := range c.reports {
			if !c.covers(a, f) {
				continue
			}
			a.Used = true
			if f.State == source.Open {
				f.State = source.Accepted
				f.Notes = append(f.Notes, source.Remark{At: a.At, Message: "accepted: " + a.Why})
			}
		}
	}
}
