package render

import (
	"strconv"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/rule"
	"example.org/locknut/journal/source"
)

// findingsIn returns the published findings in a state, the worst first.
func (s *site) findingsIn(state source.State) []*source.Finding {
	var list []*source.Finding
	for severity := source.Error; severity >= source.Note; severity-- {
		for i := range s.findings {
			if f := &s.findings[i]; f.State == state && f.Severity == severity {
				list = append(list, f)
			}
		}
	}
	return list
}

// warningsPage lists every finding: open, settled and accepted.
func (s *site) warningsPage(p *page) {
	p.begin(head{title: "Warnings", about: "Every finding of the build: open, settled and accepted.", plate: s.plateNow()})
	open := s.findingsIn(source.Open)
	p.section("open", "Open")
	if len(open) == 0 {
		p.put("<p>Nothing is open.</p>\n")
	} else {
		p.tally(open)
	}
	p.findings(open, true)
	p.endSection()
	p.section("settled", "Settled")
	p.put("<p>A newer reading has taken the place of the one that each of these is about.</p>\n")
	p.findings(s.findingsIn(source.Settled), true)
	p.endSection()
	if !s.hides("accepted") {
		p.section("accepted", "Accepted")
		p.put("<p>The builder has looked at each of these and said why it may stand.</p>\n")
		p.findings(s.findingsIn(source.Accepted), true)
		p.endSection()
	}
	p.end()
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
		p.text(counted(n, severity.String()))
	}
	p.put(".</p>\n")
}

// counted says how many of a thing there are.
func counted(n int, thing string) string {
	text := strconv.Itoa(n) + " " + thing
	if n != 1 {
		text += "s"
	}
	return text
}

// findings writes a list of findings. The warnings page gives each its anchor; other lists link there.
func (p *page) findings(list []*source.Finding, anchored bool) {
	if len(list) == 0 {
		if anchored {
			p.put("<p class=\"nothing\">None.</p>\n")
		}
		return
	}
	p.put("<ul class=\"findings\">\n")
	for _, f := range list {
		p.put("<li")
		p.severityClass(f)
		if anchored {
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
		p.sources(f, anchored)
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
func (p *page) sources(f *source.Finding, anchored bool) {
	s := p.site
	p.put(`<p class="sources">`)
	p.to(s.rulePlace(f.Rule), f.Rule)
	if e := s.journal.Entry(f.Entry); e != nil && s.entryPages[e.Path] != p.name {
		p.put(" · ")
		p.toEntry(s.entryPlace(e), e)
	}
	if v := s.read[readingKey(holderOf(f), f.Origin, f.Subject)]; v != nil {
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
	if !anchored {
		p.put(" · ")
		p.to(s.findingPlace(f), "in the list")
	}
	p.put("</p>\n")
}

func holderOf(f *source.Finding) string {
	if f.Entry == "" {
		return "build"
	}
	return f.Entry
}

// remarks writes the other places that took part in a finding.
func (p *page) remarks(f *source.Finding) {
	first := true
	for _, r := range f.Notes {
		if !p.site.showsRemark(r) {
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

// showsRemark reports whether a remark tells nothing that is hidden.
func (s *site) showsRemark(r source.Remark) bool {
	probe := source.Finding{At: r.At, Message: r.Message}
	return s.showsFinding(&probe)
}

// placeText is a place as file and line; the text that stands there is not published.
func (s *site) placeText(at source.Range) string {
	if at.File == nil || s.hides("places") {
		return ""
	}
	if line, _, _, _ := at.Position(); line > 0 {
		return at.File.Name + ":" + strconv.Itoa(line)
	}
	return at.File.Name
}

// findingsOf returns the published findings about an entry or its file.
func (s *site) findingsOf(e *model.Entry) []*source.Finding {
	var list []*source.Finding
	for _, state := range []source.State{source.Open, source.Settled, source.Accepted} {
		for _, f := range s.findingsIn(state) {
			if f.Entry == e.Path || f.At.File == e.File {
				list = append(list, f)
			}
		}
	}
	return list
}

// rulePage is the documentation of a rule, and its findings.
func (s *site) rulePage(p *page, name string) {
	text := rule.Page(name)
	title := manualTitle(text)
	if title == "" {
		title = name
	}
	p.begin(head{title: title, about: "What the finding " + name + " means, and where it was made.", crumbs: []crumb{warningsCrumb}, plate: s.plateStill()})
	if text != "" {
		p.manual(text)
	}
	p.section("findings", "In this build")
	for _, state := range []source.State{source.Open, source.Settled, source.Accepted} {
		var list []*source.Finding
		for _, f := range s.findingsIn(state) {
			if f.Rule == name {
				list = append(list, f)
			}
		}
		p.findings(list, false)
	}
	p.endSection()
	p.end()
}
