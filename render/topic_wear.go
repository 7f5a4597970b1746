package render

import (
	"cmp"
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
)

// bore is what is in force of a cylinder's bore, by depth and direction, and what is worked out from it.
type bore struct {
	path               string // of the bore
	read               []*model.Value
	depths, directions []string // in the order in which they were written
	at                 map[[2]string]*model.Value
	shape              []*derive.Number
	clearances         [][]*derive.Number // by limit
}

// gatherBores finds the bores that were read by depth and direction.
func (s *site) gatherBores() []*bore {
	var bores []*bore
	s.inBores = map[string]bool{}
	for _, path := range s.paths {
		name, below, ok := s.inBore(path)
		if !ok {
			continue
		}
		i := slices.IndexFunc(bores, func(b *bore) bool { return b.path == name })
		if i < 0 {
			i = len(bores)
			bores = append(bores, &bore{path: name, at: map[[2]string]*model.Value{}})
		}
		v := s.inForce(path)
		bores[i].read = append(bores[i].read, v)
		bores[i].at[below] = v
		s.inBores[path] = true
	}
	for _, b := range bores {
		b.order()
		s.worksOutOf(b)
	}
	return bores
}

// inBore parts the path of a reading in a bore: the path of the bore, then depth and direction. False for any other path.
func (s *site) inBore(path string) (name string, below [2]string, ok bool) {
	words := strings.Split(path, ".")
	top := 1
	if len(words) > 1 && (slices.Contains(s.journal.Cylinders, words[1]) || len(s.journal.Cylinders) == 0 && words[1] == "1") {
		top = 2
	}
	v := s.inForce(path)
	if words[0] != "bore" || len(words) < top+2 || v == nil || !v.IsReading() || v.Path != path || v.Quantity.Unit == nil {
		return "", below, false
	}
	last := len(words) - 1
	return strings.Join(words[:top], "."), [2]string{strings.Join(words[top:last], "."), words[last]}, true
}

// order puts depths and directions in the order in which they were written.
func (b *bore) order() {
	slices.SortStableFunc(b.read, func(v, w *model.Value) int {
		return cmp.Or(cmp.Compare(v.Order, w.Order), cmp.Compare(v.At().Start, w.At().Start))
	})
	for _, v := range b.read {
		for below, at := range b.at {
			if at != v {
				continue
			}
			if !slices.Contains(b.depths, below[0]) {
				b.depths = append(b.depths, below[0])
			}
			if !slices.Contains(b.directions, below[1]) {
				b.directions = append(b.directions, below[1])
			}
		}
	}
}

// worksOutOf finds what is worked out from what was read in a bore: how round and straight it is, and the clearances in it.
func (s *site) worksOutOf(b *bore) {
	rests := func(n *derive.Number) bool {
		return slices.ContainsFunc(n.Inputs, func(in derive.Input) bool { return in.Value != nil && slices.Contains(b.read, in.Value) })
	}
	for _, n := range s.inFamily("bore-shape") {
		if rests(n) {
			b.shape = append(b.shape, n)
			s.inBores[n.Path] = true
		}
	}
	for _, n := range s.inFamily("clearance") {
		if !rests(n) {
			continue
		}
		s.inBores[n.Path] = true
		i := slices.IndexFunc(b.clearances, func(g []*derive.Number) bool {
			return g[0].Limit == n.Limit && g[0].Unit == n.Unit && g[0].Reason == n.Reason
		})
		if i < 0 {
			b.clearances = append(b.clearances, []*derive.Number{n})
			continue
		}
		b.clearances[i] = append(b.clearances[i], n)
	}
}

// isInBore reports whether a path is told in the grid of a bore.
func (s *site) isInBore(path string) bool { return s.inBores[path] }

// boreGrids writes what was read in each bore by depth and direction, beside how round and straight it is and the clearance in it.
func boreGrids(p *page) {
	if len(p.site.bores) == 0 {
		return
	}
	p.section("bores", "Bores")
	same := p.boresAlike()
	if same {
		p.put("<dl class=\"facts\">\n")
		p.boreRead(p.site.bores[0])
		p.put("</dl>\n")
	}
	p.put("<div class=\"bores\">\n")
	for _, b := range p.site.bores {
		p.put("<div class=\"bore\">\n<h3>")
		p.path(b.path)
		p.put("</h3>\n")
		p.boreTable(b)
		p.put("<dl class=\"facts\">\n")
		p.boreFacts(b)
		if !same {
			p.boreRead(b)
		}
		p.put("</dl>\n</div>\n")
	}
	p.put("</div>\n")
	p.endSection()
}

// boreTable writes the sizes, a row a depth. What is not in says so.
func (p *page) boreTable(b *bore) {
	p.table(b.path, append([]string{"Depth"}, b.directions...)...)
	for _, depth := range b.depths {
		cells := make([]func(), len(b.directions))
		for i, direction := range b.directions {
			cells[i] = func() {
				v := b.at[[2]string{depth, direction}]
				if v == nil {
					p.put("–")
					return
				}
				p.valueLink(v)
				if v.Unjudged == model.Judged && v.Verdict > model.In {
					p.put(" ")
					p.verdict(v.Verdict, v.Limit)
				}
			}
		}
		p.row(func() { p.text(depth) }, cells...)
	}
	p.endTable()
}

// boreFacts writes what is worked out from the sizes.
func (p *page) boreFacts(b *bore) {
	for _, n := range b.shape {
		title, _, _ := strings.Cut(n.Title, ",")
		p.term(title, func() { p.boreNumbers([]*derive.Number{n}) })
	}
	for _, group := range b.clearances {
		p.term(clearanceTitle(group[0], b), func() { p.boreNumbers(group) })
	}
}

// boresAlike reports whether all bores were read in one entry and are held to one limit.
func (p *page) boresAlike() bool {
	first := p.site.bores[0].read[0]
	return !slices.ContainsFunc(p.site.bores, func(b *bore) bool {
		return slices.ContainsFunc(b.read, func(v *model.Value) bool { return v.Entry != first.Entry || v.Limit != first.Limit })
	})
}

// boreRead writes what the newest size of a bore is held to, and when it was read.
func (p *page) boreRead(b *bore) {
	last := b.read[len(b.read)-1]
	if last.Limit != nil && p.site.ShowsLimit(last.Limit) {
		p.term("limit of the bore", func() { p.limitOf(last) })
	}
	p.term("read", func() { p.heldSince(last) })
}

// clearanceTitle is what a clearance in a bore is called: the path of its limit.
func clearanceTitle(n *derive.Number, b *bore) string {
	path := n.Path
	if n.Limit != nil {
		path = n.Limit.Path
	} else if i := strings.Index(path, strings.TrimPrefix(b.path, "bore")); i > 0 {
		path = path[:i]
	}
	return strings.ReplaceAll(path, ".", " ")
}

// boreNumbers writes a number, or the least and the most of several, with the worst verdict on them and their limit.
func (p *page) boreNumbers(group []*derive.Number) {
	worst := worstOf(group)
	link := p.open(p.site.numberPlace(worst))
	p.span(group)
	if link {
		p.put("</a>")
	}
	if worst.Limit == nil || !p.site.ShowsLimit(worst.Limit) {
		return
	}
	p.beside(p.site.stripOfNumber(worst))
	p.verdict(worst.Verdict, worst.Limit)
	p.aside("", func() { p.limit(worst.Limit) })
}
