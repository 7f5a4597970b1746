package render

import (
	"example.org/locknut/journal/source"
)

const (
	newestEntries = 10
	worstFindings = 12
)

// homePage is the build as it stands now.
func (s *site) homePage(p *page) {
	j := s.journal
	p.begin(head{title: j.Title, about: "The build journal of the " + p.machineName() + ": entries, limits, readings and what they say.", plate: s.plateNow()})
	if home := j.Build.Home; home != nil {
		if home.Title != nil {
			p.element("h2", home.Title.Text)
			p.put("\n")
		}
		p.prose(home, j.Home)
	}
	p.goals()
	p.section("open", "Open findings")
	open := s.found.in[source.Open]
	if len(open) == 0 {
		p.put("<p>Nothing is open.</p>\n")
	} else {
		p.tally(open)
		p.findings(open[:min(worstFindings, len(open))], excerpt)
		p.put("<p>")
		p.to(warningsCrumb.at, "All warnings")
		p.put("</p>\n")
	}
	p.endSection()
	p.toRead()
	p.pressing()
	p.section("newest", "Newest entries")
	p.put("<ol class=\"entries\">\n")
	shown := 0
	for i := len(s.Entries) - 1; i >= 0 && shown < newestEntries; i-- {
		if e := s.Entries[i]; !e.Plan {
			p.entryLine(e)
			shown++
		}
	}
	p.put("</ol>\n<p>")
	p.to(entriesCrumb.at, "All entries")
	p.put("</p>\n")
	p.endSection()
	p.put("<p class=\"data\">Every published value of this journal, for programs: ")
	p.to(place{page: dataName}, dataName)
	p.put("</p>\n")
	p.end()
}

func (p *page) machineName() string {
	if name := p.site.journal.Machine; name != "" {
		return name
	}
	return p.site.journal.Title
}

// toRead writes the readings that fitted parts and entries still ask for.
func (p *page) toRead() {
	s := p.site
	first := true
	for _, r := range s.journal.Requests {
		if r.Entry != nil && !s.ShowsEntry(r.Entry) {
			continue
		}
		if first {
			p.section("to-read", "To be read again")
			p.put("<ul>\n")
		}
		first = false
		p.put("<li>")
		p.path(r.Path)
		if r.Part != nil {
			p.put(", since ")
			p.to(s.partPlace(r.Part), r.Part.Title)
			p.put(" went in")
		}
		if r.Entry != nil {
			p.put(": ")
			p.toEntry(s.entryPlace(r.Entry), r.Entry)
		}
		p.put("</li>\n")
	}
	if !first {
		p.put("</ul>\n")
		p.endSection()
	}
}
