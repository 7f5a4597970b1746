package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// numeral is a number as typed.
type numeral struct {
	value float64
	step  float64 // size of the last digit; of a fraction, one over its denominator
	below int     // the denominator of a fraction of whole numbers, else 0
}

// numeral reads a number at a: a sign, digits in groups of three or none, decimals, a fraction. It returns where the number ends; at a
// itself if there is none.
func (s scan) numeral(a, b int) (n numeral, next int, slip *Slip) {
	minus, i := s.sign(a, b)
	if part, width := vulgar(s.text[i:b]); width > 0 {
		n, next = part, i+width
	} else {
		n, next, slip = s.unsigned(i, b)
		if slip != nil || next == i {
			return n, a, slip
		}
		n, next = s.fraction(n, next, b)
	}
	if minus && n.value != 0 {
		n.value = -n.value
	}
	return n, next, nil
}

// sign reads an optional sign and the blanks after it.
func (s scan) sign(a, b int) (minus bool, next int) {
	r, width := utf8.DecodeRuneInString(s.text[a:b])
	switch r {
	case '+':
	case '-', '−', '–':
		minus = true
	default:
		return false, a
	}
	return minus, s.skip(a+width, b)
}

// unsigned reads digits, their groups, decimals and an exponent.
func (s scan) unsigned(a, b int) (n numeral, next int, slip *Slip) {
	text := s.text
	if a < b-1 && text[a] == '.' && isDigit(text[a+1]) {
		return n, a, s.leadingDot(a, b)
	}
	i := digits(text, a, b)
	if i == a {
		return n, a, nil
	}
	end, grouped := s.groups(a, i, b)
	i = end
	places := 0
	if i < b && text[i] == '.' && !(i+1 < b && text[i+1] == '.') {
		j := digits(text, i+1, b)
		if places = j - i - 1; places == 0 {
			return n, a, s.trailingDot(a, i, b)
		}
		if j < b-1 && text[j] == '.' && isDigit(text[j+1]) {
			return n, a, s.manyDots(a, b)
		}
		i = j
	}
	if i < b && text[i] == '_' {
		return n, a, s.underscores(a, b)
	}
	power, end := exponent(text, i, b)
	if n.value, slip = s.decimal(a, i, end, grouped, places, power); slip != nil {
		return n, a, slip
	}
	n.step = powerOfTen(power - places)
	if n.step == 0 || math.IsInf(n.step, 0) {
		return n, a, s.beyond(a, end)
	}
	return n, end, nil
}

func digits(text string, a, b int) int {
	for a < b && isDigit(text[a]) {
		a++
	}
	return a
}

// groups reads on over groups of three digits that blanks set apart: `18 240`. A group that begins a fraction (`1 100/128`) is none.
func (s scan) groups(a, i, b int) (end int, grouped bool) {
	if i-a > 3 {
		return i, false
	}
	for i < b {
		r, width := utf8.DecodeRuneInString(s.text[i:b])
		if !isSpace(r) || r == '\t' {
			break
		}
		j := digits(s.text, i+width, b)
		if j-i-width != 3 || j < b && s.text[j] == '/' {
			break
		}
		i, grouped = j, true
	}
	return i, grouped
}

// exponent reads `e3` or `E-4`; anything else with an e is a unit's business.
func exponent(text string, i, b int) (power, end int) {
	if i >= b || text[i]|0x20 != 'e' {
		return 0, i
	}
	j := i + 1
	if j < b && (text[j] == '-' || text[j] == '+') {
		j++
	}
	end = digits(text, j, b)
	if end == j || end-j > 4 {
		return 0, i
	}
	power, _ = strconv.Atoi(text[i+1 : end])
	return power, end
}

// decimal works out the digits of text[a:i], with so many decimal places, times ten to the power. Up to 2⁵³ and 10²² one exact division
// rounds once, as the general way does.
func (s scan) decimal(a, i, end int, grouped bool, places, power int) (float64, *Slip) {
	var mantissa uint64
	zero := true
	for _, c := range []byte(s.text[a:i]) {
		if isDigit(c) {
			zero = zero && c == '0'
			if mantissa < 1<<59 {
				mantissa = mantissa*10 + uint64(c-'0')
			}
		}
	}
	if power == 0 && mantissa < 1<<53 && places < len(tens) {
		return float64(mantissa) / tens[places], nil
	}
	plain := s.text[a:end]
	if grouped {
		plain = strings.Map(func(r rune) rune {
			if isSpace(r) {
				return -1
			}
			return r
		}, plain)
	}
	value, err := strconv.ParseFloat(plain, 64)
	if err != nil || math.IsInf(value, 0) || value == 0 && !zero {
		return 0, s.beyond(a, end)
	}
	return value, nil
}

var tens = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}

func powerOfTen(n int) float64 {
	switch {
	case n >= 0 && n < len(tens):
		return tens[n]
	case n < 0 && -n < len(tens):
		return 1 / tens[-n]
	}
	return math.Pow(10, float64(n))
}

// fraction reads on over the fraction of a mixed number: `1 1/16`, `1 ½`, `1½`. It returns n and next as they were if there is none.
func (s scan) fraction(n numeral, next, b int) (numeral, int) {
	if n.step != 1 {
		return n, next
	}
	i := s.skip(next, b)
	part, width := vulgar(s.text[i:b])
	if width == 0 {
		if i == next || i >= b || !isDigit(s.text[i]) {
			return n, next
		}
		part, width = slashed(s.text[i:b])
		if width == 0 || part.value >= 1 {
			return n, next
		}
	}
	part.value += n.value
	return part, i + width
}

// slashed reads a fraction of two whole numbers, the lower one not zero.
func slashed(text string) (n numeral, width int) {
	i := digits(text, 0, len(text))
	if i == 0 || i > 6 || i >= len(text) || text[i] != '/' {
		return n, 0
	}
	end := digits(text, i+1, len(text))
	if end == i+1 || end-i-1 > 6 {
		return n, 0
	}
	over, _ := strconv.Atoi(text[:i])
	below, _ := strconv.Atoi(text[i+1 : end])
	if below == 0 {
		return n, 0
	}
	return numeral{float64(over) / float64(below), 1 / float64(below), below}, end
}

// vulgar reads a fraction that is one sign.
func vulgar(text string) (n numeral, width int) {
	if len(text) < 2 || text[0] < utf8.RuneSelf {
		return n, 0
	}
	r, width := utf8.DecodeRuneInString(text)
	over, below := 0, 0
	switch r {
	case '½':
		over, below = 1, 2
	case '⅓', '⅔':
		over, below = int(r-'⅓')+1, 3
	case '¼':
		over, below = 1, 4
	case '¾':
		over, below = 3, 4
	case '⅙':
		over, below = 1, 6
	case '⅚':
		over, below = 5, 6
	case '⅛':
		over, below = 1, 8
	case '⅜':
		over, below = 3, 8
	case '⅝':
		over, below = 5, 8
	case '⅞':
		over, below = 7, 8
	default:
		return n, 0
	}
	return numeral{float64(over) / float64(below), 1 / float64(below), below}, width
}
