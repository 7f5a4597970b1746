package render

import (
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/upkeep"
)

// toolsSheets list the measuring tools, and who measured.
func (s *site) toolsSheets() []sheet {
	var rows []listRow
	for _, tool := range s.journal.Tools {
		rows = append(rows, listRow{label: "Tools", heads: []string{"Tool", "For", "Range", "Calibrated"}, write: func(p *page) {
			p.row(func() { p.to(s.toolPlace(tool), tool.Title) }, func() { p.toolPaths(tool) },
				func() { p.optional(tool.Range) }, func() { p.calibrated(tool) })
		}})
	}
	return s.listSheets(toolsRun, toolsCrumb, "The measuring tools of the build, and the people and shops who measured.", rows, orSays(rows, "<p>No tools are listed.</p>\n"))
}

func (p *page) toolPaths(tool *model.Tool) {
	for i, name := range tool.For {
		if i > 0 {
			p.put(", ")
		}
		p.path(name.Name)
	}
}

func (p *page) optional(q *quantity.Quantity) {
	if q != nil {
		p.figure(q.Shown())
	}
}

// calibrated writes the day of the newest calibration.
func (p *page) calibrated(tool *model.Tool) {
	f := tool.Fields.Get("calibrated")
	if f == nil || len(f.Dates) == 0 {
		return
	}
	newest := f.Dates[0].String()
	for _, d := range f.Dates {
		newest = max(newest, d.String())
	}
	p.text(newest)
}

// toolPage is one tool: what it reads, how well, and what it has read.
func (s *site) toolPage(p *page, tool *model.Tool) {
	p.begin(head{title: tool.Title, about: "The tool " + tool.Title + ": what it reads, and how well.", crumbs: []crumb{toolsCrumb}, plate: s.plateStill()})
	p.put("<dl class=\"facts\">\n")
	p.term("Name", func() { p.element("code", tool.Name) })
	if len(tool.For) > 0 {
		p.term("For", func() { p.toolPaths(tool) })
	}
	if len(tool.Leaves) > 0 {
		p.term("Leaves", func() { p.figures(tool.Leaves, nil) })
	}
	for _, figure := range []struct {
		label string
		q     *quantity.Quantity
	}{
		{"Range", tool.Range}, {"Length", tool.Length}, {"Resolution", tool.Resolution}, {"Greatest permitted error", tool.Error},
		{"Uncertainty (expanded, k = 2)", tool.Uncertainty}, {"Repeatability (one standard deviation)", tool.Repeatability},
	} {
		p.quantityTerm(figure.label, figure.q)
	}
	if f := tool.Fields.Get("calibrated"); f != nil && len(f.Dates) > 0 {
		p.term("Calibrated", func() {
			for i, d := range f.Dates {
				if i > 0 {
					p.put(", ")
				}
				p.text(d.String())
			}
		})
	}
	p.keyTerm("Calibration holds for", tool.Fields.Get("calibrate-every"))
	p.upkeepTerm(func(item *upkeep.Item) bool { return item.Tool == tool })
	p.textTerm("Note", tool.Fields.Text("note").Text)
	p.put("</dl>\n")
	p.toolRatios(tool)
	p.toolReadings(tool, 0)
	p.mentionList(toolThing(tool.Name))
	p.end()
}

// toolSheets are the pages of one tool; the rows of many readings go on on pages of their own.
func (s *site) toolSheets(tool *model.Tool) []sheet {
	list := runFrom(s.toolPages[tool.Name])
	own := crumb{s.toolPlace(tool), tool.Title}
	sheets := []sheet{{list.page(0), func(p *page) { s.toolPage(p, tool) }}}
	for i := 1; i < len(paged(s.taken[tool])); i++ {
		sheets = append(sheets, sheet{list.page(i), func(p *page) {
			p.begin(head{title: numbered(tool.Title, i), about: "Older readings of " + tool.Title + ".", crumbs: []crumb{toolsCrumb, own}, plate: s.plateStill()})
			p.toolReadings(tool, i)
			p.end()
		}})
	}
	return sheets
}

// gatherTaken finds the published readings of each tool, the newest first.
func (s *site) gatherTaken() {
	s.taken = map[*model.Tool][]*model.Value{}
	if s.Hides("tools") {
		return
	}
	for _, v := range slices.Backward(s.journal.Values) {
		if v.Tool != nil && v.IsReading() && s.ShowsValue(v) {
			s.taken[v.Tool] = append(s.taken[v.Tool], v)
		}
	}
}

// toolRatios writes how fine a tool is beside the limits that it reads for now.
func (p *page) toolRatios(tool *model.Tool) {
	var limits []*model.Limit
	for _, v := range p.site.taken[tool] {
		if _, ok := ratioOf(tool, v.Limit); ok && v.Current && p.site.ShowsLimit(v.Limit) && !slices.Contains(limits, v.Limit) {
			limits = append(limits, v.Limit)
		}
	}
	if len(limits) == 0 {
		return
	}
	p.section("fineness", "How fine it is beside its limits")
	p.table("How fine it is beside its limits", "Limit", "Limit to uncertainty", "Rules of thumb")
	for _, l := range limits {
		ratio, _ := ratioOf(tool, l)
		p.row(func() { p.pathTo(p.site.limitPlace(l), l.Path); p.aside("", func() { p.limit(l) }) }, func() { p.figure(model.ShowRatio(ratio)) }, func() { p.put(ruleOfThumb(ratio)) })
	}
	p.endTable()
	p.endSection()
}

func ratioOf(tool *model.Tool, l *model.Limit) (float64, bool) {
	if l == nil {
		return 0, false
	}
	return tool.Ratio(l)
}

// ruleOfThumb says which of the two usual ratios a tool keeps.
func ruleOfThumb(ratio float64) literal {
	switch {
	case quantity.Compare(ratio, model.FinestRatio, 0) >= 0:
		return "10:1 and 4:1 are kept"
	case quantity.Compare(ratio, model.WantedRatio, 0) >= 0:
		return "4:1 is kept, 10:1 is not"
	case quantity.Compare(ratio, model.LeastRatio, 0) >= 0:
		return "neither 10:1 nor 4:1 is kept"
	}
	return "it can’t tell in from out"
}

// toolReadings writes one page, counted from 0, of what a tool has read.
func (p *page) toolReadings(tool *model.Tool, page int) {
	if len(p.site.taken[tool]) == 0 {
		return
	}
	pages := paged(p.site.taken[tool])
	p.section("readings", "Read with it")
	p.table("Read with it", "When", "Where", "State", "Value", "Verdict", "Limit", "Deviation")
	for _, v := range pages[page] {
		p.readingRow(v)
	}
	p.endTable()
	p.pager(runFrom(p.site.toolPages[tool.Name]), len(pages))
	p.endSection()
}
