package quantity

import (
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// unknownUnit says what is wrong with text[a:b], which follows a number and is no unit.
func (s scan) unknownUnit(o operand, a, b int) *Slip {
	t := s.text[a:b]
	if slip := s.eventUnclear(o, a, b); slip != nil {
		return slip
	}
	if slip := s.unitQuotes(a, b); slip != nil {
		return slip
	}
	if slip := s.boundAfter(o, a, b); slip != nil {
		return slip
	}
	switch {
	case t[0] == '+':
		return s.slip("two-tolerances", a, b, s.quote(a, b)+" sets a tolerance of its own for one side",
			"write `±`, or the keys `plus` and `minus` of a limit")
	case isDigit(t[0]):
		return s.slip("bad-quantity", o.start, b, s.quote(o.start, b)+" holds two numbers with nothing between them",
			"part them with `..`, `then` or a comma")
	}
	if end := s.knownStart(a, b); end > a {
		if at, stop, after := s.dash(end, b); after > 0 {
			return s.slip("range-dash", at, stop, s.quote(o.start, b)+" reads as an interval without `..`", "write `..` between the two ends",
				s.text[:end]+".."+s.text[after:])
		}
		next := s.skip(end, b)
		if isDigit(s.text[next]) {
			return s.secondFigure(o, mark{lookUp(s.text[a:end]), a, end}, next, b)
		}
		if s.text[next] == '+' {
			return s.unknownUnit(o, next, b)
		}
		if digit := s.skip(next+1, b); s.text[next] == '/' && digit < b && isDigit(s.text[digit]) {
			return s.slip("ratio-unclear", o.start, b, s.quote(o.start, b)+" is one figure over another, in another unit", "write both in one unit, as in `700/650 kPa`")
		}
		return s.slip("words-without-comma", next, b, s.quote(next, b)+" follows the unit without a comma",
			"put a comma before words", s.with(end, next, ", "))
	}
	if slip := s.gluedTime(o, a, b); slip != nil {
		return slip
	}
	if o.money {
		return s.slip("words-without-comma", a, b, s.quote(a, b)+" follows the sum without a comma", "put a comma before words", s.with(o.end, a, ", "))
	}
	var offers []string
	for _, u := range similar(t) {
		offers = append(offers, s.with(o.end, b, spaced(u.Symbol)))
	}
	return s.slip("unknown-unit", a, b, s.quote(a, b)+" is no known unit", "check the unit; "+adviceWords, offers...)
}

// eventUnclear is about `12° TDC`.
func (s scan) eventUnclear(o operand, a, b int) *Slip {
	for _, centre := range [...]string{"TDC", "BDC"} {
		at, ok := endsIn(s.text[a:b], strings.ToLower(centre))
		if !ok {
			continue
		}
		at += a
		return s.slip("event-unclear", at, b, s.quote(o.start, b)+" doesn't say before or after",
			"write `B"+centre+"` for before or `A"+centre+"` for after",
			s.with(at, b, "B"+centre), s.with(at, b, "A"+centre))
	}
	return nil
}

// unitQuotes is about marks for inches and feet that a phone has curled or a hand has doubled.
func (s scan) unitQuotes(a, b int) *Slip {
	t := s.text[a:b]
	switch strings.Map(straight, t) {
	case `""`, `''`:
		if strings.ContainsAny(t, "“”‘’") {
			break
		}
		return s.slip("inch-mark-doubled", a, b, s.quote(a, b)+" is two marks", "write one inch mark, or `in`", s.with(a, b, " in"))
	}
	if !strings.ContainsAny(t, "“”„‘’") {
		return nil
	}
	var offers []string
	switch strings.Map(straight, t) {
	case `"`, `''`, `""`:
		offers = []string{s.with(a, b, " in")}
	case `'`:
		offers = []string{s.with(a, b, " ft")}
	default:
		without := strings.Map(func(r rune) rune {
			if straight(r) != r {
				return -1
			}
			return r
		}, t)
		offers = []string{s.with(a, b, strings.Map(straight, t)), s.with(a, b, without)}
	}
	return s.slip("curly-quotes", a, b, s.quote(a, b)+" holds curly quotes", "write inches as `in`, and leave quotes out", offers...)
}

func straight(r rune) rune {
	switch r {
	case '“', '”', '„', '″':
		return '"'
	case '‘', '’', '′':
		return '\''
	}
	return r
}

// knownStart returns the end of the longest known unit that text[a:b] begins with and that a blank, a dash, a sign or a digit ends; a
// if there is none.
func (s scan) knownStart(a, b int) int {
	found := a
	for i := a; i < b && i-a < 40; {
		r, width := utf8.DecodeRuneInString(s.text[i:b])
		if i > a && (isSpace(r) || strings.ContainsRune("-–—−…+;(", r) || isDigit(s.text[i]) && (s.text[i-1] == '\'' || s.text[i-1] == '"')) {
			if m := lookUp(s.text[a:i]); m.units != nil {
				found = len(trimEnd(s.text[:i]))
			}
		}
		i += width
	}
	if found > a && s.skip(found, b) >= b {
		return a
	}
	return found
}

// secondUnit is about a unit that contradicts the one before its number: `£20 kg`.
func (s scan) secondUnit(o operand, a, b int) *Slip {
	return s.slip("two-units", a, b, s.quote(a, b)+" is a second unit", "write one unit, and anything else after a comma", s.with(o.end, a, ", "))
}

// secondFigure is about `5 ft 3 in` and `5 mm 3 thou`: a second figure begins at next.
func (s scan) secondFigure(o operand, m mark, next, b int) *Slip {
	second, end, slip := s.quietly().numeral(next, b)
	if slip == nil {
		if slip := s.secondTime(o, m, second, next, end, b); slip != nil {
			return slip
		}
	}
	var offers []string
	if unit := lookUp(s.text[end:b]); slip == nil && m.plain == 1 && unit.plain == 1 {
		u, v := m.units[0], unit.units[0]
		if u.ConvertsTo(v) && u.Offset == 0 && !u.Reciprocal && !v.Reciprocal && u.Factor > v.Factor && o.sign == 0 {
			sum := o.value*u.Factor/v.Factor + second.value
			offers = append(offers, s.text[:o.start]+plain(sum, second.step)+spaced(v.Symbol)+s.text[b:])
		}
	}
	offers = append(offers, s.with(m.end, next, ", "))
	return s.slip("two-units", next, b, s.quote(next, b)+" is a second figure without a comma",
		"write one figure in one unit, and anything else after a comma", offers...)
}

// spaced returns a unit's symbol as it follows a number, with its blank where it takes one.
func spaced(symbol string) string { return Shown{Unit: symbol}.String() }

// lowerSpellings holds every plain spelling in lower case beside its unit. Only slips need it.
var lowerSpellings = sync.OnceValue(func() []lowerSpelling {
	var all []lowerSpelling
	for _, u := range table().units {
		for _, s := range u.Spellings {
			if s != "" {
				all = append(all, lowerSpelling{strings.ToLower(string(foldUnit(nil, s))), u})
			}
		}
	}
	return all
})

type lowerSpelling struct {
	text string
	unit *Unit
}

// similar returns up to two units that a spelling was probably meant for: the same in another case, else one letter off.
func similar(spelling string) []*Unit {
	if utf8.RuneCountInString(spelling) > 24 {
		return nil
	}
	lower := strings.ToLower(string(foldUnit(nil, spelling)))
	var same, near []*Unit
	for _, other := range lowerSpellings() {
		if other.text == lower {
			if !slices.Contains(same, other.unit) {
				same = append(same, other.unit)
			}
		} else if len(lower) >= 4 && oneOff(lower, other.text) && !slices.Contains(near, other.unit) {
			near = append(near, other.unit)
		}
	}
	if len(same) == 0 {
		same = near
	}
	return same[:min(2, len(same))]
}

// oneOff reports whether a becomes b by one letter more, less, other, or by a swap of two neighbours.
func oneOff(a, b string) bool {
	if len(a) > len(b)+4 || len(b) > len(a)+4 { // a letter is four bytes at most
		return false
	}
	x, y := []rune(a), []rune(b)
	for len(x) > 0 && len(y) > 0 && x[0] == y[0] {
		x, y = x[1:], y[1:]
	}
	for len(x) > 0 && len(y) > 0 && x[len(x)-1] == y[len(y)-1] {
		x, y = x[:len(x)-1], y[:len(y)-1]
	}
	switch {
	case len(x)+len(y) == 1, len(x) == 1 && len(y) == 1:
		return true
	}
	return len(x) == 2 && len(y) == 2 && x[0] == y[1] && x[1] == y[0]
}
