package render

import (
	"unicode/utf8"
)

// literal is markup that stands in this package's code. A constant converts to it by itself, a variable does not: so what the builder
// typed can't go out unescaped by mistake.
type literal string

// writer is a run of HTML while it is written.
type writer struct{ bytes []byte }

// put writes markup.
func (w *writer) put(markup literal) { w.bytes = append(w.bytes, markup...) }

// text writes a text, escaped for an element's content and for a quoted attribute alike. Control characters and broken UTF-8, which no
// page may hold, become U+FFFD.
func (w *writer) text(s string) {
	from := 0
	for i := 0; i < len(s); {
		if plainByte[s[i]] {
			i++
			continue
		}
		r, size := rune(s[i]), 1
		if r >= utf8.RuneSelf {
			r, size = utf8.DecodeRuneInString(s[i:])
		}
		if escape := escaped(r, size); escape != "" {
			w.bytes = append(w.bytes, s[from:i]...)
			w.bytes = append(w.bytes, escape...)
			from = i + size
		}
		i += size
	}
	w.bytes = append(w.bytes, s[from:]...)
}

// plainByte tells the bytes that are a character as they stand and need no escape: nearly all.
var plainByte = func() (plain [256]bool) {
	for b := range utf8.RuneSelf {
		plain[b] = escaped(rune(b), 1) == ""
	}
	return plain
}()

func escaped(r rune, size int) literal {
	switch {
	case r == '&':
		return "&amp;"
	case r == '<':
		return "&lt;"
	case r == '>':
		return "&gt;"
	case r == '"':
		return "&#34;"
	case r == '\'':
		return "&#39;"
	case r == '\t' || r == '\n' || r == '\r':
		return ""
	case r < ' ' || r >= 0x7f && r < 0xa0 || r == utf8.RuneError && size == 1 || r == 0xfffe || r == 0xffff:
		return "\ufffd"
	}
	return ""
}

// attr writes an attribute with a blank before it.
func (w *writer) attr(name literal, value string) {
	w.put(" ")
	w.put(name)
	w.put(`="`)
	w.text(value)
	w.put(`"`)
}

// element writes a text in an element.
func (w *writer) element(name literal, text string) {
	w.put("<")
	w.put(name)
	w.put(">")
	w.text(text)
	w.put("</")
	w.put(name)
	w.put(">")
}
