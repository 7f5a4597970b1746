package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// Years between two entries in which no journal lies still, and the years outside which none is kept: common practice, no source.
const (
	farOffYears = 100
	firstYear   = 1850
	lastYear    = 2200
)

// farOffDate reports entries that are dated a lifetime from the others, or in years in which nobody keeps such a journal. What counts as today is
// not asked of the clock. Those older than the machine have a finding of their own.
func farOffDate(c *Context) {
	groups := c.entriesByTime()
	right := mainGroup(groups)
	for i, group := range groups {
		if i == right && isPlausible(group) {
			continue
		}
		for _, e := range group {
			if !e.Named.IsZero() && e.Named.Year != e.Date.Year {
				continue // that head and name disagree is told
			}
			message := fmt.Sprintf("the entry is of the year %d, a lifetime from the others: they are of %s", e.Date.Year, years(groups[right]))
			if !isPlausible(groups[right]) {
				message = fmt.Sprintf("the entry is of the year %d, in which nobody keeps a journal", e.Date.Year)
			}
			c.report(source.Finding{Severity: source.Warning, At: dateAt(e), Subject: "date", Entry: e.Path, Message: message, Do: "mend the date"}, c.Journal.EndOf(e))
		}
	}
}

// farOffEntries returns the entries that are dated a lifetime from the others, or in no year that can be, unless the builder accepts it; nil for none.
func (c *Context) farOffEntries() map[*model.Entry]bool {
	var far map[*model.Entry]bool
	groups := c.entriesByTime()
	right := mainGroup(groups)
	for i, group := range groups {
		if i == right && isPlausible(group) {
			continue
		}
		for _, e := range group {
			if slices.ContainsFunc(c.Journal.Accepts, func(a *model.Accept) bool {
				return (a.Finding.Name == "far-off-date" || a.Finding.Name == "date-disagrees") && a.Entry == e
			}) {
				continue
			}
			if far == nil {
				far = map[*model.Entry]bool{}
			}
			far[e] = true
		}
	}
	return far
}

// isFarOff reports whether a finding says that an entry's date can't be: what that makes late, or out of order, waits for it to be mended.
func (c *Context) isFarOff(e *model.Entry) bool { return c.farOff()[e] }

// isTodayFarOff reports whether the day as of which things are due is that of such an entry.
func (c *Context) isTodayFarOff() bool {
	for e := range c.farOff() {
		if e.Date.CompareDay(c.Journal.Today) == 0 {
			return true
		}
	}
	return false
}

// entriesByTime returns the dated entries, but for those older than the machine, in order of time and parted where a hundred years lie between two.
func (c *Context) entriesByTime() [][]*model.Entry {
	var groups [][]*model.Entry
	for _, e := range c.Journal.Entries {
		if e.Plan || e.Date.IsZero() || c.isBeforeMachine(e) {
			continue
		}
		last := len(groups) - 1
		if last < 0 || e.Date.Year-groups[last][len(groups[last])-1].Date.Year >= farOffYears {
			groups = append(groups, nil)
			last++
		}
		groups[last] = append(groups[last], e)
	}
	return groups
}

// mainGroup returns which of the groups is dated rightly, if any is: the largest of those in years that can be, else the largest.
func mainGroup(groups [][]*model.Entry) int {
	right := 0
	for i, group := range groups {
		better := len(group) > len(groups[right])
		if isPlausible(group) != isPlausible(groups[right]) {
			better = isPlausible(group)
		}
		if better {
			right = i
		}
	}
	return right
}

// isPlausible reports whether entries, in order of time, are of years in which a journal is kept.
func isPlausible(entries []*model.Entry) bool {
	return entries[0].Date.Year >= firstYear && entries[len(entries)-1].Date.Year <= lastYear
}

// years says from when to when entries are, which are in order of time.
func years(entries []*model.Entry) string {
	first, last := entries[0].Date.Year, entries[len(entries)-1].Date.Year
	if first == last {
		return fmt.Sprint(first)
	}
	return fmt.Sprintf("%d to %d", first, last)
}

// dateAt is where an entry says its date: at its head where the file's name does.
func dateAt(e *model.Entry) source.Range {
	if e.Date.At.IsZero() {
		return e.Fence
	}
	return e.Date.At
}
