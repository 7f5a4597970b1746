package render

import (
	"slices"
	"strconv"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/rule"
	"example.org/locknut/journal/source"
)

// findings are the published findings, each list in the order open, settled, accepted, and the worst first.
type findings struct {
	in map[source.State][]*source.Finding
	at map[*model.Entry][]*source.Finding // about an entry or its file
	of map[string][]*source.Finding       // of a rule

	page map[*source.Finding]string // of the list that it stands on
	out  map[told]*source.Finding   // that a value or a worked-out number is out
}

// told is a place in the journal, and the path that something is told of there. Of a worked-out number one of the two is enough: it is told at a figure that it comes from, perhaps with others.
type told struct {
	at   source.Range
	path string
}

// outRules are the rules of which one tells of each value, and of each worked-out number, that is out.
var outRules = []string{"centre-disagrees", "teeth-out", "out-of-limits", "suspected-slip"}

var states = []source.State{source.Open, source.Settled, source.Accepted}

func (s *site) indexFindings(list []source.Finding) findings {
	x := findings{map[source.State][]*source.Finding{}, map[*model.Entry][]*source.Finding{}, map[string][]*source.Finding{}, map[*source.Finding]string{}, map[told]*source.Finding{}}
	byFile := map[*source.File]*model.Entry{}
	for _, e := range s.Entries {
		byFile[e.File] = e
	}
	for _, state := range states {
		for severity := source.Error; severity >= source.Note; severity-- {
			for i := range list {
				f := &list[i]
				if f.State != state || f.Severity != severity {
					continue
				}
				x.page[f] = warningsRun.page(len(x.page) / perPage)
				x.in[state] = append(x.in[state], f)
				x.of[f.Rule] = append(x.of[f.Rule], f)
				about, in := s.journal.Entry(f.Entry), byFile[f.At.File]
				if about != nil {
					x.at[about] = append(x.at[about], f)
				}
				if in != nil && in != about {
					x.at[in] = append(x.at[in], f)
				}
			}
		}
	}
	for _, rule := range outRules {
		for _, f := range x.of[rule] {
			if f.Origin == string(model.FromWorked) {
				x.out[told{path: f.Subject}], x.out[told{at: f.At}] = f, f // it may tell of several
				continue
			}
			x.out[told{f.At, f.Subject}] = f
		}
	}
	return x
}

// outPlace is the finding that a value is out, or nowhere.
func (s *site) outPlace(v *model.Value) place {
	if f := s.found.out[told{v.At(), v.Path}]; f != nil && v.Verdict == model.Out {
		return s.findingPlace(f)
	}
	return place{}
}

// numberOutPlace is the finding that a worked-out number is out, or that a figure which it comes from is; nowhere where there is neither. A number has no text of its own: it is told at one of
// its figures.
func (s *site) numberOutPlace(n *derive.Number) place {
	if n.Verdict != model.Out {
		return place{}
	}
	places := []told{{path: n.Path}}
	for _, v := range valuesOf(n) {
		places = append(places, told{v.At(), v.Path}, told{at: v.At()})
	}
	for _, t := range places {
		if f := s.found.out[t]; f != nil {
			return s.findingPlace(f)
		}
	}
	return place{}
}

// valuesOf returns the values that went into a number, or into those that it is worked out from.
func valuesOf(n *derive.Number) []*model.Value {
	var values []*model.Value
	for _, in := range n.Inputs {
		if in.Number != nil {
			values = append(values, valuesOf(in.Number)...)
		} else {
			values = append(values, in.Value)
		}
	}
	return values
}

// warningsSheets are the pages that list every finding: open, settled and accepted.
func (s *site) warningsSheets() []sheet {
	all := slices.Concat(s.found.in[source.Open], s.found.in[source.Settled], s.found.in[source.Accepted])
	var sheets []sheet
	pages := paged(all)
	for i, list := range pages {
		sheets = append(sheets, sheet{warningsRun.page(i), func(p *page) {
			p.begin(s.listHead(warningsCrumb, i, "Every finding of the build: open, settled and accepted."))
			for _, state := range states {
				var part []*source.Finding
				for _, f := range list {
					if f.State == state {
						part = append(part, f)
					}
				}
				if len(part) > 0 || len(s.found.in[state]) == 0 && i == 0 {
					p.findingsIn(state, part)
				}
			}
			p.pager(warningsRun, len(pages))
			p.end()
		}})
	}
	return sheets
}

// findingsIn writes the findings of a page that are in one state.
func (p *page) findingsIn(state source.State, list []*source.Finding) {
	switch state {
	case source.Open:
		p.section("open", "Open")
		if open := p.site.found.in[source.Open]; len(open) > 0 {
			p.tally(open)
		} else {
			p.put("<p>Nothing is open.</p>\n")
		}
	case source.Settled:
		p.section("settled", "Settled")
		p.put("<p>A newer reading has taken the place of the one that each of these is about, or a finding about its limit speaks for it.</p>\n")
	default:
		if p.site.Hides("accepted") {
			return
		}
		p.section("accepted", "Accepted")
		p.put("<p>The builder has looked at each of these and said why it may stand.</p>\n")
	}
	p.findings(list, anchored)
	p.endSection()
}

// tally says how many findings there are of each severity.
func (p *page) tally(list []*source.Finding) {
	counts := map[source.Severity]int{}
	for _, f := range list {
		counts[f.Severity]++
	}
	p.put("<p>")
	first := true
	for severity := source.Error; severity >= source.Note; severity-- {
		n := counts[severity]
		if n == 0 {
			continue
		}
		if !first {
			p.put(", ")
		}
		first = false
		p.text(quantity.Counted(n, severity.String()))
	}
	p.put(".</p>\n")
}

// listing says what a list of findings is.
type listing uint8

const (
	excerpt  listing = iota // some of them, each with a link to its place among all
	anchored                // all of them: the place that other lists link to
)

// findings writes a list of findings.
func (p *page) findings(list []*source.Finding, as listing) {
	if len(list) == 0 {
		if as == anchored {
			p.put("<p class=\"nothing\">None.</p>\n")
		}
		return
	}
	p.put("<ul class=\"findings\">\n")
	for _, f := range list {
		p.put("<li")
		p.severityClass(f)
		if as == anchored {
			p.id(anchor(f.ID()))
		}
		p.put(">\n<p>")
		p.severity(f)
		p.put(" ")
		p.message(f.Message)
		p.put("</p>\n")
		if f.Do != "" && f.State == source.Open {
			p.put("<p class=\"do\">")
			p.message(f.Do)
			p.put("</p>\n")
		}
		p.remarks(f)
		p.sources(f, as)
		p.put("</li>\n")
	}
	p.put("</ul>\n")
}

func (p *page) severityClass(f *source.Finding) {
	switch {
	case f.State != source.Open:
		p.put(` class="finding past"`)
	case f.Severity == source.Error:
		p.put(` class="finding error"`)
	case f.Severity == source.Warning:
		p.put(` class="finding warning"`)
	default:
		p.put(` class="finding note"`)
	}
}

// severity writes how bad a finding is as a word with its own mark, and its state where it isn't open.
func (p *page) severity(f *source.Finding) {
	p.put(`<span class="severity">`)
	p.severityMark(f.Severity)
	p.text(f.Severity.String())
	p.put("</span>")
	if f.State != source.Open {
		p.put(` <span class="state">`)
		p.text(f.State.String())
		p.put("</span>")
	}
}

// severityMark writes the mark that stands before the word for a severity.
func (p *page) severityMark(s source.Severity) {
	switch s {
	case source.Error:
		p.put(`<span class="mark" aria-hidden="true">✕</span> `)
	case source.Warning:
		p.put(`<span class="mark" aria-hidden="true">▲</span> `)
	default:
		p.put(`<span class="mark" aria-hidden="true">•</span> `)
	}
}

// sources writes where a finding stands and what it leads to: its entry, its value, its rule.
func (p *page) sources(f *source.Finding, as listing) {
	s := p.site
	p.put(`<p class="sources">`)
	p.to(s.rulePlace(f.Rule), f.Rule)
	if e := s.journal.Entry(f.Entry); e != nil && s.entryPages[e.Index] != p.name {
		p.put(" · ")
		p.toEntry(s.entryPlace(e), e)
	}
	if v := s.valueOf(f); v != nil {
		p.put(" · ")
		p.pathTo(s.valuePlace(v), v.Path)
	} else if s.pathPages[f.Subject] != "" {
		p.put(" · ")
		p.path(f.Subject)
	}
	if part := s.journal.Part(f.Subject); part != nil {
		p.put(" · ")
		p.to(s.partPlace(part), part.Title)
	}
	if text := s.placeText(f.At); text != "" {
		p.put(" · ")
		p.element("code", text)
	}
	if as == excerpt {
		p.put(" · ")
		p.to(s.findingPlace(f), "in the list")
	}
	p.put("</p>\n")
}

// remarks writes the other places that took part in a finding.
func (p *page) remarks(f *source.Finding) {
	first := true
	for _, r := range f.Notes {
		if !p.site.ShowsRemark(r) {
			continue
		}
		if first {
			p.put("<ul class=\"remarks\">\n")
		}
		first = false
		p.put("<li>")
		p.message(r.Message)
		if text := p.site.placeText(r.At); text != "" {
			p.put(": ")
			p.element("code", text)
		}
		p.put("</li>\n")
	}
	if !first {
		p.put("</ul>\n")
	}
}

// placeText is a place as file and line; the text that stands there is not published.
func (s *site) placeText(at source.Range) string {
	if at.File == nil || s.Hides("places") {
		return ""
	}
	if line, _, _, _ := at.Position(); line > 0 {
		return at.File.Name + ":" + strconv.Itoa(line)
	}
	return at.File.Name
}

// ruleSheets are the documentation of a rule with its findings, and the pages on which those go on.
func (s *site) ruleSheets(name string) []sheet {
	text := rule.Page(name)
	title := manualTitle(text)
	if title == "" {
		title = name
	}
	list := runFrom(s.rulePages[name])
	own := crumb{s.rulePlace(name), title}
	var sheets []sheet
	pages := paged(s.found.of[name])
	for i, found := range pages {
		sheets = append(sheets, sheet{list.page(i), func(p *page) {
			h := head{title: numbered(title, i), about: "What the finding " + name + " means, and where it was made.", crumbs: []crumb{warningsCrumb}, plate: s.plateStill()}
			if i > 0 {
				h.crumbs = append(h.crumbs, own)
			}
			p.begin(h)
			if i == 0 && text != "" {
				p.manual(text)
			}
			p.section("findings", "In this build")
			p.findings(found, excerpt)
			p.pager(list, len(pages))
			p.endSection()
			p.end()
		}})
	}
	return sheets
}
