// Package spend adds up what a build cost, in money and in hours.
//
// A linked journal goes in; lines and sums come out. It hides when a part's price counts: once, in the entry that bought it, or where none did in the one
// that fitted it first. The one invariant: sums of different currencies never meet.
package spend

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Line is one price. Something sold has a negative one.
type Line struct {
	Entry *model.Entry // that spent it, or plans to; nil for a planned part's own price
	Part  *model.Part  // that it is for; nil for none
	For   string       // what else it is for; empty for a part's own price
	Price quantity.Quantity
}

// Sum is a sum of money in each currency, by currency.
type Sum []quantity.Quantity

// Book is what a build cost.
type Book struct {
	Lines  []Line  // spent, in order of time
	ToCome []Line  // what planned parts will cost, by part, then what plans will spend beside
	Hours  []Hours // in order of time
}

// Hours is the work of one entry.
type Hours struct {
	Entry *model.Entry
	Time  quantity.Quantity
}

// Of returns what the entries that are shown spent.
func Of(j *model.Journal, shows func(*model.Entry) bool) *Book {
	b := &Book{}
	counted := map[*model.Part]bool{}
	part := func(e *model.Entry, p *model.Part) {
		if p == nil || p.Price == nil || counted[p] {
			return
		}
		counted[p] = true
		if shows(e) {
			b.Lines = append(b.Lines, Line{Entry: e, Part: p, Price: *p.Price})
		}
	}
	for _, e := range j.Entries {
		if e.Plan {
			continue
		}
		for _, ref := range e.Bought {
			part(e, ref.Part)
		}
		for _, ref := range e.Fitted {
			if ref.Part != nil && ref.Part.Bought == nil && !ref.Part.AsMade {
				part(e, ref.Part)
			}
		}
		if !shows(e) {
			continue
		}
		for _, s := range e.Spent {
			b.Lines = append(b.Lines, Line{Entry: e, Part: s.Part.Part, For: s.For, Price: s.Price})
		}
		if v := e.Fields.Value("hours"); v != nil {
			if q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Duration}, Bare: quantity.UnitShown("h")}); slip == nil {
				b.Hours = append(b.Hours, Hours{e, q})
			}
		}
	}
	for _, p := range j.Parts {
		if p.IsPlanned() && p.Price != nil {
			b.ToCome = append(b.ToCome, Line{Part: p, Price: *p.Price})
		}
	}
	for _, e := range j.Entries {
		if e.Plan && shows(e) {
			for _, s := range e.Spent {
				b.ToCome = append(b.ToCome, Line{Entry: e, Part: s.Part.Part, For: s.For, Price: s.Price})
			}
		}
	}
	return b
}

// LinesOf returns the lines of the entries that are meant.
func LinesOf(lines []Line, means func(*model.Entry) bool) []Line {
	return slices.DeleteFunc(slices.Clone(lines), func(l Line) bool { return !means(l.Entry) })
}

// HoursOf returns the hours of the entries that are meant.
func HoursOf(hours []Hours, means func(*model.Entry) bool) []Hours {
	return slices.DeleteFunc(slices.Clone(hours), func(h Hours) bool { return !means(h.Entry) })
}

// Total adds prices up, each currency for itself.
func Total(lines []Line) Sum {
	var sum Sum
	for _, l := range lines {
		i := slices.IndexFunc(sum, func(q quantity.Quantity) bool { return q.Unit == l.Price.Unit })
		if i < 0 {
			sum = append(sum, quantity.Quantity{Kind: quantity.Figure, Unit: l.Price.Unit, Value: l.Price.Value, Step: l.Price.Step})
			continue
		}
		sum[i].Value += l.Price.Value
		sum[i].Step = min(sum[i].Step, l.Price.Step)
	}
	slices.SortFunc(sum, func(a, b quantity.Quantity) int { return strings.Compare(a.Unit.Symbol, b.Unit.Symbol) })
	return sum
}

// Worked adds hours up; no unit where there are none.
func Worked(hours []Hours) quantity.Quantity {
	var sum quantity.Quantity
	for i, h := range hours {
		if i == 0 {
			sum = quantity.Quantity{Kind: quantity.Figure, Unit: h.Time.Unit, Step: h.Time.Step}
		}
		sum.Value += sum.Unit.FromSI(h.Time.SI())
		sum.Step = min(sum.Step, sum.Unit.FromSI(h.Time.StepSI()))
	}
	return sum
}

// By groups lines by a name, in order of the names; lines whose name is empty come last.
func By(lines []Line, name func(Line) string) (names []string, groups [][]Line) {
	at := map[string]int{}
	for _, l := range lines {
		key := name(l)
		i, there := at[key]
		if !there {
			i = len(names)
			at[key] = i
			names, groups = append(names, key), append(groups, nil)
		}
		groups[i] = append(groups[i], l)
	}
	order := make([]int, len(names))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		if (names[a] == "") != (names[b] == "") {
			return len(names[b]) - len(names[a])
		}
		return strings.Compare(names[a], names[b])
	})
	sortedNames, sortedGroups := make([]string, len(names)), make([][]Line, len(names))
	for to, from := range order {
		sortedNames[to], sortedGroups[to] = names[from], groups[from]
	}
	return sortedNames, sortedGroups
}
