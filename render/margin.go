package render

import (
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
)

// margin writes the readings that a block of prose talks about, to stand beside it: each once a page, with its limit and its verdict. In an
// entry these are its own: what another day gave has its place there.
func (p *page) margin(dst []byte, holes []markdown.Hole, links []*model.Mention) []byte {
	w := p.apart(dst)
	first := true
	for i := range holes {
		if holes[i].N >= len(links) {
			continue
		}
		link := links[holes[i].N]
		v := link.Value
		if v == nil || link.Entry != nil && v.Entry != link.Entry || link.Broken != "" || p.told[v] || !p.site.ShowsValue(v) || v.Words == "" && v.Quantity.Unit == nil {
			continue
		}
		p.told[v] = true
		if first {
			w.put("<ul class=\"margin\" aria-label=\"Readings\">\n")
		}
		first = false
		w.put("<li>")
		w.marginReading(v)
		w.put("</li>\n")
	}
	if !first {
		w.put("</ul>\n")
	}
	return w.bytes
}

// marginReading writes one reading. Its figure alone is a link, to its row: lines as close as these would leave no room to hit a second one. It
// is told in its own unit, by the standard alone: the row has the rest.
func (p *page) marginReading(v *model.Value) {
	p.pathTo(place{}, v.Path)
	p.put(` <span class="read">`)
	link := p.open(p.site.valuePlace(v))
	p.text(plainValue(v))
	if link {
		p.put("</a>")
	}
	p.put("</span>")
	if v.Limit == nil || !p.site.ShowsLimit(v.Limit) {
		return
	}
	p.put(" ")
	p.judged(v)
	p.put(` <span class="held">`)
	p.beside(p.site.stripOf(v))
	if len(v.Limit.Expect) > 0 {
		p.limit(v.Limit)
	} else {
		p.figures(standardOf(v.Limit), nil)
	}
	p.put("</span>")
}
