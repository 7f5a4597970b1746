package render

import (
	"regexp"
	"slices"
	"strconv"
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

var (
	headOfColumn = regexp.MustCompile(`\.(readings|numbers) td:nth-of-type\((\d)\)::before \{ content: "([^"]+)"; \}`)
	tableOfEntry = regexp.MustCompile(`<table class="stack (readings|numbers)">\s*<thead>\s*<tr>(.*?)</tr>`)
	headCell     = regexp.MustCompile(`<th scope="col">([^<]*)</th>`)
)

// On a narrow screen the head of its column stands before each cell of an entry's tables, in every theme: the heads that the tables have, in their order.
func TestEveryThemeKnowsTheHeadsOfAnEntry(t *testing.T) {
	files := map[string]string{
		"limits.toml": "[lash]\nintake = \"0.10 ± 0.02 mm\"\n[clearance.piston]\nof = [\"bore\", \"piston\"]\nlow = \"0.02 mm\"\nhigh = \"0.06 mm\"\n", "tools.toml": "[feeler]\nfor = [\"lash\"]\n",
		"entries/2026-03-01-lash.md": "```toml\nwith = [\"feeler\"]\n[set]\nlash.intake = \"0.11 mm\"\nbore.left = \"53.01 mm\"\npiston.left = \"52.97 mm\"\n```\n# Lash\n",
	}
	for _, theme := range themes.Names() {
		files["build.toml"] = "[site]\ntheme = \"" + theme + "\"\n"
		m := rendered(t, inMemory(files))
		told := map[string][]string{}
		for _, rule := range headOfColumn.FindAllStringSubmatch(string(m.Page("theme.css")), -1) {
			if told[rule[1]] = append(told[rule[1]], rule[3]); rule[2] != strconv.Itoa(len(told[rule[1]])) {
				t.Errorf("%s: %s out of order", theme, rule[0])
			}
		}
		for _, table := range tableOfEntry.FindAllStringSubmatch(string(m.Page("entries/2026-03-01-lash.html")), -1) {
			var heads []string
			for _, cell := range headCell.FindAllStringSubmatch(table[2], -1) {
				heads = append(heads, cell[1])
			}
			if !slices.Equal(heads[1:], told[table[1]]) {
				t.Errorf("%s: the heads of %s are %q, and the theme tells %q", theme, table[1], heads[1:], told[table[1]])
			}
			delete(told, table[1])
		}
		if len(told) > 0 {
			t.Errorf("%s: no table for %q", theme, told)
		}
	}
}
