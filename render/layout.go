package render

import (
	"strconv"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
)

// page is one page while it is written.
type page struct {
	writer
	site *site
	name string
	root string                            // that addresses begin with, on a page that is shown at any depth; empty on all others
	ids  map[string]bool                   // given out on this page
	left map[*model.Entry][]*derive.Number // worked out for this page
	away bool                              // it is read without the style of the site, which drawings need

	heads    []string              // of the columns of the table that is open, if its rows may become blocks
	contents []content             // its sections so far
	top      int                   // where its contents go
	told     map[*model.Value]bool // readings that stand in its margin
}

func newPage(s *site, name string, room []byte) *page {
	return &page{writer: writer{bytes: room}, site: s, name: name, ids: map[string]bool{}, left: map[*model.Entry][]*derive.Number{}, told: map[*model.Value]bool{}}
}

// apart returns a page that writes somewhere else what is to become a part of this one.
func (p *page) apart(room []byte) *page {
	other := *p
	other.bytes = room
	return &other
}

// id writes the id of an element, unless an element before it has the same one.
func (p *page) id(id string) {
	if id == "" || p.ids[id] {
		return
	}
	p.ids[id] = true
	p.attr("id", id)
}

// open opens a link to a place and reports whether there is one to close.
func (p *page) open(to place) bool {
	if to.page == "" {
		return false
	}
	p.put(`<a href="`)
	for _, piece := range p.addressPieces(to) { // apart, since there are very many links
		p.text(piece)
	}
	p.put(`">`)
	return true
}

// to writes a text that links to a place, or the text alone where that is nowhere.
func (p *page) to(at place, text string) {
	link := p.open(at)
	p.text(text)
	if link {
		p.put("</a>")
	}
}

// path writes a path, so that it may break at its dots, linked to its page.
func (p *page) path(path string) { p.pathTo(p.site.pathPlace(path), path) }

// mostUnbroken is how many letters of a path stand on one line on a wide screen.
const mostUnbroken = 32

func (p *page) pathTo(at place, path string) {
	if len(path) > mostUnbroken {
		p.put(`<span class="path long">`)
	} else {
		p.put(`<span class="path">`)
	}
	link := p.open(at)
	for i := 0; i < len(path); {
		next := i + 1
		for next < len(path) && path[next] != '.' {
			next++
		}
		if i > 0 {
			p.put("<wbr>")
		}
		p.text(path[i:next])
		i = next
	}
	if link {
		p.put("</a>")
	}
	p.put(`</span>`)
}

// crumb is a step on the way from the first page to this one.
type crumb struct {
	at    place
	title string
}

var (
	entriesCrumb  = crumb{place{page: "entries.html"}, "Entries"}
	limitsCrumb   = crumb{place{page: "limits.html"}, "Limits and values"}
	partsCrumb    = crumb{place{page: "parts.html"}, "Parts"}
	warningsCrumb = crumb{place{page: "warnings.html"}, "Warnings"}
	numbersCrumb  = crumb{place{page: "numbers.html"}, "Numbers"}
	toolsCrumb    = crumb{place{page: "tools.html"}, "Tools"}
)

const policy = "default-src 'none'; style-src 'self'; img-src 'self'; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'"

// head is what a page begins with: its title, what it is about in one line, the way to it, and the figures of its data plate.
type head struct {
	title, about string
	crumbs       []crumb
	plate        []plateField
	scripts      []string // files that the page runs; none but that for searching has any
}

// policy is what a page may load (Content Security Policy Level 3, from memory).
func (h head) policy() string {
	if len(h.scripts) > 0 {
		return policy + "; script-src 'self'"
	}
	return policy
}

func (p *page) begin(h head) {
	s := p.site
	full := h.title
	if p.name != "index.html" {
		full += " – " + s.journal.Title
	}
	p.put("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
	p.put(`<meta http-equiv="Content-Security-Policy"`)
	p.attr("content", h.policy())
	p.put(">\n<meta name=\"referrer\" content=\"no-referrer\">\n<meta name=\"description\"")
	p.attr("content", h.about)
	p.put(">\n")
	p.element("title", full)
	p.put("\n")
	p.webTags(h)
	p.put("<link rel=\"icon\" type=\"image/svg+xml\"")
	p.attr("href", p.address(place{page: "favicon.svg"}))
	p.put(">\n<link rel=\"stylesheet\"")
	p.attr("href", p.address(place{page: "theme.css"}))
	p.put(">\n")
	for _, name := range h.scripts {
		p.put(`<script defer=""`)
		p.attr("src", p.address(place{page: name}))
		p.put("></script>\n")
	}
	p.put("</head>\n<body>\n<a class=\"skip\" href=\"#page.content\">Skip to the content</a>\n")
	p.plate(h.plate)
	p.navigation()
	p.breadcrumbs(h)
	p.put("<main")
	p.id("page.content")
	p.put(" tabindex=\"-1\">\n")
	p.element("h1", h.title)
	p.put("\n")
	p.top = len(p.bytes)
}

func (p *page) end() {
	p.insertContents()
	p.put("</main>\n<footer>\n<p>One builder’s own record, not a manual. Hot and turning parts, fuel, exhaust gas, springs, and a machine on a stand, a roller or the road can hurt: " +
		"the maker’s manual, local rules and a licensed practitioner come first.</p>\n</footer>\n</body>\n</html>\n")
}

// plate writes the data plate: the way home, and the state of the engine in one line.
func (p *page) plate(fields []plateField) {
	j := p.site.journal
	name := j.Machine
	if name == "" {
		name = j.Title
	}
	p.put(`<header class="plate">` + "\n" + `<p class="machine">`)
	p.to(place{page: "index.html"}, name)
	if j.Year != 0 {
		p.put(` <span class="year">`)
		p.text(strconv.Itoa(j.Year))
		p.put("</span>")
	}
	p.put("</p>\n")
	if len(fields) > 0 {
		p.put("<dl>\n")
		for _, f := range fields {
			if f.counts {
				p.put("<div>")
			} else {
				p.put(`<div class="told">`)
			}
			p.element("dt", f.label)
			p.put("<dd>")
			f.write(p)
			p.put("</dd></div>\n")
		}
		p.put("</dl>\n")
	}
	p.put("</header>\n")
}

// navigation writes the way to the site's main pages. That of pages which are none of them is the same in each folder, and is written once.
func (p *page) navigation() {
	if folder := strings.IndexByte(p.name, '/') >= 0; folder && p.root == "" {
		p.put(p.site.wayAbove)
		return
	}
	p.writeNavigation()
}

func (p *page) writeNavigation() {
	p.put("<nav class=\"site\" aria-label=\"Site\">\n<ul>\n")
	crumbs := []crumb{entriesCrumb, warningsCrumb, limitsCrumb, partsCrumb, numbersCrumb}
	if p.site.hasPower {
		crumbs = append(crumbs, powerCrumb)
	}
	if p.site.hasFuel {
		crumbs = append(crumbs, fuellingCrumb)
	}
	for i := range topics {
		if p.site.hasTopic(i) {
			crumbs = append(crumbs, p.site.crumbOf(i))
		}
	}
	if p.site.hasUpkeep() {
		crumbs = append(crumbs, upkeepCrumb)
	}
	if p.site.hasPlan {
		crumbs = append(crumbs, planCrumb)
	}
	if p.site.hasSteps {
		crumbs = append(crumbs, stepsCrumb)
	}
	if p.site.hasSpend() {
		crumbs = append(crumbs, spendCrumb)
	}
	if !p.site.Hides("tools") {
		crumbs = append(crumbs, toolsCrumb)
	}
	for _, c := range append(crumbs, searchCrumb) {
		p.put("<li><a")
		p.attr("href", p.address(c.at))
		if c.at.page == p.name {
			p.put(` aria-current="page"`)
		}
		p.put(">")
		p.text(c.title)
		p.put("</a></li>\n")
	}
	p.put("</ul>\n</nav>\n")
}

func (p *page) breadcrumbs(h head) {
	if p.name == "index.html" {
		return
	}
	p.put("<nav class=\"crumbs\" aria-label=\"Breadcrumb\">\n<ol>\n<li>")
	p.to(place{page: "index.html"}, "The build")
	p.put("</li>\n")
	for _, c := range h.crumbs {
		p.put("<li>")
		p.to(c.at, c.title)
		p.put("</li>\n")
	}
	p.put("<li aria-current=\"page\">")
	p.text(h.title)
	p.put("</li>\n</ol>\n</nav>\n")
}

// section opens a section under a heading of level 2. Ids of our own hold a dot, which those of the builder's headings never do.
func (p *page) section(id, title string) {
	p.contents = append(p.contents, content{"section." + id, title})
	p.put("<section")
	p.attr("aria-labelledby", "section."+id)
	p.put(">\n<h2")
	p.id("section." + id)
	p.put(">")
	p.text(title)
	p.put("</h2>\n")
}

func (p *page) endSection() { p.put("</section>\n") }

// table opens a table in a box that scrolls on a narrow screen and can be reached by keyboard.
func (p *page) table(label string, heads ...string) { p.openTable(label, "<table>", heads) }

// stack opens a table whose rows, written by row, become blocks on a narrow screen, each cell on a line of its own behind the head of its column:
// what matters in them would else be out of sight.
func (p *page) stack(label string, heads ...string) {
	p.heads = heads
	p.openTable(label, `<table class="stack">`, heads)
}

// classed opens a table of a class; without one it is stacked.
func (p *page) classed(class literal, label string, heads ...string) {
	if class == "" {
		p.stack(label, heads...)
		return
	}
	if class == tightTable {
		p.heads = heads
	}
	p.openTable(label, `<table class="`+class+`">`, heads)
}

func (p *page) openTable(label string, table literal, heads []string) {
	p.put(`<div class="scroll" tabindex="0" role="region"`)
	p.attr("aria-label", label)
	p.put(">\n")
	p.put(table)
	p.put("\n<thead>\n<tr>")
	for _, head := range heads {
		p.put(`<th scope="col">`)
		p.text(head)
		p.put("</th>")
	}
	p.put("</tr>\n</thead>\n<tbody>\n")
}

func (p *page) endTable() {
	p.heads = nil
	p.put("</tbody>\n</table>\n</div>\n")
}

// row writes a row of cells, the first of which is its head.
func (p *page) row(first func(), rest ...func()) {
	p.put(`<tr><th scope="row">`)
	first()
	p.put("</th>")
	for i, cell := range rest {
		p.put("<td")
		if p.heads != nil {
			p.attr("data-head", p.heads[i+1])
		}
		p.put(">")
		cell()
		p.put("</td>")
	}
	p.put("</tr>\n")
}

// term writes a term and what it means, in a list of such.
func (p *page) term(name string, write func()) {
	p.put("<div>")
	p.element("dt", name)
	p.put("<dd>")
	write()
	p.put("</dd></div>\n")
}

func (p *page) textTerm(name, text string) {
	if text != "" {
		p.term(name, func() { p.text(text) })
	}
}
