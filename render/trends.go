package render

import (
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/upkeep"
)

// trendRows list how readings drift, and when they leave their limits if they go on so.
func (s *site) trendRows() []listRow {
	var rows []listRow
	for i := range s.trends {
		t := &s.trends[i]
		if t.Reason != "" {
			continue
		}
		title := "If it goes on like this"
		rows = append(rows, listRow{section: "trends", title: title, label: title, heads: []string{"Where", "Drifts by", "Leaves its limit at", "In"}, write: func(p *page) {
			p.row(func() { p.path(t.Path) }, func() { p.drift(t) }, func() { p.leaves(t) }, func() {
				if t.Left < 0 {
					p.put("past already: read it again")
					return
				}
				left, _ := quantity.ShowEstimate(quantity.Estimate{Value: t.Left, Dimension: t.At.Dimension, Shares: t.At.Shares}, s.journal.Meter)
				p.figure(left)
			})
		}})
	}
	return rows
}

// drift writes by how much a reading drifts in a thousand of the meter's kilometres or miles, or a hundred of its hours, with its expanded uncertainty.
func (p *page) drift(t *upkeep.Trend) {
	meter, per := p.site.journal.Meter, 1000.0
	if meter.Dimension == quantity.Duration {
		per = 100
	}
	si := meter.SI(per)
	u := differenceUnit(t.Values[len(t.Values)-1].Quantity.Unit)
	by := quantity.Estimate{Value: t.Slope.Value * si, Dimension: u.Dimension, Shares: []quantity.Share{{Std: t.Slope.Std() * si}}}
	figure, spread := quantity.ShowEstimate(by, u)
	p.figure(quantity.Shown{Number: figure.Signed(by.Value).Number + " ± " + spread.Number, Unit: spread.Unit})
	p.put(" in ")
	p.figure(quantity.Show(si, meter, meter.SI(1)))
	p.aside("told from ", func() { p.text(quantity.Counted(len(t.Values), "reading")) })
}

// leaves writes what the meter will show when a reading leaves its limit, or why that can't be told.
func (p *page) leaves(t *upkeep.Trend) {
	if t.Reason != "" {
		p.put("– ")
		p.message(t.Reason)
		return
	}
	at, spread := quantity.ShowEstimate(t.At, p.site.journal.Meter)
	p.figure(quantity.Shown{Number: at.Number + " ± " + spread.Number, Unit: spread.Unit})
	p.aside("past ", func() { p.figure(t.Limit.Show(t.Bound)) })
}

// driftOf writes how a path drifts, where that can be told.
func (p *page) driftOf(path string) {
	for i := range p.site.trends {
		t := &p.site.trends[i]
		if t.Path != path {
			continue
		}
		p.put("<dl class=\"facts\">\n")
		p.term("Drifts by", func() { p.drift(t) })
		p.term("Leaves its limit at", func() { p.leaves(t) })
		p.put("</dl>\n")
	}
}
