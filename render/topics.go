package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
)

// topic is a page about one side of the engine: what is read there now, and what is worked out from it.
type topic struct {
	crumb
	about    string
	words    []string              // the first segments of the paths that belong to it
	families []string              // of numbers
	rows     func(*site) []listRow // of its own, which stand first; the paths that they tell of are in no other; nil for none
	before   func(*page)           // what stands before the tables, nil for nothing
}

// topics are the pages of the sides of the engine, in the order of the navigation.
var topics = []topic{
	{crumb: crumb{place{page: "valve-train.html"}, "Valve train"}, about: "Lash, cam, ports and ignition: what is read there now, how it is set right, and what is worked out from it.",
		words: []string{"lash", "shim", "cam", "timing", "port", "ignition"}, rows: lashRows, before: valveCharts,
		families: []string{"cam-duration", "lobe-centre", "lobe-separation", "cam-advance", "valve-overlap", "cam-tooth", "valve-lift", "spring-margin", "port-duration", "port-blowdown", "ignition-timing"}},
	{crumb: crumb{place{page: "fasteners.html"}, "Fasteners"}, about: "What each fastener is pulled down to, in both systems, and what that does to it.",
		words: []string{"torque", "setting"}, rows: fastenerRows, families: []string{"wrench-setting"}},
	{crumb: crumb{place{page: "engine.html"}, "Engine"}, about: "Size, compression and piston: what is read there now, and what is worked out from it.",
		words: []string{"compression", "leak", "squish", "engine", "air"}, before: compressionChart,
		families: []string{"displacement", "compression-ratio", "trapped-compression", "cranking-pressure", "compression-spread", "squish", "rod-ratio", "piston-speed", "curtain-area"}},
	{crumb: crumb{place{page: "wear.html"}, "Wear"}, about: "Bores, pistons, rings, bearings and chains: sizes, clearances, and what has worn.",
		words:    []string{"bore", "piston", "journal", "bearing", "pin", "gap", "clearance", "float", "spring", "chain"},
		families: []string{"bore-shape", "clearance", "ring-share", "spring-rate", "load-loss", "chain-elongation"}},
	{crumb: crumb{place{page: "drive.html"}, "Drive"}, about: "Ratios, and road speed by gear.", words: []string{"drive"}, rows: gearRows, before: gearChart, families: []string{"rolling-circumference"}},
}

// gatherTopics finds out which topics have anything to tell, and the paths of each.
func (s *site) gatherTopics() {
	s.topicPaths = make([][]string, len(topics))
	for _, path := range s.paths {
		first, _, _ := strings.Cut(path, ".")
		for i := range topics {
			if slices.Contains(topics[i].words, first) && s.inForce(path) != nil {
				s.topicPaths[i] = append(s.topicPaths[i], path)
			}
		}
	}
	s.topics = make([]bool, len(topics))
	for i := range topics {
		s.topics[i] = s.tells(i)
	}
}

// hasTopic reports whether a topic has a page.
func (s *site) hasTopic(i int) bool { return s.topics[i] }

// tells reports whether a topic has more to tell than the list of limits does: a number, or readings of its own.
func (s *site) tells(i int) bool {
	isReading := func(path string) bool { return s.inForce(path).IsReading() }
	if topics[i].rows != nil && len(topics[i].rows(s)) > 0 {
		return true
	}
	return slices.ContainsFunc(s.topicPaths[i], isReading) || slices.ContainsFunc(s.numbers, func(n *derive.Number) bool { return slices.Contains(topics[i].families, n.Family.Name) })
}

// topicSheets are the pages of the sides of the engine.
func (s *site) topicSheets() []sheet {
	var sheets []sheet
	for i := range topics {
		t := &topics[i]
		if !s.hasTopic(i) {
			continue
		}
		var rows []listRow
		if t.rows != nil {
			rows = t.rows(s)
		}
		var sheet []listRow
		for _, path := range s.topicPaths[i] {
			v := s.inForce(path)
			switch {
			case t.rows != nil && isOwnRow(path):
			case v.Origin == model.FromSheet:
				sheet = append(sheet, listRow{"sheet", "From the build sheet", t.title + ": from the build sheet", []string{"Where", "Now"}, func(p *page) {
					p.row(func() { p.path(path) }, func() { p.valueLink(v) })
				}})
			default:
				rows = append(rows, listRow{"now", "Read, and in force now", t.title + ": in force now", []string{"Where", "Now", "Verdict", "Limit", "Since"}, func(p *page) { p.nowRow(v, path) }})
			}
		}
		var list []*derive.Number
		for _, family := range t.families {
			list = append(list, s.inFamily(family)...)
		}
		heads := append([]string{"Number", "Figure"}, s.limitHeads(list)...)
		for _, n := range list {
			rows = append(rows, listRow{"worked", "Worked out", t.title + ": worked out", heads, func(p *page) { p.numberRow(n, len(heads) > 2) }})
		}
		rows = append(rows, sheet...)
		stem := strings.TrimSuffix(t.at.page, ".html")
		sheets = append(sheets, s.listSheets(run{t.at.page, stem + "-", "this list"}, t.crumb, t.about, rows, t.before)...)
	}
	return sheets
}

// nowRow writes the row of a value in force.
func (p *page) nowRow(v *model.Value, path string) {
	p.row(func() { p.path(path) }, func() { p.valueLink(v) }, func() {
		if v.Limit != nil {
			p.beside(p.site.stripOf(v))
			p.judgedThere(v)
		}
	}, func() { p.limitOf(v) }, func() {
		switch {
		case v.Entry == nil:
			p.origin(v)
		default:
			p.toEntry(p.site.entryPlace(v.Entry), v.Entry)
		}
	})
}

// numberRow writes the row of a worked-out number, with its limit in a table that has limits.
func (p *page) numberRow(n *derive.Number, limits bool) {
	cells := []func(){func() { p.numberWords(n) }}
	if limits {
		limited := n.Limit != nil && p.site.ShowsLimit(n.Limit)
		cells = append(cells, func() {
			if limited {
				p.limit(n.Limit)
			}
		}, func() {
			if limited {
				p.beside(p.site.stripOfNumber(n))
				p.verdict(n.Verdict, n.Limit)
			}
		})
	}
	p.row(func() { p.to(p.site.numberPlace(n), n.Title) }, cells...)
}
