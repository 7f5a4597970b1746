package render

import (
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parallel"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// entriesSheets are the pages that list all entries, the newest first, by year. The plans and the tags stand on the first.
func (s *site) entriesSheets() []sheet {
	var dated, plans []*model.Entry
	for _, e := range slices.Backward(s.Entries) {
		if e.Plan {
			plans = append(plans, e)
		} else {
			dated = append(dated, e)
		}
	}
	slices.Reverse(plans)
	var sheets []sheet
	pages := paged(dated)
	for i, list := range pages {
		sheets = append(sheets, sheet{entriesRun.page(i), func(p *page) {
			p.begin(s.listHead(entriesCrumb, i, "Every entry of the build, the newest first."))
			p.byYear(list)
			p.pager(entriesRun, len(pages))
			if i == 0 {
				p.plans(plans)
				p.allTags()
			}
			p.end()
		}})
	}
	return sheets
}

func (p *page) byYear(list []*model.Entry) {
	for from := 0; from < len(list); {
		day := list[from].Date
		to := from + 1
		for to < len(list) && list[to].Date.Year == day.Year {
			to++
		}
		title := strconv.Itoa(day.Year)
		if day.IsZero() {
			title = "No day that can be read"
		}
		p.section("year-"+strconv.Itoa(day.Year), title)
		p.entryLines(list[from:to])
		p.endSection()
		from = to
	}
}

func (p *page) plans(list []*model.Entry) {
	if len(list) == 0 {
		return
	}
	p.section("plans", "Plans")
	p.put("<p>Nothing in these has been done yet.</p>\n")
	p.entryLines(list)
	p.endSection()
}

func (p *page) entryLines(list []*model.Entry) {
	p.put("<ol class=\"entries\">\n")
	for _, e := range list {
		p.entryLine(e)
	}
	p.put("</ol>\n")
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
	if meter := s.MeterThen(e); meter != nil {
		p.put(` <span class="meter">`)
		p.figure(meter.Shown())
		p.put("</span>")
	}
	counts := map[source.Severity]int{}
	for _, f := range s.found.at[e] {
		if f.State == source.Open && f.Entry == e.Path {
			counts[f.Severity]++
		}
	}
	for severity := source.Error; severity >= source.Note; severity-- {
		if counts[severity] > 0 {
			p.put(` <span class="count">`)
			p.severityMark(severity)
			p.text(quantity.Counted(counts[severity], severity.String()))
			p.put("</span>")
		}
	}
	p.put("</li>\n")
}

// toEntry writes an entry's day and title, linked to a place in it.
func (p *page) toEntry(at place, e *model.Entry) {
	link := p.open(at)
	p.put(p.site.labels[e.Index].entry)
	if link {
		p.put("</a>")
	}
}

// label is what the rows of an entry's values say of it, and where they stand.
type label struct {
	entry  literal // its day and title
	meter  literal // what the meter showed
	holder literal // what the ids of its values begin with
	rows   literal // the address of its page, from the top of the site, up to where such an id goes on; empty if it has none
}

// writeLabels writes the labels of the entries, once for all pages.
func (s *site) writeLabels() {
	s.labels = make([]label, len(s.journal.Entries))
	parallel.Each(len(s.Entries), func(i int) {
		e := s.Entries[i]
		p := &page{site: s}
		if day := e.Date.String(); day != "" && !strings.HasPrefix(e.Title, day) {
			p.day(e)
			p.put(" ")
		}
		p.text(e.Title)
		n := len(p.bytes)
		if meter := s.MeterThen(e); meter != nil {
			p.figure(meter.Shown())
		}
		m := len(p.bytes)
		p.text(anchor(e.Path) + "/")
		l := len(p.bytes)
		p.text(address("index.html", place{s.entryPages[e.Index], anchor(e.Path) + "/"}))
		s.labels[e.Index] = label{literal(p.bytes[:n]), literal(p.bytes[n:m]), literal(p.bytes[m:l]), literal(p.bytes[l:])}
	})
}

// valueID writes the id of a reading, which no other row of a page has.
func (p *page) valueID(v *model.Value) {
	p.put(` id="`)
	p.put(p.site.labels[v.Entry.Index].holder)
	from := len(p.bytes)
	if p.bytes = v.AppendID(p.bytes); !isEncoded(p.bytes[from:]) {
		id := anchor(string(p.bytes[from:]))
		p.bytes = p.bytes[:from]
		p.text(id)
	}
	p.put(`"`)
}

// openReading opens a link to a reading on its entry's page, from another, and reports whether there is one to close.
func (p *page) openReading(v *model.Value) bool {
	if !p.site.ShowsValue(v) {
		return false
	}
	p.put(`<a href="`)
	p.text(p.addressPieces(place{})[0]) // the way up
	p.put(p.site.labels[v.Entry.Index].rows)
	from := len(p.bytes)
	if p.bytes = v.AppendID(p.bytes); !isEncoded(p.bytes[from:]) {
		id := encode(anchor(string(p.bytes[from:])))
		p.bytes = p.bytes[:from]
		p.text(id)
	}
	p.put(`">`)
	return true
}

func (p *page) day(e *model.Entry) { p.date(e.Date) }

// date writes a day.
func (p *page) date(d parse.Date) {
	day := d.String()
	p.put("<time")
	p.attr("datetime", day)
	p.put(">")
	p.text(day)
	p.put("</time>")
}

// tagSheets are the pages that list the entries of a tag, the newest first.
func (s *site) tagSheets(tag string) []sheet {
	var sheets []sheet
	list := slices.Clone(s.tagged[tag])
	slices.Reverse(list)
	pages := paged(list)
	for i, list := range pages {
		sheets = append(sheets, sheet{runFrom(s.tagPages[tag]).page(i), func(p *page) {
			p.begin(head{title: numbered("Tag: "+tag, i), about: "The entries tagged " + tag + ".", crumbs: []crumb{entriesCrumb}, plate: s.plateStill()})
			p.entryLines(list)
			p.pager(runFrom(s.tagPages[tag]), len(pages))
			p.end()
		}})
	}
	return sheets
}
