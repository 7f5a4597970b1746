package render

import (
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/spend"
)

var spendCrumb = crumb{place{page: "spend.html"}, "Spend"}

// gatherSpend adds up what is published of what the build cost.
func (s *site) gatherSpend() {
	s.spend = spend.Of(s.journal, s.ShowsEntry)
	if s.Hides("spend") {
		s.spend.Lines, s.spend.ToCome = nil, nil
	}
	if s.Hides("hours") {
		s.spend.Hours = nil
	}
}

// hasSpend reports whether anything was spent, or will be.
func (s *site) hasSpend() bool {
	return len(s.spend.Lines)+len(s.spend.ToCome)+len(s.spend.Hours) > 0
}

// spendPage is what the build cost, in money and in hours.
func (s *site) spendPage(p *page) {
	p.begin(head{title: "Spend and time", about: "What the build cost, in money and in hours: by part, by place, and by month.", plate: s.plateNow()})
	b := s.spend
	p.put("<dl class=\"facts\">\n")
	if len(b.Lines) > 0 {
		p.term("Spent", func() { p.sum(spend.Total(b.Lines)) })
	}
	p.costToCome("To come, by the plan")
	if len(b.Hours) > 0 {
		p.term("Work", func() { p.figure(spend.Worked(b.Hours).Shown()) })
	}
	p.spendToGoals()
	p.put("</dl>\n")
	p.spendByStage()
	p.spendByMonth()
	if len(b.Lines) > 0 {
		p.spendBy("slots", "By place", "Place", func(l spend.Line) string {
			if l.Part == nil {
				return ""
			}
			return l.Part.Slot
		}, func(name string) { p.text(name) })
		p.spendBy("parts", "By part", "Part", func(l spend.Line) string {
			if l.Part == nil {
				return ""
			}
			return l.Part.Name
		}, func(name string) {
			part := s.journal.Part(name)
			p.to(s.partPlace(part), part.Title)
		})
	}
	p.spendToCome()
	p.end()
}

// sum writes a sum of money, each currency for itself.
func (p *page) sum(sum spend.Sum) {
	for i, q := range sum {
		if i > 0 {
			p.put(" and ")
		}
		p.figure(q.Shown())
	}
}

// spendByMonth writes money and hours of each month in which there were any.
func (p *page) spendByMonth() {
	b := p.site.spend
	names, groups := spend.By(b.Lines, func(l spend.Line) string { return monthOf(l.Entry) })
	hours := map[string][]spend.Hours{}
	for _, h := range b.Hours {
		hours[monthOf(h.Entry)] = append(hours[monthOf(h.Entry)], h)
	}
	months := slices.Concat(names, sorted(hours))
	slices.Sort(months)
	months = slices.Compact(months)
	if len(months) == 0 {
		return
	}
	p.section("months", "By month")
	heads := []string{"Month"}
	if len(b.Lines) > 0 {
		heads = append(heads, "Spent")
	}
	if len(b.Hours) > 0 {
		heads = append(heads, "Work")
	}
	p.table("By month", heads...)
	for _, name := range months {
		var lines []spend.Line
		if i := slices.Index(names, name); i >= 0 {
			lines = groups[i]
		}
		p.spendOfMonth(name, lines, hours[name])
	}
	p.endTable()
	p.endSection()
}

// monthOf is the month of an entry, so that months sort by their words.
func monthOf(e *model.Entry) string {
	if e.Date.IsZero() {
		return "no day that can be read"
	}
	return e.Date.String()[:len("2026-04")]
}

// spendOfMonth writes the row of a month, with the cells that the table has.
func (p *page) spendOfMonth(name string, lines []spend.Line, hours []spend.Hours) {
	b := p.site.spend
	cells := []func(){}
	if len(b.Lines) > 0 {
		cells = append(cells, func() { p.sum(spend.Total(lines)) })
	}
	if len(b.Hours) > 0 {
		cells = append(cells, func() {
			if len(hours) > 0 {
				p.figure(spend.Worked(hours).Shown())
			}
		})
	}
	p.row(func() { p.text(name) }, cells...)
}

// spendBy writes the money by a name, and what has none.
func (p *page) spendBy(id, title, head string, name func(spend.Line) string, write func(name string)) {
	p.section(id, title)
	p.table(title, head, "Spent", "In")
	names, groups := spend.By(p.site.spend.Lines, name)
	for i, lines := range groups {
		p.row(func() {
			if names[i] == "" {
				p.put("everything else")
			} else {
				write(names[i])
			}
		}, func() { p.sum(spend.Total(lines)) }, func() {
			for k, l := range lines {
				if k > 0 {
					p.put("; ")
				}
				p.when(l.Entry)
				if l.For != "" {
					p.put(" ")
					p.text(l.For)
				}
				if len(lines) > 1 {
					p.put(", ")
					p.figure(l.Price.Shown())
				}
			}
		})
	}
	p.endTable()
	p.endSection()
}

// spendToCome writes what planned parts will cost.
func (p *page) spendToCome() {
	lines := p.site.spend.ToCome
	if len(lines) == 0 {
		return
	}
	p.section("to-come", "To come, by the plan")
	p.table("To come, by the plan", "For", "Price")
	for _, l := range lines {
		p.row(func() {
			p.text(l.For)
			if l.Part != nil {
				if l.For != "" {
					p.put(", ")
				}
				p.to(p.site.partPlace(l.Part), l.Part.Title)
			}
			if l.Entry != nil {
				p.aside("", func() { p.toEntry(p.site.entryPlace(l.Entry), l.Entry) })
			}
		}, func() { p.sum(spend.Sum{l.Price}) })
	}
	p.endTable()
	p.endSection()
}

// moneyOf writes what was spent on a part beside its own price, and what it was sold for.
func (p *page) moneyOf(part *model.Part) {
	lines := slices.DeleteFunc(slices.Clone(p.site.spend.Lines), func(l spend.Line) bool { return l.Part != part || l.For == "" })
	if len(lines) == 0 {
		return
	}
	p.term("Besides", func() {
		for i, l := range lines {
			if i > 0 {
				p.put("; ")
			}
			p.text(l.For)
			p.put(" ")
			p.figure(l.Price.Shown())
			p.put(", ")
			p.when(l.Entry)
		}
	})
}
