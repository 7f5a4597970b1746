package markdown

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/renderer"
	"github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"example.org/locknut/journal/source"
)

// checkBody holds a body to what it promises for any text. The tags are checked by the XML parser of Go's own library, a
// general-purpose program, in its strict mode.
func checkBody(t *testing.T, b *Body, typed string) {
	t.Helper()
	if len(b.Pieces) != len(b.Holes)+1 {
		t.Fatalf("%q: %d pieces, %d holes", typed, len(b.Pieces), len(b.Holes))
	}
	within := func(what string, r source.Range) {
		if r.File == nil || r.Start >= r.End || r.End > len(r.File.Text) || r != r.File.At(r.Start, r.End) {
			t.Fatalf("%q: %s has the range %d to %d", typed, what, r.Start, r.End)
		}
	}
	for i, h := range b.Holes {
		within("hole", h.At)
		within("address", h.TargetAt)
		within("text", h.TextAt)
		if h.N != i || i+h.Inside >= len(b.Holes) {
			t.Fatalf("%q: hole %d is %+v", typed, i, h)
		}
	}
	for _, x := range b.Tasks {
		within("task", x.At)
		from := 0
		for _, h := range x.Holes {
			if h.N >= len(b.Holes) || h.From < from || h.To < h.From || h.To > len(x.Text) || !utf8.ValidString(x.Text[h.From:h.To]) || !utf8.ValidString(x.Text[from:h.From]) {
				t.Fatalf("%q: in the step %q is the hole %+v", typed, x.Text, h)
			}
			from = h.To
		}
	}
	for _, x := range b.Headings {
		within("heading", x.At)
	}
	for _, f := range b.Findings {
		within("finding", f.At)
		if f.Message == "" || strings.ContainsAny(f.Message, "\n\r") {
			t.Fatalf("%q: message %q", typed, f.Message)
		}
	}
	filled := map[int]int{}
	html := string(b.Append(nil, func(dst []byte, h *Hole, text string) []byte {
		filled[h.N]++
		return append(dst, "<a>"+text+"</a>"...)
	}, nil))
	for i, h := range b.Holes {
		if want := map[bool]int{true: 0, false: 1}[h.InTitle]; filled[i] != want {
			t.Fatalf("%q: hole %d was filled %d times", typed, i, filled[i])
		}
	}
	for _, tag := range []string{"hr", "br"} { // XML knows no void elements
		html = strings.ReplaceAll(html, "<"+tag+">", "<"+tag+"/>")
	}
	decoder := xml.NewDecoder(strings.NewReader("<body>" + html + "</body>"))
	for {
		_, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("%q gives %q: %v", typed, html, err)
		}
	}
}

func FuzzRender(f *testing.F) {
	for _, seed := range []string{
		benchBody, "# T [a](part:b)\n\n> [c]: d\n\n[c]", "| a |\n|-|\n| [b](c) `d\\|e` |", "- [x] a\r\n\t- b\n", "[![a](b)](c)![d](e f.jpg)", "a[^1]\n\n[^1]: b\n    - c\n\n[^2]: d",
		"<div>\n*a*\n\n</div> <!-- x", "[a](<b\\>c> (d))", "```toml\na = 1\n```\n~~~\nx", "<a:b><https://x><c@d.e> www.x.org", "&#0;&#128;\x00\xff\u2028", "[a]: b\n'c\n\nd'", "Setext\n===\n\n***a** b*",
	} {
		f.Add(seed)
	}
	colours := &Highlighter{}
	f.Fuzz(func(t *testing.T, body string) {
		if len(body) > 10_000 {
			return
		}
		checkBody(t, render(body, Options{Code: colours}), body)
		if searched, not := convert(t, engine, body), convert(t, plain, body); !mayHoldAddress([]byte(body)) && searched != not {
			t.Fatalf("%q: with a search for addresses %q, without %q", body, searched, not)
		}
		checkTexts(t, body)
	})
}

// convert returns the HTML that goldmark's own writers make of the tree that one of our set-ups reads.
func convert(t *testing.T, with goldmark.Markdown, body string) string {
	t.Helper()
	pc := parser.NewContext()
	pc.Set(placesKey, &places{})
	root := with.Parser().Parse(text.NewReader([]byte(body)), parser.WithContext(pc))
	var html bytes.Buffer
	if err := goldmark.New(goldmark.WithExtensions(extension.GFM, extension.Footnote)).Renderer().Render(&html, []byte(body), root); err != nil {
		t.Fatal(err)
	}
	return lineEnds.ReplaceAllString(html.String(), "$1\n")
}

// lineEnds are blanks before the end of a line, which goldmark leaves where its search for addresses has parted them from the text; a browser shows none.
var lineEnds = regexp.MustCompile(`[ \t\r\v\f]+(<br>)?\n`)

// checkTexts holds each text of a body, as it is written here, against goldmark's own writer.
func checkTexts(t *testing.T, body string) {
	t.Helper()
	root, _ := parse([]byte(body))
	theirs := renderer.NewRenderer(renderer.WithNodeRenderers(util.Prioritized(html.NewRenderer(), 1)))
	if err := ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Kind() != ast.KindText || !entering {
			return ast.WalkContinue, nil
		}
		var want bytes.Buffer
		if err := theirs.Render(&want, []byte(body), n); err != nil {
			return ast.WalkStop, err
		}
		ours := &page{}
		if _, err := writeText(ours, []byte(body), n, true); err != nil || string(ours.bytes) != want.String() {
			t.Fatalf("%q: a text is written %q, by goldmark %q (%v)", body, ours.bytes, want.String(), err)
		}
		return ast.WalkContinue, nil
	}); err != nil {
		t.Fatal(err)
	}
}

// TestAddressesAreSearchedForWhereTheyMayBe holds the sign by which a body is searched against what goldmark finds when it searches all of them.
func TestAddressesAreSearchedForWhereTheyMayBe(t *testing.T) {
	for _, body := range []string{"see http://a.example.org/b", "(https://a.example.org)", "*www.example.org*", "ask me@example.org", "HTTP://a.example.org", "WWW.example.org", "ftp://a.example.org"} {
		if found := convert(t, engine, body) != convert(t, plain, body); found != mayHoldAddress([]byte(body)) {
			t.Errorf("%q: an address is found: %t; it is searched: %t", body, found, !found)
		}
	}
}
