package render

import (
	"math"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// goals writes what the build is to reach, where it began, and how far it is.
func (p *page) goals() {
	s := p.site
	var goals []model.Goal
	for _, goal := range s.journal.Goals {
		if s.ShowsGoal(goal) {
			goals = append(goals, goal)
		}
	}
	if len(goals) == 0 {
		return
	}
	p.section("goals", "Goals")
	p.table("Goals", "What", "Goal", "At first", "Now", "To go")
	for _, goal := range goals {
		now, first := s.inForce(goal.Path), s.firstOf(goal.Path)
		if first == now {
			first = nil
		}
		n := s.current[goal.Path]
		if now != nil || n == nil || n.Reason != "" {
			before, after := s.bothBeside(first, now)
			p.row(func() { p.path(goal.Path) }, func() { p.both(goal.Quantity) }, func() { p.goalFigure(before) },
				func() {
					if now == nil {
						p.goalValues(goal.Path)
						return
					}
					p.goalFigure(after)
				},
				func() { p.toGo(goal.Quantity, before.Value, after.Value) })
			continue
		}
		worked := &model.Value{Quantity: quantity.Quantity{Kind: quantity.Figure, Unit: n.Unit, Value: n.Unit.FromSI(n.Estimate.Value), Step: quantity.TwoFigures(n.Unit.FromSI(n.Estimate.Value)) / 10}}
		p.row(func() { p.path(goal.Path) }, func() { p.both(goal.Quantity) }, func() { p.goalValue(nil) }, func() { p.numberLink(n) },
			func() { p.toGo(goal.Quantity, nil, worked) })
	}
	p.endTable()
	p.endSection()
}

// firstOf returns the first published value that counts at a path, nil if there is none.
func (s *site) firstOf(path string) *model.Value {
	rows := s.histories[path]
	for i := len(rows) - 1; i >= 0; i-- {
		if rows[i].Counts && rows[i].Quantity.Unit != nil {
			return rows[i]
		}
	}
	return nil
}

// goalFigure writes a value, and what it is compared by.
func (p *page) goalFigure(b beside) {
	p.goalValue(b.Value)
	if words := b.words(); words != "" {
		p.aside("", func() { p.text(words) })
	}
}

// goalValues writes what is in force at the positions of a path that has no value itself.
func (p *page) goalValues(path string) {
	positions := p.site.Positions(path)
	if len(positions) < 2 {
		p.goalValue(nil)
		return
	}
	between := literal("")
	for _, position := range positions {
		if v := p.site.inForce(position); v != nil {
			p.put(between)
			between = "; "
			p.goalValue(v)
			p.put(" ")
			p.text(strings.TrimPrefix(position, path+"."))
		}
	}
	if between == "" {
		p.put("–")
	}
}

func (p *page) goalValue(v *model.Value) {
	if v == nil {
		p.put("–")
		return
	}
	link := p.open(p.site.valuePlace(v))
	p.text(plainValue(v))
	if link {
		p.put("</a>")
	}
}

// toGo writes how far it is to a goal, or that it is reached: a goal is reached from the side on which the build began.
func (p *page) toGo(goal quantity.Quantity, first, now *model.Value) {
	if !isFigureIn(now, goal.Unit) || goal.Kind == quantity.Interval {
		p.put("–")
		return
	}
	way := goal.SI() - now.Quantity.SI()
	if quantity.Compare(goal.SI(), now.Quantity.SI(), 0) == 0 {
		p.put("reached")
		return
	}
	if !isFigureIn(first, goal.Unit) {
		p.difference(way, goal.Unit, min(goal.StepSI(), now.Quantity.StepSI()))
		return
	}
	whole := goal.SI() - first.Quantity.SI()
	if math.Signbit(whole) != math.Signbit(way) {
		p.put("reached, ")
		p.figure(quantity.Show(math.Abs(way), differenceUnit(goal.Unit), min(goal.StepSI(), now.Quantity.StepSI())))
		p.put(" beyond")
		return
	}
	p.difference(way, goal.Unit, min(goal.StepSI(), now.Quantity.StepSI()))
	if done := 1 - way/whole; done > 0 {
		p.aside("", func() {
			p.figure(quantity.Show(done, quantity.UnitShown("%"), 0.01))
			p.put(" of the way")
		})
	}
}

// isFigureIn reports whether a value is a single figure that can be had in a unit.
func isFigureIn(v *model.Value, u *quantity.Unit) bool {
	return v != nil && v.Words == "" && v.Quantity.Unit != nil && v.Quantity.Kind != quantity.Interval && v.Quantity.Unit.ConvertsTo(u)
}
