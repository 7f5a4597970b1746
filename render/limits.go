package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// limitsSheets list the limits by the first word of their path, then every other path that has a value.
func (s *site) limitsSheets() []sheet {
	var rows []listRow
	limited := map[string]bool{}
	for _, l := range s.limitsByPath() {
		if !isLimit(l) || !s.ShowsLimit(l) {
			continue
		}
		limited[l.Path] = true
		first, _, _ := strings.Cut(l.Path, ".")
		rows = append(rows, listRow{section: "of-" + first, title: first, label: "Limits of " + first, heads: []string{"Where", "Limit", "Now", "Verdict", "Who says so"}, write: func(p *page) { p.limitRow(l) }})
	}
	others := "Values without a limit of their own"
	for _, path := range s.paths {
		if !limited[path] {
			rows = append(rows, listRow{section: "others", title: others, label: others, heads: []string{"Where", "Now", "Verdict"}, write: func(p *page) { p.otherPath(path) }})
		}
	}
	return s.listSheets(limitsRun, limitsCrumb, "What each value is held to and who says so, and the value in force now.", rows, nil)
}

// limitsByPath returns all limits in the order of their paths, those of the sheets before those of parts.
func (s *site) limitsByPath() []*model.Limit {
	byPath := map[string][]*model.Limit{}
	for _, l := range s.journal.Limits {
		byPath[l.Path] = append(byPath[l.Path], l)
	}
	var all []*model.Limit
	for _, path := range sorted(byPath) {
		for _, ofPart := range []bool{false, true} {
			for _, l := range byPath[path] {
				if (l.Part != nil) == ofPart {
					all = append(all, l)
				}
			}
		}
	}
	return all
}

func (p *page) limitRow(l *model.Limit) {
	s := p.site
	held := p.heldBy(l)
	p.row(func() {
		p.pathTo(s.limitPlace(l), l.Path)
		if l.Title != "" {
			p.aside("", func() { p.text(l.Title) })
		}
		if l.Part != nil {
			p.aside("while ", func() { p.whileFitted(l) })
		}
		if s.isOverruled(l) {
			p.aside("not in force now: a fitted part limits it", func() {})
		}
	}, func() { p.limit(l) }, func() { p.heldValues(l, held) }, func() {
		if len(held) > 0 {
			slices.MaxFunc(held, func(a, b holding) int { return int(a.verdict) - int(b.verdict) }).judge()
		}
	}, func() { p.who(l) })
}

// whileFitted writes the part that a limit holds with, and whether it is out now.
func (p *page) whileFitted(l *model.Limit) {
	p.to(p.site.partPlace(l.Part), l.Part.Title)
	p.put(" is fitted")
	if !l.Part.IsFitted() {
		p.put("; not in now")
	}
}

// isOverruled reports whether a limit that could hold now holds nothing, since limits of fitted parts stand over it.
func (s *site) isOverruled(l *model.Limit) bool {
	inForce := s.journal.Governing(l.Path)
	return (l.Part == nil || l.Part.IsFitted()) && !slices.Contains(inForce, l) && slices.ContainsFunc(inForce, func(other *model.Limit) bool { return other.Part != nil })
}

// holding is a value or a worked-out number that a limit holds now.
type holding struct {
	path         string
	verdict      model.Verdict
	write, judge func()
}

// heldBy returns what a limit holds now: the published values in force, in the order of their positions, then the worked-out numbers.
func (p *page) heldBy(l *model.Limit) []holding {
	s := p.site
	var held []holding
	seen := map[*model.Value]bool{}
	for _, position := range s.journal.Positions.Below(l.Path) {
		if v := s.inForce(position); v != nil && v.Limit == l && !seen[v] {
			seen[v] = true
			held = append(held, holding{v.Path, v.Verdict, func() { p.valueLink(v) }, func() { p.beside(s.stripOf(v)); p.judged(v) }})
		}
	}
	for _, n := range s.numbersAt(l.Path) {
		if n.Limit == l && n.Reason == "" {
			held = append(held, holding{n.Path, n.Verdict, func() { p.numberLink(n) }, func() { p.beside(s.stripOfNumber(n)); p.verdict(n.Verdict, l) }})
		}
	}
	return held
}

// heldValues writes what a limit holds: how much, where it is more than a few.
func (p *page) heldValues(l *model.Limit, held []holding) {
	if len(held) > 4 {
		p.to(p.site.limitPlace(l), quantity.Counted(len(held), "value"))
		return
	}
	for _, h := range held {
		if below, ok := l.PlaceIn(h.path); ok {
			p.put(`<span class="aside">`)
			p.text(below + " ")
			h.write()
			p.put(`</span>`)
			continue
		}
		h.write()
	}
}

func (p *page) numberLink(n *derive.Number) {
	link := p.open(p.site.numberPlace(n))
	p.number(n)
	if link {
		p.put("</a>")
	}
}

// who writes who says so.
func (p *page) who(l *model.Limit) {
	switch l.Basis {
	case "assumed":
		p.put(`<strong class="assumed">assumed</strong>`)
	case "":
		if l.Source == "" {
			p.put("not written")
		}
	default:
		p.text(l.Basis)
	}
	if l.Basis != "" && l.Source != "" {
		p.put(": ")
	}
	p.text(l.Source)
}

// inForce returns the published value that is in force at a path now, nil if there is none.
func (s *site) inForce(path string) *model.Value {
	v := s.journal.Current(path)
	if v == nil || !s.ShowsValue(v) {
		return nil
	}
	return v
}

func (p *page) valueLink(v *model.Value) {
	link := p.open(p.site.valuePlace(v))
	p.value(v)
	if link {
		p.put("</a>")
	}
}

// otherPath writes the row of a path without a limit of its own.
func (p *page) otherPath(path string) {
	s := p.site
	v := s.inForce(path)
	p.row(func() { p.path(path) }, func() {
		if v != nil {
			p.valueLink(v)
		}
	}, func() {
		if v != nil && v.Limit != nil {
			p.beside(s.stripOf(v))
			p.judged(v)
		}
	})
}
