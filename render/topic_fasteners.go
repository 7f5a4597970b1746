package render

import (
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// fastenerRows are the card of torques: what each fastener is pulled down to in both systems, with what, and what that does to it.
func fastenerRows(s *site) []listRow {
	const title = "Torques"
	heads := []string{"Fastener", "To", "Thread", "Spanner", "Pulled to", "Preload", "Of its strength"}
	var rows []listRow
	for _, path := range s.Positions("torque") {
		l := s.journal.LimitAt(path, nil)
		if l != nil && !s.ShowsLimit(l) {
			l = nil
		}
		v := s.inForce(path)
		if l == nil && v == nil || path == "torque" {
			continue
		}
		rows = append(rows, listRow{"torques", title, title, heads, func(p *page) { p.torqueRow(path, l, v) }})
	}
	return rows
}

func (p *page) torqueRow(path string, l *model.Limit, v *model.Value) {
	below := strings.TrimPrefix(path, "torque.")
	p.row(func() { p.pathTo(p.site.pathPlace(path), below) }, func() {
		if l == nil {
			p.put("no limit")
			return
		}
		for _, step := range l.Steps {
			p.inBoth([]quantity.Quantity{step})
			p.put(" then ")
		}
		p.put(p.site.limitedBoth[l])
		if l.Basis == "assumed" {
			p.put(` <strong class="assumed">assumed</strong>`)
		}
		if order := l.Key("order").Text; order != "" {
			p.aside("in the order ", func() { p.text(order) })
		}
	}, func() { p.cardThread(l) }, func() { p.limitKey(l, "drive") }, func() {
		if v != nil {
			p.valueLink(v)
			p.beside(p.site.stripOf(v))
			p.judgedThere(v)
		}
	}, func() { p.numberOf("preload."+below, "") }, func() {
		p.numberOf("proof-share."+below, " of the proof load")
		p.numberOf("thread-share."+below, " of the thread’s strength")
	})
}

// numberOf writes the worked-out number at a path on a line of its own, with what it is; without figure why there is none. What it rests on stands on its page.
func (p *page) numberOf(path, what string) {
	n := p.site.current[path]
	if n == nil {
		return
	}
	p.put("<div>")
	link := p.open(p.site.numberPlace(n))
	if n.Reason != "" {
		p.put("–")
	} else {
		p.number(n)
	}
	if link {
		p.put("</a>")
	}
	p.text(what)
	if n.Reason != "" {
		p.aside("", func() { p.text(n.Reason) })
	}
	p.put("</div>")
}
