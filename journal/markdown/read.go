package markdown

import (
	"bytes"
	"strings"

	"example.org/locknut/journal/source"
	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/util"
)

// reading is one call of [Render]: the tree is walked once to find what it holds, and once more to write the HTML. The second
// walk meets links and headings in the same order as the first, so it takes what was decided from lists.
type reading struct {
	file   *source.File
	offset int // of the body in the file
	src    []byte
	room   *room
	places *places
	root   ast.Node
	opts   Options
	body   *Body

	ids         *ids
	outline     []int                                   // levels of the headings that the place being read lies under
	definitions map[string]*ast.LinkReferenceDefinition // made when the first reference link asks

	links     []link     // what becomes of each link outside pictures' words, in order
	alone     []ast.Node // paragraphs of nothing but pictures that are holes, in order
	title     ast.Node   // the heading that is left out of the HTML
	inTitle   bool
	inLink    bool
	inPicture bool
	lastRaw   ast.Node // the block that held the last piece of HTML
}

// link says how a link or picture is written.
type link struct {
	fate fate
	hole int    // for toHole
	href string // for outside
}

func (r *reading) read() {
	if n := len(r.places.links); n > 0 {
		r.body.Holes, r.links = make([]Hole, 0, n), make([]link, 0, n)
	}
	first := r.root.FirstChild()
	for first != nil && (first.Kind() == ast.KindLinkReferenceDefinition || first.Kind() == extast.KindFootnoteList) {
		first = first.NextSibling()
	}
	if h, ok := first.(*ast.Heading); ok && h.Level == 1 && r.isTitle(h) {
		r.title, r.inTitle = h, true
		r.body.Title = &Heading{Level: 1, Shown: 1, Text: plainText(h, r.src), At: r.headingAt(h)}
		r.visitChildren(h)
		r.inTitle = false
	}
	r.visitChildren(r.root)
	for _, s := range r.places.slips {
		r.reportSlip(s)
	}
	for _, start := range r.places.unused {
		r.reportUnused(start)
	}
}

// isTitle reports whether a first heading says what the page's title says, or the page has none yet.
func (r *reading) isTitle(h *ast.Heading) bool {
	want := strings.Fields(r.opts.Title)
	return len(want) == 0 || strings.EqualFold(strings.Join(want, " "), strings.Join(strings.Fields(plainText(h, r.src)), " "))
}

func (r *reading) at(start, end int) source.Range {
	return r.file.At(r.offset+start, r.offset+end)
}

func (r *reading) visitChildren(n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		r.visit(c)
	}
}

func (r *reading) visit(n ast.Node) {
	switch n := n.(type) {
	case *ast.Text, *ast.CodeSpan, *ast.FencedCodeBlock, *ast.CodeBlock, *ast.LinkReferenceDefinition:
		return
	case *ast.Heading:
		if n == r.title {
			return
		}
		r.readHeading(n)
	case *ast.Paragraph, *ast.TextBlock:
		r.readParagraph(n)
		return
	case *extast.TaskCheckBox:
		r.readTask(n)
		return
	case *ast.Link:
		r.readLink(n)
		return
	case *ast.Image:
		r.readPicture(n)
		return
	case *ast.AutoLink:
		r.readAutoLink(n)
		return
	case *ast.RawHTML:
		r.readRawHTML(n)
		return
	case *ast.HTMLBlock:
		r.readHTMLBlock(n)
		return
	}
	r.visitChildren(n)
}

func (r *reading) readHeading(h *ast.Heading) {
	if r.ids == nil {
		r.ids = newIDs(r.opts.Taken)
	}
	for len(r.outline) > 0 && r.outline[len(r.outline)-1] >= h.Level {
		r.outline = r.outline[:len(r.outline)-1]
	}
	r.outline = append(r.outline, h.Level)
	words := plainText(h, r.src)
	r.body.Headings = append(r.body.Headings, Heading{
		Level: h.Level, Shown: min(len(r.outline)+1, 6), Text: words, ID: r.ids.next(words), At: r.headingAt(h),
	})
}

func (r *reading) headingAt(h *ast.Heading) source.Range {
	lines := h.Lines()
	if lines == nil || lines.Len() == 0 {
		start := max(h.Pos(), 0)
		return r.at(start, start+h.Level)
	}
	start, end := r.trim(lines.At(0).Start, lines.At(lines.Len()-1).Stop)
	return r.at(start, end)
}

// trim draws a span in to leave out blanks and line ends at both ends.
func (r *reading) trim(start, end int) (int, int) {
	for start < end && util.IsSpace(r.src[start]) {
		start++
	}
	for end > start && util.IsSpace(r.src[end-1]) {
		end--
	}
	return start, end
}

// readParagraph finds out as well whether it holds pictures alone, which then stand as blocks.
func (r *reading) readParagraph(n ast.Node) {
	r.readTaskSlip(n)
	before, holes, tasks := len(r.links), len(r.body.Holes), len(r.body.Tasks)
	r.visitChildren(n)
	if len(r.body.Tasks) > tasks && len(r.body.Holes) > holes {
		t := &r.body.Tasks[tasks]
		t.Holes = r.holesIn(n, r.body.Holes[holes:], len(t.Text))
	}
	if len(r.links) == before || r.inLink || r.inPicture {
		return
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		t, isText := c.(*ast.Text)
		if c.Kind() != ast.KindImage && !(isText && util.IsBlank(t.Segment.Value(r.src))) {
			return
		}
	}
	for _, l := range r.links[before:] {
		if l.fate != toHole {
			return
		}
	}
	for i := range r.body.Holes[holes:] {
		r.body.Holes[holes+i].Alone = true
	}
	if n.Kind() == ast.KindParagraph { // the text of a tight list has no tags anyway
		r.alone = append(r.alone, n)
	}
}

func (r *reading) readTask(box *extast.TaskCheckBox) {
	block := box.Parent()
	t := Task{Done: box.IsChecked, Text: plainText(block, r.src)}
	line := block.Lines().At(0)
	start, end := r.trim(line.Start, line.Stop)
	boxEnd := min(start+len("[x]"), end)
	if words, _ := r.trim(boxEnd, end); words < end {
		t.At = r.at(words, end)
	} else {
		t.At = r.at(start, boxEnd)
	}
	r.body.Tasks = append(r.body.Tasks, t)
}

// holesIn returns where in the plain text of a block, of some length, the words of its holes stand. Those of pictures are words like all others.
func (r *reading) holesIn(block ast.Node, holes []Hole, length int) []TextHole {
	var list []TextHole
	appendTextNoting(nil, block, r.src, func(n ast.Node, dst []byte, from int) {
		for _, h := range holes {
			if h.At.Start == r.offset+n.Pos() && !h.Picture {
				list = append(list, TextHole{N: h.N, From: min(len(clean(string(dst[:from]))), length), To: min(len(clean(string(dst))), length)})
			}
		}
	})
	return list
}

func (r *reading) readLink(n *ast.Link) {
	if r.inPicture { // words that stand in for a picture hold no links
		r.visitChildren(n)
		return
	}
	place, raw := r.linkPlace(n), string(n.Destination)
	l := r.decide(Hole{
		Title: r.titleOf(n.Title), Text: plainText(n, r.src),
		At: r.at(n.Pos(), place.end), TargetAt: r.targetAt(n, place), TextAt: r.textAt(n.Pos()+1, n, place),
	}, raw, resolve(raw))
	r.inLink = true
	r.visitChildren(n)
	r.inLink = false
	if l.fate == toHole {
		r.body.Holes[l.hole].Inside = len(r.body.Holes) - l.hole - 1
	}
}

func (r *reading) readPicture(n *ast.Image) {
	if !r.inPicture {
		place, raw := r.linkPlace(n), string(n.Destination)
		r.decide(Hole{
			Picture: true,
			Title:   r.titleOf(n.Title), Text: plainText(n, r.src),
			At: r.at(n.Pos(), place.end), TargetAt: r.targetAt(n, place), TextAt: r.textAt(n.Pos()+2, n, place),
		}, raw, resolve(raw))
	}
	outer := r.inPicture
	r.inPicture = true
	r.visitChildren(n) // for HTML in its words
	r.inPicture = outer
}

func (r *reading) titleOf(title []byte) string {
	return clean(resolve(string(title)))
}

func (r *reading) readAutoLink(n *ast.AutoLink) {
	if r.inPicture {
		return
	}
	if r.inLink { // HTML has no link in a link
		r.links = append(r.links, link{fate: refused})
		return
	}
	label := string(n.Label(r.src))
	if n.AutoLinkType == ast.AutoLinkEmail {
		scheme, _ := splitScheme(label)
		if scheme != "mailto" {
			label = "mailto:" + label
		}
		r.links = append(r.links, link{fate: outside, href: escapeAddress(label)})
		return
	}
	address := string(n.URL(r.src))
	start := n.Pos() + 1
	if r.src[n.Pos()] != '<' { // a bare web address: the node may start at the blank before it
		start = n.Pos() + max(0, bytes.Index(r.src[n.Pos():], n.Label(r.src)))
	}
	inside := r.at(start, start+len(label))
	whole := inside
	if r.src[n.Pos()] == '<' {
		whole = r.at(n.Pos(), start+len(label)+1)
	}
	r.decide(Hole{Text: clean(label), Bare: true, At: whole, TargetAt: inside, TextAt: inside}, address, address)
}

// decide reads an address and notes what becomes of its link.
func (r *reading) decide(h Hole, raw, address string) link {
	t := readTarget(raw, address, h.Picture)
	if t.trouble != nil {
		r.report(*t.trouble, address, h.TargetAt)
	}
	l := link{fate: t.fate, href: t.href}
	if t.fate == toHole {
		h.N = len(r.body.Holes)
		h.Scheme, h.Target, h.Fragment, h.InTitle = t.scheme, clean(t.path), clean(t.fragment), r.inTitle
		l.hole = h.N
		r.body.Holes = append(r.body.Holes, h)
	}
	if !r.inTitle {
		r.links = append(r.links, l)
	}
	return l
}

// linkPlace returns where the parts of a link stand, the definition of a reference link among them.
func (r *reading) linkPlace(n ast.Node) linkPlace {
	place := r.places.links[n]
	_, reference := linkAddress(n)
	if reference == nil {
		return place
	}
	if r.definitions == nil {
		r.definitions = map[string]*ast.LinkReferenceDefinition{}
		r.findDefinitions(r.root)
	}
	if definition := r.definitions[util.ToLinkReference(reference.Value)]; definition != nil {
		place.target, place.targetEnd = definitionPlace(r.src, definition)
	}
	return place
}

func (r *reading) findDefinitions(block ast.Node) {
	for n := block.FirstChild(); n != nil && n.Type() == ast.TypeBlock; n = n.NextSibling() {
		definition, ok := n.(*ast.LinkReferenceDefinition)
		if !ok {
			r.findDefinitions(n)
			continue
		}
		label := util.ToLinkReference(definition.Label)
		if r.definitions[label] == nil { // the first one counts
			r.definitions[label] = definition
		}
	}
}

func (r *reading) targetAt(n ast.Node, place linkPlace) source.Range {
	if place.target < 0 {
		return r.at(n.Pos(), place.end)
	}
	return r.at(place.target, place.targetEnd)
}

func (r *reading) textAt(start int, n ast.Node, place linkPlace) source.Range {
	if start >= place.textEnd {
		return r.at(n.Pos(), place.end)
	}
	return r.at(start, place.textEnd)
}

func (r *reading) readRawHTML(n *ast.RawHTML) {
	if n.Segments.Len() == 0 {
		return
	}
	at := r.at(n.Segments.At(0).Start, n.Segments.At(n.Segments.Len()-1).Stop)
	r.body.RawHTML = append(r.body.RawHTML, at)
	block := n.Parent()
	for block.Type() == ast.TypeInline {
		block = block.Parent()
	}
	if block == r.lastRaw && strings.HasPrefix(at.Text(), "</") {
		return // the end of what was reported just before
	}
	r.lastRaw = block
	r.reportHTML(at)
}

func (r *reading) readHTMLBlock(n *ast.HTMLBlock) {
	start, end := n.Pos(), n.Pos()
	if lines := n.Lines(); lines.Len() > 0 {
		start, end = lines.At(0).Start, lines.At(lines.Len()-1).Stop
	}
	if n.HasClosure() {
		end = max(end, n.ClosureLine.Stop)
	}
	start, end = r.trim(start, end)
	at := r.at(start, end)
	r.body.RawHTML = append(r.body.RawHTML, at)
	r.reportHTML(at)
}
