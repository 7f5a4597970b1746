package render

import (
	"html"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestFileNames(t *testing.T) {
	for _, c := range []struct{ name, file string }{
		{"2026-03-01-lash", "2026-03-01-lash"},
		{"2026/A day", "2026.a-day"},
		{"Größe", "größe"},
		{"what? \"now\": <a|b>*\\", "what---now----a-b---"},
		{"50%#1", "50--1"},
		{".hidden", "hidden"},
		{"..", "-"},
		{"tab\tand\x00nought", "tab-and-nought"},
		{"con", "con-"}, {"AUX.left", "aux-.left"}, {"lpt9", "lpt9-"}, {"com0", "com0"}, {"console", "console"}, {"chain.con", "chain.con"},
	} {
		if got := fileName(c.name); got != c.file {
			t.Errorf("fileName(%q) = %q, wanted %q", c.name, got, c.file)
		}
	}
	long := fileName(strings.Repeat("ß", 200))
	if len(long) > 200 || !utf8.ValidString(long) || long == fileName(strings.Repeat("ß", 201)) {
		t.Errorf("a long name is %d bytes: %q", len(long), long)
	}
}

func TestNamesThatFoldToOneAddressAreToldApart(t *testing.T) {
	got := assign("entries", []string{"A/b", "a.b", "a b", "a.b"})
	for name, want := range map[string]string{"A/b": "entries/a.b.html", "a.b": "entries/a.b~2.html", "a b": "entries/a-b.html"} {
		if got[name] != want {
			t.Errorf("%q stands at %q, wanted %q", name, got[name], want)
		}
	}
}

func TestAddresses(t *testing.T) {
	for _, c := range []struct {
		from string
		to   place
		want string
	}{
		{"index.html", place{page: "entries/a.html"}, "entries/a.html"},
		{"entries/b.html", place{page: "entries/a.html"}, "../entries/a.html"},
		{"entries/b.html", place{page: "index.html"}, "../index.html"},
		{"entries/b.html", place{"entries/b.html", "b/set/lash"}, "#b/set/lash"},
		{"index.html", place{"entries/é'~2.html", "é/set/x"}, "entries/%C3%A9%27~2.html#%C3%A9/set/x"},
	} {
		if got := address(c.from, c.to); got != c.want {
			t.Errorf("from %s to %v: %q, wanted %q", c.from, c.to, got, c.want)
		}
	}
}

// What goes out is read back by the standard library's own reader of HTML text.
func TestTextIsEscaped(t *testing.T) {
	for _, s := range []string{"", "plain", `<a href="x">&amp;'</a>`, "0.08 ± 0.02 mm", "\u202f−°½", "line\nline\ttab", "<<>>&&\"\"''"} {
		var w writer
		w.text(s)
		if got := html.UnescapeString(string(w.bytes)); got != s || strings.ContainsAny(string(w.bytes), `<>"'`) {
			t.Errorf("%q goes out as %q and reads back as %q", s, w.bytes, got)
		}
	}
	for s, want := range map[string]string{"a\x00b": "a\ufffdb", "a\xffb": "a\ufffdb", "a\x1bb\x7f": "a\ufffdb\ufffd", "\ufffd": "\ufffd", "a\u0085b": "a\ufffdb"} {
		var w writer
		w.text(s)
		if string(w.bytes) != want {
			t.Errorf("%q goes out as %q, wanted %q", s, w.bytes, want)
		}
	}
}
