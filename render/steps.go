package render

import (
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
			for _, task := range openSteps(e) {
				rows = append(rows, listRow{section: section, title: title, label: title, heads: []string{"Step", "Of"}, write: func(p *page) {
					p.row(func() { p.text(task.Text) }, func() { p.toEntry(s.entryPlace(e), e) })
				}})
			}
		}
	}
	return s.listSheets(stepsRun, stepsCrumb, "The steps that are open, and those that are planned.", rows, "")
}

// openSteps returns the steps of an entry that nobody has ticked.
func openSteps(e *model.Entry) []markdown.Task {
	var open []markdown.Task
	for _, task := range e.Body.Tasks {
		if !task.Done {
			open = append(open, task)
		}
	}
	return open
}

// findSteps finds out whether any published step is open.
func (s *site) findSteps() {
	for _, e := range s.Entries {
		if len(openSteps(e)) > 0 {
			s.hasSteps = true
			return
		}
	}
}
