package render

import (
	"html"
	"net/url"
	"regexp"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// newestInFeed is how many entries the feed holds.
const newestInFeed = 30

// feedEntries returns the entries of the feed, the newest first. Plans and entries without a day that can be read have no place in time.
func (s *site) feedEntries() []*model.Entry {
	var list []*model.Entry
	for i := len(s.Entries) - 1; i >= 0 && len(list) < newestInFeed; i-- {
		if e := s.Entries[i]; !e.Plan && !e.Date.IsZero() {
			list = append(list, e)
		}
	}
	return list
}

// feed is the feed of the newest entries, in Atom (RFC 4287). Addresses of pages are for ever, so they are the ids too.
func (s *site) feed(p *page) {
	list := s.feedEntries()
	p.put("<?xml version=\"1.0\" encoding=\"utf-8\"?>\n<feed xmlns=\"http://www.w3.org/2005/Atom\">\n")
	p.feedLine("id", s.absolute(place{page: feedName}))
	p.feedLine("title", s.journal.Title)
	p.feedLine("updated", moment(list[0]))
	p.put("<author>")
	p.element("name", s.journal.Title)
	p.put("</author>\n")
	p.feedLink("self", "application/atom+xml", s.absolute(place{page: feedName}))
	p.feedLink("alternate", "text/html", s.absolute(place{page: "index.html"}))
	for _, e := range list {
		p.put("<entry>\n")
		at := s.absolute(s.entryPlace(e))
		p.feedLine("id", at)
		p.feedLine("title", e.Title)
		p.feedLine("updated", moment(e))
		p.feedLink("alternate", "text/html", at)
		p.put("<content type=\"html\">")
		p.text(s.feedText(e, at))
		p.put("</content>\n")
		p.put("</entry>\n")
	}
	p.put("</feed>\n")
}

func (p *page) feedLine(name literal, text string) {
	p.element(name, text)
	p.put("\n")
}

func (p *page) feedLink(rel, kind, href string) {
	p.put("<link")
	p.attr("rel", rel)
	p.attr("type", kind)
	p.attr("href", href)
	p.put("/>\n")
}

// moment is an entry's day and time as RFC 3339 writes them. A journal keeps the time on the wall and no zone: it is given as UTC.
func moment(e *model.Entry) string {
	switch clock := e.Date.Time; len(clock) {
	case len("19:30:05"):
		return e.Date.String() + "T" + clock + "Z"
	case len("19:30"):
		return e.Date.String() + "T" + clock + ":00Z"
	}
	return e.Date.String() + "T00:00:00Z"
}

// feedText is the prose of an entry, to be read anywhere, or what was done and read where it has none. What stands in its margin is on its
// page.
func (s *site) feedText(e *model.Entry, at string) string {
	base, err := url.Parse(at)
	if err != nil {
		return ""
	}
	p := newPage(s, s.entryPages[e.Index], nil)
	p.away = true
	for _, link := range e.Links {
		if link.Value != nil {
			p.told[link.Value] = true
		}
	}
	p.prose(e.Body, e.Links)
	text := abroad(string(p.bytes), base)
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(text, "<div>\n"), "</div>\n"))
	if text != "" {
		return text
	}
	p.bytes = nil
	p.inShort(e)
	return strings.TrimSpace(abroad(string(p.bytes), base))
}

// mostInFeed is how many values the feed tells of an entry without prose.
const mostInFeed = 40

// inShort writes what was done in an entry and what was read, each value with its verdict.
func (p *page) inShort(e *model.Entry) {
	p.put("<p>")
	p.text(about(e))
	p.put("</p>\n")
	values := slices.DeleteFunc(slices.Clone(e.Values), func(v *model.Value) bool {
		return !p.site.ShowsValue(v) || v.Words == "" && v.Quantity.Unit == nil
	})
	if len(values)+len(e.Bought)+len(e.Fitted)+len(e.Removed) == 0 {
		return
	}
	p.put("<dl>\n")
	p.partTerms(e)
	for _, v := range values[:min(mostInFeed, len(values))] {
		p.put("<div><dt>")
		p.pathTo(p.site.valuePlace(v), v.Path)
		p.put("</dt><dd>")
		p.origin(v)
		p.put(": ")
		p.text(plainValue(v))
		if v.Unjudged == model.Judged && v.Verdict != model.NoLimit {
			p.text(", " + v.Verdict.String())
		}
		p.put("</dd></div>\n")
	}
	p.put("</dl>\n")
	if more := len(values) - mostInFeed; more > 0 {
		p.put("<p>And ")
		p.text(quantity.Counted(more, "value"))
		p.put(" more.</p>\n")
	}
}

var (
	earOnly   = regexp.MustCompile(`<span class="visually-hidden">[^<]*</span>`)
	startTag  = regexp.MustCompile(`<[a-zA-Z][^<>]*>`)
	attribute = regexp.MustCompile(` ([a-zA-Z:-]+)(?:="([^"]*)")?`)
)

// abroad makes HTML that this program wrote fit to be read away from its page, and without the style of the site: addresses are absolute, words
// that the style would hide are left out, so that the sign beside them must be heard, and so is what means something on its own page only. In that
// HTML every `<`, `>` and `"` of a text is escaped.
func abroad(text string, base *url.URL) string {
	text = earOnly.ReplaceAllString(text, "")
	return startTag.ReplaceAllStringFunc(text, func(tag string) string {
		return attribute.ReplaceAllStringFunc(tag, func(pair string) string {
			m := attribute.FindStringSubmatch(pair)
			switch m[1] {
			case "href", "src":
				to, err := base.Parse(html.UnescapeString(m[2]))
				if err != nil {
					return ""
				}
				return " " + m[1] + `="` + html.EscapeString(to.String()) + `"`
			case "alt", "title", "width", "height", "colspan", "rowspan", "scope", "datetime", "start":
				return pair
			}
			return ""
		})
	})
}
