package parse

import (
	"strconv"
	"strings"
)

// locateLiteral returns the kind of a value that stands without quotes and brackets: a number, date, time or boolean as TOML 1.1
// has them. It refuses what no value can hold: an integer past 64 bits, a float past the largest, a leap second.
func locateLiteral(s string) (nodeKind, bool) {
	if s == "" {
		return nodeBad, false
	}
	if s == "true" || s == "false" {
		return nodeBool, true
	}
	if len(s) >= 5 && (s[4] == '-' && locateDigits(s[:4]) == 4 || s[2] == ':' && locateDigits(s[:2]) == 2) {
		return nodeTime, locateTime(s)
	}
	if len(s) > 2 && s[0] == '0' && s[1] > '9' && s[1] != 'e' && s[1] != 'E' {
		return nodeInteger, locateBased(s)
	}
	body := s
	if s[0] == '+' || s[0] == '-' {
		body = s[1:]
	}
	if body == "inf" || body == "nan" {
		return nodeFloat, true
	}
	whole, ok := locateDecimal(body)
	if !ok || whole > 1 && body[0] == '0' {
		return nodeBad, false
	}
	if whole == len(body) {
		return nodeInteger, len(s) < 19 || locateFits(s)
	}
	return nodeFloat, locateFraction(body[whole:]) && (len(s) < 300 && !strings.ContainsAny(s, "eE") || locateFinite(s))
}

// locateDecimal returns the length of the decimal digits that s begins with, single underscores between them included.
func locateDecimal(s string) (n int, ok bool) {
	for n < len(s) {
		switch {
		case s[n] >= '0' && s[n] <= '9':
		case s[n] == '_' && n > 0 && s[n-1] != '_':
		default:
			return n, n > 0 && s[n-1] != '_'
		}
		n++
	}
	return n, n > 0 && s[n-1] != '_'
}

// locateFraction reports whether s is a fraction, an exponent, or both.
func locateFraction(s string) bool {
	if s[0] == '.' {
		n, ok := locateDecimal(s[1:])
		if !ok {
			return false
		}
		s = s[1+n:]
		if s == "" {
			return true
		}
	}
	if s[0] != 'e' && s[0] != 'E' {
		return false
	}
	s = s[1:]
	if s != "" && (s[0] == '+' || s[0] == '-') {
		s = s[1:]
	}
	n, ok := locateDecimal(s)
	return ok && n == len(s)
}

// locateBased reports whether s is an integer in hexadecimal, octal or binary.
func locateBased(s string) bool {
	var digits string
	switch s[1] {
	case 'x':
		digits = "0123456789abcdefABCDEF"
	case 'o':
		digits = "01234567"
	case 'b':
		digits = "01"
	default:
		return false
	}
	for i := 2; i < len(s); i++ {
		if strings.IndexByte(digits, s[i]) < 0 && (s[i] != '_' || i == 2 || s[i-1] == '_') {
			return false
		}
	}
	return s[len(s)-1] != '_' && locateFits(s)
}

// locateFits reports whether an integer, in base ten or with its prefix, fits 64 bits.
func locateFits(s string) bool {
	_, err := strconv.ParseInt(strings.ReplaceAll(s, "_", ""), 0, 64)
	return err == nil
}

func locateFinite(s string) bool {
	_, err := strconv.ParseFloat(strings.ReplaceAll(s, "_", ""), 64)
	return err == nil
}

// locateTime reports whether s is a date, a time of day, or a date and time with or without an offset.
func locateTime(s string) bool {
	if s[2] == ':' {
		n := locateClock(s)
		return n == len(s)
	}
	if !locateDate(s) {
		return false
	}
	if s = s[len("2026-04-18"):]; s == "" {
		return true
	}
	if s[0] != 'T' && s[0] != 't' && s[0] != ' ' {
		return false
	}
	n := locateClock(s[1:])
	if n == 0 {
		return false
	}
	return locateOffset(s[1+n:])
}

// locateDate reports whether s begins with a day of the calendar.
func locateDate(s string) bool {
	if len(s) < 10 || s[4] != '-' || s[7] != '-' || locateDigits(s[:4]) != 4 || locateDigits(s[5:7]) != 2 || locateDigits(s[8:10]) != 2 {
		return false
	}
	year, month, day := locateNumber(s[:4]), locateNumber(s[5:7]), locateNumber(s[8:10])
	days := [...]int{0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		days[2] = 29
	}
	return month >= 1 && month <= 12 && day >= 1 && day <= days[month]
}

// locateClock returns the length of the time of day that s begins with, 0 if there is none.
func locateClock(s string) int {
	if !locatePair(s, 23) || len(s) < 5 || s[2] != ':' || !locatePair(s[3:], 59) {
		return 0
	}
	if len(s) == 5 || s[5] != ':' {
		return 5
	}
	if !locatePair(s[6:], 59) {
		return 0
	}
	if len(s) == 8 || s[8] != '.' {
		return 8
	}
	n := locateDigits(s[9:])
	if n == 0 {
		return 0
	}
	return 9 + n
}

// locateOffset reports whether s is nothing, `Z`, or an offset from it.
func locateOffset(s string) bool {
	switch {
	case s == "" || s == "Z" || s == "z":
		return true
	case len(s) != 6 || s[0] != '+' && s[0] != '-':
		return false
	}
	return locatePair(s[1:], 23) && s[3] == ':' && locatePair(s[4:], 59)
}

// locatePair reports whether s begins with two digits that are no more than most.
func locatePair(s string, most int) bool {
	return len(s) >= 2 && locateDigits(s[:2]) == 2 && locateNumber(s[:2]) <= most
}

func locateDigits(s string) (n int) {
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

func locateNumber(digits string) (n int) {
	for i := range len(digits) {
		n = n*10 + int(digits[i]-'0')
	}
	return n
}

// locateMisread returns the kind of break for a value that is no literal: what it was most likely meant to be.
func locateMisread(s string) (kind, message string) {
	d := locateDigits(s)
	switch {
	case d == len(s):
	case d == 4 && s[4] == '-' && strings.ContainsAny(s[5:], "-:"), (d == 1 || d == 2) && s[d] == ':':
		if strings.Trim(s, "0123456789-:.+TtZz ") == "" {
			return breakBadTime, locateShown(s) + " isn't a date or a time"
		}
	case len(s) > 1 && s[0] == '0' && strings.IndexByte("xXoObB", s[1]) >= 0:
		if strings.Trim(s[2:], "0123456789abcdefABCDEF_") == "" {
			return breakBadNumber, locateShown(s) + " isn't a whole number"
		}
	}
	if strings.ContainsAny(s, "0123456789") && !locateDotted(s) && strings.Trim(s, "0123456789_.,+-eE") == "" {
		return breakBadNumber, locateShown(s) + " isn't a number as TOML writes one"
	}
	return breakUnquoted, locateShown(s) + " stands without quotes"
}

// locateDotted reports whether s is made like a date with dots.
func locateDotted(s string) bool {
	return len(s) > 7 && strings.Count(s, ".") == 2 && strings.Trim(s, "0123456789.") == ""
}
