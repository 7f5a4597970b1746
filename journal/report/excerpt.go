package report

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/locknut/journal/source"
)

// The cells of a terminal that a line may take before it is cut, and those that stand before the place where it is.
const (
	widest = 160
	before = 40
)

// excerpt writes the line at a place and underlines the place: a caret at its first character, tildes to its end. Tabs stay tabs above and
// below, so that the two lines stay under each other whatever the terminal's tab stops. A place of several lines is underlined on the first
// to that line's end.
func (p *printer) excerpt(at source.Range, colour string) {
	if at.IsZero() || at.IsWhole() {
		return
	}
	n, _ := at.File.Position(at.Start)
	text, start := at.File.Line(n)
	from := min(max(at.Start-start, 0), len(text))
	to := min(max(at.End-start, from), len(text))
	head, place, tail := text[:from], text[from:to], text[to:]
	if cells(text) > widest {
		head, place, tail = cut(head, place, tail)
	}
	p.line("  " + visibleLine(head) + visibleLine(place) + visibleLine(tail))
	p.line("  " + padding(head) + p.opts.Style.paint(colour, underline(place)))
}

// cut shortens a line round a place, with an ellipsis where something is left out.
func cut(head, place, tail string) (string, string, string) {
	if cells(head) > before {
		at, used := len(head), 0
		for used < before {
			r, size := utf8.DecodeLastRuneInString(head[:at])
			at, used = at-size, used+width(r)
		}
		head = "…" + head[at:]
	}
	place, short := upTo(place, widest-before)
	if short {
		return head, place, ""
	}
	tail, _ = upTo(tail, widest-before-cells(place))
	return head, place, tail
}

// upTo returns as much of a text as fits, and whether that is less than all of it.
func upTo(text string, room int) (string, bool) {
	used := 0
	for i, r := range text {
		used += width(r)
		if used > room {
			return text[:i] + "…", true
		}
	}
	return text, false
}

func padding(text string) string {
	var b strings.Builder
	for _, r := range text {
		if r == '\t' {
			b.WriteByte('\t')
			continue
		}
		b.WriteString("  "[:width(r)])
	}
	return b.String()
}

// underline returns a caret and tildes as wide as a text; at least the caret.
func underline(text string) string {
	b := []byte{'^'}
	first := true
	for _, r := range text {
		n := width(r)
		if first {
			n, first = n-1, false
		} else if r == '\t' {
			b = append(b, '\t')
			continue
		}
		for range n {
			b = append(b, '~')
		}
	}
	return strings.TrimRight(string(b), "\t")
}

// cells returns how many cells of a terminal a text takes, a tab for one.
func cells(text string) int {
	n := 0
	for _, r := range text {
		n += width(r)
	}
	return n
}

// wide are the blocks of characters that take two cells: those of East Asian width W and F by Unicode's UAX #11, rounded to whole blocks,
// from memory.
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x1100, Hi: 0x115F, Stride: 1}, {Lo: 0x2E80, Hi: 0x303E, Stride: 1}, {Lo: 0x3041, Hi: 0x4DBF, Stride: 1}, {Lo: 0x4E00, Hi: 0xA4CF, Stride: 1},
		{Lo: 0xA960, Hi: 0xA97F, Stride: 1}, {Lo: 0xAC00, Hi: 0xD7A3, Stride: 1}, {Lo: 0xF900, Hi: 0xFAFF, Stride: 1}, {Lo: 0xFE30, Hi: 0xFE6F, Stride: 1},
		{Lo: 0xFF00, Hi: 0xFF60, Stride: 1}, {Lo: 0xFFE0, Hi: 0xFFE6, Stride: 1},
	},
	R32: []unicode.Range32{
		{Lo: 0x1F300, Hi: 0x1F64F, Stride: 1}, {Lo: 0x1F680, Hi: 0x1F6FF, Stride: 1}, {Lo: 0x1F900, Hi: 0x1F9FF, Stride: 1}, {Lo: 0x1FA70, Hi: 0x1FAFF, Stride: 1},
		{Lo: 0x20000, Hi: 0x3FFFD, Stride: 1},
	},
}

// width returns how many cells of a terminal a character takes, as it is shown.
func width(r rune) int {
	switch {
	case r < 0x300, isUnsafe(r):
		return 1
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	case unicode.Is(wide, r):
		return 2
	}
	return 1
}

// isUnsafe reports whether a character could move the cursor, colour what follows or turn its direction round.
func isUnsafe(r rune) bool {
	return r == utf8.RuneError || unicode.Is(unicode.Cc, r) && r != '\t' || unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r) || unicode.Is(unicode.Bidi_Control, r)
}

// visibleLine returns a line as a terminal may show it: `�` for what could act on the terminal. Each character keeps its place.
func visibleLine(text string) string {
	return strings.Map(func(r rune) rune {
		if isUnsafe(r) {
			return utf8.RuneError
		}
		return r
	}, text)
}

// OneLine returns a text as one line that a terminal may show.
func OneLine(text string) string {
	return visibleLine(strings.NewReplacer("\r\n", " ", "\n", " ", "\t", " ").Replace(text))
}
