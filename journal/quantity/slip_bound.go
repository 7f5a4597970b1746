package quantity

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// boundWords make a bound of the figure beside them.
type boundWords struct {
	text  string
	isLow bool // the figure is the low end
}

// boundsBefore stand before a figure, boundsAfter behind one. Of two that begin alike the longer comes first.
var (
	boundsBefore = []boundWords{
		{"at least", true}, {"not less than", true}, {"no less than", true}, {"not below", true}, {"not under", true}, {"more than", true}, {"greater than", true},
		{"minimum", true}, {"min", true}, {"from", true}, {"between", true}, {"over", true}, {"above", true},
		{"at most", false}, {"not more than", false}, {"no more than", false}, {"not above", false}, {"not over", false}, {"not exceeding", false}, {"less than", false},
		{"maximum", false}, {"max", false}, {"up to", false}, {"under", false}, {"below", false},
	}
	boundsAfter = []boundWords{
		{"minimum", true}, {"min", true}, {"at least", true}, {"or more", true}, {"or over", true}, {"or above", true}, {"and up", true}, {"and over", true}, {"and above", true}, {"upwards", true},
		{"maximum", false}, {"max", false}, {"at most", false}, {"or less", false}, {"or under", false}, {"or below", false}, {"and under", false}, {"and below", false},
	}
)

// boundIn finds the words that stand at a in text[a:b], whole, and where they end, the dot of an abbreviation included.
func (s scan) boundIn(list []boundWords, a, b int) (found boundWords, end int) {
	for _, words := range list {
		end = a + len(words.text)
		if end > b || !strings.EqualFold(s.text[a:end], words.text) {
			continue
		}
		if end < b && s.text[end] == '.' && (end+1 == b || !isDigit(s.text[end+1])) {
			end++
		}
		r, _ := utf8.DecodeRuneInString(s.text[end:b])
		if end == b || isSpace(r) || strings.ContainsRune(".:=(),;0123456789", r) {
			return words, end
		}
	}
	return boundWords{}, a
}

// Bound is about a bound in words where a limit is due, which would otherwise be words that a reading must be, or a figure with words that bound
// nothing: `at least 80 N·m`, `12 N·m, max`. It returns nil for what is no such bound, and for a text that [Parse] finds a slip in.
func Bound(text string) *Slip {
	s := scan{text, mendings}
	written, slip := Parse(text)
	if slip != nil {
		return nil
	}
	switch written.Kind {
	case Words:
		return s.boundBefore()
	case Figure, Ratio, Steps, Interval:
		i := strings.IndexByte(text, ',')
		if i < 0 {
			return nil
		}
		if written.Kind == Figure {
			if slip := s.boundBehindComma(written, i); slip != nil {
				return slip
			}
		}
		if !written.isBounded() {
			return s.boundInWords(written, i)
		}
	}
	return nil
}

// isBounded reports whether what was written bounds both sides by itself: words beside it are only words then.
func (w Written) isBounded() bool {
	return w.spread.has || w.Kind == Interval && w.first.has && w.last.has
}

// boundBefore is about `at least 80 N·m`.
func (s scan) boundBefore() *Slip {
	b := len(trimEnd(s.text))
	a := s.skip(0, b)
	words, end := s.boundIn(boundsBefore, a, b)
	if end == a {
		return nil
	}
	i := s.skip(end, b)
	if i < b && (s.text[i] == ':' || s.text[i] == '=') {
		i = s.skip(i+1, b)
	}
	rest := s.text[i:b]
	written, slip := parse(rest, s.mendings)
	if slip == nil && (written.Kind == Words || written.Kind == Blank) {
		return nil // `from the side`
	}
	figures := []string{rest}
	switch {
	case words.text == "between":
		figures[0] = strings.Replace(rest, " and ", "..", 1)
	case s.text[end:i] == "" && s.text[i] == '.': // `max.10 mm` may be ten or a tenth
		figures = nil
	case slip != nil:
		figures = slip.Offers
	}
	var offers []string
	for _, figure := range figures {
		w, again := parse(figure, 0)
		switch {
		case again != nil || w.event != NoEvent || w.spread.has || holdsDigit(w.Words):
			// More degrees before a dead centre are less as they are counted; a spread, and words with a figure, may bound the other side.
		case w.Kind == Figure && words.text != "between":
			offers = append(offers, words.bounding(figure, w.first))
		case w.Kind == Interval && (words.text == "from" || words.text == "between"): // `from 10 to 12 N·m`
			offers = append(offers, figure)
		}
	}
	return s.boundSlip(a, end, b, offers)
}

// boundBehindComma is about `12 N·m, max`, whose comma stands at an offset.
func (s scan) boundBehindComma(w Written, comma int) *Slip {
	b := len(trimEnd(s.text))
	a := s.skip(comma+1, b)
	words, end := s.boundIn(boundsAfter, a, b)
	if end == a || end < b && s.text[end] != ',' {
		return nil
	}
	var offers []string
	if w.event == NoEvent && !w.spread.has && !holdsDigit(s.text[end:b]) {
		offers = []string{words.bounding(s.with(comma, end, ""), w.first)}
	}
	return s.boundSlip(a, end, b, offers)
}

// boundInWords is about `12 N·m, max 14 N·m` and `12 N·m, 14 N·m max`, whose comma stands at an offset: the words hold a bound that would be lost.
func (s scan) boundInWords(w Written, comma int) *Slip {
	b := len(trimEnd(s.text))
	for i := comma + 1; i < b; i++ {
		if r, _ := utf8.DecodeLastRuneInString(s.text[:i]); !isSpace(r) && !strings.ContainsRune(partsWords, r) {
			continue
		}
		if words, end := s.boundIn(boundsBefore, i, b); end > i {
			a := s.skip(end, b)
			if a < b && (s.text[a] == ':' || s.text[a] == '=') {
				a = s.skip(a+1, b)
			}
			if stop := s.figureFrom(a, b, w, words.takesBare()); stop > a {
				return s.boundSlip(i, stop, b, nil)
			}
		}
		if words, end := s.boundIn(boundsAfter, i, b); end > i {
			if start := s.figureUpTo(comma+1, i, w, words.takesBare()); start < i {
				return s.boundSlip(start, end, b, nil)
			}
		}
	}
	return nil
}

const (
	partsWords = ",;()" // ends a figure among words
	farthest   = 60     // that a figure with its unit reaches, in bytes
)

// takesBare reports whether a number without a unit beside the words is a bound: `max 14`, but not `up to 2019`.
func (w boundWords) takesBare() bool {
	return slices.Contains([]string{"minimum", "min", "maximum", "max", "at least", "at most"}, w.text)
}

// figureFrom returns where the longest figure that begins at a, and that could be a bound of another, ends; a if there is none.
func (s scan) figureFrom(a, b int, of Written, bare bool) int {
	stop := min(b, a+farthest)
	if i := strings.IndexAny(s.text[a:stop], partsWords); i >= 0 {
		stop = a + i
	}
	for end := stop; end > a; end-- {
		if (end == stop || s.text[end] == ' ') && of.mayBeBoundedBy(s.text[a:end], bare && end == stop) {
			return len(trimEnd(s.text[:end]))
		}
	}
	return a
}

// figureUpTo returns where the figure begins that ends at b and that could be a bound of another; b if there is none.
func (s scan) figureUpTo(a, b int, of Written, bare bool) int {
	for start := b - 1; start >= max(a, b-farthest) && !strings.ContainsRune(partsWords, rune(s.text[start])); start-- {
		if s.text[start] != ' ' && (start == a || s.text[start-1] == ' ' || strings.ContainsRune(partsWords, rune(s.text[start-1]))) && of.mayBeBoundedBy(s.text[start:b], bare) {
			return start
		}
	}
	return b
}

// mayBeBoundedBy reports whether a text is a figure of what was written: of one of its dimensions, or where that is taken, a bare number.
func (w Written) mayBeBoundedBy(text string, bare bool) bool {
	other, slip := parse(text, 0)
	if slip != nil || other.Kind != Figure && other.Kind != Ratio && other.Kind != Interval {
		return false
	}
	if len(other.Units) == 0 {
		return bare
	}
	for _, own := range slices.Concat(w.Steps, []Written{w}) {
		for _, u := range own.Units {
			if slices.ContainsFunc(other.Units, func(v *Unit) bool { return v.Dimension == u.Dimension }) {
				return true
			}
		}
	}
	return false
}

// boundAfter is about `80 N·m min`, of which text[a:b] follows the number of an operand; nil where that is something else.
func (s scan) boundAfter(o operand, a, b int) *Slip {
	const longest = 60 // of a unit and an event
	before := strings.TrimSpace(s.text[:o.start])
	if before != "" && !strings.HasSuffix(strings.ToLower(before), "then") {
		return nil // an interval or a spread bounds already
	}
	for i := a; i < b && i-a < longest; i++ {
		if i > a && s.text[i-1] != ' ' && s.text[i-1] != '(' {
			continue
		}
		words, end := s.boundIn(boundsAfter, i, b)
		if end == i {
			continue
		}
		stop := a + len(strings.TrimRight(s.text[a:i], " ("))
		rest, event := cutEvent(s.text[a:stop])
		if rest > 0 && lookUp(s.text[a:a+rest]).units == nil || rest == 0 && lookUp(s.text[i:end]).units != nil {
			return nil // `80 min dry` is minutes
		}
		start, figure := i, s.text[:stop]
		if stop == a {
			figure = s.text[:o.end]
		}
		if s.text[i-1] == '(' {
			start--
		}
		if end < b && s.text[end] == ')' {
			end++
		}
		more := strings.TrimSpace(s.text[end:b])
		var offers []string
		if event == NoEvent && !holdsDigit(s.text[end:]) {
			if more != "" {
				more = ", " + more
			}
			offers = []string{words.bounding(figure+more+s.text[b:], o)}
		}
		return s.boundSlip(start, end, b, offers)
	}
	return nil
}

// holdsDigit reports whether words beside a bound may hold a figure: that of the other bound.
func holdsDigit(words string) bool { return strings.ContainsAny(words, "0123456789") }

// bounding puts the dots of an open interval beside the number of an operand.
func (w boundWords) bounding(text string, o operand) string {
	if w.isLow {
		return text[:o.end] + ".." + text[o.end:]
	}
	return text[:o.start] + ".." + text[o.start:]
}

func (s scan) boundSlip(a, end, b int, offers []string) *Slip {
	slip := s.slip("bound-words", a, end, s.quote(0, b)+" is a bound in words", "write it as an interval", offers...)
	if len(slip.Offers) == 0 {
		slip.Do += ": `80..100 N·m`, or with one end open `80.. N·m` or `..100 N·m`"
	}
	return slip
}

// minuteOrMinimum is about `80 min` where no time is due: minutes of an angle, which no builder writes so, or the least of something whose unit was left
// out. It returns nil for what is no such figure.
func (s scan) minuteOrMinimum(w *Written, u *Unit, want Want) *Slip {
	words, end := s.boundIn(boundsAfter, w.unit.start, w.unit.end)
	if u.Dimension != Angle || end != w.unit.end || len(want.Dimensions) == 0 || len(usual[want.Dimensions[0]]) == 0 {
		return nil
	}
	offers := []string{s.with(w.unit.start, w.unit.end, u.Symbol)}
	if w.Kind == Figure && !w.spread.has {
		offers = append(offers, words.bounding(s.with(w.first.end, w.unit.end, spaced(usual[want.Dimensions[0]][0])), w.first))
	}
	return s.slip("ambiguous-unit", w.unit.start, w.unit.end, s.quote(w.unit.start, w.unit.end)+" may be minutes of an angle, or short for minimum",
		"say which; a minimum is an interval with one end open", offers...)
}
