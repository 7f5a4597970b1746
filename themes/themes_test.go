package themes

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

var (
	comment  = regexp.MustCompile(`(?s)/\*.*?\*/`)
	variable = regexp.MustCompile(`(--[a-z-]+):\s*([^;]+);`)
	used     = regexp.MustCompile(`var\((--[a-z-]+)`)
	light    = regexp.MustCompile(`(?s)^\s*:root \{(.*?)\n\}`)
	dark     = regexp.MustCompile(`(?s)@media \(prefers-color-scheme: dark\) \{\s*:root \{(.*?)\}`)
	printed  = regexp.MustCompile(`(?s)@media print \{\s*:root \{(.*?)\}`)
)

// schemes are the sets of colours that a theme has. What one of the later doesn't give stays as an earlier one has it: on paper it may be
// either.
var schemes = []struct {
	label string
	rules *regexp.Regexp
}{{"light", light}, {"dark", dark}, {"print", printed}}

func tokens(css string) map[string]string {
	all := map[string]string{}
	for _, m := range variable.FindAllStringSubmatch(css, -1) {
		all[m[1]] = m[2]
	}
	return all
}

// luminance is the relative luminance of WCAG 2.2 (from memory): each channel c of the colour, 0 to 1, counts c/12.92 up to 0.04045 and
// ((c+0.055)/1.055)^2.4 above, by 0.2126 red, 0.7152 green and 0.0722 blue.
func luminance(t *testing.T, colour string) float64 {
	t.Helper()
	hex := strings.TrimPrefix(colour, "#")
	if len(hex) == 3 {
		hex = strings.Join([]string{hex[:1], hex[:1], hex[1:2], hex[1:2], hex[2:], hex[2:]}, "")
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatalf("`%s` is no colour", colour)
		}
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}

// contrast is the contrast ratio of WCAG 2.2 (from memory): the lighter luminance over the darker, 0.05 added to each.
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// The ratio of black on white is 21 to 1, and #767676 on white is the lightest grey that reaches 4.5 to 1 (both widely printed, from memory).
func TestContrastIsWorkedOutRight(t *testing.T) {
	if got := contrast(t, "#000", "#ffffff"); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %v", got)
	}
	if a, b := contrast(t, "#767676", "#fff"), contrast(t, "#777777", "#fff"); a < 4.5 || b >= 4.5 {
		t.Errorf("greys on white: %v and %v", a, b)
	}
}

func TestTheUsualThemeIsThere(t *testing.T) {
	if names := Names(); !slices.Contains(names, Usual) || !slices.IsSorted(names) {
		t.Errorf("themes: %q", names)
	}
	if _, err := CSS("none-such"); err == nil {
		t.Error("a theme that isn't there is found")
	}
}

func TestEveryTheme(t *testing.T) {
	for _, name := range Names() {
		t.Run(name, func(t *testing.T) {
			content, err := CSS(name)
			if err != nil {
				t.Fatal(err)
			}
			css := comment.ReplaceAllString(string(content), "")
			for _, outside := range []string{"url(", "@import", "http:", "https:", "//", "@font-face"} {
				if strings.Contains(css, outside) {
					t.Errorf("has %q", outside)
				}
			}
			if strings.Count(css, "{") != strings.Count(css, "}") {
				t.Error("its braces don't match")
			}
			for _, part := range []string{"color-scheme: light dark", ":focus-visible", "tabular-nums", "@media (max-width: 40rem)", "@media print", ".skip:focus", ".visually-hidden", ".search input", ".stack td::before { content: attr(data-head)", ".prose img { width: auto; max-height: 12cm; }"} {
				if !strings.Contains(css, part) {
					t.Errorf("lacks %q", part)
				}
			}
			own := tokens(css)
			for _, m := range used.FindAllStringSubmatch(css, -1) {
				if own[m[1]] == "" {
					t.Errorf("%s is used and not given", m[1])
				}
			}
			byLight := map[string]string{}
			for _, scheme := range schemes {
				m := scheme.rules.FindStringSubmatch(css)
				if m == nil {
					t.Fatalf("has no colours for %s", scheme.label)
				}
				colours := tokens(m[1])
				if scheme.label == "light" {
					byLight = colours
				}
				for name, value := range byLight {
					if strings.HasPrefix(value, "#") && colours[name] == "" {
						t.Errorf("%s: %s is not given: it stays as it is by light, or by dark", scheme.label, name)
					}
				}
				readable(t, scheme.label, colours)
			}
		})
	}
}

// readable holds every colour of text, and of the marks beside it, to 4.5:1 on both grounds, and the marks that lie on the band of a limit to
// 3:1 on that (WCAG 2.2, 1.4.3 and 1.4.11, from memory).
func readable(t *testing.T, label string, colours map[string]string) {
	t.Helper()
	for name, colour := range colours {
		text := slices.Contains([]string{"--ink", "--quiet", "--blue", "--ochre", "--vermilion"}, name) || strings.HasPrefix(name, "--code-")
		if !text {
			continue
		}
		for _, ground := range []string{"--paper", "--faint"} {
			if got := contrast(t, colour, colours[ground]); got < 4.5 {
				t.Errorf("%s: %s on %s is %.2f:1", label, name, ground, got)
			}
		}
	}
	for _, mark := range []string{"--ink"} {
		if got := contrast(t, colours[mark], colours["--rule"]); got < 3 {
			t.Errorf("%s: %s on --rule is %.2f:1", label, mark, got)
		}
	}
	if len(colours) < 7 {
		t.Errorf("%s: only %d colours", label, len(colours))
	}
}
