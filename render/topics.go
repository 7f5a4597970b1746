package render

import (
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
)

// topic is a page about one side of the engine: what is read there now, and what is worked out from it.
type topic struct {
	crumb
	about    string
	paths    []string                        // what stands at and below them belongs to it, where no other topic names a deeper one
	families []string                        // of numbers
	found    string                          // a family whose numbers it lists as they were found alone: rows of its own have those of now
	rows     func(*site) []listRow           // of its own, which stand first; nil for none
	before   func(*page)                     // what stands before the tables, nil for nothing
	owns     func(s *site, path string) bool // whether what is in force, or worked out, at a path is told by what is its own; nil for nothing
}

// topics are the pages of the sides of the engine, in the order of the navigation.
var topics = []topic{
	{crumb: crumb{place{page: "valve-train.html"}, "Valve train"}, about: "Lash, cam, ports and ignition: what is read there now, how it is set right, and what is worked out from it.",
		paths: []string{"lash", "shim", "cam", "timing", "port", "ignition", "clearance.valve", "clearance.retainer"}, rows: lashRows, before: valveCharts, owns: isLash, found: "lash-deviation",
		families: []string{"cam-duration", "lobe-centre", "lobe-separation", "cam-advance", "valve-overlap", "dead-centre", "cam-tooth", "valve-lift", "clearance", "spring-margin", "port-duration", "port-blowdown", "ignition-timing"}},
	{crumb: crumb{place{page: "fasteners.html"}, "Fasteners"}, about: "What each fastener is pulled down to, in both systems, and what that does to it.",
		paths: []string{"torque", "setting"}, rows: fastenerRows, owns: isOfFastener, families: []string{"wrench-setting"}},
	{crumb: crumb{place{page: "engine.html"}, "Engine"}, about: "Size, compression and piston: what is read there now, and what is worked out from it.",
		paths: []string{"compression", "leak", "squish", "engine", "air", "gap.plug"}, before: compressionChart,
		families: []string{"displacement", "compression-ratio", "trapped-compression", "cranking-pressure", "compression-spread", "squish", "rod-ratio", "piston-speed", "curtain-area"}},
	{crumb: crumb{place{page: "wear.html"}, "Wear"}, about: "Bores, pistons, rings, bearings and chains: sizes, clearances, and what has worn.",
		paths: []string{"bore", "piston", "journal", "bearing", "pin", "gap", "clearance", "float", "spring", "chain"}, before: boreGrids, owns: (*site).isInBore,
		families: []string{"bore-shape", "clearance", "ring-share", "spring-rate", "load-loss", "chain-elongation"}},
	{crumb: crumb{place{page: "drive.html"}, "Drive"}, about: "Ratios, and road speed by gear.", paths: []string{"drive"}, rows: gearRows, before: gearChart, families: []string{"rolling-circumference"}},
}

// topicOf returns the topic that a path belongs to, the one that names the deepest path at or above it; -1 for none.
func topicOf(path string) int {
	best, deepest := -1, ""
	for i := range topics {
		for _, top := range topics[i].paths {
			if len(top) > len(deepest) && parse.IsAtOrBelow(path, top) {
				best, deepest = i, top
			}
		}
	}
	return best
}

// crumbOf returns the way to a topic, under its name in this journal: an engine with ports and no valves has no valve train.
func (s *site) crumbOf(i int) crumb {
	c := topics[i].crumb
	if i == 0 && s.portsAlone {
		c.title = "Ports and ignition"
	}
	return c
}

// arePortsAlone reports whether what is known of the first topic is of ports or ignition, and nothing of valves.
func (s *site) arePortsAlone() bool {
	isOfPorts := func(path string) bool { return parse.IsAtOrBelow(path, "port") || parse.IsAtOrBelow(path, "ignition") }
	if slices.ContainsFunc(s.topicPaths[0], func(path string) bool { return !isOfPorts(path) }) {
		return false
	}
	list := s.numbersOf(0)
	return len(s.topicPaths[0])+len(list) > 0 && !slices.ContainsFunc(list, func(n *derive.Number) bool { return !isOfPorts(n.Path) })
}

// gatherTopics finds out which topics have anything to tell, and the paths of each.
func (s *site) gatherTopics() {
	s.topicPaths = make([][]string, len(topics))
	for _, path := range s.paths {
		if i := topicOf(path); i >= 0 && s.inForce(path) != nil {
			s.topicPaths[i] = append(s.topicPaths[i], path)
		}
	}
	s.bores = s.gatherBores()
	s.topics = make([]bool, len(topics))
	for i := range topics {
		s.topics[i] = s.tells(i)
	}
	s.portsAlone = s.arePortsAlone()
}

// hasTopic reports whether a topic has a page.
func (s *site) hasTopic(i int) bool { return s.topics[i] }

// tells reports whether a topic has more to tell than the list of limits does: a number, or readings of its own.
func (s *site) tells(i int) bool {
	isReading := func(path string) bool { return s.inForce(path).IsReading() }
	if topics[i].rows != nil && len(topics[i].rows(s)) > 0 {
		return true
	}
	return slices.ContainsFunc(s.topicPaths[i], isReading) || len(s.numbersOf(i)) > 0
}

// numbersOf are the numbers of a topic: those of its families but for what belongs to another by its path.
func (s *site) numbersOf(i int) []*derive.Number {
	var list []*derive.Number
	for _, family := range topics[i].families {
		for _, n := range s.inFamily(family) {
			if of := topicOf(n.Path); of < 0 || of == i || !slices.Contains(topics[of].families, family) {
				list = append(list, n)
			}
		}
	}
	return list
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
		rows = append(rows, s.topicRows(i)...)
		about := t.about
		if i == 0 && s.portsAlone {
			about = "Ports and ignition: what is read there now, and what is worked out from it."
		}
		stem := strings.TrimSuffix(t.at.page, ".html")
		sheets = append(sheets, s.listSheets(run{t.at.page, stem + "-", "this list"}, s.crumbOf(i), about, rows, t.before)...)
	}
	return sheets
}

// topicRows list what a topic has beside its own rows: what is in force, what is worked out, and what the build sheet says.
func (s *site) topicRows(i int) []listRow {
	t, title := &topics[i], s.crumbOf(i).title
	isOwn := func(path string) bool { return t.owns != nil && t.owns(s, path) }
	var now []string
	var rows, sheet []listRow
	for _, path := range s.topicPaths[i] {
		v := s.inForce(path)
		switch {
		case isOwn(path):
		case v.Origin == model.FromSheet:
			sheet = append(sheet, listRow{section: "sheet", title: "From the build sheet", label: title + ": from the build sheet", heads: []string{"Where", "Now"}, class: tightTable, write: func(p *page) {
				p.row(func() { p.path(path) }, func() { p.valueLink(v) })
			}})
		default:
			now = append(now, path)
		}
	}
	limited := slices.ContainsFunc(now, func(path string) bool { return s.inForce(path).Limit != nil })
	heads, write := []string{"Where", "Now", "Since"}, (*page).nowRow
	if limited {
		heads, write = []string{"Where", "Now", "Verdict", "Limit", "Since"}, (*page).limitedNowRow
	}
	for _, path := range now {
		rows = append(rows, listRow{section: "now", title: "Read, and in force now", label: title + ": in force now", heads: heads, class: tightTable, write: func(p *page) { write(p, path) }})
	}
	list := slices.DeleteFunc(s.numbersOf(i), func(n *derive.Number) bool { return isOwn(n.Path) })
	heads, writeNumber := append([]string{"Number", "Figure"}, s.limitHeads(list)...), (*page).numberRow
	if len(heads) > 2 {
		writeNumber = (*page).limitedNumberRow
	}
	for _, group := range grouped(list) {
		rows = append(rows, listRow{section: "worked", title: "Worked out", label: title + ": worked out", heads: heads, class: tightTable, write: func(p *page) { writeNumber(p, group) }})
	}
	return slices.Concat(rows, s.foundRows(i), sheet)
}

// foundRows list what was worked out of what was found and then replaced, the last of each: what a chain had come to, or how far off a lash was.
func (s *site) foundRows(i int) []listRow {
	t := &topics[i]
	list := slices.DeleteFunc(slices.Clone(s.sums.LastFound()), func(n *derive.Number) bool {
		of := topicOf(n.Path)
		return !s.ShowsNumber(n) || !slices.Contains(t.families, n.Family.Name) && n.Family.Name != t.found || of >= 0 && of != i && slices.Contains(topics[of].families, n.Family.Name)
	})
	heads := append([]string{"Number", "Figure", "Found in"}, s.limitHeads(list)...)
	var rows []listRow
	for _, n := range list {
		rows = append(rows, listRow{section: "found", title: "Worked out from what was found, and then set or renewed", label: s.crumbOf(i).title + ": as found", heads: heads, class: tightTable, write: func(p *page) {
			p.put(`<tr><th scope="row">`)
			p.to(s.numberPlace(n), n.Title)
			p.put("</th><td>")
			p.numberWords(n)
			p.put("</td><td>")
			p.toEntry(s.entryPlace(n.Entry), n.Entry)
			p.put("</td>")
			p.numberCells(n, list)
			p.put("</tr>\n")
		}})
	}
	return rows
}

// nowRow writes the row of a path at which something is in force.
func (p *page) nowRow(path string) { p.heldRow(path) }

// limitedNowRow writes it in a table that has limits.
func (p *page) limitedNowRow(path string) {
	v := p.site.inForce(path)
	p.heldRow(path, func() {
		if v.Limit != nil {
			p.beside(p.site.stripOf(v))
			p.judgedThere(v)
		}
	}, func() { p.limitOf(v) })
}

// heldRow writes what is in force at a path, then further cells, and since when it is.
func (p *page) heldRow(path string, further ...func()) {
	v := p.site.inForce(path)
	cells := append([]func(){func() { p.valueLink(v) }}, further...)
	p.row(func() { p.path(path) }, append(cells, func() { p.heldSince(v) })...)
}

// heldSince writes the entry since which a value is in force, or else where it comes from.
func (p *page) heldSince(v *model.Value) {
	if v.Entry == nil {
		p.origin(v)
		return
	}
	p.toEntry(p.site.entryPlace(v.Entry), v.Entry)
}
