package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/derive"
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
// when the entry ended; one on the front page all there is.
func (c *Context) chartLacks(l link) (lacks, do string) {
	end, then := l.order, "by then"
	if l.Entry == nil {
		end, then = math.MaxInt, "so far"
	}
	switch l.Path {
	case "power":
		if !c.hasCurves(end) && !c.arePullsUnclear() {
			return "no pulls with a file of points " + then, "name the files of the pulls in `[[pulls]]`, or take the chart out"
		}
		return "", ""
	case "gain":
		return c.gainLacks(l.Entry, then)
	case "fuelling":
		return c.squaresLack(end, then)
	}
	if l.Entry != nil {
		if _, course := l.Entry.CourseOf(l.Path); course != nil {
			return "", ""
		}
	}
	positions := c.Journal.Positions.Below(l.Path)
	if len(positions) > 1 {
		return fmt.Sprintf("`%s` stands for %d positions, each with a history of its own", l.Path, len(positions)), fmt.Sprintf("name one of them, as in `chart:%s`", positions[0])
	}
	if c.Journal.IsUnread(l.Path) {
		return "", ""
	}
	switch c.figuresAt(positions[0], end) {
	case 0:
		return fmt.Sprintf("`%s` has no figure %s, and a history begins with two", l.Path, then), "it fills itself with the next readings, or take the chart out"
	case 1:
		return fmt.Sprintf("`%s` has one figure %s, and a history begins with two", l.Path, then), "it fills itself with the next reading, or take the chart out"
	}
	return "", ""
}

// squaresLack says what a chart of the mixture would need.
func (c *Context) squaresLack(end int, then string) (lacks, do string) {
	switch {
	case c.Journal.TargetUnread || c.Journal.IsUnread("fuelling.lambda") || c.Journal.IsUnread("fuelling"):
		return "", ""
	case c.Journal.Target == nil:
		return "there is no target to part a log by", "write `target` into `[fuelling]` of build.toml: lambda by throttle and engine speed"
	case !slices.ContainsFunc(c.mixtures(), func(log *model.Log) bool { return log.Order <= end }):
		return "no log of the mixture " + then, "name its file in `[[fuelling]]`, or take the chart out"
	}
	return "", ""
}

// gainLacks is chartLacks of a gain over the engine speed. Sessions of the entry itself that can't be compared have a finding of their own in it.
func (c *Context) gainLacks(e *model.Entry, then string) (lacks, do string) {
	stages, together := c.Sums.GainsOver(e)
	isUnread := slices.ContainsFunc(stages, func(s *derive.Stage) bool { return s.Unread })
	isToldHere := !together && slices.ContainsFunc(stages, func(s *derive.Stage) bool { return s.Reason != "" }) // by `not-comparable`
	switch over := derive.GainOver(stages); {
	case c.arePullsUnclear():
	case len(stages) == 0:
		return "no stage between two sessions of pulls " + then, "it fills itself once there is one"
	case over.Reason != "" && !isUnread && !isToldHere:
		return over.Reason, "a gain over the engine speed takes files of points before the stage and after it, in `[[pulls]]`"
	}
	return "", ""
}

// hasCurves reports whether a session of pulls up to a moment has points.
func (c *Context) hasCurves(end int) bool {
	return slices.ContainsFunc(c.Journal.Entries, func(e *model.Entry) bool {
		return slices.ContainsFunc(e.Pulls, func(p *model.Pulls) bool { return p.Order <= end && p.Peak != nil && len(p.Runs) > 0 })
	})
}

// arePullsUnclear reports whether pulls are told that can't be read: that has a finding of its own.
func (c *Context) arePullsUnclear() bool {
	return slices.ContainsFunc(c.Journal.Entries, func(e *model.Entry) bool {
		tables, files, runs := e.Fields.Tables("pulls"), 0, 0
		for i := range tables {
			files += len(tables[i].Texts("data"))
		}
		for _, p := range e.Pulls {
			runs += len(p.Runs)
		}
		return !e.Plan && (e.Fields.IsBad("pulls") || len(tables) > len(e.Pulls) || files > runs || slices.ContainsFunc(e.Pulls, func(p *model.Pulls) bool { return p.Peak == nil }))
	})
}

// figuresAt counts the readings at a position up to a moment that a history draws.
func (c *Context) figuresAt(position string, end int) int {
	figures := 0
	for _, v := range c.Journal.History(position) {
		if v.Entry != nil && !v.Entry.Date.IsZero() && v.Counts && v.Quantity.Unit != nil && v.Order <= end {
			figures++
		}
	}
	return figures
}
