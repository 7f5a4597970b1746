package render

import (
	"example.org/locknut/journal/bench"
	"example.org/locknut/journal/caution"
	"example.org/locknut/journal/model"
)

var cautionsCrumb = crumb{place{page: "cautions.html"}, "Cautions"}

// cardCautions writes what to mind at the work of a card.
func (p *page) cardCautions(c *bench.Card) {
	p.section("cautions", "Mind")
	p.put("<ul class=\"cautions\">\n")
	for _, caution := range c.Cautions {
		p.put("<li><strong>")
		p.to(place{cautionsCrumb.at.page, caution.Name}, caution.Title)
		p.put(".</strong> ")
		p.text(caution.Text)
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
	list := caution.Of(e, bench.Paths(e))
	if len(list) == 0 {
		return
	}
	p.term("Mind", func() {
		for i, c := range list {
			if i > 0 {
				p.put("; ")
			}
			p.to(place{cautionsCrumb.at.page, c.Name}, c.Title)
		}
	})
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
