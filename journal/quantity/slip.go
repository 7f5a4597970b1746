package quantity

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Slip is why a text can't be taken as the figure that it looks like, or not where it stands.
type Slip struct {
	Kind       string   // short name in kebab-case; SlipKinds lists them
	Start, End int      // the bytes of the text that are wrong, on character boundaries
	Message    string   // what is wrong: lower case, no full stop, the builder's text in back-quotes
	Do         string   // what to do about it
	Offers     []string // texts that may have been meant, each for the whole string, best first; may be empty
}

// SlipKinds returns every name that Slip.Kind can have, with what it means, in the order of the alphabet.
func SlipKinds() [][2]string { return slices.Clone(slipKinds) }

var slipKinds = [][2]string{
	{"about", "a figure marked as rough, without saying how rough"},
	{"ambiguous-unit", "a unit that reads two ways"},
	{"bad-quantity", "text that starts like a figure and can't be read as one"},
	{"bad-spread", "a spread without a number, or below zero"},
	{"bound-sign", "a bound written with a comparison sign"},
	{"bound-words", "a bound written with words"},
	{"curly-quotes", "curly quotes from a phone or a word processor"},
	{"decimal-comma", "a comma as the decimal sign"},
	{"divided-by-zero", "a fraction or ratio over zero"},
	{"empty-interval", "an interval without ends"},
	{"empty-step", "a step missing beside `then`"},
	{"event-unclear", "an angle at a dead centre that doesn't say before or after"},
	{"held-above-supply", "a leak-down figure that holds more than was supplied"},
	{"impossible", "a figure below absolute zero, below nought where none can be or beyond all there is, or fuel figures that divide by zero"},
	{"inch-mark-doubled", "two inch marks"},
	{"interval-dots", "more than two dots in an interval"},
	{"interval-spread", "an interval with a spread"},
	{"leading-dot", "a number that begins with its decimal point"},
	{"money-unclear", "a sign that several currencies share"},
	{"no-nominal", "a spread without a figure"},
	{"no-side", "a figure that doesn't say which dead centre it is counted from"},
	{"no-unit", "a number without a unit"},
	{"not-a-figure", "words where a figure is due"},
	{"not-measured", "a blank where a figure is due"},
	{"number-dot", "a number that ends with a dot, or holds several"},
	{"range-dash", "an interval written with a dash or a word"},
	{"ratio-unclear", "two numbers with a stroke, neither a fraction with a unit nor a ratio"},
	{"reversed", "an interval whose low end is above its high end"},
	{"spread-unit", "a spread without a unit beside a figure with one"},
	{"stray-quotes", "quotes inside the text"},
	{"thousands", "a mark between groups of digits that may be a decimal sign"},
	{"too-large", "a number too large or too small to work with"},
	{"two-centres", "crank events at different dead centres in one figure"},
	{"two-tolerances", "plus and minus tolerances in one figure"},
	{"two-units", "a second figure or unit without a comma"},
	{"unit-place", "an interval with its unit at the low end only"},
	{"unknown-unit", "a unit that isn't known"},
	{"words-without-comma", "words after a figure without a comma"},
	{"wrong-dimension", "a unit of another dimension than the place asks for"},
}

// mendings is how many slips an offer may mend on its way: `~0,10-0,13 mm` takes four.
const mendings = 4

// slip makes a Slip about text[start:end]. Each offer is a whole text; one that is itself a slip is mended further or left out.
func (s scan) slip(kind string, start, end int, message, do string, offers ...string) *Slip {
	slip := &Slip{Kind: kind, Start: start, End: end, Message: message, Do: do}
	if s.mendings == 0 {
		return slip
	}
	for _, text := range offers {
		found := []string{text}
		if _, again := parse(text, s.mendings-1); again != nil {
			found = again.Offers
		}
		for _, f := range found {
			if len(slip.Offers) < 3 && f != s.text && !slices.Contains(slip.Offers, f) {
				slip.Offers = append(slip.Offers, f)
			}
		}
	}
	return slip
}

// quietly returns a scan whose slips offer nothing, for looking ahead.
func (s scan) quietly() scan { return scan{s.text, 0} }

// with returns the text with its bytes from start to end replaced.
func (s scan) with(start, end int, by string) string {
	return s.text[:start] + by + s.text[end:]
}

// quote returns text[start:end] in back-quotes, for a message: on one line, and not too long.
func (s scan) quote(start, end int) string { return quoted(s.text[start:end]) }

func quoted(t string) string {
	const most = 60
	t = strings.ToValidUTF8(t, "�")
	if utf8.RuneCountInString(t) > most {
		t = string([]rune(t)[:most-1]) + "…"
	}
	return "`" + strings.Join(strings.Fields(t), " ") + "`"
}

// adviceWords is what to do with text that was never meant as a figure.
const adviceWords = "put words after a comma, or write `{ words = \"…\" }`"

// unreadable says that text[a:b], which starts like a figure, is none.
func (s scan) unreadable(a, b int) *Slip {
	return s.slip("bad-quantity", a, b, s.quote(a, b)+" can't be read as a figure", adviceWords)
}

func (s scan) beyond(a, b int) *Slip {
	return s.slip("too-large", a, b, s.quote(a, b)+" is too large or too small to work with", "check the number")
}

// comma finds where the figure ends and words begin: at the first comma. A comma between two digits may be a decimal sign or part
// thousands: it is never taken as either.
func (s scan) comma(a, b int) (stop int, slip *Slip) {
	i := strings.IndexByte(s.text[a:b], ',')
	if i < 0 {
		return b, nil
	}
	stop = a + i
	if stop == a || stop+1 >= b || !isDigit(s.text[stop-1]) || !isDigit(s.text[stop+1]) {
		return stop, nil
	}
	start, end := stop, stop
	for start > a && (isDigit(s.text[start-1]) || s.text[start-1] == '.' && start > a+1 && isDigit(s.text[start-2])) {
		start--
	}
	for end < b && (isDigit(s.text[end]) || (s.text[end] == ',' || s.text[end] == '.') && end+1 < b && isDigit(s.text[end+1])) {
		end++
	}
	run := s.text[start:end]
	joined := s.with(start, end, strings.ReplaceAll(run, ",", ""))
	decimal := s.with(start, end, strings.ReplaceAll(strings.ReplaceAll(run, ".", ""), ",", "."))
	switch commas := strings.Count(run, ","); {
	case strings.Contains(run, ".") && strings.IndexByte(run, '.') > strings.LastIndexByte(run, ','): // 1,234.5
		return 0, s.slip("thousands", start, end, s.quote(start, end)+" parts its thousands with a comma", "part thousands with a space or not at all", joined)
	case strings.Contains(run, "."), commas == 1 && !thousands(run): // 1.234,5 and 0,08
		return 0, s.slip("decimal-comma", start, end, s.quote(start, end)+" has a decimal comma", "write the decimal sign as a dot", decimal)
	case commas == 1:
		return 0, s.slip("thousands", start, end, s.quote(start, end)+" reads as thousands or as a decimal comma",
			"write thousands without a comma, the decimal sign as a dot", joined, decimal)
	}
	return 0, s.slip("thousands", start, end, s.quote(start, end)+" has commas between its digits", "part thousands with a space or not at all", joined)
}

// thousands reports whether a run of digits with one comma may be a whole number: `18,240` may, `0,080` and `1,5` may not.
func thousands(run string) bool {
	i := strings.IndexByte(run, ',')
	return i >= 1 && i <= 3 && run[0] != '0' && len(run)-i-1 == 3
}

// opening looks at signs before the first number that no figure has.
func (s scan) opening(a, b int) *Slip {
	r, width := utf8.DecodeRuneInString(s.text[a:b])
	i := a + width
	if i < b && s.text[i] == '=' {
		i++
	}
	i = s.skip(i, b)
	switch r {
	case '“', '”', '‘', '’':
		return s.slip("curly-quotes", a, a+width, "curly quotes stand inside the text", "leave them out", s.unquoted(a, b))
	case '"', '\'':
		return s.slip("stray-quotes", a, a+width, "quotes stand inside the text", "leave them out", s.unquoted(a, b))
	case '<', '≤':
		below := ".."
		if i < b && s.text[i] == '.' {
			below = "..0"
		}
		return s.slip("bound-sign", a, i, s.quote(a, b)+" is a bound, not a figure", "write an interval that is open below", s.with(a, i, below))
	case '>', '≥':
		_, end, _ := s.quietly().numeral(i, b)
		return s.slip("bound-sign", a, i, s.quote(a, b)+" is a bound, not a figure", "write an interval that is open above",
			s.text[:a]+s.text[i:end]+".."+s.text[end:])
	case '~', '≈':
		return s.about(a, i, b)
	case '±':
		return s.slip("no-nominal", a, b, s.quote(a, b)+" is a spread without a figure", "write the figure before `±`")
	}
	if end := s.date(a, b); end > a {
		return s.slip("bad-quantity", a, end, s.quote(a, end)+" is a date, not a figure", "write a date where a date is due, or put it after a comma")
	}
	if end := s.grade(a, b); end > a {
		return s.slip("bad-quantity", a, end, s.quote(a, end)+" is a grade, and starts like a figure", "write a word before it, or put it after a comma",
			s.text[:a]+"grade "+s.text[a:])
	}
	return nil
}

// unquoted returns the text without the quotes at both ends of text[a:b].
func (s scan) unquoted(a, b int) string {
	const quotes = "“”„‘’\"'"
	inner := strings.TrimLeft(s.text[a:b], quotes)
	return s.text[:a] + strings.TrimRight(inner, quotes) + strings.TrimRight(s.text[b:], quotes)
}

// about offers the figure with a spread of one in its last digit.
func (s scan) about(a, i, b int) *Slip {
	quiet := s.quietly()
	n, end, slip := quiet.numeral(i, b)
	kind, message, do := "about", s.quote(a, b)+" doesn't say how rough it is", "give the spread after `±`"
	more := s.skip(end, b)
	if slip != nil || end == i || n.below != 0 || more < b && s.text[more] == '/' || quiet.rangeDash(i, end, b) != nil {
		return s.slip(kind, a, i, message, do, s.with(a, i, ""))
	}
	return s.slip(kind, a, i, message, do, s.text[:a]+s.text[i:end]+" ± "+plain(n.step, n.step)+s.text[end:])
}

// date returns the end of a date at a (`2026-03-01`, `01/03/2026`, `1.3.2026`), or a.
func (s scan) date(a, b int) int {
	var length [3]int
	i := a
	for part := range length {
		end := digits(s.text, i, b)
		if length[part] = end - i; end == i {
			return a
		}
		i = end
		if part < 2 {
			if i >= b || strings.IndexByte("-/.", s.text[i]) < 0 || part == 1 && s.text[i] != s.text[a+length[0]] {
				return a
			}
			i++
		}
	}
	if length[1] > 2 || !(length[0] == 4 && length[2] <= 2) && !(length[0] <= 2 && length[2] == 4) {
		return a
	}
	return i
}

// grade returns the end of an oil's grade at a (`10W-40`, `5W30`), or a.
func (s scan) grade(a, b int) int {
	i := digits(s.text, a, b)
	if i == a || i-a > 2 || i >= b || s.text[i]|0x20 != 'w' {
		return a
	}
	if i++; i < b && (s.text[i] == '-' || s.text[i] == '/' || s.text[i] == ' ') {
		i++
	}
	end := digits(s.text, i, b)
	if end == i || end-i > 2 || end < b && isLetter(s.text[end]) {
		return a
	}
	return end
}
