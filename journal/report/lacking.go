package report

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal"
)

// Lacking says in a line what the values of a journal lack, or that none of them may be published; "" where neither is so.
func Lacking(result *journal.Result) string {
	if len(result.Journal.Withheld) > 0 || result.Journal.Build.Fields == nil {
		return "some files can't be read; their values are missing here. `locknut inspect` shows where"
	}
	if result.NoSite != "" {
		return OneLine("the values are all here, but nothing can be published: " + result.NoSite)
	}
	return ""
}

// Unclear says in a line how many entries are not published only because their tags or heads can't be read, and names the first; "" where there are
// none.
func Unclear(result *journal.Result) string {
	const named = 3
	p := &Publication{journal: result.Journal, hide: result.Journal.Hide}
	unclear := p.unclearTags(result.Findings)
	var names []string
	for _, e := range p.journal.Entries {
		if p.isUnclear(e, unclear) && !slices.ContainsFunc(e.Tags, p.Hides) {
			names = append(names, e.File.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	line := count(len(names), "entry", "entries") + ", as tags that can't be read may be some that `hide` names: " + strings.Join(names[:min(named, len(names))], ", ")
	if more := len(names) - named; more > 0 {
		line += fmt.Sprintf(" and %d more", more)
	}
	return OneLine(line)
}
