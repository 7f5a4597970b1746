package render

import (
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// pathPage is one path: its value now, its limits, its history, and what rests on it.
func (s *site) pathPage(p *page, path string) {
	p.begin(head{title: path, about: "The history of " + path + ", its limit, and the value in force now.", crumbs: []crumb{limitsCrumb}, plate: s.plateStill()})
	if pattern := parse.FindPattern(path); pattern != nil {
		p.put("<p class=\"about\">")
		p.text(pattern.Doc)
		p.put("</p>\n")
	}
	rows := s.historyOf(path)
	p.now(path, rows)
	p.limitsAt(path)
	p.history(path, rows)
	p.usedBy(rows)
	p.mentionList(pathThing(path))
	p.end()
}

// historyOf returns the published values that spoke for a path, or for one below it, the newest first.
func (s *site) historyOf(path string) []*model.Value {
	var rows []*model.Value
	seen := map[*model.Value]bool{}
	for _, position := range s.journal.Positions.Below(path) {
		for _, v := range s.journal.History(position) {
			if !seen[v] && s.showsValue(v) {
				seen[v] = true
				rows = append(rows, v)
			}
		}
	}
	slices.SortFunc(rows, func(a, b *model.Value) int { return s.order[b] - s.order[a] })
	return rows
}

// now writes the value in force at a path: one, or one a position below it, or why there is none.
func (p *page) now(path string, rows []*model.Value) {
	s := p.site
	p.section("now", "Now")
	defer p.endSection()
	if v := s.journal.Current(path); v != nil {
		if !s.showsValue(v) {
			p.put("<p>The value in force is not published.</p>\n")
			return
		}
		p.nowLine(v)
		return
	}
	positions := s.positions(path)
	if len(positions) > 1 {
		p.put("<dl class=\"facts\">\n")
		for _, position := range positions {
			p.put("<div><dt>")
			p.path(position)
			p.put("</dt><dd>")
			if v := s.inForce(position); v != nil {
				p.valueLink(v)
				p.put(" ")
				p.judged(v)
			} else {
				p.put("–")
			}
			p.put("</dd></div>\n")
		}
		p.put("</dl>\n")
		return
	}
	if i := slices.IndexFunc(rows, func(v *model.Value) bool { return v.StaleBy != nil }); i >= 0 {
		p.put("<p>No value: what was read is stale since ")
		p.to(s.partPlace(rows[i].StaleBy), rows[i].StaleBy.Title)
		p.put(" went in.</p>\n")
		return
	}
	p.put("<p>No value.</p>\n")
}

func (p *page) nowLine(v *model.Value) {
	p.put(`<p class="now">`)
	p.valueLink(v)
	p.put(" ")
	p.judged(v)
	if v.Deviates {
		p.put(`; from nominal `)
		p.deviation(v)
	}
	p.put("</p>\n")
}

// limitsAt writes the limits that are given at a path, and those in force there now.
func (p *page) limitsAt(path string) {
	s := p.site
	inForce := s.journal.Governing(path)
	var list []*model.Limit
	for _, l := range s.journal.Limits {
		if l.Path == path && isLimit(l) && s.showsLimit(l) {
			list = append(list, l)
		}
	}
	for _, l := range inForce {
		if !slices.Contains(list, l) && s.showsLimit(l) {
			list = append(list, l)
		}
	}
	if len(list) == 0 {
		return
	}
	p.section("limits", "Limits")
	for _, l := range list {
		p.put("<dl class=\"facts limit\"")
		if l.Path == path {
			p.id(limitID(l))
		}
		p.put(">\n")
		p.limitTerms(l, slices.Contains(inForce, l))
		p.put("</dl>\n")
	}
	p.endSection()
}

func (p *page) limitTerms(l *model.Limit, inForce bool) {
	s := p.site
	p.term("Limit", func() {
		p.limit(l)
		switch {
		case inForce:
			p.put(" (in force now)")
		case l.Part != nil && !l.Part.IsFitted():
			p.put(" (while ")
			p.whileFitted(l)
			p.put(")")
		case s.isOverruled(l):
			p.put(" (not in force now: a fitted part limits it)")
		default:
			p.put(" (not in force now)")
		}
	})
	p.textTerm("Title", l.Title)
	p.term("At", func() { p.pathTo(s.limitPlace(l), l.Path) })
	if l.Part != nil {
		p.term("While fitted", func() { p.to(s.partPlace(l.Part), l.Part.Title) })
	}
	p.term("Who says so", func() { p.who(l) })
	if l.Also != nil {
		p.term("Also printed as", func() { p.figure(l.Also.Shown()) })
	}
	if l.Guarded {
		p.textTerm("Decided", "with proof: the uncertainty has to lie inside too")
	}
	if l.When != nil {
		p.term("Engine", func() { p.figure(l.When.Shown()) })
	}
	every := l.Figures("every")
	if len(every) > 0 {
		p.term("Read again every", func() {
			for i := range every {
				if i > 0 {
					p.put(" or ")
				}
				p.written(&every[i], quantity.Want{Dimensions: []quantity.Dimension{quantity.Length, quantity.Duration, quantity.Calendar}})
			}
		})
	}
	for _, key := range [][2]string{{"thread", "Thread"}, {"class", "Class"}, {"into", "Into"}, {"threads", "Threads"}, {"drive", "Spanner"}, {"order", "Order"}, {"note", "Note"}} {
		p.textTerm(key[1], l.Key(key[0]).Text)
	}
	if engagement := l.Figures("engagement"); len(engagement) > 0 {
		p.term("Engagement", func() { p.written(&engagement[0], quantity.Want{Dimensions: []quantity.Dimension{quantity.Length}}) })
	}
}

// history writes every value that spoke for a path.
func (p *page) history(path string, rows []*model.Value) {
	if len(rows) == 0 {
		return
	}
	s := p.site
	withTool := !s.hides("tools") && slices.ContainsFunc(rows, func(v *model.Value) bool { return v.Tool != nil })
	heads := []string{"When", "Value", "Verdict", "State", "Limit", "Deviation", "Meter"}
	if withTool {
		heads = append(heads, "With")
	}
	p.section("history", "History")
	p.table("History of "+path, heads...)
	for _, v := range rows {
		p.past(path, v, withTool)
	}
	p.endTable()
	p.endSection()
}

func (p *page) past(path string, v *model.Value, withTool bool) {
	s := p.site
	p.put("<tr")
	if v.Entry == nil && v.Path == path {
		p.id(anchor(v.ID))
	}
	p.put(`><th scope="row">`)
	if v.Entry == nil {
		p.to(s.valuePlace(v), "from the start")
	} else {
		p.toEntry(s.valuePlace(v), v.Entry)
	}
	p.put("</th><td>")
	p.value(v)
	p.standing(v)
	p.details(v)
	p.put("</td><td>")
	p.judged(v)
	p.put("</td><td>")
	p.origin(v)
	if v.Path != path {
		p.aside("at ", func() { p.path(v.Path) })
	}
	p.put("</td><td>")
	p.limitOf(v)
	p.put("</td><td>")
	p.deviation(v)
	p.put("</td><td>")
	if v.Entry != nil && v.Entry.MeterThen != nil {
		p.figure(v.Entry.MeterThen.Shown())
	}
	p.put("</td>")
	if withTool {
		p.put("<td>")
		if v.Tool != nil {
			p.to(s.toolPlace(v.Tool), v.Tool.Title)
		}
		p.put("</td>")
	}
	p.put("</tr>\n")
}

// standing says whether a value is in force, stale, or does not count.
func (p *page) standing(v *model.Value) {
	switch {
	case v.Current:
		p.aside("in force now", func() {})
	case !v.Counts:
		p.aside("does not count", func() {})
	case v.StaleBy != nil:
		p.aside("stale since this went in: ", func() { p.to(p.site.partPlace(v.StaleBy), v.StaleBy.Title) })
	}
}

// usedBy writes the numbers that the path feeds.
func (p *page) usedBy(rows []*model.Value) {
	s := p.site
	var list []*derive.Number
	for _, path := range pathsOf(rows) {
		for _, n := range s.uses[path] {
			if !slices.Contains(list, n) {
				list = append(list, n)
			}
		}
	}
	if len(list) == 0 {
		return
	}
	p.section("uses", "Worked out from these readings")
	p.put("<ul>\n")
	for _, n := range list {
		p.put("<li>")
		p.to(s.numberPlace(n), n.Title)
		p.put(": ")
		p.numberWords(n)
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.endSection()
}

func pathsOf(rows []*model.Value) []string {
	var paths []string
	for _, v := range rows {
		if !slices.Contains(paths, v.Path) {
			paths = append(paths, v.Path)
		}
	}
	slices.Sort(paths)
	return paths
}
