package render

import (
	"slices"

	"example.org/locknut/journal"
	"example.org/locknut/journal/caution"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parallel"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/report"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/spend"
	"example.org/locknut/journal/upkeep"
	"example.org/locknut/render/chart"
	"example.org/locknut/themes"
)

// site is what all pages are made from. It is put together once and only read from then on.
type site struct {
	*report.Publication

	journal *model.Journal
	sums    *derive.Sums
	numbers []*derive.Number          // published, as they are now
	current map[string]*derive.Number // those, by path
	found   findings
	paths   []string // those that have a page, in order

	entryPages                                                        []string          // names of pages, by index of the entry; empty for one that is not published
	pathPages, partPages, toolPages, tagPages, rulePages, familyPages map[string]string // names of pages

	benchPages []string      // names of pages of cards, by index of the entry; empty for one without
	cautions   []caution.Set // for the work of each entry, by index

	others map[*quantity.Unit]*quantity.Unit // the unit that figures in one are shown in beside

	tagged      map[string][]*model.Entry
	displaced   map[fit]*model.Part
	standing    map[string]*model.Value     // that no entry told, by origin and path
	histories   map[string][]*model.Value   // what spoke for each path, the newest first
	rowPages    map[*model.Value]string     // the page on which their rows stand, of those that no entry told
	uses        map[string][]*derive.Number // by path of an input
	mentions    map[thing][]mention
	givers      map[string][]*model.Part      // by what they are and give
	limited     map[*model.Limit]literal      // what each limit holds a value to, as markup
	labels      []label                       // of the entries, by index
	limitedBoth map[*model.Limit]literal      // the same without what wears, always in two units, for cards
	gauges      map[*model.Limit]*chart.Gauge // of the limits

	leftOff []LeftOff // as it is found

	themeFiles map[string]string // names on the site of the files of the journal's own theme, by their names in the journal

	wayAbove literal // the navigation of a page in a folder

	topics     []bool          // which of them have a page
	topicPaths [][]string      // in force, by topic
	portsAlone bool            // the first is of ports and ignition, and of no valves
	bores      []*bore         // of which there is a grid
	inBores    map[string]bool // paths of what is read in those, and worked out from it

	hasPower bool                           // a session on a dyno is published
	hasFuel  bool                           // a log is, or what injectors must pass
	hasPlan  bool                           // anything is planned
	hasSteps bool                           // a step is open
	upkeep   []upkeep.Item                  // published, the most pressing first
	running  *upkeep.Running                // of parts, as published entries tell it
	taken    map[*model.Tool][]*model.Value // the published readings of each, the newest first
	trends   []upkeep.Trend                 // published, those that leave their limits first come first
	spend    *spend.Book                    // published
	photos   map[string][]shot              // the published pictures of a file below the journal, the large one first
}

// fit is an entry's fitting of a part.
type fit struct {
	entry *model.Entry
	part  *model.Part
}

func newSite(result *journal.Result) *site {
	s := &site{Publication: report.Publish(result), journal: result.Journal, sums: result.Sums, standing: map[string]*model.Value{}, current: map[string]*derive.Number{}, displaced: map[fit]*model.Part{}}
	for _, n := range result.Numbers {
		if s.ShowsNumber(n) {
			s.numbers = append(s.numbers, n)
			s.current[n.Path] = n
		}
	}
	s.gatherUpkeep()
	s.found = s.indexFindings(s.Findings(result, s.upkeep))
	for _, v := range s.journal.Values {
		if v.Entry == nil {
			s.standing[string(v.Origin)+"/"+v.Path] = v
		}
	}
	for _, c := range s.journal.Changes {
		if c.Kind == model.Fits && c.Displaced != nil {
			s.displaced[fit{c.Entry, c.Ref.Part}] = c.Displaced
		}
	}
	s.others = otherUnits(s.journal.Units)
	s.writeLimits()
	s.assignPages()
	s.writeLabels()
	apart := []func(){ // each reads what is above, and writes what is its own
		func() { s.trends = upkeep.Trends(s.journal, s.ShowsEntry, s.ShowsValue) },
		func() { s.gatherGivers(); s.gatherMentions() },
		func() { s.gatherHistories(); s.findRows() },
		s.gatherTopics,
		s.gatherCautions,
		s.gatherTaken,
		s.gatherSpend,
		s.gatherUses,
		s.findSteps,
		func() { s.running = upkeep.RunningOf(s.journal, s.ShowsEntry) },
		func() {
			s.hasPower, s.hasFuel = len(s.sessions(nil)) > 0, s.tellsFuelling()
			parts, entries := s.planned()
			s.hasPlan = len(parts)+len(entries) > 0
		},
	}
	parallel.Each(len(apart), func(i int) { apart[i]() })
	p := newPage(s, "folder/page.html", nil)
	p.writeNavigation()
	s.wayAbove = literal(p.bytes)
	return s
}

// valueOf returns the value that a finding is about, nil where it is about none.
func (s *site) valueOf(f *source.Finding) *model.Value {
	if f.Entry == "" {
		return s.standing[f.Origin+"/"+f.Subject]
	}
	e := s.journal.Entry(f.Entry)
	if e == nil || e.Plan {
		return nil
	}
	for _, v := range slices.Backward(e.Values) {
		if v.Path == f.Subject && string(v.Origin) == f.Origin {
			return v
		}
	}
	return nil
}

// assignPages finds out what has a page, and gives each its name.
func (s *site) assignPages() {
	j := s.journal
	var entries, families, parts, tools []string
	s.tagged = map[string][]*model.Entry{}
	for _, e := range s.Entries {
		entries = append(entries, e.Path)
		for _, tag := range e.Tags {
			if !slices.Contains(s.tagged[tag], e) {
				s.tagged[tag] = append(s.tagged[tag], e)
			}
		}
	}
	slices.Sort(entries)
	for _, part := range j.Parts {
		parts = append(parts, part.Name)
	}
	if !s.Hides("tools") {
		for _, tool := range j.Tools {
			tools = append(tools, tool.Name)
		}
	}
	rules := sorted(s.found.of)
	for _, n := range s.numbers {
		families = append(families, n.Family.Name)
	}
	slices.Sort(families)
	byPath := assign("entries", entries)
	s.entryPages = make([]string, len(j.Entries))
	for _, e := range s.Entries {
		s.entryPages[e.Index] = byPath[e.Path]
	}
	s.assignCards()
	s.paths = s.pathsWithPages()
	s.pathPages = assign("paths", s.paths)
	s.partPages, s.toolPages = assign("parts", parts), assign("tools", tools)
	s.tagPages, s.rulePages, s.familyPages = assign("tags", sorted(s.tagged)), assign("rules", rules), assign("numbers", families)
}

func sorted[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// pathsWithPages returns the paths at which something published was read, is brought, stands in the sheet, or is limited.
func (s *site) pathsWithPages() []string {
	seen := map[string]bool{}
	for _, v := range s.journal.Values {
		if s.ShowsValue(v) {
			seen[v.Path] = true
		}
	}
	for _, e := range s.Entries {
		for _, v := range e.Values {
			if s.ShowsValue(v) {
				seen[v.Path] = true
			}
		}
	}
	for _, limit := range s.journal.Limits {
		if isLimit(limit) && s.ShowsLimit(limit) {
			seen[limit.Path] = true
		}
	}
	for _, part := range s.journal.Parts {
		for _, r := range part.Brings {
			if !s.IsMoney(r.Path) {
				seen[r.Path] = true
			}
		}
	}
	return sorted(seen)
}

// isLimit tells a limit from a table above limits.
func isLimit(l *model.Limit) bool { return l.IsFigures() || len(l.Expect) > 0 || l.Nominal != nil }

// gatherUses finds out which numbers each path feeds.
func (s *site) gatherUses() {
	s.uses = map[string][]*derive.Number{}
	for _, n := range s.numbers {
		for _, in := range n.Inputs {
			if in.Value != nil && in.Curves == nil && !slices.Contains(s.uses[in.Value.Path], n) {
				s.uses[in.Value.Path] = append(s.uses[in.Value.Path], n)
			}
		}
	}
}

// allSheets lists every file of the site.
func (s *site) allSheets() ([]sheet, error) {
	css, err := themes.CSS(s.themeName())
	if err != nil {
		return nil, err
	}
	sheets := append(s.searchSheets(), []sheet{ // the index is the largest, and so begun first
		{"index.html", s.homePage},
		{"theme.css", func(p *page) {
			p.bytes = slices.Concat(p.bytes, []byte(markdown.HighlightCSS()), []byte(chart.CSS()), css, cardCSS, tablesCSS)
			p.ownStyle()
		}},
		{"numbers.html", s.numbersPage},
		{cautionsCrumb.at.page, s.cautionsPage},
		{"favicon.svg", func(p *page) { p.bytes = append(p.bytes, favicon...) }},
	}...)
	sheets = slices.Concat(sheets, s.overviewSheets(), s.entriesSheets(), s.warningsSheets(), s.limitsSheets(), s.partsSheets(),
		s.eachEntry(), s.eachPath(), s.eachPart(), s.eachTool(), s.eachName())
	return s.withWeb(s.withTheme(sheets)), nil
}

// overviewSheets are the pages about the whole build that not every journal has something for.
func (s *site) overviewSheets() []sheet {
	var sheets []sheet
	if s.hasPower {
		sheets = append(sheets, sheet{powerCrumb.at.page, s.powerPage})
	}
	if s.hasFuel {
		sheets = append(sheets, sheet{fuellingCrumb.at.page, s.fuellingPage})
	}
	if s.hasPlan {
		sheets = append(sheets, sheet{planCrumb.at.page, s.planPage})
	}
	if s.hasSteps {
		sheets = append(sheets, s.stepsSheets()...)
	}
	if s.hasSpend() {
		sheets = append(sheets, sheet{spendCrumb.at.page, s.spendPage})
	}
	if s.hasUpkeep() {
		sheets = append(sheets, s.upkeepSheets()...)
	}
	return slices.Concat(sheets, s.topicSheets(), s.dataSheets())
}

// eachEntry are the pages of single entries. As of all things that can be mentioned, a long list of what mentions one goes on on more of them.
func (s *site) eachEntry() []sheet {
	var sheets []sheet
	for i, e := range s.Entries {
		sheets = append(sheets, sheet{s.entryPages[e.Index], func(p *page) { s.entryPage(p, i) }})
		if card := s.benchPages[e.Index]; card != "" {
			sheets = append(sheets, sheet{card, func(p *page) { s.benchPage(p, e) }})
		}
		sheets = append(sheets, s.mentionSheets(entryThing(e.Path), entriesCrumb, crumb{s.entryPlace(e), e.Title})...)
	}
	return sheets
}

func (s *site) eachPath() []sheet {
	var sheets []sheet
	for _, path := range s.paths {
		sheets = append(sheets, s.pathSheets(path)...)
		sheets = append(sheets, s.mentionSheets(pathThing(path), limitsCrumb, crumb{s.pathPlace(path), path})...)
	}
	return sheets
}

func (s *site) eachPart() []sheet {
	var sheets []sheet
	for _, part := range s.journal.Parts {
		sheets = append(sheets, sheet{s.partPages[part.Name], func(p *page) { s.partPage(p, part) }})
		sheets = append(sheets, s.mentionSheets(partThing(part.Name), partsCrumb, crumb{s.partPlace(part), part.Title})...)
	}
	return sheets
}

// eachTool are the list of the tools, and the page of each.
func (s *site) eachTool() []sheet {
	if s.Hides("tools") {
		return nil
	}
	sheets := s.toolsSheets()
	for _, tool := range s.journal.Tools {
		sheets = append(sheets, s.toolSheets(tool)...)
		sheets = append(sheets, s.mentionSheets(toolThing(tool.Name), toolsCrumb, crumb{s.toolPlace(tool), tool.Title})...)
	}
	return sheets
}

// eachName are the pages of what has no more than a name: tags, rules and families of numbers.
func (s *site) eachName() []sheet {
	var sheets []sheet
	for _, tag := range sorted(s.tagPages) {
		sheets = append(sheets, s.tagSheets(tag)...)
	}
	for _, rule := range sorted(s.rulePages) {
		sheets = append(sheets, s.ruleSheets(rule)...)
	}
	for _, family := range sorted(s.familyPages) {
		sheets = append(sheets, sheet{s.familyPages[family], func(p *page) { s.familyPage(p, family) }})
	}
	return sheets
}

// themeName returns the theme that the builder chose, or the usual one.
func (s *site) themeName() string {
	name := s.journal.Build.Fields.Table("site").Name("theme").Name
	if slices.Contains(themes.Names(), name) {
		return name
	}
	return themes.Usual
}
