package parse

import (
	"slices"
	"testing"

	"example.org/locknut/journal/source"
)

// The forms are those of CSS Syntax Level 3, 4.3 (escapes, names, texts, addresses without quotes) and CSS Values Level 4, 4.5 (from memory).
func TestAddressesInAStyleSheet(t *testing.T) {
	for _, c := range []struct {
		css  string
		want []string // the address, and the file or why it can't be followed
	}{
		{`a { background: url(a.png) }`, []string{"a.png", "theme/a.png"}},
		{`a { background: url(  "a b.png"  ) }`, []string{"a b.png", "theme/a b.png"}},
		{`a { background: URL( a%20b.png ) }`, []string{"a%20b.png", "theme/a b.png"}},
		{`@font-face { src: url(x/f.woff2?v=1#iefix) format("woff2") }`, []string{"x/f.woff2?v=1#iefix", "theme/x/f.woff2"}},
		{`a { background: url('./x/../a.svg#b') }`, []string{"./x/../a.svg#b", "theme/a.svg"}},
		{`a { background: url(\61.png) }`, []string{"a.png", "theme/a.png"}},
		{`a { background: \000055 r\6c(a.png) }`, []string{"a.png", "theme/a.png"}},
		{"a { background: url('a\\\n.png') }", []string{"a.png", "theme/a.png"}},
		{`a { background: url(a\).png) }`, []string{"a).png", "theme/a).png"}},
		{`a { background: -webkit-image-set('a.png' 1x) }`, []string{"a.png", "theme/a.png"}},
		{`a { background: image-set("a.png" type("image/png")) }`, []string{"a.png", "theme/a.png"}},
		{`a { filter: url(#f) }`, []string{"#f", ""}},
		{`@IMPORT url(a.css) screen; b { c: d }`, []string{"", "brings in another style sheet"}},
		{`@\69mport "a;}.css"`, []string{"", "brings in another style sheet"}},
		{`a { background: url(HTTPS://example.org/) }`, []string{"HTTPS://example.org/", "is an address outside the site"}},
		{`a { background: url(\\\\example.org\\a) }`, []string{`\\example.org\a`, "is an address outside the site"}},
		{`a { background: url(../build.toml) }`, []string{"../build.toml", "leads out of the folder `theme`"}},
		{`a { background: url(%2e%2e/build.toml) }`, []string{"%2e%2e/build.toml", "leads out of the folder `theme`"}},
		{`a { content: "url(a.png)" } /* url(b.png) */ #url { x: 1url(c.png) }`, nil},
		{`a { background: url() url("") url( ) }`, []string{"", ""}},
		{`a[href="http://example.org/"] { color: red }`, nil},
		{"\uFEFFa { background: url(a.png) }", []string{"a.png", "theme/a.png"}},
	} {
		style, findings := DecodeStyle(source.NewFile("theme/a.css", c.css))
		var got []string
		for _, a := range style.Addresses {
			name, _, why := a.Local()
			got = append(got, a.Text, name+why)
		}
		if !slices.Equal(got, c.want) || len(findings) > 0 {
			t.Errorf("%s\nnames  %q\nwanted %q; findings %v", c.css, got, c.want, findings)
		}
	}
}

func FuzzDecodeStyle(f *testing.F) {
	for _, seed := range []string{"", `a { background: url("a.png") /* b */ }`, `@import url(a);`, `\`, `a{b:url(\`, `"\`, `@`, `-`, "\uFEFF@import", `a(]})`, `image-set("a" 1x)`} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, css string) {
		file := source.NewFile("theme/a.css", css)
		style, findings := DecodeStyle(file)
		if style.Broken != (len(findings) > 0) {
			t.Errorf("%q: broken %v, with %d findings", css, style.Broken, len(findings))
		}
		last := 0
		for _, a := range style.Addresses {
			a.Local()
			if a.At.Start < last || a.At.End > len(css) || a.At.IsWhole() {
				t.Fatalf("%q: an address at %d to %d, after %d", css, a.At.Start, a.At.End, last)
			}
			last = a.At.End
		}
	})
}
