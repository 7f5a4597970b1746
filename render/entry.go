package render

import (
	"strconv"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// entryPage is one entry, with the engine as it left it.
func (s *site) entryPage(p *page, i int) {
	e := s.Entries[i]
	plate := s.plateStill()
	if !e.Plan {
		plate = s.plateAsLeft(e, p.asLeft(e))
	}
	p.begin(head{title: e.Title, about: about(e), crumbs: []crumb{entriesCrumb}, plate: plate})
	p.entryFacts(e)
	if e.Body.Title != nil && e.Body.Title.Text != e.Title {
		p.element("h2", e.Body.Title.Text)
		p.put("\n")
	}
	p.prose(e.Body, e.Links)
	p.readings(e)
	p.pulls(e)
	p.logs(e)
	p.partsOf(e)
	p.tasks(e)
	p.later(e)
	p.spent(e)
	p.foundNumbers(e)
	p.leftNumbers(e)
	if list := s.found.at[e]; len(list) > 0 {
		p.section("findings", "Findings")
		p.findings(list, excerpt)
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
	if e.Date.IsZero() {
		return "Entry: " + e.Title + "."
	}
	return "Entry of " + e.Date.String() + ": " + e.Title + "."
}

// asLeft returns the published numbers as an entry left the engine, of those that it has a bearing on. They are worked out once a page.
func (p *page) asLeft(e *model.Entry) []*derive.Number {
	list, there := p.left[e]
	if !there {
		for _, n := range p.site.sums.ChangedBy(e) {
			if p.site.ShowsNumber(n) {
				list = append(list, n)
			}
		}
		p.left[e] = list
	}
	return list
}

// entryFacts writes when and how the work was done.
func (p *page) entryFacts(e *model.Entry) {
	s := p.site
	p.put("<dl class=\"facts\">\n")
	p.dayTerm(e)
	if e.Meter != nil {
		p.term("Meter", func() { p.figure(e.Meter.Shown()) })
	}
	if e.MeterDoubted != nil {
		p.term("Meter", func() { p.figure(e.MeterDoubted.Shown()); p.put(", not believed") })
	}
	if e.MeterWas != nil {
		p.term("Old meter", func() { p.figure(e.MeterWas.Shown()) })
	}
	p.quantityTerm("Engine", e.EngineTemp)
	if !s.Hides("hours") {
		p.keyTerm("Work", e.Fields.Get("hours"))
	}
	if len(e.With) > 0 && !s.Hides("tools") {
		p.term("With", func() { p.toolRefs(e.With) })
	}
	if reads := e.Fields.Names("expects"); e.Plan && len(reads) > 0 {
		p.term("Will read", func() {
			for i, name := range reads {
				if i > 0 {
					p.put(", ")
				}
				p.path(name.Name)
			}
		})
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
	p.mind(e)
	p.put("</dl>\n")
}

// dayTerm writes the day of an entry.
func (p *page) dayTerm(e *model.Entry) {
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
}

func (p *page) quantityTerm(name string, q *quantity.Quantity) {
	if q != nil {
		p.term(name, func() { p.both(*q) })
	}
}

// written writes a figure of a sheet or a head, by what its place wants; its own text where that gives no figure.
func (p *page) written(v *parse.Value, want quantity.Want) {
	q, slip := v.Resolve(want)
	if slip != nil {
		p.text(v.Text)
		return
	}
	p.figure(q.Shown())
	if q.Words != "" {
		p.put(", ")
		p.text(q.Words)
	}
}

// keyFigures writes the figures of a key, any of which may come first.
func (p *page) keyFigures(key *parse.Key, values []parse.Value) {
	for i := range values {
		if i > 0 {
			p.put(" or ")
		}
		p.written(&values[i], key.Want())
	}
}

// keyTerm writes a key's figures as a term; nothing where it has none.
func (p *page) keyTerm(name string, f *parse.Field) {
	if f != nil && len(f.Figures) > 0 {
		p.term(name, func() { p.keyFigures(f.Key, f.Figures) })
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
	p.partTerms(e)
	p.put("</dl>\n")
	p.endSection()
}

func (p *page) partTerms(e *model.Entry) {
	s := p.site
	p.partRefs("Bought", e.Bought, func(part *model.Part) {
		if part.Price != nil && !s.Hides("spend") {
			p.put(", ")
			p.figure(part.Price.Shown())
		}
	})
	p.partRefs("Fitted", e.Fitted, func(part *model.Part) {
		if other := s.displaced[fit{e, part}]; other != nil {
			p.put(" in place of ")
			p.to(s.partPlace(other), other.Title)
		}
	})
	p.partRefs("Taken out", e.Removed, func(*model.Part) {})
}

// partRefs writes parts, and after each that is listed what else there is to say of it.
func (p *page) partRefs(label string, refs []model.Ref, more func(*model.Part)) {
	if len(refs) == 0 {
		return
	}
	p.term(label, func() {
		for i, ref := range refs {
			if i > 0 {
				p.put("; ")
			}
			if ref.Part == nil {
				p.text(ref.Typed)
				continue
			}
			p.to(p.site.partPlace(ref.Part), ref.Part.Title)
			more(ref.Part)
		}
	})
}

// tasks writes how far the steps of the entry are, and which are open.
func (p *page) tasks(e *model.Entry) {
	all, open := countSteps(e)
	if all == 0 {
		return
	}
	p.section("steps", "Steps")
	p.put("<p>")
	p.text(strconv.Itoa(all-open) + " of " + quantity.Counted(all, "step"))
	p.put(" done.</p>\n")
	if open > 0 {
		p.put("<ul>\n")
		for task := range openSteps(e) {
			p.put(`<li><span class="mark" aria-hidden="true">☐</span> open: `)
			p.stepText(e, task)
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
		if f := table.Get("after"); f != nil && len(f.Figures) > 0 {
			p.put(", after ")
			p.keyFigures(f.Key, f.Figures)
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
	if len(e.Spent) == 0 || p.site.Hides("spend") {
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
		if j < 0 || j >= len(s.Entries) || s.Entries[j].Plan != s.Entries[i].Plan {
			return nil
		}
		return s.Entries[j]
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
