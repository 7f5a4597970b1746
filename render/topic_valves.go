package render

import (
	"strings"

	"example.org/locknut/journal/derive"
)

// lashRows list the lash of each valve, how far it is from what it should be, and how it is set right.
func lashRows(s *site) []listRow {
	const title = "Lash by valve"
	heads := []string{"Valve", "Lash", "Verdict", "Limit", "Off by", "To set it right"}
	var rows []listRow
	for _, path := range s.topicPaths[0] {
		below, isLash := strings.CutPrefix(path, "lash.")
		if !isLash {
			continue
		}
		v := s.inForce(path)
		off, turn, shim := s.current["deviation."+below], s.current["adjust."+below], s.current["shim-to-fit."+below]
		rows = append(rows, listRow{"lash", title, title, heads, func(p *page) {
			p.row(func() { p.pathTo(s.pathPlace(path), below) }, func() { p.valueLink(v) }, func() {
				if v.Limit != nil {
					p.beside(s.stripOf(v))
					p.judgedThere(v)
				}
			}, func() { p.limitOf(v) }, func() {
				if off != nil {
					p.numberLink(off)
				}
			}, func() {
				for _, n := range []*derive.Number{turn, shim} {
					if n != nil {
						p.numberLinked(n)
					}
				}
			})
		}})
	}
	return rows
}

// isOwnRow reports whether a path has a row in a table of its own.
func isOwnRow(path string) bool {
	return strings.HasPrefix(path, "lash.") || strings.HasPrefix(path, "torque.")
}

// numberLinked writes a number with its words, linked to how it is worked out.
func (p *page) numberLinked(n *derive.Number) {
	link := p.open(p.site.numberPlace(n))
	p.numberWords(n)
	if link {
		p.put("</a>")
	}
}
