package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Kind is what a string turned out to be. Its zero value is Blank.
type Kind uint8

// The kinds.
const (
	Blank    Kind = iota // nothing, or a dash: not measured
	Words                // not a figure
	Figure               // one number, perhaps with a spread
	Interval             // two ends, one of which may be open
	Ratio                // `25:1`, or `82/10` without a unit
	Steps                // figures joined by `then`
)

// String returns a plain word.
func (k Kind) String() string {
	return [...]string{"blank", "words", "figure", "interval", "ratio", "steps"}[k%6]
}

// Written is what a string says, before its place has chosen a unit. Resolve makes a Quantity of it.
type Written struct {
	Text  string // as typed; of a step, its part
	Kind  Kind
	Units []*Unit   // every unit that the spelling may mean; nil for a bare number
	Words string    // what stands after the comma; of Kind Words, all of it, blanks trimmed
	Steps []Written // of Kind Steps, each a Figure, Interval or Ratio

	whole  string  // what Start and End of a slip count in
	first  operand // the figure; of an interval the low end
	last   operand // the high end of an interval
	spread operand // after ±
	unit   mark    // the unit of the whole
	event  Event
}

// operand is a number with what stands beside it.
type operand struct {
	numeral
	over       numeral // of a ratio, the second number
	sign       byte    // of a ratio, ':' or '/'
	apart      bool    // of a ratio, its first number has a unit of its own: `700 kPa / 650 kPa`
	has        bool    // the number is there
	money      bool    // the unit stands before it
	start, end int     // of the number in the whole text, a sign of money included
	stop       int     // end of its unit and event
	unit       mark
	event      Event
}

// mark is a unit's text and what it may mean.
type mark struct {
	spelled
	start, end int
}

func (m mark) absent() bool { return m.units == nil }

// Parse reads any string value. What begins with a digit, a sign, `..`, a fraction or a currency must be a figure as a whole up to its
// first comma, else a Slip says why not; a string that begins otherwise is words. Written.Text is set even beside a Slip.
func Parse(text string) (Written, *Slip) { return parse(text, mendings) }

// Bare reads a number that stands without quotes in TOML, as typed, so that the digits of "10.90" count. What is no decimal number
// ("nan", "0x10", "true") comes back as Kind Words, and Resolve finds no figure in it.
func Bare(numeral string) Written {
	plain := strings.ReplaceAll(numeral, "_", "")
	s := scan{plain, 0}
	n, next, slip := s.numeral(0, len(plain))
	if slip != nil || next != len(plain) || next == 0 || n.below != 0 || strings.ContainsAny(plain, " /") {
		return Written{Text: numeral, whole: numeral, Kind: Words, Words: numeral}
	}
	w := Written{Text: numeral, whole: numeral, Kind: Figure}
	w.first = operand{numeral: n, has: true, end: len(numeral), stop: len(numeral)}
	return w
}

// scan is a text being read. All positions are bytes in it.
type scan struct {
	text     string
	mendings int // how many slips an offer may mend on its way to a text without any
}

func parse(text string, mendings int) (Written, *Slip) {
	s := scan{text, mendings}
	a := len(text) - len(strings.TrimLeftFunc(text, unicode.IsSpace))
	b := a + len(trimEnd(text[a:]))
	w := Written{Text: text, whole: text}
	if isBlank(text[a:b]) {
		return w, nil
	}
	if !figureLike(text[a:b]) {
		w.Kind, w.Words = Words, text[a:b]
		return w, nil
	}
	stop, slip := s.comma(a, b)
	if slip != nil {
		return w, slip
	}
	words := ""
	if stop < b {
		words = strings.TrimSpace(text[stop+1 : b])
	}
	if slip := s.opening(a, stop); slip != nil {
		return w, slip
	}
	read, slip := s.steps(a, stop)
	if slip != nil {
		return w, slip
	}
	read.Text, read.Words = text, words
	return read, nil
}

func isBlank(t string) bool {
	switch t {
	case "", "-", "–", "—", "−":
		return true
	}
	return false
}

// figureLike reports whether t must be a figure.
func figureLike(t string) bool {
	if isDigit(t[0]) {
		return true
	}
	r, width := utf8.DecodeRuneInString(t)
	rest := t[width:]
	switch r {
	case '+', '-', '−', '–', '±':
		return true
	case '.':
		return rest != "" && (rest[0] == '.' || isDigit(rest[0]))
	case '<', '>', '≤', '≥', '~', '≈', '“', '”', '‘', '’', '"', '\'':
		rest = strings.TrimLeftFunc(strings.TrimPrefix(rest, "="), isSpace)
		return rest != "" && (isDigit(rest[0]) || rest[0] == '.' && figureLike(rest))
	}
	if _, width := vulgar(t); width > 0 {
		return true
	}
	_, width = moneySign(t)
	return width > 0
}

// moneySign reads a currency that stands before a digit: `£14`, `GBP 145`, `€-5`. It returns the width of the sign and the blanks
// after it.
func moneySign(t string) (m spelled, width int) {
	i := 0
	for i < len(t) && i < 8 && t[i] > ' ' && !isDigit(t[i]) && t[i] != '-' && t[i] != '+' && t[i] != ',' {
		r, w := utf8.DecodeRuneInString(t[i:])
		if isSpace(r) || r == '−' {
			break
		}
		i += w
	}
	if i == 0 || i == len(t) || i > 8 {
		return m, 0
	}
	m = lookUp(t[:i])
	if m.plain == 0 || m.units[0].Dimension != Money || !standsBefore(t[:i]) {
		return spelled{}, 0
	}
	for i < len(t) {
		r, w := utf8.DecodeRuneInString(t[i:])
		if !isSpace(r) {
			break
		}
		i += w
	}
	rest := strings.TrimLeft(t[i:], "+-−")
	if rest == "" || !(isDigit(rest[0]) || rest[0] == '.' && len(rest) > 1 && isDigit(rest[1])) {
		return spelled{}, 0
	}
	return m, i
}

// standsBefore reports whether a currency's spelling is one that is written before the amount: a code, a sign, `kr`, `Rs`. The rest
// (`R`, `RM`) would turn words such as `R12` into money.
func standsBefore(spelling string) bool {
	if spelling == "kr" || spelling == "Rs" {
		return true
	}
	code := len(spelling) == 3
	for _, r := range spelling {
		if unicode.Is(unicode.Sc, r) {
			return true
		}
		code = code && r >= 'A' && r <= 'Z'
	}
	return code
}

// steps parts the text at each `then` and reads the figures.
func (s scan) steps(a, b int) (Written, *Slip) {
	at := s.then(a, b)
	if at < 0 {
		return s.figure(a, b)
	}
	all := Written{Text: s.text, whole: s.text, Kind: Steps}
	for {
		stop := b
		if at >= 0 {
			stop = at
		}
		from, to := s.skip(a, stop), a+len(trimEnd(s.text[a:stop]))
		if from >= to {
			start := a
			if len(all.Steps) > 0 {
				start = a - len("then")
			}
			return all, s.slip("empty-step", start, min(stop+len("then"), b), "a step is missing beside `then`", "write a figure on both sides of `then`")
		}
		step, slip := s.figure(from, to)
		if slip != nil {
			return all, slip
		}
		all.Steps = append(all.Steps, step)
		if at < 0 {
			return all, nil
		}
		a = at + len("then")
		at = s.then(a, b)
	}
}

// then finds the word in text[a:b], or returns −1. Blanks or an end of the text stand on its sides.
func (s scan) then(a, b int) int {
	for i := a; i+4 <= b; i++ {
		if s.text[i]|0x20 != 't' || !strings.EqualFold(s.text[i:i+4], "then") {
			continue
		}
		before, _ := utf8.DecodeLastRuneInString(s.text[a:i])
		after, _ := utf8.DecodeRuneInString(s.text[i+4 : b])
		if (i == a || isSpace(before)) && (i+4 == b || isSpace(after)) {
			return i
		}
	}
	return -1
}

// skip steps over blanks.
func (s scan) skip(a, b int) int {
	for a < b {
		if s.text[a] < utf8.RuneSelf {
			if s.text[a] != ' ' && s.text[a] != '\t' {
				return a
			}
			a++
			continue
		}
		r, width := utf8.DecodeRuneInString(s.text[a:b])
		if !isSpace(r) {
			return a
		}
		a += width
	}
	return a
}

func trimEnd(t string) string { return strings.TrimRightFunc(t, unicode.IsSpace) }
