package render

import (
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// entriesPage lists all entries, the newest first, by year; then the plans and the tags.
func (s *site) entriesPage(p *page) {
	p.begin(head{title: "Entries", about: "Every entry of the build, the newest first.", plate: s.plateNow()})
	var dated, plans []*model.Entry
	for _, e := range s.entries {
		if e.Plan {
			plans = append(plans, e)
		} else {
			dated = append(dated, e)
		}
	}
	for end := len(dated); end > 0; {
		start := end - 1
		for start > 0 && dated[start-1].Date.Year == dated[end-1].Date.Year {
			start--
		}
		title := strconv.Itoa(dated[start].Date.Year)
		if dated[start].Date.IsZero() {
			title = "No day that can be read"
		}
		p.section("year-"+strconv.Itoa(dated[start].Date.Year), title)
		p.put("<ol class=\"entries\">\n")
		for i := end - 1; i >= start; i-- {
			p.entryLine(dated[i])
		}
		p.put("</ol>\n")
		p.endSection()
		end = start
	}
	if len(plans) > 0 {
		p.section("plans", "Plans")
		p.put("<p>Nothing in these has been done yet.</p>\n<ol class=\"entries\">\n")
		for _, e := range plans {
			p.entryLine(e)
		}
		p.put("</ol>\n")
		p.endSection()
	}
	p.allTags()
	p.end()
}

func (p *page) allTags() {
	s := p.site
	if len(s.tagPages) == 0 {
		return
	}
	p.section("tags", "Tags")
	p.put("<ul class=\"tags\">\n")
	for _, tag := range sorted(s.tagPages) {
		p.put("<li>")
		p.to(s.tagPlace(tag), tag)
		p.put(": ")
		p.text(strconv.Itoa(len(s.tagged[tag])))
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.endSection()
}

// entryLine writes an entry as a line of a list: its day, title, meter, and what is open in it.
func (p *page) entryLine(e *model.Entry) {
	s := p.site
	p.put("<li>")
	if !e.Date.IsZero() {
		p.day(e)
		p.put(" ")
	}
	p.to(s.entryPlace(e), e.Title)
	if e.MeterThen != nil && !e.Plan {
		p.put(` <span class="meter">`)
		p.figure(e.MeterThen.Shown())
		p.put("</span>")
	}
	counts := map[source.Severity]int{}
	for i := range s.findings {
		if f := &s.findings[i]; f.State == source.Open && f.Entry == e.Path {
			counts[f.Severity]++
		}
	}
	for severity := source.Error; severity >= source.Note; severity-- {
		if counts[severity] > 0 {
			p.put(` <span class="count">`)
			p.severityMark(severity)
			p.text(counted(counts[severity], severity.String()))
			p.put("</span>")
		}
	}
	p.put("</li>\n")
}

// toEntry writes an entry's day and title, linked to a place in it.
func (p *page) toEntry(at place, e *model.Entry) {
	link := p.open(at)
	if !e.Date.IsZero() && !strings.HasPrefix(e.Title, e.Date.String()) {
		p.day(e)
		p.put(" ")
	}
	p.text(e.Title)
	if link {
		p.put("</a>")
	}
}

func (p *page) day(e *model.Entry) {
	p.put("<time")
	p.attr("datetime", e.Date.String())
	p.put(">")
	p.text(e.Date.String())
	p.put("</time>")
}

// tagPage lists the entries of a tag.
func (s *site) tagPage(p *page, tag string) {
	p.begin(head{title: "Tag: " + tag, about: "The entries tagged " + tag + ".", crumbs: []crumb{entriesCrumb}, plate: s.plateStill()})
	p.put("<ol class=\"entries\">\n")
	list := s.tagged[tag]
	for i := len(list) - 1; i >= 0; i-- {
		p.entryLine(list[i])
	}
	p.put("</ol>\n")
	p.end()
}
