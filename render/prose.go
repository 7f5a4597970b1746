package render

import (
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/source"
)

// bodyOf renders a text of this program's own, such as the page of a rule.
func bodyOf(name, text string) *markdown.Body {
	return markdown.Render(source.NewFile(name, text), 0, len(text), markdown.Options{})
}

// prose writes a body, its holes filled. The body's pieces are whole, escaped HTML: it is the one thing from outside this package that
// goes out as it is.
func (p *page) prose(b *markdown.Body, links []*model.Mention) {
	for _, h := range b.Headings {
		p.ids[h.ID] = true
		if h.Shown == 2 {
			p.contents = append(p.contents, content{h.ID, h.Text})
		}
	}
	p.put("<div class=\"prose\">\n")
	if b.Title != nil && b.Title.ID != "" {
		p.ids[b.Title.ID] = true
	}
	p.bytes = b.Append(p.bytes, func(dst []byte, h *markdown.Hole, text string) []byte {
		filler := p.apart(dst)
		if h.N < len(links) {
			filler.fill(h, links[h.N], text)
		} else {
			filler.fill(h, &model.Mention{}, text)
		}
		return filler.bytes
	}, func(dst []byte, holes []markdown.Hole) []byte { return p.margin(dst, holes, links) })
	p.put("</div>\n")
}

// fill writes what stands in a hole: a picture's words, or a link's text with its link. The text is HTML already.
func (p *page) fill(h *markdown.Hole, link *model.Mention, text string) {
	if h.Picture {
		p.picture(h, link)
		return
	}
	switch {
	case link.Value != nil && link.Broken == "":
		text = p.filled(h, link.Value, text)
	case link.Worked && h.Text == "?":
		text = strings.Replace(text, "?", p.workedOut(link), 1)
	}
	at := p.linkPlace(h, link)
	opened := p.open(at)
	p.bytes = append(p.bytes, text...)
	if opened {
		p.put("</a>")
	}
}

// filled puts a value's figure in the place of the `?` that asks for it.
func (p *page) filled(h *markdown.Hole, v *model.Value, text string) string {
	if h.Text != "?" && !h.Bare {
		return text
	}
	w := p.apart(nil)
	switch {
	case !p.site.ShowsValue(v):
		w.put("(not published)")
	case v.Words != "":
		w.text(v.Words)
	default:
		w.figure(v.Quantity.Shown())
	}
	if h.Bare {
		return string(w.bytes)
	}
	return strings.Replace(text, "?", string(w.bytes), 1)
}

// workedOut writes the figure of a worked-out number: as the entry left it, on the front page as it is now.
func (p *page) workedOut(link *model.Mention) string {
	w := p.apart(nil)
	n := p.linkedNumber(link)
	if n == nil || n.Reason != "" {
		w.put("–")
		return string(w.bytes)
	}
	w.figure(n.Shown())
	return string(w.bytes)
}

// linkedNumber returns the worked-out number that a link names, nil where there is none or it is not shown.
func (p *page) linkedNumber(link *model.Mention) *derive.Number {
	if link.Entry == nil {
		return p.site.current[link.Path]
	}
	if n := find(p.asLeft(link.Entry), link.Path); n != nil {
		return n
	}
	n := find(p.site.sums.AsLeft(link.Entry), link.Path)
	if n != nil && !p.site.ShowsNumber(n) {
		return nil
	}
	return n
}

// linkPlace is where a link of ours leads; nowhere for one that is broken, hidden, or to a file that is not on the site.
func (p *page) linkPlace(h *markdown.Hole, link *model.Mention) place {
	s := p.site
	switch {
	case link.Broken != "":
		return place{}
	case link.Value != nil:
		return s.valuePlace(link.Value)
	case link.Worked:
		return s.numberPlace(p.linkedNumber(link))
	case link.Part != nil:
		return s.partPlace(link.Part)
	case link.Tool != nil:
		return s.toolPlace(link.Tool)
	case link.Limit != nil:
		return s.limitPlace(link.Limit)
	case link.Target != nil:
		return s.inEntry(link.Target, h.Fragment)
	case link.File != "":
		return s.largeOf(link.File)
	case h.Scheme == "" && h.Target == "" && link.Entry != nil:
		return s.inEntry(link.Entry, h.Fragment)
	}
	return place{}
}

// limitPlace is the row of a limit on its path's page.
func (s *site) limitPlace(l *model.Limit) place {
	at := s.pathPlace(l.Path)
	if at.page != "" && isLimit(l) && s.ShowsLimit(l) {
		at.id = limitID(l)
	}
	return at
}

func limitID(l *model.Limit) string {
	if l.Part != nil {
		return anchor("limit." + l.Part.Name)
	}
	return "limit.sheet"
}

// inEntry is a heading of an entry, or its page where it has no such heading.
func (s *site) inEntry(e *model.Entry, fragment string) place {
	at := s.entryPlace(e)
	if at.page == "" || fragment == "" {
		return at
	}
	for _, h := range e.Body.Headings {
		if h.ID == fragment {
			at.id = fragment
		}
	}
	return at
}

// message writes the words of a finding: what stands in back-quotes is the builder's own text.
func (p *page) message(text string) {
	for i, piece := range strings.Split(text, "`") {
		if i%2 == 1 {
			p.element("code", piece)
		} else {
			p.text(piece)
		}
	}
}

// manualHeads says of the cases on a page of documentation that they are none of this build's.
var manualHeads = strings.NewReplacer(
	"\n## Worked example\n", "\n## The manual’s worked example, not this build\n",
	"\n## Caught\n", "\n## Caught, in the manual’s examples\n",
	"\n## Let through\n", "\n## Let through, in the manual’s examples\n",
)

// manual writes a page of documentation, written in this project's own Markdown.
func (p *page) manual(text string) { p.prose(bodyOf("manual.md", manualHeads.Replace(text)), nil) }

// manualTitle returns the title of a page of documentation, "" if it has none.
func manualTitle(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	title, ok := strings.CutPrefix(strings.TrimSpace(line), "# ")
	if !ok {
		return ""
	}
	return strings.ReplaceAll(title, "`", "")
}
