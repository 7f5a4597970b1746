package markdown

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/renderer/html"
)

// plainText returns the words of a node as a reader sees them, line ends as blanks. Marks of emphasis, links and footnotes are
// left out.
func plainText(n ast.Node, src []byte) string {
	if only, ok := n.FirstChild().(*ast.Text); ok && only.NextSibling() == nil {
		return clean(textOf(only, src)) // by far the most common
	}
	return clean(strings.TrimRight(string(appendText(nil, n, src)), " "))
}

func appendText(dst []byte, parent ast.Node, src []byte) []byte {
	return appendTextNoting(dst, parent, src, func(ast.Node, []byte, int) {})
}

// appendTextNoting tells of each link, once its words are there, and where they begin.
func appendTextNoting(dst []byte, parent ast.Node, src []byte, note func(link ast.Node, dst []byte, from int)) []byte {
	for n := parent.FirstChild(); n != nil; n = n.NextSibling() {
		switch n := n.(type) {
		case *ast.Text:
			dst = append(dst, textOf(n, src)...)
			if n.SoftLineBreak() || n.HardLineBreak() {
				dst = append(dst, ' ')
			}
		case *ast.String:
			dst = append(dst, n.Value...)
		case *ast.CodeSpan:
			dst = append(dst, codeText(n, src)...)
		case *ast.AutoLink:
			from := len(dst)
			dst = append(dst, n.Label(src)...)
			note(n, dst, from)
		case *ast.Link:
			from := len(dst)
			dst = appendTextNoting(dst, n, src, note)
			note(n, dst, from)
		case *ast.RawHTML:
			dst = append(dst, n.Segments.Value(src)...)
		default:
			dst = appendTextNoting(dst, n, src, note)
		}
	}
	return dst
}

func textOf(n *ast.Text, src []byte) string {
	if n.IsRaw() {
		return string(n.Segment.Value(src))
	}
	return resolve(string(n.Segment.Value(src)))
}

func codeText(n *ast.CodeSpan, src []byte) string {
	var b strings.Builder
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if t, ok := c.(*ast.Text); ok {
			b.Write(t.Segment.Value(src))
		}
	}
	return strings.ReplaceAll(strings.ReplaceAll(b.String(), "\r\n", " "), "\n", " ")
}

var unescapeHTML = strings.NewReplacer("&amp;", "&", "&lt;", "<", "&gt;", ">", "&quot;", `"`)

// resolve undoes the escapes and entities of CommonMark.
func resolve(text string) string {
	if strings.IndexByte(text, '\\') < 0 && strings.IndexByte(text, '&') < 0 {
		return text
	}
	var b buffer
	html.DefaultWriter.Write(&b, []byte(text)) // the one place that has the rules; it escapes for HTML as it goes
	return unescapeHTML.Replace(string(b.bytes))
}

// clean takes out what HTML does not allow in a text (HTML Standard, "valid text": no control characters, no noncharacters): a
// carriage return goes, a form feed is a blank, all else becomes the replacement character. It works on text and on HTML alike.
func clean(text string) string {
	if isClean(text) {
		return text
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\r':
			return -1
		case r == '\f':
			return ' '
		case notText(r):
			return utf8.RuneError
		}
		return r
	}, text)
}

func isClean(text string) bool {
	for i := 0; i < len(text); {
		if plainByte[text[i]] {
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(text[i:])
		if notText(r) || r == utf8.RuneError && size == 1 {
			return false
		}
		i += size
	}
	return true
}

// plainByte tells the bytes of ASCII that are text.
var plainByte = func() (plain [256]bool) {
	for b := range utf8.RuneSelf {
		plain[b] = !notText(rune(b))
	}
	return plain
}()

func notText(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' || 0x7f <= r && r <= 0x9f || 0xfdd0 <= r && r <= 0xfdef || r&0xfffe == 0xfffe
}

// clip shortens the builder's text for a message to one line of 60 characters.
func clip(text string) string {
	text = clean(strings.Join(strings.Fields(text), " "))
	runes := []rune(text)
	if len(runes) <= 60 {
		return text
	}
	return string(runes[:59]) + "…"
}

// ids gives out ids that are unique in a page.
type ids struct {
	used  map[string]bool
	count map[string]int // how often each text has been asked for
}

func newIDs(taken []string) *ids {
	i := &ids{used: map[string]bool{}, count: map[string]int{}}
	for _, id := range taken {
		i.used[id] = true
	}
	return i
}

// next returns an id for a heading: its letters and digits of every script in lower case, anything between as one `-`, and a
// number where an earlier one is alike.
func (i *ids) next(text string) string {
	base := slug(text)
	id := base
	for i.used[id] {
		i.count[base]++
		id = base + "-" + strconv.Itoa(i.count[base]+1)
	}
	i.used[id] = true
	return id
}

func slug(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range text {
		switch {
		case unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsMark(r) || r == '_':
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(unicode.ToLower(r))
		case unicode.IsSpace(r) || r == '-':
			gap = true
		}
	}
	if b.Len() == 0 {
		return "section"
	}
	return b.String()
}
