package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/upkeep"
)

var upkeepCrumb = crumb{place{page: "upkeep.html"}, "Upkeep"}

// gatherUpkeep finds what there is to do again, as far as published entries tell it.
func (s *site) gatherUpkeep() {
	s.upkeep = slices.DeleteFunc(upkeep.OfShown(s.journal, s.ShowsEntry), func(item upkeep.Item) bool {
		return item.Kind == upkeep.Calibration && s.Hides("tools") || item.Limit != nil && !s.ShowsLimit(item.Limit)
	})
}

// upkeepSheets list what there is to do again, the most pressing first.
func (s *site) upkeepSheets() []sheet {
	heads := []string{"What", "State", "Every", "Gone by", "Up", "Last done"}
	titles := map[upkeep.State]string{upkeep.Overdue: "Overdue", upkeep.Due: "Due", upkeep.Soon: "Soon", upkeep.Unclear: "Can’t be reckoned", upkeep.Fine: "Not yet"}
	var rows []listRow
	for i := range s.upkeep {
		item := &s.upkeep[i]
		title := titles[item.State]
		rows = append(rows, listRow{section: "is-" + strings.ReplaceAll(item.State.String(), " ", "-"), title: title, label: title, heads: heads, write: func(p *page) {
			p.row(func() { p.upkeepName(item) }, func() { p.upkeepState(item.State) }, func() { p.eachSpan(item, p.spanEvery) },
				func() { p.eachSpan(item, p.spanUsed) }, func() { p.eachSpan(item, p.spanUp) }, func() { p.lastDone(item) })
		}})
	}
	return s.listSheets(upkeepRun, upkeepCrumb, "What there is to do again, and when.", append(rows, s.trendRows()...), nil)
}

// hasUpkeep reports whether there is anything to do again, or anything drifts out of its limit.
func (s *site) hasUpkeep() bool {
	return len(s.upkeep) > 0 || len(s.trends) > 0 && s.trends[0].Reason == ""
}

// upkeepName says what is to be done, linked to what asks for it.
func (p *page) upkeepName(item *upkeep.Item) {
	s := p.site
	switch item.Kind {
	case upkeep.Reading:
		p.pathTo(s.askedPlace(item.Limit), item.Path)
		if item.Title != "" {
			p.aside("", func() { p.text(item.Title) })
		}
	case upkeep.Renewal:
		p.to(s.partPlace(item.Part), item.Title)
		p.aside("renew it", func() {})
	case upkeep.Calibration:
		p.to(s.toolPlace(item.Tool), item.Title)
		p.aside("calibrate it", func() {})
	case upkeep.Later:
		p.to(s.entryPlace(item.Entry), item.Title)
	}
}

// askedPlace is where a limit that asks for a reading stands: on the page of its path, else in the list of limits.
func (s *site) askedPlace(l *model.Limit) place {
	if at := s.limitPlace(l); at.page != "" {
		return at
	}
	return limitsCrumb.at
}

// upkeepState writes a state as a word with its own mark.
func (p *page) upkeepState(state upkeep.State) {
	marks := [...]literal{
		upkeep.Fine:    `<span class="verdict in"><span class="mark" aria-hidden="true">✓</span> not yet</span>`,
		upkeep.Unclear: `<span class="verdict undecided"><span class="mark" aria-hidden="true">?</span> unclear</span>`,
		upkeep.Soon:    `<span class="verdict worn"><span class="mark" aria-hidden="true">◔</span> soon</span>`,
		upkeep.Due:     `<span class="verdict worn"><span class="mark" aria-hidden="true">●</span> due</span>`,
		upkeep.Overdue: `<span class="verdict out"><span class="mark" aria-hidden="true">✕</span> overdue</span>`,
	}
	p.put(marks[state])
}

// eachSpan writes something of each interval on a line of its own.
func (p *page) eachSpan(item *upkeep.Item, write func(upkeep.Span)) {
	for i, span := range item.Spans {
		if i > 0 {
			p.put("<br>")
		}
		write(span)
	}
}

func (p *page) spanEvery(s upkeep.Span) {
	if s.Every.Unit == nil {
		if s.On.IsZero() {
			p.put("–")
			return
		}
		p.put("by its day")
		return
	}
	p.figure(s.Every.Shown())
}

func (p *page) spanUsed(s upkeep.Span) {
	switch {
	case s.Reason != "":
		p.put("– ")
		p.message(s.Reason)
	case !s.On.IsZero():
		p.text(quantity.Counted(int(s.Used), "day"))
	default:
		p.figure(quantity.Show(s.Used, s.Meter.Unit, s.Meter.StepSI()))
	}
}

func (p *page) spanUp(s upkeep.Span) {
	switch {
	case s.Reason != "":
		p.put("–")
	case !s.On.IsZero():
		p.date(s.On)
	default:
		p.figure(s.Meter.Shown())
	}
}

func (p *page) lastDone(item *upkeep.Item) {
	switch {
	case item.Kind == upkeep.Calibration && !item.Never:
		p.text(item.Day.String())
	case item.Kind == upkeep.Later:
		p.put("asked for on ")
		p.when(item.Since)
	case item.Never:
		p.put("never written down")
	default:
		p.when(item.Since)
	}
	if len(item.Missing) > 0 {
		p.aside("never read: ", func() { p.text(strings.Join(item.Missing, ", ")) })
	}
}

// upkeepTerm writes when the upkeep of a thing is up, and how far it is.
func (p *page) upkeepTerm(is func(*upkeep.Item) bool) {
	for i := range p.site.upkeep {
		item := &p.site.upkeep[i]
		if !is(item) {
			continue
		}
		p.term("Up", func() {
			for k, span := range item.Spans {
				if k > 0 {
					p.put(" or ")
				}
				p.spanUp(span)
			}
			p.put(": ")
			p.upkeepState(item.State)
		})
	}
}

// pressing writes on the front page what is due, and what soon will be.
func (p *page) pressing() {
	var items []*upkeep.Item
	for i := range p.site.upkeep {
		if item := &p.site.upkeep[i]; item.State >= upkeep.Soon {
			items = append(items, item)
		}
	}
	if len(items) == 0 {
		return
	}
	p.section("due", "Due, and soon")
	p.put("<ul>\n")
	for _, item := range items[:min(worstFindings, len(items))] {
		p.put("<li>")
		p.upkeepState(item.State)
		p.put(" ")
		p.upkeepName(item)
		p.put("</li>\n")
	}
	p.put("</ul>\n<p>")
	p.to(upkeepCrumb.at, "All upkeep")
	p.put("</p>\n")
	p.endSection()
}
