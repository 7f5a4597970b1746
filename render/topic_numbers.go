package render

import (
	"cmp"
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
)

// numberRow writes the row of a worked-out number, or of several that differ by little.
func (p *page) numberRow(group []*derive.Number) { p.groupRow(group) }

// limitedNumberRow writes it in a table that has limits.
func (p *page) limitedNumberRow(group []*derive.Number) {
	n := group[0]
	limited := n.Limit != nil && p.site.ShowsLimit(n.Limit)
	p.groupRow(group, func() {
		if limited {
			p.limit(n.Limit)
		}
	}, func() {
		if limited {
			worst := worstOf(group)
			p.beside(p.site.stripOfNumber(worst))
			p.verdict(worst.Verdict, worst.Limit)
		}
	})
}

// groupRow writes what numbers are, and then further cells.
func (p *page) groupRow(group []*derive.Number, further ...func()) {
	n, title := group[0], group[0].Title
	if len(group) > 1 {
		title, _ = groupTitle(n)
	}
	p.row(func() { p.to(p.site.numberPlace(n), title) }, append([]func(){func() { p.span(group) }}, further...)...)
}

// ofEachValve are the families that have a number for each valve, which on most engines differ by nothing but the lash.
var ofEachValve = []string{"valve-lift", "curtain-area"}

// grouped puts the numbers together that a row can tell of: those of the valves of one side, where they are to be said the same of.
func grouped(list []*derive.Number) [][]*derive.Number {
	var groups [][]*derive.Number
	for _, n := range list {
		title, one := groupTitle(n)
		i := slices.IndexFunc(groups, func(g []*derive.Number) bool {
			other, too := groupTitle(g[0])
			return one && too && title == other && g[0].Family == n.Family && g[0].Words == n.Words && g[0].Reason == n.Reason && g[0].Limit == n.Limit && g[0].Unit == n.Unit
		})
		if i < 0 {
			groups = append(groups, []*derive.Number{n})
			continue
		}
		groups[i] = append(groups[i], n)
	}
	return groups
}

// groupTitle is the title of a number of a valve without which valve it is; false for what is no number of a single valve.
func groupTitle(n *derive.Number) (string, bool) {
	if !slices.Contains(ofEachValve, n.Family.Name) {
		return "", false
	}
	words := strings.Split(n.Path, ".")
	for i, word := range words {
		if word == "intake" || word == "exhaust" {
			words = words[i+1:]
			break
		}
	}
	if len(words) > 0 && words[0] == "valve-lift" {
		words = words[1:]
	}
	title, ok := strings.CutSuffix(n.Title, " "+strings.Join(words, " "))
	return title, ok && len(words) > 0
}

// span writes a number, or the least and the most of several.
func (p *page) span(group []*derive.Number) {
	least := slices.MinFunc(group, compareNumbers)
	most := slices.MaxFunc(group, compareNumbers)
	from, to := least.Shown(), most.Shown()
	if len(group) == 1 || least.Reason != "" || from == to {
		p.numberWords(least)
		return
	}
	from.Unit = ""
	p.figure(from)
	p.put(" to ")
	p.figure(to)
	if least.Words != "" {
		p.put(", ")
		p.message(least.Words)
	}
}

func compareNumbers(a, b *derive.Number) int { return cmp.Compare(a.Estimate.Value, b.Estimate.Value) }

// worstOf returns the number of the worst verdict, of those alike the largest.
func worstOf(group []*derive.Number) *derive.Number {
	return slices.MaxFunc(group, func(a, b *derive.Number) int { return cmp.Or(cmp.Compare(a.Verdict, b.Verdict), compareNumbers(a, b)) })
}
