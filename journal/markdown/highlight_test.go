package markdown

import (
	"html"
	"regexp"
	"strings"
	"sync"
	"testing"
)

func TestHighlight(t *testing.T) {
	const set = `<span class="code-name">`
	for _, test := range []struct{ name, language, code, want string }{
		{"toml", "toml", "[set]\na = \"1 mm\" # <c>\n", "[" + set + "set</span>]\n" + set + "a </span>= <span class=\"code-string\">&quot;1 mm&quot; </span><span class=\"code-comment\"># &lt;c&gt;\n</span>"},
		{"capitals", "TOML", "1", `<span class="code-number">1</span>`},
		{"diff", "diff", "-a\n+b\n", "<span class=\"code-deleted\">-a\n</span><span class=\"code-inserted\">+b\n</span>"},
		{"headers alone", "http", "GET /a HTTP/1.1\nHost: x\n\n", "<span class=\"code-name\">GET /a </span><span class=\"code-keyword\">HTTP</span>/<span class=\"code-number\">1.1\n</span>Host: <span class=\"code-string\">x\n\n</span>"},
		{"unknown", "spanner", "a < b", "a &lt; b"},
		{"a path for a name", "../../x", "a", "a"},
		{"empty", "toml", "", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			var h Highlighter
			if got := h.highlight(test.language, test.code); got != test.want {
				t.Errorf("%q\n got %q\nwant %q", test.code, got, test.want)
			}
		})
	}
}

var tag = regexp.MustCompile(`<[^>]*>`)

// Whatever a lexer makes of a text, the letters stay. Go's own html package undoes the escapes.
func TestHighlightLosesNothing(t *testing.T) {
	var h Highlighter
	for _, language := range []string{"toml", "go", "c", "python", "bash", "json", "diff", "markdown", "html", "yaml", "sql", "make", "matlab", "console", "arduino", "gcode", "csv", "latex", "php"} {
		for _, code := range []string{"a = 1", "\n\n  x\t\"unclosed\n", "µ < > & \x00 \u2028 '''", "#!/bin/sh\nls -l | grep 'x' # y\n", "<b>\n</b", strings.Repeat("(", 2000), "\ufffd\xff", "$ ls\nx\r"} {
			got := html.UnescapeString(tag.ReplaceAllString(h.highlight(language, code), ""))
			if want := html.UnescapeString(tag.ReplaceAllString(plainCode(code), "")); got != want {
				t.Errorf("%s: %q became %q", language, code, got)
			}
		}
	}
}

func plainCode(code string) string {
	var b buffer
	b.text(code)
	return string(b.bytes)
}

func TestHighlightOnceForAll(t *testing.T) {
	var h Highlighter
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 50 {
				h.highlight("toml", "a = 1")
				h.highlight("go", "a = 1")
			}
		})
	}
	wait.Wait()
	if len(h.blocks) != 2 {
		t.Errorf("%d blocks remembered, want 2", len(h.blocks))
	}
}

func TestHighlightForgets(t *testing.T) {
	h := Highlighter{size: maxRemembered + 1}
	h.highlight("toml", "a = 1")
	if h.size != len("a = 1") || len(h.blocks) != 1 {
		t.Errorf("size %d with %d blocks after the limit", h.size, len(h.blocks))
	}
}

// Every class that code can get has a rule, and no rule holds a colour of its own.
func TestHighlightCSS(t *testing.T) {
	css := HighlightCSS()
	for _, class := range codeClasses {
		if want := "." + class + "{color:var(--" + class + ",inherit)}\n"; !strings.Contains(css, want) {
			t.Errorf("no %q in %q", want, css)
		}
	}
	if strings.Contains(css, "#") || strings.Contains(css, "rgb") {
		t.Errorf("a colour in %q", css)
	}
}
