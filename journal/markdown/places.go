package markdown

import (
	"bytes"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	extast "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// engine is goldmark as this package sets it up, and plain is the same without the search for bare addresses, which stops at every blank and
// takes a quarter of the time of a body. Neither holds a state of a body, and both serve all goroutines.
var (
	engine = newEngine(extension.NewLinkifyParser(extension.WithLinkifyAllowedProtocols(webProtocols)))
	plain  = newEngine(nil)
)

func newEngine(addresses parser.InlineParser) goldmark.Markdown {
	inline := []util.PrioritizedValue{
		util.Prioritized(taskParser{extension.NewTaskCheckBoxParser()}, 0),
		util.Prioritized(parser.NewCodeSpanParser(), 100),
		util.Prioritized(linkParser{parser.NewLinkParser()}, 200),
		util.Prioritized(parser.NewAutoLinkParser(), 300),
		util.Prioritized(parser.NewRawHTMLParser(), 400),
		util.Prioritized(parser.NewEmphasisParser(), 500),
	}
	if addresses != nil {
		inline = append(inline, util.Prioritized(addresses, 999))
	}
	return goldmark.New(
		goldmark.WithParser(parser.NewParser(
			parser.WithBlockParsers(parser.DefaultBlockParsers()...),
			parser.WithInlineParsers(inline...),
			parser.WithParagraphTransformers(parser.DefaultParagraphTransformers()...),
			parser.WithASTTransformers(util.Prioritized(footnoteWatch{}, 998)), // just before unused ones are dropped
		)),
		goldmark.WithExtensions(
			extension.Table,
			extension.Strikethrough,
			extension.NewFootnote(extension.WithFootnoteBacklinkTitle("back to the text")),
		),
		goldmark.WithRendererOptions(renderer.WithNodeRenderers(util.Prioritized(htmlWriter{}, 50))),
	)
}

// webProtocols are what a bare web address begins with.
var webProtocols = []string{"http:", "https:"}

// mayHoldAddress reports whether a text has anything in it that a bare address can't do without.
func mayHoldAddress(src []byte) bool {
	return bytes.IndexByte(src, '@') >= 0 || bytes.Contains(src, []byte("http")) || bytes.Contains(src, []byte("www."))
}

// parse returns the tree of a body and the places that the tree itself does not keep.
func parse(src []byte) (ast.Node, *places) {
	p := &places{}
	pc := parser.NewContext()
	pc.Set(placesKey, p)
	e := plain
	if mayHoldAddress(src) {
		e = engine
	}
	return e.Parser().Parse(text.NewReader(src), parser.WithContext(pc)), p
}

// places is what is noted down while a body is parsed. goldmark's nodes know only where they start.
type places struct {
	links  map[ast.Node]linkPlace
	slips  []slip
	unused []int // where footnotes start that nothing refers to
}

// linkPlace says where the parts of a link stand, in bytes of the body.
type linkPlace struct {
	textEnd           int // its `]`
	end               int // after its last bracket
	target, targetEnd int // both -1 for a reference link
}

var placesKey = parser.NewContextKey()

// linkParser is goldmark's, and notes where each link ends and where its address stands.
type linkParser struct{ parser.InlineParser }

func (l linkParser) CloseBlock(parent ast.Node, block text.Reader, pc parser.Context) {
	if closer, ok := l.InlineParser.(parser.CloseBlocker); ok {
		closer.CloseBlock(parent, block, pc)
	}
}

func (l linkParser) Parse(parent ast.Node, block text.Reader, pc parser.Context) ast.Node {
	line, closing := block.PeekLine()
	lineNumber, position := block.Position()
	node := l.InlineParser.Parse(parent, block, pc)
	if line[0] != ']' {
		return node
	}
	p := pc.Get(placesKey).(*places)
	if node == nil {
		if s, ok := findSlip(block.Source(), closing.Start, closing.Stop); ok {
			p.slips = append(p.slips, s)
		}
		return nil
	}
	endLine, end := block.Position()
	place := linkPlace{textEnd: closing.Start, end: end.Start, target: -1, targetEnd: -1}
	if destination, reference := linkAddress(node); reference == nil {
		block.SetPosition(lineNumber, position)
		block.Advance(2) // `](`
		place.target, place.targetEnd = addressPlace(block, destination)
		block.SetPosition(endLine, end)
	}
	if p.links == nil {
		p.links = map[ast.Node]linkPlace{}
	}
	p.links[node] = place
	return node
}

// linkAddress returns the address of a link or picture as typed, and its reference where it has one.
func linkAddress(n ast.Node) ([]byte, *ast.ReferenceLink) {
	switch n := n.(type) {
	case *ast.Link:
		return n.Destination, n.Reference
	case *ast.Image:
		return n.Destination, n.Reference
	}
	return nil, nil
}

// addressPlace says where an address stands that begins at the reader's place, after blanks and `<`. It returns -1 twice if the
// source has something else there, or if the address is empty.
func addressPlace(block text.Reader, address []byte) (start, end int) {
	block.SkipSpaces()
	if block.Peek() == '<' {
		block.Advance(1)
	}
	_, at := block.Position()
	end = at.Start + len(address)
	if len(address) == 0 || at.Start < 0 || end > len(block.Source()) || !bytes.Equal(block.Source()[at.Start:end], address) {
		return -1, -1
	}
	return at.Start, end
}

// definitionPlace says where the address stands in the definition of a reference link.
func definitionPlace(src []byte, definition *ast.LinkReferenceDefinition) (start, end int) {
	block := text.NewBlockReader(src, definition.Lines())
	block.SkipSpaces()
	block.Advance(1) // `[`
	_, found := block.FindClosure('[', ']', text.FindClosureOptions{Newline: true, Advance: true})
	if !found {
		return -1, -1
	}
	block.Advance(1) // `:`
	return addressPlace(block, definition.Destination)
}

// taskParser is goldmark's, but leaves `- [x](part:x)` alone: a box needs a blank after it, or it is a link.
type taskParser struct{ parser.InlineParser }

func (t taskParser) Parse(parent ast.Node, block text.Reader, pc parser.Context) ast.Node {
	line, _ := block.PeekLine()
	if len(line) < 3 || len(line) > 3 && !util.IsSpace(line[3]) {
		return nil
	}
	return t.InlineParser.Parse(parent, block, pc)
}

// footnoteWatch notes footnotes that nothing refers to before goldmark drops them.
type footnoteWatch struct{}

func (footnoteWatch) Transform(root *ast.Document, reader text.Reader, pc parser.Context) {
	if !bytes.Contains(reader.Source(), []byte("[^")) {
		return
	}
	p := pc.Get(placesKey).(*places)
	p.watchFootnotes(root)
}

func (p *places) watchFootnotes(block ast.Node) {
	for n := block.FirstChild(); n != nil; n = n.NextSibling() {
		if n.Type() == ast.TypeInline {
			return
		}
		if note, ok := n.(*extast.Footnote); ok && note.Index < 0 {
			p.unused = append(p.unused, note.Pos())
		}
		p.watchFootnotes(n)
	}
}
