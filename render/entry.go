package render

import (
	"strconv"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// entryPage is one entry, with the engine as it left it.
func (s *site) entryPage(p *page, i int) {
	e := s.entries[i]
	var left []*derive.Number
	plate := s.plateStill()
	if !e.Plan {
		left = s.asLeft(e)
		plate = s.plateAsLeft(e, left)
	}
	p.begin(head{title: e.Title, about: about(e), crumbs: []crumb{entriesCrumb}, plate: plate})
	p.entryFacts(e)
	if e.Body != nil {
		if e.Body.Title != nil && e.Body.Title.Text != e.Title {
			p.element("h2", e.Body.Title.Text)
			p.put("\n")
		}
		p.prose(e.Body, e.Links)
	}
	p.readings(e)
	p.pulls(e)
	p.partsOf(e)
	p.tasks(e)
	p.later(e)
	p.spent(e)
	p.leftNumbers(left)
	if list := s.findingsOf(e); len(list) > 0 {
		p.section("findings", "Findings")
		p.findings(list, false)
		p.endSection()
	}
	p.mentionList(entryThing(e.Path))
	p.neighbours(i)
	p.end()
}

func about(e *model.Entry) string {
	if e.Plan {
		return "A plan: " + e.Title + "."
	}
	return "Entry of " + e.Date.String() + ": " + e.Title + "."
}

// asLeft returns the numbers, as far as they are published and could be had, as an entry left them.
func (s *site) asLeft(e *model.Entry) []*derive.Number {
	var list []*derive.Number
	for _, n := range s.sums.AsLeft(e) {
		if n.Reason == "" && s.showsNumber(n) {
			list = append(list, n)
		}
	}
	return list
}

// entryFacts writes when and how the work was done.
func (p *page) entryFacts(e *model.Entry) {
	s := p.site
	p.put("<dl class=\"facts\">\n")
	switch {
	case e.Plan:
		p.textTerm("Day", "a plan: nothing in it has been done yet")
	case e.Date.IsZero():
		p.textTerm("Day", "can’t be read")
	default:
		p.term("Day", func() {
			p.day(e)
			if e.Date.Time != "" {
				p.put(", ")
				p.text(e.Date.Time)
			}
		})
	}
	if e.Meter != nil {
		p.term("Meter", func() { p.figure(e.Meter.Shown()) })
	}
	if e.MeterWas != nil {
		p.term("Old meter", func() { p.figure(e.MeterWas.Shown()) })
	}
	p.quantityTerm("Engine", e.EngineTemp)
	if v := e.Fields.Value("hours"); v != nil && !s.hides("hours") {
		p.term("Work", func() {
			p.written(v, quantity.Want{Dimensions: []quantity.Dimension{quantity.Duration}, Bare: quantity.UnitShown("h")})
		})
	}
	if len(e.With) > 0 && !s.hides("tools") {
		p.term("With", func() { p.toolRefs(e.With) })
	}
	if len(e.Tags) > 0 {
		p.term("Tags", func() {
			for i, tag := range e.Tags {
				if i > 0 {
					p.put(", ")
				}
				p.to(s.tagPlace(tag), tag)
			}
		})
	}
	p.put("</dl>\n")
}

func (p *page) quantityTerm(name string, q *quantity.Quantity) {
	if q != nil {
		p.term(name, func() { p.both(*q) })
	}
}

// written writes a figure of a sheet or a head, by what its place wants; its own text where that gives no figure.
func (p *page) written(v *parse.Value, want quantity.Want) {
	q, slip := v.Written.Resolve(want)
	if slip != nil {
		p.text(v.Written.Text)
		return
	}
	p.figure(q.Shown())
	if q.Words != "" {
		p.put(", ")
		p.text(q.Words)
	}
}

func (p *page) toolRefs(refs []model.Ref) {
	for i, ref := range refs {
		if i > 0 {
			p.put(", ")
		}
		if ref.Tool == nil {
			p.text(ref.Typed)
			continue
		}
		p.to(p.site.toolPlace(ref.Tool), ref.Tool.Title)
	}
}

// partsOf writes which parts the entry bought, fitted and took out.
func (p *page) partsOf(e *model.Entry) {
	if len(e.Bought)+len(e.Fitted)+len(e.Removed) == 0 {
		return
	}
	p.section("parts", "Parts")
	p.put("<dl class=\"facts\">\n")
	p.partRefs(e, "Bought", e.Bought, true)
	p.partRefs(e, "Fitted", e.Fitted, false)
	p.partRefs(e, "Taken out", e.Removed, false)
	p.put("</dl>\n")
	p.endSection()
}

func (p *page) partRefs(e *model.Entry, label string, refs []model.Ref, priced bool) {
	if len(refs) == 0 {
		return
	}
	s := p.site
	p.term(label, func() {
		for i, ref := range refs {
			if i > 0 {
				p.put("; ")
			}
			if ref.Part == nil {
				p.text(ref.Typed)
				continue
			}
			p.to(s.partPlace(ref.Part), ref.Part.Title)
			if priced && ref.Part.Price != nil && !s.hides("spend") {
				p.put(", ")
				p.figure(ref.Part.Price.Shown())
			}
			for _, c := range s.journal.Changes {
				if c.Entry == e && c.Ref.Part == ref.Part && c.Kind == model.Fits && c.Displaced != nil && label == "Fitted" {
					p.put(" in place of ")
					p.to(s.partPlace(c.Displaced), c.Displaced.Title)
				}
			}
		}
	})
}

// tasks writes how far the steps of the entry are, and which are open.
func (p *page) tasks(e *model.Entry) {
	if e.Body == nil || len(e.Body.Tasks) == 0 {
		return
	}
	var open []markdown.Task
	for _, task := range e.Body.Tasks {
		if !task.Done {
			open = append(open, task)
		}
	}
	p.section("steps", "Steps")
	p.put("<p>")
	p.text(strconv.Itoa(len(e.Body.Tasks)-len(open)) + " of " + counted(len(e.Body.Tasks), "step"))
	p.put(" done.</p>\n")
	if len(open) > 0 {
		p.put("<ul>\n")
		for _, task := range open {
			p.put(`<li><span class="mark" aria-hidden="true">☐</span> open: `)
			p.text(task.Text)
			p.put("</li>\n")
		}
		p.put("</ul>\n")
	}
	p.endSection()
}

// later writes the work that the entry says to come back to.
func (p *page) later(e *model.Entry) {
	tables := e.Fields.Tables("later")
	if len(tables) == 0 {
		return
	}
	p.section("later", "To come back to")
	p.put("<ul>\n")
	for i := range tables {
		table := &tables[i]
		p.put("<li>")
		p.text(table.Text("do").Text)
		values := table.Values("after")
		for i := range values {
			p.put(", after ")
			p.written(&values[i], quantity.Want{Dimensions: []quantity.Dimension{quantity.Length, quantity.Duration, quantity.Calendar}})
		}
		if f := table.Get("on"); f != nil && len(f.Dates) > 0 {
			p.put(", on ")
			p.text(f.Dates[0].String())
		}
		for _, name := range table.Names("reading") {
			p.put(": ")
			p.path(name.Name)
		}
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.endSection()
}

// spent writes what the entry cost beside parts.
func (p *page) spent(e *model.Entry) {
	if len(e.Spent) == 0 || p.site.hides("spend") {
		return
	}
	p.section("spent", "Spent")
	p.put("<ul>\n")
	for _, spent := range e.Spent {
		p.put("<li>")
		p.text(spent.For)
		p.put(": ")
		p.figure(spent.Price.Shown())
		if spent.Part.Part != nil {
			p.put(", for ")
			p.to(p.site.partPlace(spent.Part.Part), spent.Part.Part.Title)
		}
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.endSection()
}

// neighbours links to the entries before and after.
func (p *page) neighbours(i int) {
	s := p.site
	beside := func(j int) *model.Entry {
		if j < 0 || j >= len(s.entries) || s.entries[j].Plan != s.entries[i].Plan {
			return nil
		}
		return s.entries[j]
	}
	before, after := beside(i-1), beside(i+1)
	if before == nil && after == nil {
		return
	}
	p.put("<nav class=\"neighbours\" aria-label=\"Entries before and after\">\n<ul>\n")
	if before != nil {
		p.put("<li>Before: ")
		p.toEntry(s.entryPlace(before), before)
		p.put("</li>\n")
	}
	if after != nil {
		p.put("<li>After: ")
		p.toEntry(s.entryPlace(after), after)
		p.put("</li>\n")
	}
	p.put("</ul>\n</nav>\n")
}
