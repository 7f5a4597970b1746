package parse

import (
	"strings"
	"unicode/utf8"
)

// This file looks ahead without moving.

// next reports whether the next character is c.
func (l *locator) next(c byte) bool { return l.pos < len(l.text) && l.text[l.pos] == c }

// crlf reports whether a line end of two characters stands at i.
func (l *locator) crlf(i int) bool { return strings.HasPrefix(l.text[i:], "\r\n") }

// lineStop returns the offset of the line end at or after i.
func (l *locator) lineStop(i int) int {
	n := strings.IndexByte(l.text[i:], '\n')
	switch {
	case n < 0:
		return len(l.text)
	case n > 0 && l.text[i+n-1] == '\r':
		return i + n - 1
	}
	return i + n
}

// nextLine returns the offset of the line after that of i.
func (l *locator) nextLine(i int) int {
	n := strings.IndexByte(l.text[i:], '\n')
	if n < 0 {
		return len(l.text)
	}
	return i + n + 1
}

// ended reports whether nothing more stands at i on its line that could belong to a key or value: a comment, a line end, and in an
// array or inline table a comma or closing bracket.
func (l *locator) ended(i int) bool {
	if i >= len(l.text) {
		return true
	}
	switch l.text[i] {
	case '\n', '#':
		return true
	case '\r':
		return l.crlf(i)
	case ',', ']', '}':
		return l.arrays+l.inlines > 0
	}
	return false
}

// stop returns the offset at or after i at which ended is true.
func (l *locator) stop(i int) int {
	for !l.ended(i) {
		i++
	}
	return i
}

// trimmed returns end without the spaces before it.
func (l *locator) trimmed(start, end int) int {
	for end > start && (l.text[end-1] == ' ' || l.text[end-1] == '\t') {
		end--
	}
	return end
}

// keyAhead returns the end of the dotted key at i, -1 if there is none.
func (l *locator) keyAhead(i int) int {
	for {
		start := i
		switch {
		case i < len(l.text) && (l.text[i] == '"' || l.text[i] == '\''):
			if i = l.quoteAhead(i); i < 0 {
				return -1
			}
		default:
			for i < len(l.text) && locateBare(l.text[i]) {
				i++
			}
			if i == start {
				return -1
			}
		}
		end := i
		if i = l.spacesAhead(i); i >= len(l.text) || l.text[i] != '.' {
			return end
		}
		i = l.spacesAhead(i + 1)
	}
}

// quoteAhead returns the offset after the string on one line that begins at i, -1 if it isn't closed.
func (l *locator) quoteAhead(i int) int {
	quote := l.text[i]
	for i++; i < len(l.text) && l.text[i] != '\n'; i++ {
		switch {
		case l.text[i] == quote:
			return i + 1
		case l.text[i] == '\\' && quote == '"' && i+1 < len(l.text) && l.text[i+1] != '\n':
			i++
		}
	}
	return -1
}

func (l *locator) spacesAhead(i int) int {
	for i < len(l.text) && (l.text[i] == ' ' || l.text[i] == '\t') {
		i++
	}
	return i
}

// pairAhead returns the end of the key at i if a `=` follows it, else -1.
func (l *locator) pairAhead(i int) int {
	end := l.keyAhead(i)
	if end < 0 {
		return -1
	}
	if i = l.spacesAhead(end); i < len(l.text) && l.text[i] == '=' {
		return end
	}
	return -1
}

// headerAhead reports whether a header stands at i, alone on its line.
func (l *locator) headerAhead(i int) bool {
	brackets := 0
	for i < len(l.text) && l.text[i] == '[' && brackets < 2 {
		i++
		brackets++
	}
	if brackets == 0 {
		return false
	}
	end := l.keyAhead(l.spacesAhead(i))
	if end < 0 {
		return false
	}
	i = l.spacesAhead(end)
	if !strings.HasPrefix(l.text[i:], "]]"[:brackets]) {
		return false
	}
	i = l.spacesAhead(i + brackets)
	return i >= len(l.text) || l.text[i] == '\n' || l.text[i] == '#' || l.crlf(i)
}

// notArrayAhead reports whether a header stands at i that can't be an item of an array as well.
func (l *locator) notArrayAhead(i int) bool {
	if !l.headerAhead(i) {
		return false
	}
	content := strings.TrimLeft(l.text[i:l.lineStop(i)], "[ \t")
	content = strings.TrimRight(content[:strings.IndexByte(content, ']')], " \t")
	if content[0] == '"' || content[0] == '\'' {
		return false
	}
	_, literal := locateLiteral(content)
	return !literal
}

// equalsAhead returns the offset of a `=` outside quotes at or after i, before the key's place ends; -1 if there is none.
func (l *locator) equalsAhead(i int) int {
	for !l.ended(i) {
		switch l.text[i] {
		case '=':
			return i
		case '"', '\'':
			next := l.quoteAhead(i)
			if next < 0 {
				return -1
			}
			i = next
		default:
			i++
		}
	}
	return -1
}

// valueAhead reports whether a value begins at i, for telling a missing comma from text without quotes.
func (l *locator) valueAhead(i int) bool {
	if strings.IndexByte("\"'[{", l.text[i]) >= 0 || l.pairAhead(i) > 0 {
		return true
	}
	_, literal := locateLiteral(l.text[i:l.wordAhead(i)])
	return literal
}

// wordAhead returns the end of the word at i.
func (l *locator) wordAhead(i int) int {
	for !l.ended(i) && l.text[i] != ' ' && l.text[i] != '\t' {
		i++
	}
	return i
}

// locateCurly returns the length of the quotation mark that s begins with if it isn't a straight one, else 0.
func locateCurly(s string) int {
	switch r, size := utf8.DecodeRuneInString(s); r {
	case '“', '”', '„', '‟', '‘', '’', '‚', '‛', '«', '»':
		return size
	}
	return 0
}

// markAhead returns the end of a quotation mark of that sort between i and stop: the last, in an array or inline table the first; -1
// if there is none.
func (l *locator) markAhead(i, stop int, marks string) int {
	at := strings.LastIndexAny(l.text[i:stop], marks)
	if l.arrays+l.inlines > 0 {
		at = strings.IndexAny(l.text[i:stop], marks)
	}
	if at < 0 {
		return -1
	}
	_, size := utf8.DecodeRuneInString(l.text[i+at : stop])
	return i + at + size
}
