package parse

import (
	"strings"
	"unicode/utf8"
)

// locateString is the content of a string.
type locateString struct {
	text   string
	inner  int // offset of its first byte in the file
	runs   []locateRun
	closed bool

	from      int  // offset in the file from which the content isn't copied yet
	misspelt  bool // a bad escape is recorded
	corrupted bool // a control character is recorded
}

// quoted reads a string on one line.
func (l *locator) quoted(n *node) locateOutcome {
	start := l.pos
	s := l.lineString()
	if s.closed {
		n.kind, n.at, n.text = nodeString, l.file.At(start, l.pos), s.text
		n.inner, n.runs = s.inner, s.runs
		return locateRead
	}
	marks := "“”„‟"
	if l.text[start] == '\'' {
		marks = "‘’‚‛"
	}
	if end := l.markAhead(start+1, l.pos, marks); end > 0 {
		l.bad(n, start, end)
		l.fault(breakCurlyQuotes, start, end, "a text that ends in a curly quote")
		l.pos = end
		return locateSpoilt
	}
	l.bad(n, start, l.trimmed(start, l.pos))
	l.fault(breakUnclosedString, n.at.Start, n.at.End, "no closing `"+l.text[start:start+1]+"`")
	return locateSpoilt
}

// lineString reads a string on one line, up to its closing quote or its line's end. It leaves an unclosed one to be recorded by
// the caller.
func (l *locator) lineString() locateString {
	quote, i := l.text[l.pos], l.pos+1
	s := locateString{inner: i, from: i}
	for i < len(l.text) {
		c := l.text[i]
		switch {
		case c == quote:
			l.finish(&s, i)
			l.pos = i + 1
			return s
		case c == '\n', c == '\r' && l.crlf(i):
			l.pos = i
			return s
		case c == '\\' && quote == '"':
			i = l.escape(&s, i)
			continue
		case locateControl(c):
			l.corrupt(&s, i)
		}
		i++
	}
	l.pos = i
	return s
}

// multiline reads a string in three quotes.
func (l *locator) multiline(n *node) locateOutcome {
	start := l.pos
	quote, faults := l.text[start], len(l.breaks)
	if s, end := l.multilineString(quote); s.closed {
		l.pos = end
		n.kind, n.at, n.text = nodeMultiline, l.file.At(start, end), s.text
		n.inner, n.runs = s.inner, s.runs
		return locateRead
	}
	l.breaks = l.breaks[:faults] // those in what follows aren't in a string
	l.pos = l.lineStop(start)
	l.bad(n, start, l.trimmed(start, l.pos))
	l.fault(breakUnclosedString, start, start+3, "no closing `"+l.text[start:start+3]+"`")
	return locateStrayed
}

// multilineString returns the content of the string in three quotes here, and the offset after it.
func (l *locator) multilineString(quote byte) (s locateString, end int) {
	kind := 0
	if quote == '\'' {
		kind = 1
	}
	if l.unending[kind] {
		return s, 0
	}
	i := l.pos + 3
	switch {
	case strings.HasPrefix(l.text[i:], "\n"):
		i++
	case l.crlf(i):
		i += 2
	}
	s.inner, s.from = i, i
	for i < len(l.text) {
		c := l.text[i]
		switch {
		case c == quote:
			quotes := l.quotesAhead(i)
			if quotes >= 3 {
				if !l.reopens(i, quotes) {
					l.finish(&s, i+quotes-3)
				}
				return s, i + quotes
			}
		case c == '\\' && quote == '"':
			i = l.multilineEscape(&s, i)
			continue
		case locateControl(c) && c != '\n' && (c != '\r' || !l.crlf(i)):
			l.corrupt(&s, i)
		}
		i++
	}
	l.unending[kind] = true
	return s, 0
}

// quotesAhead returns the number of quotes at i, of which five can belong to the end of a string.
func (l *locator) quotesAhead(i int) int {
	n := 1
	for n < 5 && i+n < len(l.text) && l.text[i+n] == l.text[i] {
		n++
	}
	return n
}

// reopens reports whether the three quotes at i, which would close the string that began at l.pos, open the next one: a key and
// `=` stand before them on their line, and below it stands what can't follow a value. A valid text has no such place.
func (l *locator) reopens(i, quotes int) bool {
	line := strings.LastIndexByte(l.text[l.pos:i], '\n')
	if line < 0 || quotes > 3 || l.arrays+l.inlines > 0 {
		return false
	}
	key := l.pairAhead(l.spacesAhead(l.pos + line + 1))
	if key < 0 || key > i {
		return false
	}
	equals := l.spacesAhead(key)
	if l.spacesAhead(equals+1) != i || !l.ended(l.spacesAhead(i+quotes)) {
		return false
	}
	next := l.nextLine(i)
	for next < len(l.text) && strings.IndexByte(" \t\r\n", l.text[next]) >= 0 {
		next++
	}
	return next < len(l.text) && l.text[next] != '#' && l.pairAhead(next) < 0 && !l.headerAhead(next)
}

// multilineEscape takes the escape at i, or the backslash at a line's end with the space and line ends that it eats.
func (l *locator) multilineEscape(s *locateString, i int) int {
	end := l.spacesAhead(i + 1)
	if end >= len(l.text) || l.text[end] != '\n' && !l.crlf(end) {
		return l.escape(s, i)
	}
	for end < len(l.text) && (strings.IndexByte(" \t\n", l.text[end]) >= 0 || l.crlf(end)) {
		end++
	}
	l.copyTo(s, i)
	s.runs = append(s.runs, locateRun{text: len(l.buffer), file: end})
	s.from = end
	return end
}

// escape takes the escape at i and returns the offset after it. A bad one stays as it is written; the first is recorded.
func (l *locator) escape(s *locateString, i int) int {
	r, size := locateEscape(l.text[i+1:])
	if size == 0 {
		end := i + 1
		if end < len(l.text) && l.text[end] != '\n' && l.text[end] != '\r' {
			_, size := utf8.DecodeRuneInString(l.text[end:])
			end += size
		}
		if !s.misspelt {
			l.fault(breakBadEscape, i, end, locateShown(l.text[i:end])+" isn't an escape")
			s.misspelt = true
		}
		return i + 1
	}
	end := i + 1 + size
	l.copyTo(s, i)
	s.runs = append(s.runs, locateRun{text: len(l.buffer), file: i, end: end})
	l.buffer = utf8.AppendRune(l.buffer, r)
	s.runs = append(s.runs, locateRun{text: len(l.buffer), file: end})
	s.from = end
	return end
}

// copyTo copies content as it is written up to an escape at i.
func (l *locator) copyTo(s *locateString, i int) {
	if s.runs == nil {
		l.buffer = l.buffer[:0]
		s.runs = append(s.runs, locateRun{file: s.inner})
	}
	l.buffer = append(l.buffer, l.text[s.from:i]...)
}

// finish ends a string's content before i.
func (l *locator) finish(s *locateString, i int) {
	s.closed = true
	if s.runs == nil {
		s.text = l.text[s.inner:i]
		return
	}
	l.buffer = append(l.buffer, l.text[s.from:i]...)
	s.text = string(l.buffer)
}

// corrupt records the first control character of a string.
func (l *locator) corrupt(s *locateString, i int) {
	if !s.corrupted {
		l.control(i)
		s.corrupted = true
	}
}

// locateEscape returns the character that an escape stands for, and the length of what follows its backslash, 0 if it is bad.
func locateEscape(s string) (r rune, size int) {
	if s == "" {
		return 0, 0
	}
	switch s[0] {
	case 'b':
		return '\b', 1
	case 't':
		return '\t', 1
	case 'n':
		return '\n', 1
	case 'f':
		return '\f', 1
	case 'r':
		return '\r', 1
	case 'e':
		return 0x1B, 1
	case '"', '\\':
		return rune(s[0]), 1
	case 'x':
		return locateHex(s, 3)
	case 'u':
		return locateHex(s, 5)
	case 'U':
		return locateHex(s, 9)
	}
	return 0, 0
}

// locateHex returns the character whose number the digits after the first byte of s are.
func locateHex(s string, size int) (rune, int) {
	if len(s) < size {
		return 0, 0
	}
	var r uint32
	for i := 1; i < size; i++ {
		digit := strings.IndexByte("0123456789abcdef", s[i]|0x20)
		if digit < 0 || s[i] < '0' {
			return 0, 0
		}
		r = r<<4 | uint32(digit)
	}
	if r > utf8.MaxRune || !utf8.ValidRune(rune(r)) {
		return 0, 0
	}
	return rune(r), size
}
