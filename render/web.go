package render

import (
	"net/url"
	"strconv"
	"strings"
)

// What the site has only where it is known at which address it will stand. The journal's URL ends with a `/`.

const (
	feedName = "feed.xml"
	mapName  = "sitemap.xml"
	lostName = "404.html"
)

// maxLocations is how many addresses one map may hold (sitemaps.org, protocol 0.9, from memory).
const maxLocations = 50_000

// withWeb adds to the pages what tells others of them.
func (s *site) withWeb(sheets []sheet) []sheet {
	if s.journal.URL == "" {
		return sheets
	}
	var pages []string
	for _, sheet := range sheets {
		if strings.HasSuffix(sheet.name, ".html") {
			pages = append(pages, sheet.name)
		}
	}
	sheets = append(sheets, s.mapSheets(pages, maxLocations)...)
	if len(s.feedEntries()) > 0 {
		sheets = append(sheets, sheet{feedName, s.feed})
	}
	return append(sheets, sheet{lostName, s.lostPage})
}

// absolute returns the address of a place from anywhere. The first page has that of the site.
func (s *site) absolute(to place) string {
	page := to.page
	if page == "index.html" {
		page = ""
	}
	whole := s.journal.URL + encode(page)
	if to.id != "" {
		whole += "#" + encode(to.id)
	}
	return whole
}

// address returns the address of a place from this page: relative, but for a page that may be shown in the place of any other.
func (p *page) address(to place) string {
	pieces := p.addressPieces(to)
	return strings.Join(pieces[:], "")
}

func (p *page) addressPieces(to place) [4]string {
	if p.root == "" {
		return addressPieces(p.name, to)
	}
	pieces := addressPieces("index.html", to)
	pieces[0] = p.root
	return pieces
}

// webTags writes what search engines and messages that show a link ask of a page.
func (p *page) webTags(h head) {
	s := p.site
	if s.journal.URL == "" {
		return
	}
	if p.root != "" {
		p.put("<meta name=\"robots\" content=\"noindex\">\n")
		return
	}
	whole := s.absolute(place{page: p.name})
	p.put("<link rel=\"canonical\"")
	p.attr("href", whole)
	p.put(">\n")
	if len(s.feedEntries()) > 0 {
		p.put("<link rel=\"alternate\" type=\"application/atom+xml\"")
		p.attr("title", s.journal.Title)
		p.attr("href", s.absolute(place{page: feedName}))
		p.put(">\n")
	}
	kind := "website"
	if strings.HasPrefix(p.name, "entries/") {
		kind = "article"
	}
	p.property("og:title", h.title)
	p.property("og:type", kind)
	p.property("og:url", whole)
	p.property("og:description", h.about)
	p.property("og:site_name", s.journal.Title)
}

// property writes a property of the Open Graph protocol (ogp.me, from memory).
func (p *page) property(name, value string) {
	p.put("<meta")
	p.attr("property", name)
	p.attr("content", value)
	p.put(">\n")
}

// lostPage is what a server shows in the place of a page that isn't there, however deep: all its addresses begin at the server's root.
func (s *site) lostPage(p *page) {
	p.root = "/"
	if u, err := url.Parse(s.journal.URL); err == nil {
		p.root = u.EscapedPath()
	}
	p.begin(head{title: "Nothing stands here", about: "There is no page at this address.", plate: s.plateStill()})
	p.put("<p>There is no page at this address. It may have been mistyped, or what it told of is no longer published.</p>\n<ul>\n")
	for _, c := range []crumb{{place{page: "index.html"}, "The build, as it stands now"}, {entriesCrumb.at, "All entries, the newest first"}, {searchCrumb.at, "Search"}} {
		p.put("<li>")
		p.to(c.at, c.title)
		p.put("</li>\n")
	}
	p.put("</ul>\n")
	p.end()
}

// mapSheets are the map of the site, by which search engines find all its pages: one file, or where one may not hold them all, several and
// a list of these.
func (s *site) mapSheets(pages []string, most int) []sheet {
	if len(pages) <= most {
		return []sheet{{mapName, func(p *page) { p.locations("urlset", "url", pages) }}}
	}
	var sheets []sheet
	var parts []string
	for from := 0; from < len(pages); from += most {
		part := pages[from:min(from+most, len(pages))]
		name := "sitemap-" + strconv.Itoa(len(parts)+1) + ".xml"
		parts = append(parts, name)
		sheets = append(sheets, sheet{name, func(p *page) { p.locations("urlset", "url", part) }})
	}
	return append(sheets, sheet{mapName, func(p *page) { p.locations("sitemapindex", "sitemap", parts) }})
}

func (p *page) locations(list, item literal, names []string) {
	p.put("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<")
	p.put(list)
	p.put(" xmlns=\"http://www.sitemaps.org/schemas/sitemap/0.9\">\n")
	for _, name := range names {
		p.put("<")
		p.put(item)
		p.put(">")
		p.element("loc", p.site.absolute(place{page: name}))
		p.put("</")
		p.put(item)
		p.put(">\n")
	}
	p.put("</")
	p.put(list)
	p.put(">\n")
}
