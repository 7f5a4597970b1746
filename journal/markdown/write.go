package markdown

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"
)

// write fills in the pieces, the texts of the holes and the ends of the blocks.
func (r *reading) write() {
	b := r.body
	b.Pieces = make([]string, len(b.Holes)+1)
	first := 0
	for first < len(b.Holes) && b.Holes[first].InTitle {
		first++
	}
	p := &page{reading: r, slot: &b.Pieces[first], piece: first, hole: first, links: r.links, headings: b.Headings, alone: r.alone}
	p.bytes = r.room.html[:0]
	p.cuts = make([]cut, 0, 2*len(b.Holes)+1)
	for block := r.root.FirstChild(); block != nil; block = block.NextSibling() {
		if block == r.title {
			continue
		}
		before := p.hole
		// The writer below never fails, and goldmark passes on only its writer's errors.
		_ = engine.Renderer().Render(p, r.src, block)
		if p.hole > before {
			b.Blocks = append(b.Blocks, Block{First: before, End: p.hole, Piece: p.piece, Offset: len(p.bytes) - p.from})
		}
	}
	p.cut(nil, 0)
	p.fillSlots()
	r.room.html = p.bytes
}

// buffer is the writer that goldmark wants, in memory.
type buffer struct{ bytes []byte }

func (b *buffer) Available() int { return cap(b.bytes) - len(b.bytes) }
func (b *buffer) Buffered() int  { return len(b.bytes) }
func (b *buffer) Flush() error   { return nil }

func (b *buffer) Write(p []byte) (int, error) {
	b.bytes = append(b.bytes, p...)
	return len(p), nil
}

func (b *buffer) WriteString(s string) (int, error) {
	b.bytes = append(b.bytes, s...)
	return len(s), nil
}

func (b *buffer) WriteByte(c byte) error {
	b.bytes = append(b.bytes, c)
	return nil
}

func (b *buffer) WriteRune(r rune) (int, error) {
	before := len(b.bytes)
	b.bytes = utf8.AppendRune(b.bytes, r)
	return len(b.bytes) - before, nil
}

func (b *buffer) text(s string) {
	html.DefaultWriter.RawWrite(b, util.StringToReadOnlyBytes(s))
}

// page is the HTML of a body while it is written: one run of bytes and the places to cut it.
type page struct {
	buffer
	reading *reading

	slot  *string // where the bytes since from go
	from  int
	piece int // the piece that an end of a block falls in
	cuts  []cut

	hole     int // the next hole
	links    []link
	headings []Heading
	alone    []ast.Node

	open   link // the link that is being written
	inLink bool
	bare   bool // the paragraph that is being written has no tags
}

type cut struct {
	slot     *string
	from, to int
}

// cut ends the run that is being written and starts one for the next slot.
func (p *page) cut(next *string, piece int) {
	p.cuts = append(p.cuts, cut{p.slot, p.from, len(p.bytes)})
	p.slot, p.from, p.piece = next, len(p.bytes), piece
}

func (p *page) fillSlots() {
	all := string(p.bytes)
	if isClean(all) {
		for _, c := range p.cuts {
			*c.slot = all[c.from:c.to]
		}
		return
	}
	// Cleaning changes lengths, so the ends of blocks move too.
	for _, c := range p.cuts {
		*c.slot = clean(all[c.from:c.to])
	}
	b := p.reading.body
	for i := range b.Blocks {
		block := &b.Blocks[i]
		for _, c := range p.cuts {
			if c.slot == &b.Pieces[block.Piece] {
				block.Offset = len(clean(all[c.from : c.from+block.Offset]))
			}
		}
	}
}

// htmlWriter writes the nodes that goldmark's own renderer would not write as we need them. It has no state: that is in the
// page, which is the writer that every function is given.
type htmlWriter struct{}

func (htmlWriter) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(ast.KindHeading, writeHeading)
	reg.Register(ast.KindParagraph, writeParagraph)
	reg.Register(ast.KindText, writeText)
	reg.Register(ast.KindFencedCodeBlock, writeFencedCode)
	reg.Register(ast.KindCodeBlock, writeCode)
	reg.Register(ast.KindHTMLBlock, writeHTMLBlock)
	reg.Register(ast.KindRawHTML, writeRawHTML)
	reg.Register(ast.KindLink, writeLink)
	reg.Register(ast.KindAutoLink, writeAutoLink)
	reg.Register(ast.KindImage, writePicture)
	reg.Register(extast.KindTable, writeTable)
	reg.Register(extast.KindTableCell, writeCell)
	reg.Register(extast.KindTaskCheckBox, writeTask)
	reg.Register(extast.KindFootnoteLink, writeFootnoteLink)
}

func writeHeading(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	p := w.(*page)
	level := strconv.Itoa(p.headings[0].Shown)
	if entering {
		p.WriteString("<h" + level + ` id="` + p.headings[0].ID + `">`)
	} else {
		p.WriteString("</h" + level + ">\n")
		p.headings = p.headings[1:]
	}
	return ast.WalkContinue, nil
}

// writeParagraph leaves out the tags round pictures that stand as blocks: a figure is not allowed in a `p`.
func writeParagraph(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	p := w.(*page)
	switch {
	case entering && len(p.alone) > 0 && p.alone[0] == n:
		p.alone, p.bare = p.alone[1:], true
	case entering:
		p.WriteString("<p>")
	case p.bare:
		p.bare = false
		p.WriteString("\n")
	default:
		p.WriteString("</p>\n")
	}
	return ast.WalkContinue, nil
}

// writeText writes a text as goldmark's own writer does. Nearly all texts stand for themselves, and are not looked through for references and
// back-slashes.
func writeText(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	p, text := w.(*page), n.(*ast.Text)
	switch value := text.Segment.Value(src); {
	case standsForItself(value):
		p.bytes = append(p.bytes, value...)
	case text.IsRaw():
		html.DefaultWriter.RawWrite(p, value)
	default:
		html.DefaultWriter.Write(p, value)
	}
	switch {
	case text.IsRaw():
	case text.HardLineBreak():
		p.WriteString("<br>\n")
	case text.SoftLineBreak():
		p.WriteByte('\n')
	}
	return ast.WalkContinue, nil
}

func standsForItself(text []byte) bool {
	for _, c := range text {
		if special[c] {
			return false
		}
	}
	return true
}

// special tells the bytes that goldmark's writer looks at.
var special = [256]bool{0: true, '"': true, '&': true, '<': true, '>': true, '\\': true}

func writeFencedCode(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		language := n.(*ast.FencedCodeBlock).Language(src)
		w.(*page).code(resolve(string(language)), blockText(n, src))
	}
	return ast.WalkContinue, nil
}

func writeCode(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		w.(*page).code("", blockText(n, src))
	}
	return ast.WalkContinue, nil
}

func writeHTMLBlock(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		text := blockText(n, src)
		if block := n.(*ast.HTMLBlock); block.HasClosure() {
			text += string(block.ClosureLine.Value(src))
		}
		w.(*page).code("", strings.ReplaceAll(text, "\r\n", "\n"))
	}
	return ast.WalkContinue, nil
}

func blockText(n ast.Node, src []byte) string {
	return strings.ReplaceAll(string(n.Lines().Value(src)), "\r\n", "\n")
}

// code writes a block of code. It can be reached by keyboard, since it may be wider than the screen and scroll.
func (p *page) code(language, text string) {
	p.WriteString(`<pre class="code" tabindex="0"><code`)
	if language != "" {
		p.WriteString(` class="language-`)
		p.text(language)
		p.WriteString(`"`)
	}
	p.WriteString(">")
	if colours := p.reading.opts.Code; colours != nil && language != "" {
		p.WriteString(colours.highlight(language, text))
	} else {
		p.text(text)
	}
	p.WriteString("</code></pre>\n")
}

func writeRawHTML(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		html.DefaultWriter.RawWrite(w, n.(*ast.RawHTML).Segments.Value(src))
	}
	return ast.WalkSkipChildren, nil
}

func writeLink(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	p, n := w.(*page), node.(*ast.Link)
	if entering {
		p.open, p.links = p.links[0], p.links[1:]
		p.inLink = true
	} else {
		p.inLink = false
	}
	switch {
	case p.open.fate == toHole && entering:
		p.cut(&p.reading.body.Holes[p.open.hole].TextHTML, p.open.hole)
		p.hole++
	case p.open.fate == toHole:
		p.cut(&p.reading.body.Pieces[p.open.hole+1], p.open.hole+1)
	case p.open.fate == outside && entering:
		p.openAnchor(p.open.href, n.Title)
	case p.open.fate == outside:
		p.WriteString("</a>")
	}
	return ast.WalkContinue, nil
}

func (p *page) openAnchor(href string, title []byte) {
	p.WriteString(`<a href="`)
	p.text(href)
	if len(title) > 0 {
		p.WriteString(`" title="`)
		html.DefaultWriter.Write(p, title)
	}
	p.WriteString(`">`)
}

func writeAutoLink(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	p, n := w.(*page), node.(*ast.AutoLink)
	l := p.links[0]
	p.links = p.links[1:]
	switch l.fate {
	case toHole:
		h := &p.reading.body.Holes[l.hole]
		p.hole++
		p.cut(&h.TextHTML, l.hole)
		p.text(h.Text)
		p.cut(&p.reading.body.Pieces[l.hole+1], l.hole+1)
	case outside:
		p.openAnchor(l.href, nil)
		html.DefaultWriter.RawWrite(p, n.Label(src))
		p.WriteString("</a>")
	default:
		html.DefaultWriter.RawWrite(p, n.Label(src))
	}
	return ast.WalkContinue, nil
}

// writePicture leaves a hole for a picture of the journal. One from outside is linked to under the words that stand in for it.
func writePicture(w util.BufWriter, src []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	p, n := w.(*page), node.(*ast.Image)
	l := p.links[0]
	p.links = p.links[1:]
	if l.fate == toHole {
		p.hole++
		p.cut(&p.reading.body.Pieces[l.hole+1], l.hole+1)
		return ast.WalkSkipChildren, nil
	}
	words := plainText(n, src)
	if strings.TrimSpace(words) == "" {
		words = string(n.Destination)
	}
	if l.fate == outside && !p.inLink {
		p.openAnchor(l.href, n.Title)
		p.text(words)
		p.WriteString("</a>")
	} else {
		p.text(words)
	}
	return ast.WalkSkipChildren, nil
}

// writeTable puts a table into a box that scrolls on a narrow screen, can be reached by keyboard, and is named by the table's
// heads.
func writeTable(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	p := w.(*page)
	if !entering {
		p.WriteString("</table>\n</div>\n")
		return ast.WalkContinue, nil
	}
	var heads []string
	if row := n.FirstChild(); row != nil {
		for cell := row.FirstChild(); cell != nil; cell = cell.NextSibling() {
			if head := plainText(cell, src); head != "" {
				heads = append(heads, head)
			}
		}
	}
	p.WriteString(`<div class="scroll" tabindex="0" role="region" aria-label="table`)
	if len(heads) > 0 {
		p.WriteString(": ")
		p.text(clip(strings.Join(heads, ", ")))
	}
	p.WriteString("\">\n<table>\n")
	return ast.WalkContinue, nil
}

func writeCell(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	p := w.(*page)
	head := n.Parent().Kind() == extast.KindTableHeader
	switch {
	case !entering && head:
		p.WriteString("</th>\n")
		return ast.WalkContinue, nil
	case !entering:
		p.WriteString("</td>\n")
		return ast.WalkContinue, nil
	case head:
		p.WriteString(`<th scope="col"`)
	default:
		p.WriteString("<td")
	}
	switch n.(*extast.TableCell).Alignment {
	case extast.AlignLeft:
		p.WriteString(` class="align-left"`)
	case extast.AlignRight:
		p.WriteString(` class="align-right"`)
	case extast.AlignCenter:
		p.WriteString(` class="align-centre"`)
	}
	p.WriteString(">")
	return ast.WalkContinue, nil
}

// writeTask shows a step's state as a sign for the eye and a word for the ear: a box that can't be ticked is no control.
func writeTask(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	const done = `<span class="step done"><span aria-hidden="true">☑</span><span class="visually-hidden">done:</span></span> `
	const open = `<span class="step open"><span aria-hidden="true">☐</span><span class="visually-hidden">open:</span></span> `
	if n.(*extast.TaskCheckBox).IsChecked {
		w.WriteString(done)
	} else {
		w.WriteString(open)
	}
	return ast.WalkContinue, nil
}

// writeFootnoteLink is goldmark's, less the link where it would stand in another.
func writeFootnoteLink(w util.BufWriter, _ []byte, node ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	p, n := w.(*page), node.(*extast.FootnoteLink)
	number := strconv.Itoa(n.Index)
	p.WriteString(`<sup id="fnref`)
	if n.RefIndex > 0 {
		p.WriteString(strconv.Itoa(n.RefIndex))
	}
	p.WriteString(":" + number + `">`)
	if p.inLink {
		p.WriteString(number)
	} else {
		p.WriteString(`<a href="#fn:` + number + `" class="footnote-ref" role="doc-noteref">` + number + `</a>`)
	}
	p.WriteString("</sup>")
	return ast.WalkContinue, nil
}
