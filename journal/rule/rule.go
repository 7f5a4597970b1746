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

	links    func() []link // in the words for the front page and in the entries
	paths    func() naming
	oddities func() []*oddity             // what makes an engine that nobody builds
	doubts   func() *doubts               // what contradicts each other
	suspects func() *suspects             // what can't be as it is written, for another reason
	doubted  func() map[*model.Value]bool // what makes no sense with others; it asks for all of the above, and none of those for it
	rules    []Rule
	rule     *Rule
	findings []source.Finding
	orders   []int // of each finding: the moment it is about; for accepting
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
	c := &Context{rules: All, Journal: sums.Journal, Sums: sums, Numbers: numbers, Upkeep: items, Themes: themes, findings: findings, orders: make([]int, len(findings))}
	c.links, c.paths = sync.OnceValue(c.allLinks), sync.OnceValue(c.naming)
	c.oddities, c.doubts, c.suspects = sync.OnceValue(c.findOddities), sync.OnceValue(c.findDoubts), sync.OnceValue(c.findSuspects)
	c.doubted = sync.OnceValue(c.findDoubted)
	for _, found := range c.checkAll() {
		c.findings = append(c.findings, found.findings...)
		c.orders = append(c.orders, found.orders...)
	}
	c.accept()
	c.rule = find(c.rules, unusedAccept)
	c.rule.Check(c)
	return c.findings
}

// UpkeepFindings returns the findings about what there is to do again, for other items than those of the whole journal: those that may be published.
func UpkeepFindings(sums *derive.Sums, items []upkeep.Item) []source.Finding {
	c := &Context{rules: All, Journal: sums.Journal, Sums: sums, Upkeep: items}
	for _, name := range UpkeepRules {
		c.rule = find(c.rules, name)
		c.rule.Check(c)
	}
	c.accept()
	source.Number(c.findings)
	return c.findings
}

// UpkeepRules are the names of the rules that tell of what there is to do again.
var UpkeepRules = []string{"due", "overdue", "recheck-due"}

// checkAll runs the rules but for the last, in parallel: a rule only reads. What each found comes in the order of the rules.
func (c *Context) checkAll() []*Context {
	found := make([]*Context, len(All))
	parallel.Each(len(All), func(i int) {
		found[i] = &Context{Journal: c.Journal, Sums: c.Sums, Numbers: c.Numbers, Upkeep: c.Upkeep, Themes: c.Themes, links: c.links, paths: c.paths, oddities: c.oddities, doubts: c.doubts, suspects: c.suspects, doubted: c.doubted, rules: All, rule: &All[i]}
		if All[i].Check != nil && All[i].Name != unusedAccept {
			All[i].Check(found[i])
		}
	})
	return found
}

// report adds a finding of the rule that is running. The moment is the one it is about, for accepting.
func (c *Context) report(f source.Finding, order int) {
	f.Rule = c.rule.Name
	c.findings = append(c.findings, f)
	c.orders = append(c.orders, order)
}

// value adds a finding about a value: settled once a newer reading has taken its place.
func (c *Context) value(v *model.Value, severity source.Severity, message, do string, notes ...source.Remark) {
	f := source.Finding{Severity: severity, At: v.At(), Message: message, Do: do, Subject: v.Path, Origin: string(v.Origin), Notes: notes}
	if v.Entry != nil {
		f.Entry = v.Entry.Path
	}
	if v.Settled {
		f.State = source.Settled
	}
	c.report(f, v.Order)
}

// accept marks the findings that the builder has accepted.
func (c *Context) accept() {
	for _, a := range c.Journal.Accepts {
		rule := find(c.rules, a.Finding.Name)
		end := c.Journal.EndOf(a.Entry)
		for i := range c.findings {
			f := &c.findings[i]
			if f.Rule != a.Finding.Name || c.orders[i] > end {
				continue
			}
			if a.Path != "" && f.Subject != a.Path && f.Origin != a.Path || a.Path == "" && f.Entry != a.Entry.Path {
				continue
			}
			if rule == nil || rule.Firm {
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
