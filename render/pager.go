package render

import (
	"slices"
	"strconv"
)

// perPage is how many items of a list stand on one page.
const perPage = 200

// run is a list that is spread over pages.
type run struct {
	first string // name of its first page
	stem  string // of the others: `entries-` for entries-2.html
	what  string // it lists
}

var (
	entriesRun  = run{"entries.html", "entries-", "the entries"}
	warningsRun = run{"warnings.html", "warnings-", "the warnings"}
	limitsRun   = run{"limits.html", "limits-", "the limits"}
	partsRun    = run{"parts.html", "parts-", "the parts"}
	upkeepRun   = run{"upkeep.html", "upkeep-", "the upkeep"}
	stepsRun    = run{"steps.html", "steps-", "the steps"}
	toolsRun    = run{"tools.html", "tools-", "the tools"}
)

// runFrom is the list that begins on the page of a thing. No name of a thing keeps its `_`, so that no other has a page of such a name.
func runFrom(first string) run { return run{first, first[:len(first)-len(".html")] + "_", "this list"} }

// listRow is a row, written by row, of a list that is spread over pages, with the section and the table that it stands in.
type listRow struct {
	section, title, label string // without a title it is a table alone
	heads                 []string
	class                 literal // of its table; without one its rows become blocks on a narrow screen
	write                 func(*page)
}

// The classes of tables that stay compact on a narrow screen.
const (
	tightTable literal = "stack tight" // rows become blocks of few lines, the first cell on the line of the head
	fitTable   literal = "fit"         // rows stay rows: the table fits

	// Those of an entry, of which there are very many: tables.css knows the heads of their columns by their order.
	readingTable literal = "stack readings"
	numberTable  literal = "stack numbers"
)

// listHead is what a page of a list begins with; all but the first lead back to it.
func (s *site) listHead(own crumb, i int, about string) head {
	h := head{title: numbered(own.title, i), about: about, plate: s.plateNow()}
	if i > 0 {
		h.crumbs = []crumb{own}
	}
	return h
}

// listSheets are the pages of a list of rows, and what stands before them on the first; nil for nothing.
func (s *site) listSheets(r run, own crumb, about string, rows []listRow, before func(*page)) []sheet {
	var sheets []sheet
	pages := paged(rows)
	for i, rows := range pages {
		sheets = append(sheets, sheet{r.page(i), func(p *page) {
			p.begin(s.listHead(own, i, about))
			if before != nil && i == 0 {
				before(p)
			}
			p.listRows(rows)
			p.pager(r, len(pages))
			p.end()
		}})
	}
	return sheets
}

// orSays writes a paragraph before a list that has no rows.
func orSays(rows []listRow, nothing literal) func(*page) {
	if len(rows) > 0 {
		return nil
	}
	return func(p *page) { p.put(nothing) }
}

func (p *page) listRows(rows []listRow) {
	for from := 0; from < len(rows); {
		first, to := rows[from], from
		if first.title != "" {
			p.section(first.section, first.title)
		}
		p.classed(first.class, first.label, first.heads...)
		for ; to < len(rows) && rows[to].section == first.section; to++ {
			rows[to].write(p)
		}
		p.endTable()
		if first.title != "" {
			p.endSection()
		}
		from = to
	}
}

// page returns the name of a page, counted from 0.
func (r run) page(i int) string {
	if i == 0 {
		return r.first
	}
	return r.stem + strconv.Itoa(i+1) + ".html"
}

// numbered puts the number of a page after a title, but for the first.
func numbered(title string, i int) string {
	if i == 0 {
		return title
	}
	return title + ", page " + strconv.Itoa(i+1)
}

// paged cuts a list into pages: at least one, which is empty where the list is.
func paged[T any](list []T) [][]T {
	if len(list) == 0 {
		return [][]T{nil}
	}
	return slices.Collect(slices.Chunk(list, perPage))
}

// pager links the pages of a list to each other.
func (p *page) pager(r run, pages int) {
	if pages < 2 {
		return
	}
	p.put("<nav class=\"neighbours\"")
	p.attr("aria-label", "Pages of "+r.what)
	p.put(">\n<ul>\n")
	for i := range pages {
		name := r.page(i)
		p.put("<li><a")
		p.attr("href", p.address(place{page: name}))
		if name == p.name {
			p.put(` aria-current="page"`)
		}
		p.put(">")
		p.text("Page " + strconv.Itoa(i+1))
		p.put("</a></li>\n")
	}
	p.put("</ul>\n</nav>\n")
}
