package parse

import (
	"fmt"
	"net/url"
	"path"
	"regexp"
	"strings"

	"example.org/locknut/journal/source"
)

// Style is a style sheet of the builder's own, in `theme/`.
type Style struct {
	File      *source.File
	From      int // offset at which the text begins, after a byte order mark
	Addresses []StyleAddress
	Comments  []source.Range
	Broken    bool // it is no text, or something in it never ends: it would take the sheets after it along
}

// StyleAddress is an address that a style sheet names.
type StyleAddress struct {
	Text   string       // escapes resolved
	Import bool         // an `@import`, whatever it names
	At     source.Range // the address, with its quotes where it has some; the whole rule of an `@import`
}

var addressScheme = regexp.MustCompile(`^[A-Za-z][A-Za-z0-9+.-]*:`)

// Local returns the file that an address names, by its name below the journal, and the fragment in it; no file for a place in the page
// itself, such as `#fade`. An address that can't be followed on a site gives the reason why, in words that go on from its text.
func (a StyleAddress) Local() (name, fragment, why string) {
	switch text := a.Text; {
	case a.Import:
		return "", "", "brings in another style sheet"
	case text == "" || strings.HasPrefix(text, "#"):
		return "", text, ""
	case strings.HasPrefix(strings.ToLower(text), "data:"):
		return "", "", "is a file inside the style sheet: a page of the site takes files only"
	case addressScheme.MatchString(text) || strings.HasPrefix(text, "//") || strings.HasPrefix(text, `\`):
		return "", "", "is an address outside the site"
	case strings.HasPrefix(text, "/"):
		return "", "", "is an address from the root of a server, and the site may stand elsewhere"
	}
	file, fragment, _ := strings.Cut(a.Text, "#")
	file, _, _ = strings.Cut(file, "?")
	if decoded, err := url.PathUnescape(file); err == nil {
		file = decoded
	}
	if name = path.Join("theme", file); !strings.HasPrefix(name, "theme/") {
		return "", "", "leads out of the folder `theme`"
	}
	return name, fragment, ""
}

// Outside reports whether the style sheet names something that no page of the site may ask for.
func (s *Style) Outside() bool {
	for _, a := range s.Addresses {
		if _, _, why := a.Local(); why != "" {
			return true
		}
	}
	return false
}

// DecodeStyle finds the addresses and the comments of a style sheet, by the tokens of CSS Syntax Level 3 (from memory). It judges nothing
// else: a browser skips what it doesn't know.
func DecodeStyle(file *source.File) (*Style, []source.Finding) {
	d := &decoder{file: file}
	s := &Style{File: file, From: d.body()}
	if !d.readable(MaxSheet) {
		s.Broken = true
		return s, d.findings
	}
	scan := &styleScan{style: s, text: file.Text, at: s.From}
	scan.run()
	if scan.never != "" {
		s.Broken = true
		d.report("unclosed-css", source.Error, scan.open, file.Name, scan.never+" is opened here and never closed", "close it; until then this style sheet is left out")
	}
	return s, d.findings
}

// styleScan walks over a style sheet, token by token.
type styleScan struct {
	style *Style
	text  string
	at    int
	stack []styleBlock

	never string // what never ends; empty while all does
	open  source.Range
}

// styleBlock is a bracket that is open.
type styleBlock struct {
	closer   byte
	function string // name of the function whose bracket it is
	at       int
}

// withAddress are the functions in which a text is an address (CSS Values Level 4, CSS Images Level 4, from memory).
var withAddress = map[string]bool{"url": true, "src": true, "image": true, "image-set": true, "-webkit-image-set": true, "cross-fade": true, "-webkit-cross-fade": true}

func (s *styleScan) run() {
	for s.at < len(s.text) {
		s.step()
	}
	if n := len(s.stack); n > 0 && s.never == "" {
		last := s.stack[n-1]
		s.fail(fmt.Sprintf("a bracket, `%s`,", s.text[last.at:last.at+1]), last.at, last.at+1)
	}
}

// step reads one token. What never ends takes all the rest.
func (s *styleScan) step() {
	c := s.text[s.at]
	switch {
	case strings.HasPrefix(s.text[s.at:], "/*"):
		s.comment()
	case c == '"' || c == '\'':
		s.string(c)
	case c == '@':
		s.at++
		s.rule(s.at - 1)
	case c == '#' || c >= '0' && c <= '9':
		s.at++
		s.name() // of a colour, or the unit of a number: no function
	case s.startsName():
		s.word()
	case strings.IndexByte("{[(", c) >= 0:
		s.push(c, "")
		s.at++
	case strings.IndexByte("}])", c) >= 0:
		if n := len(s.stack); n > 0 && s.stack[n-1].closer == c {
			s.stack = s.stack[:n-1]
		}
		s.at++
	default:
		s.at++
	}
}

func (s *styleScan) push(c byte, function string) {
	s.stack = append(s.stack, styleBlock{map[byte]byte{'{': '}', '[': ']', '(': ')'}[c], function, s.at})
}

func (s *styleScan) fail(what string, start, end int) {
	s.never, s.open = what, s.style.File.At(start, end)
	s.at = len(s.text)
}

func (s *styleScan) comment() {
	start := s.at
	length := strings.Index(s.text[start+2:], "*/")
	if length < 0 {
		s.fail("a comment", start, start+2)
		return
	}
	s.at = start + 2 + length + 2
	s.style.Comments = append(s.style.Comments, s.style.File.At(start, s.at))
}

// string reads a text in quotes. It is an address where a function that takes one holds it.
func (s *styleScan) string(quote byte) {
	start := s.at
	var text strings.Builder
	for s.at++; s.at < len(s.text); {
		switch c := s.text[s.at]; {
		case c == quote:
			s.at++
			if n := len(s.stack); n > 0 && withAddress[s.stack[n-1].function] {
				s.address(text.String(), start)
			}
			return
		case c == '\n' || c == '\r' || c == '\f':
			s.fail("a text in quotes", start, s.at)
			return
		case c == '\\':
			s.escape(&text)
		default:
			text.WriteByte(c)
			s.at++
		}
	}
	s.fail("a text in quotes", start, s.at)
}

func (s *styleScan) address(text string, start int) {
	s.style.Addresses = append(s.style.Addresses, StyleAddress{Text: strings.TrimSpace(text), At: s.style.File.At(start, s.at)})
}

// rule reads the name of an at-rule, and an `@import` as a whole.
func (s *styleScan) rule(start int) {
	if !s.startsName() || !strings.EqualFold(s.name(), "import") {
		return
	}
	addresses, depth := len(s.style.Addresses), len(s.stack)
	for s.at < len(s.text) && (len(s.stack) > depth || strings.IndexByte(";}", s.text[s.at]) < 0) {
		s.step()
	}
	end := len(strings.TrimRight(s.text[:s.at], " \t\r\n\f"))
	s.style.Addresses = append(s.style.Addresses[:addresses], StyleAddress{Import: true, At: s.style.File.At(start, end)})
}

// word reads a name, and what follows it where it is a function's.
func (s *styleScan) word() {
	name := strings.ToLower(s.name())
	if s.at >= len(s.text) || s.text[s.at] != '(' {
		return
	}
	s.push('(', name)
	s.at++
	if name != "url" {
		return
	}
	start := s.at
	for start < len(s.text) && isStyleBlank(s.text[start]) {
		start++
	}
	if start < len(s.text) && strings.IndexByte(`"'`, s.text[start]) < 0 {
		s.at = start
		s.bare()
	}
}

// bare reads an address without quotes, up to the bracket that closes it.
func (s *styleScan) bare() {
	start := s.at
	var text strings.Builder
	for s.at < len(s.text) && s.text[s.at] != ')' {
		if s.text[s.at] == '\\' {
			s.escape(&text)
			continue
		}
		text.WriteByte(s.text[s.at])
		s.at++
	}
	if s.at == len(s.text) {
		return // the bracket is reported
	}
	end := s.at
	s.at = start + len(strings.TrimRight(s.text[start:end], " \t\r\n\f"))
	if s.at > start {
		s.address(text.String(), start)
	}
	s.at = end
}

// startsName reports whether a name begins here.
func (s *styleScan) startsName() bool {
	rest := strings.TrimLeft(s.text[s.at:], "-")
	return rest != "" && (isStyleName(rest[0]) && (rest[0] < '0' || rest[0] > '9') || rest[0] == '\\' && len(rest) > 1 && rest[1] != '\n')
}

// name reads a name, its escapes resolved.
func (s *styleScan) name() string {
	var name strings.Builder
	for s.at < len(s.text) {
		switch c := s.text[s.at]; {
		case isStyleName(c):
			name.WriteByte(c)
			s.at++
		case c == '\\' && s.at+1 < len(s.text) && s.text[s.at+1] != '\n':
			s.escape(&name)
		default:
			return name.String()
		}
	}
	return name.String()
}

// escape reads a back-slash and what it stands for: a character by its number, itself, or a line end that is no part of the text.
func (s *styleScan) escape(into *strings.Builder) {
	s.at++
	number, digits := rune(0), 0
	for ; s.at < len(s.text) && digits < 6; digits++ {
		value := strings.IndexByte("0123456789abcdef", lower(s.text[s.at]))
		if value < 0 {
			break
		}
		number = number<<4 + rune(value)
		s.at++
	}
	switch {
	case digits > 0:
		into.WriteRune(number)
		if s.at < len(s.text) && isStyleBlank(s.text[s.at]) {
			s.at++
		}
	case s.at < len(s.text):
		if s.text[s.at] != '\n' {
			into.WriteByte(s.text[s.at])
		}
		s.at++
	}
}

func lower(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}

func isStyleBlank(c byte) bool { return strings.IndexByte(" \t\r\n\f", c) >= 0 }

func isStyleName(c byte) bool {
	return 'a' <= lower(c) && lower(c) <= 'z' || '0' <= c && c <= '9' || c == '-' || c == '_' || c >= 0x80
}
