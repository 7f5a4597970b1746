package render

import (
	"regexp"
	"strings"
	"testing"

	"example.org/locknut/themes"
)

var (
	variableUsed  = regexp.MustCompile(`var\((--[a-z-]+)`)
	variableGiven = regexp.MustCompile(`(--[a-z-]+):\s*[^;}\s]`)
)

// A theme gives every variable that the site's style sheet uses: its own rules, those of coloured code and those of drawings.
func TestEveryThemeGivesEveryVariable(t *testing.T) {
	for _, theme := range themes.Names() {
		m := rendered(t, inMemory(map[string]string{"build.toml": "[site]\ntheme = \"" + theme + "\"\n"}))
		css := string(m.Page("theme.css"))
		own, err := themes.CSS(theme)
		if err != nil {
			t.Fatal(err)
		}
		given := map[string]bool{}
		for _, g := range variableGiven.FindAllStringSubmatch(string(own), -1) {
			given[g[1]] = true
		}
		used := variableUsed.FindAllStringSubmatch(css, -1)
		for _, u := range used {
			if !given[u[1]] {
				t.Errorf("%s gives no %s, which the style sheet uses", theme, u[1])
				given[u[1]] = true
			}
		}
		if len(used) < 40 || !strings.Contains(css, ".chart") {
			t.Errorf("%s: only %d variables are used", theme, len(used))
		}
	}
}
