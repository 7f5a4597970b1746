package render

import (
	"iter"
	"slices"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
)

var stepsCrumb = crumb{place{page: "steps.html"}, "Steps"}

// stepsSheets list the steps that are open: those of dated entries, which somebody left, then those of plans, which are to come.
func (s *site) stepsSheets() []sheet {
	var rows []listRow
	for _, plan := range []bool{false, true} {
		section, title := "open", "Left open"
		if plan {
			section, title = "to-come", "To come, by the plans"
		}
		for _, e := range s.Entries {
			if e.Plan != plan {
				continue
			}
			for task := range openSteps(e) {
				rows = append(rows, listRow{section: section, title: title, label: title, heads: []string{"Step", "Of"}, write: func(p *page) {
					p.row(func() { p.stepText(e, task) }, func() { p.toEntry(s.entryPlace(e), e) })
				}})
			}
		}
	}
	return s.listSheets(stepsRun, stepsCrumb, "The steps that are open, and those that are planned.", rows, nil)
}

// stepsOf ranges over the steps of an entry, ticked or not; a box without words is none.
func stepsOf(e *model.Entry) iter.Seq[*markdown.Task] {
	return func(yield func(*markdown.Task) bool) {
		for i := range e.Body.Tasks {
			if task := &e.Body.Tasks[i]; task.Text != "" && !yield(task) {
				return
			}
		}
	}
}

// openSteps ranges over the steps of an entry that nobody has ticked.
func openSteps(e *model.Entry) iter.Seq[*markdown.Task] {
	return func(yield func(*markdown.Task) bool) {
		for task := range stepsOf(e) {
			if !task.Done && !yield(task) {
				return
			}
		}
	}
}

// countSteps returns how many steps of an entry there are, and how many of them are open.
func countSteps(e *model.Entry) (all, open int) {
	for task := range stepsOf(e) {
		all++
		if !task.Done {
			open++
		}
	}
	return all, open
}

// stepText writes the words of a step without their marks, its holes filled as those of the prose are.
func (p *page) stepText(e *model.Entry, task *markdown.Task) {
	done := 0
	for _, in := range task.Holes {
		if in.N >= len(e.Links) {
			continue
		}
		p.text(task.Text[done:in.From])
		w := p.apart(nil)
		w.text(task.Text[in.From:in.To])
		p.fill(&e.Body.Holes[in.N], e.Links[in.N], string(w.bytes))
		done = in.To
	}
	p.text(task.Text[done:])
}

// findSteps finds out whether any published step is open.
func (s *site) findSteps() {
	s.hasSteps = slices.ContainsFunc(s.Entries, func(e *model.Entry) bool { _, open := countSteps(e); return open > 0 })
}
