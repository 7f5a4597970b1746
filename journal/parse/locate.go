package parse

import (
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"example.org/locknut/journal/source"
)

// tomlBreak is a place at which a text breaks the rules of TOML 1.1.
type tomlBreak struct {
	at      source.Range // as tight as it can be; of a redefinition the later key
	message string       // what is wrong
	kind    string       // one of the break… names
	also    source.Range // of a redefinition: the key that was there first; else zero
}

// The kinds of break, and what `at` is for each.
const (
	breakApostrophe       = "apostrophe"        // a ' inside '…': the whole text, to its last '
	breakBadEscape        = "bad-escape"        // the first bad escape of a string
	breakBadKey           = "bad-key"           // the text before the `=`, or between the brackets
	breakBadNumber        = "bad-number"        // the value
	breakBadTime          = "bad-time"          // the value
	breakControlCharacter = "control-character" // the first in a string, comment or line
	breakCurlyQuotes      = "curly-quotes"      // the value with its quotes
	breakExtraComma       = "extra-comma"       // the comma
	breakHeaderUnclosed   = "header-unclosed"   // the header to the end of its key
	breakInchMark         = "inch-mark"         // a " inside "…": the whole text, to its last "
	breakJunk             = "junk"              // the text, or the key on the line of another
	breakNestedTooDeep    = "nested-too-deep"   // the key or bracket
	breakNoComma          = "no-comma"          // the value before the gap
	breakNoEquals         = "no-equals"         // the key
	breakNoValue          = "no-value"          // the key
	breakNotUTF8          = "not-utf8"          // the first such bytes of the text; the only break of its kind
	breakRedefined        = "redefined"         // the later key
	breakDeeper           = "value-and-deeper"  // the later key, where one has a value and the other stands below it
	breakUnclosedArray    = "unclosed-array"    // the bracket
	breakUnclosedString   = "unclosed-string"   // the three quotes; of a string on one line all of it
	breakUnclosedTable    = "unclosed-table"    // the brace
	breakUnquoted         = "unquoted"          // the value
)

const (
	locateDepth   = 100             // tables and arrays inside each other
	locateRefused = locateDepth + 2 // depth of what was found too deep already: nothing inside it is read
	locateBreaks  = 1000            // breaks that are recorded for one text
)

// locate finds the keys and values of a TOML 1.1 text, f.Text[start:end], with their places in the file, and every place at
// which the text breaks TOML's rules: none for a valid text. A byte order mark before the text is passed over.
//
// It never gives up: after a break it goes on at the next thing that it can read, so a broken text yields the keys that can be
// seen. A key that redefines another isn't in the tree. Lines that are no TOML at all, directly below a break, count as part of
// it. Breaks come in the order of their places; after a thousand no more are recorded.
//
// The time it takes grows with the length of the text and no faster.
func locate(f *source.File, start, end int) (root *node, breaks []tomlBreak) {
	return new(nodeRoom).locate(f, start, end)
}

// nodeRoom is what nodes are made in, to be used again once nobody asks for them.
type nodeRoom struct{ nodes []node }

var nodeRooms = sync.Pool{New: func() any { return new(nodeRoom) }}

// locate is as the function of that name; its nodes are good until the next call.
func (room *nodeRoom) locate(f *source.File, start, end int) (root *node, breaks []tomlBreak) {
	end = max(0, min(end, len(f.Text)))
	start = max(0, min(start, end))
	if strings.HasPrefix(f.Text[start:end], source.BOM) {
		start += len(source.BOM)
	}
	l := &locator{file: f, text: f.Text[:end], pos: start, slab: room.nodes[:0]}
	if pairs := min(8+strings.Count(f.Text[start:end], "=")+strings.Count(f.Text[start:end], "\n["), locateSlab); cap(l.slab) < pairs {
		l.slab = make([]node, 0, pairs)
	}
	l.root = l.newNode("", source.Range{})
	l.root.at = f.Whole()
	l.root.origin = originHeader
	l.table = l.root
	l.checkEncoding()
	l.document()
	room.nodes = l.slab
	slices.SortStableFunc(l.breaks, func(a, b tomlBreak) int { return a.at.Start - b.at.Start })
	return l.root, l.breaks
}

// locator is the state of one reading of a text. Its methods move pos forward; offsets are those of the file.
type locator struct {
	file   *source.File
	text   string // of the file, up to the end of the TOML
	pos    int
	gapAt  int // where the last gap between values of an array or inline table began
	breaks []tomlBreak

	root, table *node // table is the one that the header in force names
	quiet       bool  // the table stands twice: its keys may be there already
	derailed    bool  // the line before was no TOML

	arrays, inlines int             // that pos stands in
	openQuote       int             // where the last key read has a quote that isn't closed, or -1
	unending        [2]bool         // no """, no ''' from here on
	path            []locateSegment // segments of the keys being read
	slab            []node          // of which the next nodes are made
	buffer          []byte
}

// locateOutcome says how far a value or a line could be read.
type locateOutcome uint8

const (
	locateRead    locateOutcome = iota // to its end
	locateSpoilt                       // a break is recorded; what else stands there up to a comma, bracket or line end belongs to it
	locateStrayed                      // a break is recorded, and pos may stand on another line
)

func (l *locator) document() {
	for {
		l.blanks()
		if l.pos >= len(l.text) {
			return
		}
		var how locateOutcome
		var n *node
		if l.text[l.pos] == '[' {
			l.derailed = false
			how = l.headerLine()
		} else {
			how, n = l.pair(l.table)
		}
		switch how {
		case locateRead:
			l.lineEnd(n)
		case locateSpoilt:
			l.pos = l.stop(l.pos)
		case locateStrayed:
			l.resume()
		}
	}
}

// lineEnd checks that nothing but a comment follows a header or a pair on its line.
func (l *locator) lineEnd(n *node) {
	l.spaces()
	if l.ended(l.pos) {
		return
	}
	if end := l.pairAhead(l.pos); end > 0 {
		l.fault(breakJunk, l.pos, end, locateShown(l.text[l.pos:end])+" begins on the line of another")
		return
	}
	l.junk(n, l.stop(l.pos))
}

// junk records text up to stop that follows a value, header or key and belongs to nothing.
func (l *locator) junk(n *node, stop int) {
	from, to := l.pos, l.trimmed(l.pos, stop)
	l.pos = stop
	l.derailed = true
	if n != nil && n.kind == nodeString {
		quote := l.text[n.at.End-1]
		last := strings.LastIndexByte(l.text[from:to], quote)
		if last >= 0 && (last > 0 && n.at.End == from || l.text[from] != quote || n.at.End == from) {
			kind := breakInchMark
			if quote == '\'' {
				kind = breakApostrophe
			}
			l.bad(n, n.at.Start, from+last+1)
			l.fault(kind, n.at.Start, n.at.End, "a `"+string(quote)+"` inside the text ends it early")
			return
		}
	}
	l.fault(breakJunk, from, to, locateShown(l.text[from:to])+" belongs to nothing")
}

// resume moves to the next line that looks like a pair or a header, from a line that couldn't be read.
func (l *locator) resume() {
	l.derailed = false
	for l.pos < len(l.text) {
		l.spaces()
		if l.pairAhead(l.pos) > 0 || l.headerAhead(l.pos) {
			return
		}
		l.pos = l.nextLine(l.pos)
	}
}

// blanks passes over spaces, line ends and comments between lines.
func (l *locator) blanks() {
	for l.pos < len(l.text) {
		switch c := l.text[l.pos]; {
		case c == ' ', c == '\t', c == '\n':
			l.pos++
		case c == '\r' && l.crlf(l.pos):
			l.pos += 2
		case c == '#':
			l.comment()
		default:
			return
		}
	}
}

// spaces passes over spaces and tabs.
func (l *locator) spaces() {
	for l.pos < len(l.text) && (l.text[l.pos] == ' ' || l.text[l.pos] == '\t') {
		l.pos++
	}
}

// comment passes over a comment, up to its line end.
func (l *locator) comment() {
	end := l.lineStop(l.pos)
	for i := l.pos; i < end; i++ {
		if locateControl(l.text[i]) {
			l.control(i)
			break
		}
	}
	l.pos = end
}

// control records a control character.
func (l *locator) control(at int) {
	const hex = "0123456789ABCDEF"
	c := l.text[at]
	l.fault(breakControlCharacter, at, at+1, "control character U+00"+string(hex[c>>4])+string(hex[c&15]))
}

func locateControl(c byte) bool { return c < ' ' && c != '\t' || c == 0x7F }

// checkEncoding records the first bytes that are not UTF-8.
func (l *locator) checkEncoding() {
	if utf8.ValidString(l.text[l.pos:]) {
		return
	}
	for i := l.pos; i < len(l.text); {
		r, size := utf8.DecodeRuneInString(l.text[i:])
		if r == utf8.RuneError && size == 1 {
			l.fault(breakNotUTF8, i, i+1, "this isn't UTF-8 text")
			return
		}
		i += size
	}
}

// fault records a break.
func (l *locator) fault(kind string, start, end int, message string) {
	if len(l.breaks) < locateBreaks {
		l.breaks = append(l.breaks, tomlBreak{at: l.file.At(start, end), kind: kind, message: message})
	}
}

// bad makes a value one that can't be read.
func (l *locator) bad(n *node, start, end int) {
	n.kind, n.at, n.text = nodeBad, l.file.At(start, end), l.text[start:end]
	n.inner, n.runs = 0, nil
}

// locateSlab is the most nodes that are made at once.
const locateSlab = 1024

// newNode returns a fresh node. Nodes are made many at a time, at first as many as a text of plain pairs needs.
func (l *locator) newNode(key string, keyAt source.Range) *node {
	if len(l.slab) == cap(l.slab) {
		l.slab = make([]node, 0, min(2*cap(l.slab), locateSlab))
	}
	l.slab = l.slab[:len(l.slab)+1]
	n := &l.slab[len(l.slab)-1]
	*n = node{key: key, keyAt: keyAt, keys: n.keys[:0]}
	return n
}

// locateShown returns the builder's text in back-quotes, cut where it is long, with U+FFFD for what can't be shown.
func locateShown(s string) string {
	const most = 60
	end := ""
	if len(s) > most {
		cut := most
		for cut > most-utf8.UTFMax && !utf8.RuneStart(s[cut]) {
			cut--
		}
		s, end = s[:cut], "…"
	}
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7F {
			return utf8.RuneError
		}
		return r
	}, s)
	return "`" + s + end + "`"
}
