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
		rows = append(rows, listRow{section: "torques", title: title, label: title, heads: heads, write: func(p *page) { p.torqueRow(path, l, v) }})
	}
	return rows
}

func (p *page) torqueRow(path string, l *model.Limit, v *model.Value) {
	below := strings.TrimPrefix(path, "torque.")
	p.row(func() {
		p.pathTo(p.site.pathPlace(path), below)
		if l != nil && l.Title != "" {
			p.aside("", func() { p.text(l.Title) })
		}
	}, func() {
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
		if n := p.site.current["wrench-setting."+below]; n != nil {
			p.aside("set the wrench to ", func() { p.numberLinked(n) })
		}
	}, func() { p.cardThread(l) }, func() { p.limitKey(l, "drive") }, func() {
		if v != nil {
			p.valueLink(v)
			if v.Setting() != nil {
				p.aside("the wrench was set to ", func() { p.both(v.Setting().Quantity) })
			}
			p.beside(p.site.stripOf(v))
			p.judgedThere(v)
		}
	}, func() { p.numberOf("preload."+below, "") }, func() {
		p.numberOf("proof-share."+below, " of the proof load")
		p.numberOf("thread-share."+below, " of the thread’s strength")
		p.strengthless(below, l)
	})
}

// strengthless says why there is no share of a fastener's strength, of one whose pull is known.
func (p *page) strengthless(below string, l *model.Limit) {
	preload := p.site.current["preload."+below]
	if preload == nil || preload.Reason != "" || p.site.current["proof-share."+below] != nil || l == nil || l.Key("class").Text != "" {
		return
	}
	p.put("<div>– of the proof load")
	p.aside("not given: class", func() {})
	p.put("</div>")
}

// isOfFastener reports whether a path has its place in the card of torques: a torque, or what the wrench is or was set to for one.
func isOfFastener(s *site, path string) bool {
	for _, prefix := range []string{"setting.", "wrench-setting."} {
		if below, ok := strings.CutPrefix(path, prefix); ok {
			v := s.inForce("torque." + below)
			return v != nil && v.Setting() != nil || prefix != "setting."
		}
	}
	return strings.HasPrefix(path, "torque.")
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
		p.aside("", func() { p.message(n.Reason) })
	}
	p.put("</div>")
}
