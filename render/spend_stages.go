package render

import (
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/spend"
)

// spendByStage writes what each stage of the build cost, from one session of pulls to the next, beside what it gave.
func (p *page) spendByStage() {
	var stages []*derive.Number
	for _, n := range p.site.numbers {
		if n.Stage != nil {
			stages = append(stages, n)
		}
	}
	if len(stages) == 0 || len(p.site.spend.Lines) == 0 {
		return
	}
	slices.SortFunc(stages, byEnd)
	p.section("stages", "By stage")
	p.table("By stage", "Until the pulls of", "Spent", "Gain", "For each unit of gain")
	var last *model.Pulls
	for i, n := range stages {
		// Between two stages there may be pulls without a gain, or some that are not published: what was spent by then is no price of the next gain.
		if between := p.site.spentBetween(last, n.Stage.From); i == 0 || len(between) > 0 {
			words := literal("before the next stage")
			if i == 0 {
				words = "before the first stage"
			}
			p.stageRow(func() { p.when(n.Stage.From.Entry); p.aside(words, func() {}) }, between, nil)
		}
		p.stageRow(func() {
			p.when(n.Stage.To.Entry)
			if n.Stage.To.State == "before" {
				p.aside("before its work", func() {})
			}
		}, p.site.spentBetween(n.Stage.From, n.Stage.To), n)
		last = n.Stage.To
	}
	p.stageRow(func() { p.put("since") }, p.site.spentBetween(last, nil), nil)
	p.endTable()
	p.endSection()
}

// spentBetween returns what was spent between two sessions, nil for the beginning and for now.
func (s *site) spentBetween(from, to *model.Pulls) []spend.Line {
	return spend.LinesOf(s.spend.Lines, func(e *model.Entry) bool {
		end := s.journal.EndOf(e)
		return (from == nil || end > s.cutOf(from)) && (to == nil || end <= s.cutOf(to))
	})
}

// cutOf is the moment at which a session parts what was spent: pulls before the work of an entry, if it has others after that, before what the entry spends;
// all others after.
func (s *site) cutOf(p *model.Pulls) int {
	if p.State == "before" && slices.ContainsFunc(p.Entry.Pulls, func(other *model.Pulls) bool { return other.State == "after" }) {
		return p.Order
	}
	return s.journal.EndOf(p.Entry)
}

// stageRow writes the row of a stage; n is its gain, nil for none.
func (p *page) stageRow(until func(), lines []spend.Line, n *derive.Number) {
	total := spend.Total(lines)
	p.row(until, func() { p.sum(total) }, func() {
		if n != nil {
			p.numberLinkOrReason(n)
		}
	}, func() {
		if n == nil || n.Reason != "" || n.Unit.FromSI(n.Estimate.Value) <= 0 || !(n.Estimate.Value > n.Estimate.Expanded()) {
			return
		}
		between := literal("")
		for _, q := range total {
			if q.Value <= 0 { // more was sold than bought
				continue
			}
			p.put(between)
			between = " and "
			each := q
			each.Value /= n.Unit.FromSI(n.Estimate.Value)
			each.Step = max(each.Step, quantity.TwoFigures(each.Value))
			p.figure(each.Shown())
			p.put(" a ")
			p.text(n.Unit.Symbol)
		}
	})
}

// numberLinkOrReason writes a number, linked to where it stands, or why it can't be had.
func (p *page) numberLinkOrReason(n *derive.Number) {
	if n.Reason != "" {
		p.numberWords(n)
		return
	}
	p.numberLink(n)
}

// spendToGoals writes what had been spent by when each goal was reached; so far, where it is not.
func (p *page) spendToGoals() {
	s := p.site
	for _, goal := range s.journal.Goals {
		if !s.ShowsGoal(goal) || len(s.spend.Lines)+len(s.spend.Hours) == 0 || !isFigureIn(s.inForce(goal.Path), goal.Quantity.Unit) {
			continue
		}
		reached := s.reachedAt(goal)
		until := func(e *model.Entry) bool { return reached == nil || e.Index <= reached.Index }
		p.term("To "+goal.Path, func() {
			p.sum(spend.Total(spend.LinesOf(s.spend.Lines, until)))
			if hours := spend.Worked(spend.HoursOf(s.spend.Hours, until)); hours.Unit != nil {
				if len(s.spend.Lines) > 0 {
					p.put(" and ")
				}
				p.figure(hours.Shown())
			}
			if reached == nil {
				p.put(" so far; it is not reached")
				return
			}
			p.put(", reached ")
			p.when(reached)
		})
	}
}

// reachedAt returns the entry whose published value first reached a goal; nil for none.
func (s *site) reachedAt(goal model.Goal) *model.Entry {
	first := s.firstOf(goal.Path)
	for _, v := range slices.Backward(s.histories[goal.Path]) {
		if reached, _ := s.reachedBy(goal, v, first); reached && v.Counts && v.Entry != nil {
			return v.Entry
		}
	}
	return nil
}

// byEnd puts gains of stages in order of time.
func byEnd(a, b *derive.Number) int { return a.Stage.To.Order - b.Stage.To.Order }
