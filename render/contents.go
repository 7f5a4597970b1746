package render

import "slices"

// content is a section that the contents of a page lead to.
type content struct{ id, title string }

// fewSections is how many sections a page may have before it gets contents of its own.
const fewSections = 4

// insertContents puts the contents of a long page under its title, once all its sections are known.
func (p *page) insertContents() {
	if len(p.contents) <= fewSections {
		return
	}
	w := p.apart(nil)
	w.put("<nav class=\"contents\" aria-label=\"On this page\">\n<ul>\n")
	for _, c := range p.contents {
		w.put("<li>")
		w.to(place{p.name, c.id}, c.title)
		w.put("</li>\n")
	}
	w.put("</ul>\n</nav>\n")
	p.bytes = slices.Insert(p.bytes, p.top, w.bytes...)
}

// dropSection forgets the section that was opened last, which had nothing to say.
func (p *page) dropSection() { p.contents = p.contents[:len(p.contents)-1] }
