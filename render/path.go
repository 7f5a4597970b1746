package render

import (
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parallel"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/upkeep"
	"example.org/locknut/render/chart"
)

// pathSheets are the pages of one path: its value now, its limits, its history, and what rests on it. The rows of a long history go on on
// pages of their own.
func (s *site) pathSheets(path string) []sheet {
	rows := s.histories[path]
	pages := paged(rows)
	own := crumb{s.pathPlace(path), path}
	list := runFrom(s.pathPages[path])
	sheets := []sheet{{list.page(0), func(p *page) { s.pathPage(p, path, rows) }}}
	for i := 1; i < len(pages); i++ {
		sheets = append(sheets, sheet{list.page(i), func(p *page) {
			p.begin(head{title: numbered(path, i), about: "Older values of " + path + ".", crumbs: []crumb{limitsCrumb, own}, plate: s.plateStill()})
			p.section("history", "History")
			p.pastTable(path, rows, i)
			p.endSection()
			p.end()
		}})
	}
	return sheets
}

func (s *site) pathPage(p *page, path string, rows []*model.Value) {
	p.begin(head{title: path, about: "The history of " + path + ", its limit, and the value in force now.", crumbs: []crumb{limitsCrumb}, plate: s.plateStill()})
	if pattern := parse.FindPattern(path); pattern != nil {
		p.put("<p class=\"about\">")
		p.text(pattern.Doc)
		p.put("</p>\n")
	}
	p.now(path, rows)
	p.limitsAt(path)
	p.history(path, rows)
	p.usedBy(rows)
	p.mentionList(pathThing(path))
	p.end()
}

// gatherHistories finds the rows of each path that has a page.
func (s *site) gatherHistories() {
	rows := make([][]*model.Value, len(s.paths))
	parallel.Each(len(s.paths), func(i int) { rows[i] = s.rowsOf(s.paths[i]) })
	s.histories = make(map[string][]*model.Value, len(s.paths))
	for i, path := range s.paths {
		s.histories[path] = rows[i]
	}
}

// findRows finds the pages of rows that other pages lead to, where they are not the first pages of their lists.
func (s *site) findRows() {
	s.rowPages = map[*model.Value]string{}
	for _, v := range s.standing {
		if rows := s.histories[v.Path]; len(rows) > perPage {
			s.rowPages[v] = runFrom(s.pathPages[v.Path]).page(slices.Index(rows, v) / perPage)
		}
	}
}

// rowsOf returns the published values that spoke for a path, or for one below it, the newest first.
func (s *site) rowsOf(path string) []*model.Value {
	var rows []*model.Value
	positions := s.journal.Positions.Below(path)
	for _, position := range positions {
		rows = append(rows, s.journal.History(position)...)
	}
	rows = slices.DeleteFunc(rows, func(v *model.Value) bool { return !s.ShowsValue(v) })
	if len(positions) == 1 {
		slices.Reverse(rows)
		return rows
	}
	slices.SortFunc(rows, func(a, b *model.Value) int { return b.Index - a.Index })
	return slices.Compact(rows)
}

// now writes the value in force at a path, or one a position below it, and what is worked out there; or why there is nothing.
func (p *page) now(path string, rows []*model.Value) {
	p.section("now", "Now")
	defer p.endSection()
	numbers := p.site.numbersAt(path)
	if !p.nowValues(path) && len(numbers) == 0 {
		p.noValue(rows)
	}
	p.driftOf(path)
	if len(numbers) > 0 {
		p.put("<dl class=\"facts\">\n")
		for _, n := range numbers {
			p.put("<div><dt>")
			p.pathTo(p.site.numberPlace(n), n.Path)
			p.put("</dt><dd>")
			p.nowNumber(n)
			p.put("</dd></div>\n")
		}
		p.put("</dl>\n")
	}
}

// numbersAt returns the numbers that are worked out at a path or below it.
func (s *site) numbersAt(path string) []*derive.Number {
	var list []*derive.Number
	for _, n := range s.numbers {
		if parse.IsAtOrBelow(n.Path, path) {
			list = append(list, n)
		}
	}
	return list
}

func (p *page) nowNumber(n *derive.Number) {
	p.numberWords(n)
	p.aside("worked out", func() {})
	if n.Reason != "" || n.Limit == nil || !p.site.ShowsLimit(n.Limit) {
		return
	}
	p.put(" ")
	p.beside(p.site.stripOfNumber(n))
	link := p.open(p.site.numberOutPlace(n))
	p.verdict(n.Verdict, n.Limit)
	if link {
		p.put("</a>")
	}
	if n.Deviates && n.Limit.Nominal != nil {
		p.put("; from nominal ")
		p.difference(n.Deviation, n.Unit, n.Step())
		p.share(n.Deviation, n.Limit)
	}
}

// nowValues writes the values in force at a path and reports whether there was anything to write.
func (p *page) nowValues(path string) bool {
	s := p.site
	if v := s.journal.Current(path); v != nil {
		if s.ShowsValue(v) {
			p.nowLine(v)
		} else {
			p.put("<p>The value in force is not published.</p>\n")
		}
		return true
	}
	positions := s.Positions(path)
	if len(positions) < 2 {
		return false
	}
	p.put("<dl class=\"facts\">\n")
	for _, position := range positions {
		p.put("<div><dt>")
		p.path(position)
		p.put("</dt><dd>")
		if v := s.inForce(position); v != nil {
			p.valueLink(v)
			p.put(" ")
			p.beside(s.stripOf(v))
			p.judgedThere(v)
		} else {
			p.put("–")
		}
		p.put("</dd></div>\n")
	}
	p.put("</dl>\n")
	return true
}

// noValue says why there is no value.
func (p *page) noValue(rows []*model.Value) {
	i := slices.IndexFunc(rows, func(v *model.Value) bool { return v.StaleBy != nil })
	if i < 0 {
		p.put("<p>No value.</p>\n")
		return
	}
	p.put("<p>No value: what was read is stale since ")
	p.to(p.site.partPlace(rows[i].StaleBy), rows[i].StaleBy.Title)
	p.put(" went in.</p>\n")
}

func (p *page) nowLine(v *model.Value) {
	p.put(`<p class="now">`)
	p.valueLink(v)
	p.put(" ")
	p.judgedThere(v)
	if v.Deviates {
		p.put(`; from nominal `)
		p.deviation(v)
	}
	p.put("</p>\n")
	strip := p.site.stripOf(v)
	p.figureOf(func(dst []byte, size chart.Size) []byte { return chart.Strip(dst, strip, size) }, "")
}

// limitsAt writes the limits that are given at a path, and those in force there now.
func (p *page) limitsAt(path string) {
	s := p.site
	inForce := s.journal.Governing(path)
	var list []*model.Limit
	for _, l := range s.journal.Limits {
		if l.Path == path && isLimit(l) && s.ShowsLimit(l) {
			list = append(list, l)
		}
	}
	for _, l := range inForce {
		if !slices.Contains(list, l) && s.ShowsLimit(l) {
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
		p.limitTerms(l, inForce)
		p.put("</dl>\n")
	}
	p.endSection()
}

// limitTerms writes what there is to say of a limit; inForce are those that are.
func (p *page) limitTerms(l *model.Limit, inForce []*model.Limit) {
	s := p.site
	p.term("Limit", func() {
		p.limit(l)
		switch {
		case slices.Contains(inForce, l):
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
		p.term("Engine", func() { p.bounds(*l.When, l.When.Unit) })
	}
	p.limitKeyTerm("Read again every", l, "every")
	p.upkeepTerm(func(item *upkeep.Item) bool { return item.Limit == l })
	for _, key := range [][2]string{{"thread", "Thread"}, {"class", "Class"}, {"into", "Into"}, {"threads", "Threads"}, {"drive", "Spanner"}, {"order", "Order"}, {"note", "Note"}} {
		p.textTerm(key[1], l.Key(key[0]).Text)
	}
	p.limitKeyTerm("Engagement", l, "engagement")
	p.limitKeyTerm("Its shear strength", l, "into-shear")
	p.limitKeyTerm("Friction", l, "thread-friction")
	p.limitKeyTerm("Running torque", l, "running-torque")
}

// limitKeyTerm writes the figures of a key that limits inherit.
func (p *page) limitKeyTerm(term string, l *model.Limit, name string) {
	keys := parse.Tables()["limits.toml"].Keys
	i := slices.IndexFunc(keys, func(k parse.Key) bool { return k.Name == name })
	if values := l.Figures(name); i >= 0 && len(values) > 0 {
		p.term(term, func() { p.keyFigures(&keys[i], values) })
	}
}

// history draws every value that spoke for a path, and writes the newest of them.
func (p *page) history(path string, rows []*model.Value) {
	if len(rows) == 0 {
		return
	}
	p.section("history", "History")
	if data, ok := p.site.historyOfPath(path, nil); ok {
		p.figureOf(func(dst []byte, size chart.Size) []byte { return chart.History(dst, data, size) }, "")
	}
	p.pastTable(path, rows, 0)
	p.endSection()
}

// pastTable writes one page, counted from 0, of the values that spoke for a path; the newest of all have strips.
func (p *page) pastTable(path string, rows []*model.Value, page int) {
	pages := paged(rows)
	tool := p.toolCells(rows)
	heads := []string{"When", "Value", "Verdict", "State", "Limit", "Deviation", "Meter"}
	if tool != nil {
		heads = append(heads, "With")
	}
	p.table("History of "+path, heads...)
	for i, v := range pages[page] {
		var strip chart.StripData
		if page == 0 && i < mostStrips {
			strip = p.site.stripOf(v)
		}
		p.past(path, v, strip)
		if tool != nil {
			tool(v)
		}
		p.put("</tr>\n")
	}
	p.endTable()
	p.pager(runFrom(p.site.pathPages[path]), len(pages))
}

// mostStrips is how many rows of a history have a strip, the newest first: of thousands they would double the weight of the page.
const mostStrips = 40

// past writes a value of the history with its strip, its tool aside.
func (p *page) past(path string, v *model.Value, strip chart.StripData) {
	s := p.site
	p.put("<tr")
	if v.Entry == nil && v.Path == path {
		p.id(anchor(v.ID()))
	}
	p.put(`><th scope="row">`)
	if v.Entry == nil {
		p.to(s.valuePlace(v), "from the start")
	} else {
		link := p.openReading(v)
		p.put(s.labels[v.Entry.Index].entry)
		if link {
			p.put("</a>")
		}
	}
	p.put("</th><td>")
	p.value(v)
	p.standing(v)
	p.details(v)
	p.put("</td><td>")
	p.beside(strip)
	p.judgedThere(v)
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
	if v.Entry != nil {
		p.put(s.labels[v.Entry.Index].meter)
	}
	p.put("</td>")
}

// standing says whether a value is in force, stale, or does not count.
func (p *page) standing(v *model.Value) {
	switch {
	case v.Current:
		p.aside("in force now", func() {})
	case v.Beside() != v:
		p.aside("a log beside it holds worse", func() {})
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
