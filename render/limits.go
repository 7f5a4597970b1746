package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
)

// limitsPage lists the limits by the first word of their path, then every other path that has a value.
func (s *site) limitsPage(p *page) {
	p.begin(head{title: limitsCrumb.title, about: "What each value is held to and who says so, and the value in force now.", plate: s.plateNow()})
	limited := map[string]bool{}
	group := ""
	for _, l := range s.limitsByPath() {
		if !isLimit(l) || !s.showsLimit(l) {
			continue
		}
		limited[l.Path] = true
		first, _, _ := strings.Cut(l.Path, ".")
		if first != group {
			if group != "" {
				p.endTable()
				p.endSection()
			}
			group = first
			p.section("of-"+first, first)
			p.table("Limits of "+first, "Where", "Limit", "Now", "Verdict", "Who says so")
		}
		p.limitRow(l)
	}
	if group != "" {
		p.endTable()
		p.endSection()
	}
	p.otherPaths(limited)
	p.end()
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
	held := s.heldBy(l)
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
		if v := worstOf(held); v != nil {
			p.judged(v)
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

// heldBy returns the published values in force now that a limit holds, in the order of their positions.
func (s *site) heldBy(l *model.Limit) []*model.Value {
	var held []*model.Value
	for _, position := range s.journal.Positions.Below(l.Path) {
		if v := s.inForce(position); v != nil && v.Limit == l && !slices.Contains(held, v) {
			held = append(held, v)
		}
	}
	return held
}

// heldValues writes the values that a limit holds: how many, where they are more than a few.
func (p *page) heldValues(l *model.Limit, held []*model.Value) {
	if len(held) > 4 {
		p.to(p.site.limitPlace(l), counted(len(held), "value"))
		return
	}
	for _, v := range held {
		if below, ok := strings.CutPrefix(v.Path, l.Path+"."); ok {
			p.put(`<span class="aside">`)
			p.text(below + " ")
			p.valueLink(v)
			p.put(`</span>`)
			continue
		}
		p.valueLink(v)
	}
}

// worstOf returns the value with the worst verdict, nil if there are no values.
func worstOf(values []*model.Value) *model.Value {
	var worst *model.Value
	for _, v := range values {
		if worst == nil || v.Verdict > worst.Verdict {
			worst = v
		}
	}
	return worst
}

// who writes who says so.
func (p *page) who(l *model.Limit) {
	if l.Basis == "assumed" {
		p.put(`<strong class="assumed">assumed</strong>`)
	} else {
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
	if v == nil || !s.showsValue(v) {
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

// otherPaths lists the paths without a limit of their own.
func (p *page) otherPaths(limited map[string]bool) {
	s := p.site
	first := true
	for _, path := range s.paths {
		if limited[path] {
			continue
		}
		if first {
			p.section("others", "Values without a limit of their own")
			p.table("Values without a limit of their own", "Where", "Now", "Verdict")
		}
		first = false
		v := s.inForce(path)
		p.row(func() { p.path(path) }, func() {
			if v != nil {
				p.valueLink(v)
			}
		}, func() {
			if v != nil && v.Limit != nil {
				p.judged(v)
			}
		})
	}
	if !first {
		p.endTable()
		p.endSection()
	}
}
