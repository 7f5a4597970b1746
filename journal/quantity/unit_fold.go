package quantity

import "unicode/utf8"

// foldUnit appends the one form of a unit's spelling to key, so that `N.m`, `N m`, `N-m`, `N⋅m` and `N·m` are one. Blanks, dots,
// hyphens, stars and brackets between signs become a single `·`; raised figures come down; look-alikes of `µ`, `°`, `Ω`, `'` and `"`
// become those.
func foldUnit(key []byte, spelling string) []byte {
	joint := false // a separator stands before the next sign
	for i := 0; i < len(spelling); {
		r, width := rune(spelling[i]), 1
		if r >= utf8.RuneSelf {
			r, width = utf8.DecodeRuneInString(spelling[i:])
			if r == utf8.RuneError && width == 1 { // a broken byte stays what it is, and matches nothing
				key = append(key, spelling[i])
				i++
				continue
			}
		}
		at := i
		i += width
		r = foldRune(r)
		switch r {
		case 0:
			continue
		case '·':
			joint = true
			continue
		case '-':
			if at == 0 || i == len(spelling) {
				break // at an end it joins nothing
			}
			joint = true
			continue
		}
		if joint && len(key) > 0 && r != '/' && key[len(key)-1] != '/' && !endsInDegree(key) {
			key = append(key, "·"...)
		}
		joint = false
		key = utf8.AppendRune(key, r)
	}
	return key
}

// foldRune returns the plain form of one sign: `·` for all that joins, 0 for what says nothing.
func foldRune(r rune) rune {
	if r < utf8.RuneSelf {
		switch r {
		case ' ', '\t', '.', '*', '(', ')':
			return '·'
		case '^':
			return 0
		}
		return r
	}
	switch r {
	case '·', '⋅', '∙', '•', '‧', '×':
		return '·'
	case '‐', '‑', '⁻':
		return '-'
	case 'μ':
		return 'µ'
	case 'º', '˚':
		return '°'
	case 'Ω':
		return 'Ω'
	case '′':
		return '\''
	case '″':
		return '"'
	case '¹', '₁':
		return '1'
	case '²', '₂':
		return '2'
	case '³', '₃':
		return '3'
	case 'ₙ':
		return 'n'
	case '∕', '⁄':
		return '/'
	}
	if isSpace(r) {
		return '·'
	}
	return r
}

func endsInDegree(key []byte) bool {
	return len(key) >= 2 && key[len(key)-2] == 0xC2 && key[len(key)-1] == 0xB0
}

// isSpace reports whether r is a blank inside a line: the typed ones, and the fixed and narrow ones that printing uses.
func isSpace(r rune) bool {
	switch {
	case r == ' ', r == '\t', r == 0x00A0, r == 0x202F, r == 0x205F, r == 0x3000:
		return true
	}
	return r >= 0x2000 && r <= 0x200A
}
