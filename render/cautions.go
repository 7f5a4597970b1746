package render

import (
	"example.org/locknut/journal/bench"
	"example.org/locknut/journal/caution"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parallel"
)

var cautionsCrumb = crumb{place{page: "cautions.html"}, "Cautions"}

// cardCautions writes what to mind at the work of a card.
func (p *page) cardCautions(e *model.Entry) {
	p.section("cautions", "Mind")
	p.put("<ul class=\"cautions\">\n")
	for c := range p.site.cautions[e.Index].Each {
		p.put("<li><strong>")
		p.to(place{cautionsCrumb.at.page, c.Name}, c.Title)
		p.put(".</strong> ")
		p.text(c.Text)
		p.put("</li>\n")
	}
	p.put("</ul>\n<p>")
	p.text(caution.Defers)
	p.put("</p>\n")
	p.endSection()
}

// mind names the cautions for the work of an entry, each linked to what it says, and links to its card.
func (p *page) mind(e *model.Entry) {
	s := p.site
	if s.benchPlace(e).page != "" {
		p.term("On paper", func() { p.to(s.benchPlace(e), "bench card") })
	}
	if s.cautions[e.Index] == 0 {
		return
	}
	p.term("Mind", func() {
		between := literal("")
		for c := range s.cautions[e.Index].Each {
			p.put(between)
			between = "; "
			p.to(place{cautionsCrumb.at.page, c.Name}, c.Title)
		}
	})
}

// gatherCautions finds what the work of each published entry calls for.
func (s *site) gatherCautions() {
	s.cautions = make([]caution.Set, len(s.journal.Entries))
	parallel.Each(len(s.Entries), func(i int) { s.cautions[s.Entries[i].Index] = caution.Of(s.Entries[i], bench.Paths(s.Entries[i])) })
}

// cautionsPage is all cautions, each with who says so.
func (s *site) cautionsPage(p *page) {
	p.begin(head{title: cautionsCrumb.title, about: "What can hurt at this kind of work, what to do about it, and who says so.", plate: s.plateStill()})
	p.put("<p>")
	p.text(caution.Defers)
	p.put(" These are the usual ones, by kind of work; they are not all that there are.</p>\n<dl class=\"cautions\">\n")
	for _, c := range caution.All {
		p.put("<div")
		p.id(c.Name)
		p.put(">")
		p.element("dt", c.Title)
		p.put("<dd>")
		p.text(c.Text)
		p.aside("Source: ", func() { p.text(c.Source) })
		p.put("</dd></div>\n")
	}
	p.put("</dl>\n")
	p.end()
}
