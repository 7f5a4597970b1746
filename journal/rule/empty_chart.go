package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// emptyChart reports charts in the text for which there is nothing to draw yet.
func emptyChart(c *Context) {
	for _, l := range c.links() {
		if l.hole.Scheme != markdown.SchemeChart || l.Broken != "" || c.Journal.IsWithheld("entries") {
			continue
		}
		if lacks, do := c.chartLacks(l); lacks != "" {
			c.report(source.Finding{Severity: source.Note, At: l.hole.TargetAt, Subject: markdown.SchemeChart + ":" + l.hole.Target, Entry: l.entry(),
				Message: "there is nothing to draw: " + lacks, Do: do}, l.order)
		}
	}
}

// chartLacks says what a chart would need to be drawn, and what to do; nothing where it has it. A chart in an entry knows what was there
// when the entry ended.
func (c *Context) chartLacks(l link) (lacks, do string) {
	j, end := c.Journal, l.order
	if l.Entry == nil {
		end = j.EndOf(&model.Entry{Index: len(j.Entries)})
	}
	switch l.Path {
	case "power":
		if !slices.ContainsFunc(j.Entries, func(e *model.Entry) bool {
			return !e.Plan && slices.ContainsFunc(e.Pulls, func(p *model.Pulls) bool { return p.Order <= end && p.Peak != nil && len(p.Runs) > 0 })
		}) {
			return "no pulls with a file of points by then", "name the files of the pulls in `[[pulls]]`, or take the chart out"
		}
		return "", ""
	case "gain":
		if len(c.Sums.Stages) == 0 || c.Sums.Stages[0].To.Order > end {
			return "no stage between two sessions of pulls by then", "it fills itself once there is one"
		}
		return "", ""
	}
	positions := j.Positions.Below(l.Path)
	if len(positions) > 1 {
		return fmt.Sprintf("`%s` stands for %d positions, each with a history of its own", l.Path, len(positions)), fmt.Sprintf("name one of them, as in `chart:%s`", positions[0])
	}
	read := 0
	for _, v := range j.History(positions[0]) {
		if v.Entry != nil && !v.Entry.Date.IsZero() && v.Counts && v.Quantity.Unit != nil && v.Order <= end {
			read++
		}
	}
	if read < 2 && !j.IsUnread(l.Path) {
		return fmt.Sprintf("`%s` has %s by then, and a history begins with two", l.Path, [...]string{"no figure", "one figure"}[read]), "it fills itself with the next reading, or take the chart out"
	}
	return "", ""
}
