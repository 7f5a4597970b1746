package parse

import (
	"strings"

	"example.org/locknut/journal/source"
)

// locateSegment is one segment of a dotted key.
type locateSegment struct {
	key        string
	start, end int // as written, quotes included
}

func (l *locator) segmentAt(s locateSegment) source.Range { return l.file.At(s.start, s.end) }

// pair reads a key, its `=` and its value, and returns the value's node, nil if there is no key.
func (l *locator) pair(table *node) (locateOutcome, *node) {
	start, base := l.pos, len(l.path)
	whole := l.keyPath()
	end := l.pos
	l.spaces()
	if !whole || !l.next('=') {
		how, n := l.brokenKey(table, base, start, end, whole)
		l.path = l.path[:base]
		return how, n
	}
	l.derailed = false
	l.pos++
	n := l.place(table, base)
	l.path = l.path[:base]
	return l.rightSide(n, start, end), n
}

// rightSide reads what follows the `=` of the key from start to end.
func (l *locator) rightSide(n *node, start, end int) locateOutcome {
	l.spaces()
	if l.ended(l.pos) {
		n.kind = nodeMissing
		l.fault(breakNoValue, start, end, locateShown(l.text[start:end])+" has no value")
		return locateSpoilt
	}
	return l.value(n)
}

// brokenKey records a key that can't be read or has no `=`, and reads its value all the same. The key's good text goes from start
// to end.
func (l *locator) brokenKey(table *node, base, start, end int, whole bool) (locateOutcome, *node) {
	if equals := l.equalsAhead(l.pos); equals >= 0 {
		end = max(start+1, l.trimmed(start, equals))
		kind, message := breakBadKey, locateShown(l.text[start:end])+" isn't a key"
		switch {
		case locateCurly(l.text[start:]) > 0:
			kind, message = breakCurlyQuotes, "a key in curly quotes"
		case l.text[start] == '=':
			message = "no key before the `=`"
		}
		l.fault(kind, start, end, message)
		l.pos = equals + 1
		n := l.newNode("", source.Range{})
		n.depth = table.depth + 1
		return l.rightSide(n, start, end), n
	}
	if l.derailed && l.inlines == 0 {
		return locateSpoilt, nil
	}
	l.derailed = l.inlines == 0
	stop := l.stop(l.pos)
	to := l.trimmed(start, stop)
	switch {
	case whole:
		l.fault(breakNoEquals, start, end, "no `=` after "+locateShown(l.text[start:end]))
		return l.unequal(table, base, stop)
	case l.openQuote >= 0:
		l.fault(breakUnclosedString, l.openQuote, to, "no closing `"+l.text[l.openQuote:l.openQuote+1]+"`")
	case l.pos < len(l.text) && locateControl(l.text[l.pos]) && l.pos < stop:
		l.control(l.pos)
	case l.inlines > 0:
		l.fault(breakBadKey, start, to, locateShown(l.text[start:to])+" isn't a key")
	default:
		l.fault(breakJunk, start, to, locateShown(l.text[start:to])+" belongs to nothing")
	}
	return locateSpoilt, nil
}

// unequal reads the value after a key whose `=` is missing, as far as it can be seen.
func (l *locator) unequal(table *node, base, stop int) (locateOutcome, *node) {
	quiet := l.quiet
	l.quiet = true
	n := l.place(table, base)
	l.quiet = quiet
	if l.next(':') {
		l.pos++
		l.spaces()
	}
	switch {
	case l.pos >= stop:
		n.kind = nodeMissing
	case strings.IndexByte("\"'[{", l.text[l.pos]) >= 0:
		if l.value(n) == locateStrayed {
			return locateStrayed, n
		}
	default:
		l.bad(n, l.pos, l.trimmed(l.pos, stop))
	}
	return locateSpoilt, n
}

// keyPath reads the segments of a dotted key onto l.path. It reports whether it found a whole key; pos stands behind the last
// character that belongs to one.
func (l *locator) keyPath() bool {
	l.openQuote = -1
	for {
		start := l.pos
		key, ok := l.segment()
		if !ok {
			return false
		}
		l.path = append(l.path, locateSegment{key, start, l.pos})
		end := l.pos
		l.spaces()
		if !l.next('.') {
			l.pos = end
			return true
		}
		l.pos++
		l.spaces()
	}
}

// segment reads one segment of a key.
func (l *locator) segment() (string, bool) {
	if l.next('"') || l.next('\'') {
		start := l.pos
		s := l.lineString()
		if !s.closed {
			l.openQuote = start
		}
		return s.text, s.closed
	}
	start := l.pos
	for l.pos < len(l.text) && locateBare(l.text[l.pos]) {
		l.pos++
	}
	return l.text[start:l.pos], l.pos > start
}

// locateBare reports whether a character may stand in a key without quotes.
func locateBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_'
}

// headerLine reads a [header] or [[header]].
func (l *locator) headerLine() locateOutcome {
	start, base := l.pos, len(l.path)
	l.pos++
	list, closer := l.next('['), "]"
	if list {
		l.pos++
		closer = "]]"
	}
	l.spaces()
	keyStart := l.pos
	whole := l.keyPath()
	end := l.pos
	l.spaces()
	closed := whole && strings.HasPrefix(l.text[l.pos:], closer)
	switch {
	case closed:
		l.pos += len(closer)
		l.open(base, l.file.At(start, l.pos), list)
	case whole && (l.next(']') || l.ended(l.pos)):
		l.fault(breakHeaderUnclosed, start, end, "no closing "+locateShown(closer))
		l.open(base, l.file.At(start, end), list)
	default:
		l.brokenHeader(start, keyStart)
	}
	l.path = l.path[:base]
	if closed {
		return locateRead
	}
	return locateSpoilt
}

// brokenHeader records a header whose key can't be read. The keys below it go into no table of the tree.
func (l *locator) brokenHeader(start, keyStart int) {
	stop := l.stop(l.pos)
	if i := strings.IndexByte(l.text[l.pos:stop], ']'); i >= 0 {
		end := l.trimmed(keyStart, l.pos+i)
		if end > keyStart {
			l.fault(breakBadKey, keyStart, end, locateShown(l.text[keyStart:end])+" isn't a key")
		} else {
			l.fault(breakBadKey, start, l.pos+i+1, "no key between the brackets")
		}
	} else {
		l.fault(breakHeaderUnclosed, start, l.trimmed(start, stop), "no closing `]`")
	}
	l.pos = stop
	l.quiet = false
	at := l.file.At(start, l.trimmed(start, stop))
	l.openApart(at, at)
}
