package render

import (
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/upkeep"
)

// claimsHead heads the column of claims in the list of parts, which has one where any part comes with a claim.
const claimsHead = "Claimed and measured"

// partsSheets list the parts: those in now, those in the drawer, those planned.
func (s *site) partsSheets() []sheet {
	heads := []string{"Part", "Place", "Since", "Mass"}
	if !s.Hides("spend") {
		heads = append(heads, "Price")
	}
	if s.hasClaims() {
		heads = append(heads, claimsHead)
	}
	var rows []listRow
	for _, group := range []struct {
		id, title string
		holds     func(*model.Part) bool
	}{
		{"fitted", "Fitted now", (*model.Part).IsFitted},
		{"drawer", "Not fitted now", func(part *model.Part) bool { return !part.IsFitted() && !part.IsPlanned() }},
		{"planned", "Planned", (*model.Part).IsPlanned},
	} {
		for _, part := range s.journal.Parts {
			if group.holds(part) {
				rows = append(rows, listRow{section: group.id, title: group.title, label: group.title, heads: heads, write: func(p *page) { p.partRow(part, heads) }})
			}
		}
	}
	rows = append(rows, s.placeRows()...)
	return s.listSheets(partsRun, partsCrumb, "Every part of the build: fitted now, taken out, and planned.", rows, orSays(rows, "<p>No parts are listed.</p>\n"))
}

// placeRows list what was in each place in turn: what was in on any day can be told from them. Places in which nothing was ever changed are left out.
func (s *site) placeRows() []listRow {
	type turn struct {
		part *model.Part
		stay model.Stay
	}
	turns := map[string][]turn{}
	moved := map[string]bool{}
	for _, part := range s.journal.Parts {
		for _, stay := range part.Stays {
			if part.Slot != "" {
				turns[part.Slot] = append(turns[part.Slot], turn{part, stay})
				moved[part.Slot] = moved[part.Slot] || stay.From != nil || stay.To != nil
			}
		}
	}
	var rows []listRow
	title := "Place by place, over time"
	for _, slot := range sorted(turns) {
		if !moved[slot] {
			continue
		}
		list := turns[slot]
		slices.SortStableFunc(list, func(a, b turn) int { return startOf(a.stay) - startOf(b.stay) })
		rows = append(rows, listRow{section: "places", title: title, label: title, heads: []string{"Place", "What was in it"}, write: func(p *page) {
			p.row(func() { p.text(slot) }, func() {
				for i, t := range list {
					if i > 0 {
						p.put("; ")
					}
					p.to(s.partPlace(t.part), t.part.Title)
					p.put(" from ")
					p.when(t.stay.From)
					if t.stay.To != nil {
						p.put(" to ")
						p.when(t.stay.To)
					}
				}
			})
		}})
	}
	return rows
}

// startOf is where in the order of entries a part went in; before all of them for what the machine came with.
func startOf(stay model.Stay) int {
	if stay.From == nil {
		return -1
	}
	return stay.From.Index
}

func (p *page) partRow(part *model.Part, heads []string) {
	s := p.site
	cells := []func(){
		func() { p.text(part.Slot) },
		func() { p.since(part) },
		func() {
			if f := part.Fields.Get("mass"); f != nil {
				p.keyFigures(f.Key, f.Figures)
			}
		},
	}
	if !s.Hides("spend") {
		cells = append(cells, func() {
			if part.Price != nil {
				p.figure(part.Price.Shown())
			}
		})
	}
	if slices.Contains(heads, claimsHead) {
		cells = append(cells, func() { p.claimedAndMeasured(part) })
	}
	p.row(func() { p.to(s.partPlace(part), part.Title) }, cells...)
}

// hasClaims reports whether a part comes with a claim.
func (s *site) hasClaims() bool {
	return slices.ContainsFunc(s.journal.Parts, func(part *model.Part) bool { return part.Fields.Table("claim") != nil })
}

// since says when a part's newest time in began, or ended, or when it was bought.
func (p *page) since(part *model.Part) {
	switch {
	case len(part.Stays) == 0 && part.Bought != nil:
		p.put("bought ")
		p.when(part.Bought)
	case len(part.Stays) == 0:
	case part.IsFitted():
		p.when(part.Stays[len(part.Stays)-1].From)
	default:
		p.put("out ")
		p.when(part.Stays[len(part.Stays)-1].To)
	}
}

// when writes an entry as a moment, linked to it: nil is the start.
func (p *page) when(e *model.Entry) {
	switch {
	case e == nil:
		p.put("the start")
	case !p.site.ShowsEntry(e):
		p.put("an entry that is not published")
	case e.Date.IsZero():
		p.to(p.site.entryPlace(e), e.Title)
	default:
		link := p.open(p.site.entryPlace(e))
		p.day(e)
		if link {
			p.put("</a>")
		}
	}
}

// partPage is one part: what it is, when it was in, what it needs and brings.
func (s *site) partPage(p *page, part *model.Part) {
	p.begin(head{title: part.Title, about: "The part " + part.Title + ": when it was in, what it needs, what it brings.", crumbs: []crumb{partsCrumb}, plate: s.plateStill()})
	p.put("<dl class=\"facts\">\n")
	p.term("Name", func() { p.element("code", part.Name) })
	p.textTerm("Place", part.Slot)
	p.term("State", func() { p.partState(part) })
	if part.Price != nil && !s.Hides("spend") {
		p.term("Price", func() { p.figure(part.Price.Shown()) })
	}
	p.moneyOf(part)
	for _, key := range [][2]string{{"mass", "Mass"}, {"meter", "Had run before"}, {"every", "Due every"}} {
		p.keyTerm(key[1], part.Fields.Get(key[0]))
	}
	p.upkeepTerm(func(item *upkeep.Item) bool { return item.Part == part })
	if ran, ok := s.running.Of(part); ok {
		p.term("Has run", func() {
			p.figure(ran.Shown())
			if part.Stays[0].From == nil {
				p.put(", as far as the journal goes back")
			}
		})
	}
	p.claim(part)
	p.measured(part)
	p.needs(part)
	p.textTerm("Source", part.Fields.Text("source").Text)
	p.textTerm("Note", part.Fields.Text("note").Text)
	p.put("</dl>\n")
	p.brings(part)
	p.partLimits(part)
	p.then(part)
	p.readMeanwhile(part)
	p.mentionList(partThing(part.Name))
	p.end()
}

func (p *page) partState(part *model.Part) {
	if part.IsPlanned() {
		p.put("planned")
		return
	}
	if part.Bought != nil {
		p.put("bought ")
		p.when(part.Bought)
	} else if part.AsMade {
		p.put("came with the machine")
	}
	for i, stay := range part.Stays {
		if i > 0 || part.Bought != nil || part.AsMade {
			p.put("; ")
		}
		p.put("in from ")
		p.when(stay.From)
		if stay.To == nil {
			p.put(" until now")
		} else {
			p.put(" to ")
			p.when(stay.To)
		}
		if ran, ok := p.site.running.During(stay); ok && ran.Value > 0 && len(part.Stays) > 1 {
			p.put(", ")
			p.figure(ran.Shown())
		}
	}
}

func (p *page) claim(part *model.Part) {
	if part.Fields.Table("claim") != nil {
		p.term("Claim", func() { p.promises(part) })
	}
}

// promises writes what a part's maker or seller claims.
func (p *page) promises(part *model.Part) {
	claim := part.Fields.Table("claim")
	if claim == nil {
		return
	}
	for i, f := range claim.List {
		if len(f.Figures) == 0 {
			continue
		}
		if i > 0 {
			p.put(", ")
		}
		p.text(f.Key.Name + " ")
		p.written(&f.Figures[0], f.Key.Want())
	}
}

func (p *page) needs(part *model.Part) {
	for _, key := range [][2]string{{"needs", "Needs"}, {"gives", "Gives"}, {"clashes", "Clashes with"}} {
		names := part.Fields.Names(key[0])
		if len(names) == 0 {
			continue
		}
		p.term(key[1], func() {
			for i, name := range names {
				if i > 0 {
					p.put(", ")
				}
				p.partName(name)
				if key[0] == "needs" {
					p.givers(name.Name)
				}
			}
		})
	}
}

func (p *page) partName(name parse.Name) {
	if part := p.site.journal.Part(name.Name); part != nil {
		p.to(p.site.partPlace(part), part.Title)
		return
	}
	p.text(name.Typed)
}

// givers writes the parts that give what another needs.
func (p *page) givers(need string) {
	first := true
	for _, part := range p.site.givers[need] {
		if part.Name == need {
			continue
		}
		if first {
			p.put(" (given by ")
		} else {
			p.put(", ")
		}
		first = false
		p.to(p.site.partPlace(part), part.Title)
	}
	if !first {
		p.put(")")
	}
}

// brings writes the values that hold while the part is fitted.
func (p *page) brings(part *model.Part) {
	s := p.site
	first := true
	for i := range part.Brings {
		r := &part.Brings[i]
		if s.IsMoney(r.Path) {
			continue
		}
		if first {
			p.section("brings", "Brings, while fitted")
			p.put("<dl class=\"facts\">\n")
		}
		first = false
		p.put("<div><dt>")
		p.path(r.Path)
		p.put("</dt><dd>")
		p.brought(part, r)
		p.put("</dd></div>\n")
	}
	if !first {
		p.put("</dl>\n")
		p.endSection()
	}
}

// brought writes what a part brings to a path: as it was judged when it went in, else as its sheet has it.
func (p *page) brought(part *model.Part, r *parse.Reading) {
	for _, v := range p.site.journal.History(firstOf(p.site.journal.Positions.Below(r.Path))) {
		if v.Part == part && v.Path == r.Path {
			p.value(v)
			return
		}
	}
	want := quantity.Want{}
	if pattern := parse.FindPattern(r.Path); pattern != nil {
		want.Dimensions, want.Ratio = pattern.Dimensions, pattern.Ratio
	}
	p.written(&r.Value, want)
}

func firstOf(list []string) string {
	if len(list) == 0 {
		return ""
	}
	return list[0]
}

func (p *page) partLimits(part *model.Part) {
	s := p.site
	first := true
	for _, l := range part.Limits {
		if !isLimit(l) || !s.ShowsLimit(l) {
			continue
		}
		if first {
			p.section("limits", "Limits, while fitted")
			p.put("<dl class=\"facts\">\n")
		}
		first = false
		p.put("<div><dt>")
		p.pathTo(s.limitPlace(l), l.Path)
		p.put("</dt><dd>")
		p.limit(l)
		p.put("</dd></div>\n")
	}
	if !first {
		p.put("</dl>\n")
		p.endSection()
	}
}

// then writes what has to be read once the part is in, and whether it has been.
func (p *page) then(part *model.Part) {
	names := part.Fields.Names("then")
	if len(names) == 0 {
		return
	}
	p.section("then", "To be read once it is in")
	p.put("<ul>\n")
	for _, name := range names {
		p.put("<li>")
		p.path(name.Name)
		for _, r := range p.site.journal.Requests {
			if r.Part == part && r.Path == name.Name {
				p.put(": <strong>not yet</strong>")
			}
		}
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.endSection()
}
