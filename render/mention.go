package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
)

// mention is something on the site that mentions a thing, and how.
type mention struct {
	at    place
	title string
	how   []string
}

// thing is what can be mentioned.
type thing struct{ kind, name string }

func partThing(name string) thing  { return thing{"part", name} }
func toolThing(name string) thing  { return thing{"tool", name} }
func pathThing(path string) thing  { return thing{"path", path} }
func entryThing(path string) thing { return thing{"entry", path} }

// mentioned notes that something mentions a thing. What mentions it in several ways, one after the other, stands once.
func (s *site) mentioned(t thing, at place, title, how string) {
	list := s.mentions[t]
	if n := len(list); n == 0 || list[n-1].at != at {
		s.mentions[t] = append(list, mention{at, title, []string{how}})
	} else if !slices.Contains(list[n-1].how, how) {
		list[n-1].how = append(list[n-1].how, how)
	}
}

// gatherMentions finds out what mentions each part, tool, path and entry.
func (s *site) gatherMentions() {
	s.mentions = map[thing][]mention{}
	for _, link := range s.journal.Home {
		s.mentionedByLink(link, place{page: "index.html"}, "The build")
	}
	for _, e := range s.Entries {
		s.mentionedBy(e)
	}
	for _, part := range s.journal.Parts {
		at := s.partPlace(part)
		for _, name := range part.Fields.Names("then") {
			s.mentioned(pathThing(name.Name), at, part.Title, "asks for it once fitted")
		}
		for _, r := range part.Brings {
			s.mentioned(pathThing(r.Path), at, part.Title, "brings it")
		}
		for _, name := range part.Fields.Names("clashes") {
			s.mentioned(partThing(name.Name), at, part.Title, "clashes with it")
		}
		for _, need := range part.Fields.Names("needs") {
			for _, other := range s.givers[need.Name] {
				if other != part {
					s.mentioned(partThing(other.Name), at, part.Title, "needs what it gives")
				}
			}
		}
	}
}

// gatherGivers finds the parts that are, or give, what others may need, by its name.
func (s *site) gatherGivers() {
	s.givers = map[string][]*model.Part{}
	for _, part := range s.journal.Parts {
		s.givers[part.Name] = append(s.givers[part.Name], part)
		for _, name := range part.Fields.Names("gives") {
			if name.Name != part.Name {
				s.givers[name.Name] = append(s.givers[name.Name], part)
			}
		}
	}
}

func (s *site) mentionedBy(e *model.Entry) {
	at, title := s.entryPlace(e), entryTitle(e)
	for _, list := range []struct {
		refs []model.Ref
		how  string
	}{{e.Bought, "bought"}, {e.Fitted, "fitted"}, {e.Removed, "took out"}} {
		how := list.how
		if e.Plan {
			how = "plans: " + how
		}
		for _, ref := range list.refs {
			s.mentioned(partThing(ref.Name.Name), at, title, how)
		}
	}
	for _, ref := range e.With {
		s.mentioned(toolThing(ref.Name.Name), at, title, "used")
	}
	for _, v := range e.Values {
		if v.Tool != nil {
			s.mentioned(toolThing(v.Tool.Name), at, title, "read with it")
		}
	}
	for _, p := range e.Pulls {
		if p.Dyno != nil {
			s.mentioned(toolThing(p.Dyno.Name), at, title, "pulls")
		}
	}
	for _, l := range e.Logs {
		if l.Meter != nil {
			s.mentioned(toolThing(l.Meter.Name), at, title, "logs")
		}
	}
	for _, name := range e.Fields.Names("expects") {
		s.mentioned(pathThing(name.Name), at, title, "expects it")
	}
	for _, table := range e.Fields.Tables("later") {
		for _, name := range table.Names("reading") {
			s.mentioned(pathThing(name.Name), at, title, "asks for it later")
		}
	}
	for _, link := range e.Links {
		s.mentionedByLink(link, at, title)
	}
}

// mentionedByLink notes what a link in a text leads to.
func (s *site) mentionedByLink(link *model.Mention, at place, title string) {
	if link.Broken != "" {
		return
	}
	const how = "mentions it"
	if link.Part != nil {
		s.mentioned(partThing(link.Part.Name), at, title, how)
	}
	if link.Tool != nil {
		s.mentioned(toolThing(link.Tool.Name), at, title, how)
	}
	if link.Target != nil && link.Target != link.Entry {
		s.mentioned(entryThing(link.Target.Path), at, title, how)
	}
	if link.Limit != nil {
		s.mentioned(pathThing(link.Limit.Path), at, title, "mentions its limit")
	}
	if link.Value == nil {
		return
	}
	for _, path := range slices.Compact([]string{link.Path, link.Value.Path}) {
		s.mentioned(pathThing(path), at, title, how)
	}
	if from := link.Value.Entry; from != nil && from != link.Entry {
		s.mentioned(entryThing(from.Path), at, title, "mentions a value of it")
	}
}

// entryTitle is how an entry stands in a list: its day, if it has one, and its title.
func entryTitle(e *model.Entry) string {
	if e.Date.IsZero() || strings.HasPrefix(e.Title, e.Date.String()) {
		return e.Title
	}
	return e.Date.String() + " " + e.Title
}

// mentionsRun is the list of what mentions a thing: it begins on the page of the thing.
func mentionsRun(first string) run {
	return run{first, first[:len(first)-len(".html")] + "_mentions-", "what mentions it"}
}

// mentionList writes what mentions the thing of a page, the first of it where it is much.
func (p *page) mentionList(t thing) {
	if len(p.site.mentions[t]) > 0 {
		p.mentionPage(t, mentionsRun(p.name), 0)
	}
}

// mentionPage writes one page, counted from 0, of the list of what mentions a thing.
func (p *page) mentionPage(t thing, r run, i int) {
	pages := paged(p.site.mentions[t])
	p.section("mentions", "Mentioned by")
	p.put("<ul class=\"mentions\">\n")
	for _, m := range pages[i] {
		p.put("<li>")
		p.to(m.at, m.title)
		for i, how := range m.how {
			if i == 0 {
				p.put(`: <span class="how">`)
			} else {
				p.put(", ")
			}
			p.text(how)
		}
		p.put("</span></li>\n")
	}
	p.put("</ul>\n")
	p.pager(r, len(pages))
	p.endSection()
}

// mentionSheets are the pages on which the list of what mentions a thing goes on. The last of the crumbs is the thing.
func (s *site) mentionSheets(t thing, crumbs ...crumb) []sheet {
	if len(s.mentions[t]) <= perPage {
		return nil
	}
	own := crumbs[len(crumbs)-1]
	r := mentionsRun(own.at.page)
	var sheets []sheet
	for i := 1; i < len(paged(s.mentions[t])); i++ {
		sheets = append(sheets, sheet{r.page(i), func(p *page) {
			p.begin(head{title: numbered(own.title, i), about: "What else mentions " + own.title + ".", crumbs: crumbs, plate: s.plateStill()})
			p.mentionPage(t, r, i)
			p.end()
		}})
	}
	return sheets
}
