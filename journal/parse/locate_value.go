package parse

import (
	"strings"

	"example.org/locknut/journal/source"
)

// value reads the value that begins here into n.
func (l *locator) value(n *node) locateOutcome {
	switch c := l.text[l.pos]; {
	case c == '"' || c == '\'':
		if strings.HasPrefix(l.text[l.pos:], `"""`) || strings.HasPrefix(l.text[l.pos:], "'''") {
			return l.multiline(n)
		}
		return l.quoted(n)
	case c != '[' && c != '{':
		return l.plain(n)
	case n.depth > locateDepth:
		l.bad(n, l.pos, l.pos+1)
		if n.depth != locateRefused {
			l.fault(breakNestedTooDeep, l.pos, l.pos+1, "more than 100 brackets deep")
		}
		l.pos = l.lineStop(l.pos)
		return locateStrayed
	case c == '[':
		return l.array(n)
	}
	return l.inline(n)
}

// array reads an array in brackets.
func (l *locator) array(n *node) locateOutcome {
	start := l.pos
	n.kind = nodeArray
	l.pos++
	l.arrays++
	how := l.arrayItems(n, start)
	l.arrays--
	l.close(n, start, how)
	return how
}

// inline reads a table in braces.
func (l *locator) inline(n *node) locateOutcome {
	start := l.pos
	n.kind, n.at = nodeInline, l.file.At(l.pos, l.pos+1)
	l.pos++
	l.inlines++
	how := l.inlinePairs(n, start)
	l.inlines--
	l.close(n, start, how)
	return how
}

// close sets the place of an array or inline table that began at start.
func (l *locator) close(n *node, start int, how locateOutcome) {
	end := l.pos
	if how == locateStrayed {
		end = max(start+1, l.trimmed(start, min(l.gapAt, l.pos)))
	}
	n.at, n.text = l.file.At(start, end), l.text[start:end]
}

// locateMembers is the state of reading what an array or inline table holds.
type locateMembers struct {
	start    int   // of the opening bracket
	last     *node // the value before, nil at the start and after a comma
	spoilt   bool  // a break inside is recorded: what follows from it isn't
	measured bool  // indent is known
	indent   int   // of the opening bracket's line
}

func (l *locator) arrayItems(n *node, start int) locateOutcome {
	m := locateMembers{start: start}
	for {
		newLine := l.gap()
		switch {
		case l.pos >= len(l.text):
			return l.unclosed(&m, breakUnclosedArray)
		case l.next(']'):
			l.pos++
			return locateRead
		case l.next('}'):
			return l.wrongCloser(&m, breakUnclosedArray, l.inlines)
		case l.next(','):
			l.comma(&m)
		case newLine && (l.pairAhead(l.pos) > 0 || l.notArrayAhead(l.pos) || m.last != nil && l.headerAhead(l.pos)):
			return l.unclosed(&m, breakUnclosedArray)
		default:
			l.noComma(&m)
			item := l.newNode("", source.Range{})
			item.depth = n.depth + 1
			n.items = append(n.items, item)
			if l.member(&m, l.value(item), item) == locateStrayed {
				return locateStrayed
			}
		}
	}
}

func (l *locator) inlinePairs(n *node, start int) locateOutcome {
	m := locateMembers{start: start}
	for {
		newLine := l.gap()
		switch {
		case l.pos >= len(l.text):
			return l.unclosed(&m, breakUnclosedTable)
		case l.next('}'):
			l.pos++
			return locateRead
		case l.next(']'):
			return l.wrongCloser(&m, breakUnclosedTable, l.arrays)
		case l.next(','):
			l.comma(&m)
		case newLine && (l.headerAhead(l.pos) || m.last != nil && l.outdented(&m) && l.pairAhead(l.pos) > 0):
			return l.unclosed(&m, breakUnclosedTable)
		default:
			l.noComma(&m)
			how, value := l.pair(n)
			if l.member(&m, how, value) == locateStrayed {
				return locateStrayed
			}
		}
	}
}

// gap passes over spaces, line ends and comments between the members of an array or inline table, and reports whether there was
// a line end.
func (l *locator) gap() bool {
	l.gapAt = l.pos
	l.blanks()
	return strings.IndexByte(l.text[l.gapAt:l.pos], '\n') >= 0
}

// member takes in the member that was read and what stands behind it up to the next comma, bracket or line end.
func (l *locator) member(m *locateMembers, how locateOutcome, n *node) locateOutcome {
	m.last = n
	if how == locateRead {
		end := l.pos
		l.spaces()
		switch {
		case l.ended(l.pos):
			return locateRead
		case l.pos > end && l.valueAhead(l.pos), l.text[l.pos] == '[', l.text[l.pos] == '{':
			return locateRead // a comma is missing
		}
		l.junk(n, l.stop(l.pos))
		how = locateSpoilt
	}
	if how == locateSpoilt {
		m.spoilt = true
		l.pos = l.stop(l.pos)
	}
	return how
}

// comma takes a comma between members.
func (l *locator) comma(m *locateMembers) {
	if m.last == nil && !m.spoilt {
		l.fault(breakExtraComma, l.pos, l.pos+1, "a comma with nothing before it")
		m.spoilt = true
	}
	m.last = nil
	l.pos++
}

// noComma records that a member begins though no comma stands after the last.
func (l *locator) noComma(m *locateMembers) {
	if m.last != nil && !m.spoilt {
		start, end := m.last.at.Start, m.last.at.End
		if strings.Contains(l.text[start:end], "\n") {
			start = end - 1
		}
		l.fault(breakNoComma, start, end, "no comma after "+locateShown(l.text[start:end]))
		m.spoilt = true
	}
}

// unclosed records that the members end at another line or the end of the text.
func (l *locator) unclosed(m *locateMembers, kind string) locateOutcome {
	if !m.spoilt {
		l.fault(kind, m.start, m.start+1, "`"+l.text[m.start:m.start+1]+"` isn't closed")
	}
	return locateStrayed
}

// wrongCloser ends the members at the other kind of closing bracket, which is left to what is open around them, if there is such.
func (l *locator) wrongCloser(m *locateMembers, kind string, around int) locateOutcome {
	l.unclosed(m, kind)
	if around == 0 {
		l.pos++
	}
	return locateSpoilt
}

// outdented reports whether the line here begins no further right than that of the opening bracket: then it is taken for the
// next key below the table, not one inside it.
func (l *locator) outdented(m *locateMembers) bool {
	if !m.measured {
		outer := strings.LastIndexByte(l.text[:m.start], '\n') + 1
		m.indent, m.measured = l.spacesAhead(outer)-outer, true
	}
	return l.pos-strings.LastIndexByte(l.text[:l.pos], '\n')-1 <= m.indent
}

// plain reads a value that stands without quotes and brackets.
func (l *locator) plain(n *node) locateOutcome {
	start := l.pos
	if locateCurly(l.text[start:]) > 0 {
		return l.curly(n)
	}
	end := l.wordAhead(start)
	if end-start == len("2026-04-18") && locateDate(l.text[start:end]) {
		if time := strings.TrimPrefix(l.text[end:], " "); len(time) > 2 && locateDigits(time[:2]) == 2 && time[2] == ':' {
			end = l.wordAhead(end + 1)
		}
	}
	if kind, ok := locateLiteral(l.text[start:end]); ok {
		after := l.spacesAhead(end)
		if l.ended(after) || after > end && l.valueAhead(after) {
			n.kind, n.at, n.text = kind, l.file.At(start, end), l.text[start:end]
			l.pos = end
			return locateRead
		}
	}
	l.pos = l.stop(end)
	end = l.trimmed(start, l.pos)
	l.bad(n, start, end)
	for i := start; i < end; i++ {
		if locateControl(l.text[i]) {
			l.control(i)
			return locateSpoilt
		}
	}
	kind, message := locateMisread(l.text[start:end])
	l.fault(kind, start, end, message)
	return locateSpoilt
}

// curly reads a text in quotation marks that aren't straight: up to the last of them, in an array or inline table the first.
func (l *locator) curly(n *node) locateOutcome {
	start := l.pos
	from := start + locateCurly(l.text[start:])
	marks := "“”„‟«»\""
	if strings.Contains("‘’‚‛", l.text[start:from]) {
		marks = "‘’‚‛'"
	}
	stop := l.stop(from)
	end := l.markAhead(from, stop, marks)
	if end < 0 && l.arrays+l.inlines == 0 {
		end = l.markAhead(from, l.lineStop(from), marks)
	}
	if end < 0 {
		end = l.trimmed(start, stop)
	}
	l.bad(n, start, end)
	l.fault(breakCurlyQuotes, start, end, "a text in curly quotes")
	l.pos = end
	return locateSpoilt
}
