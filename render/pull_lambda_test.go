package render

import (
	"strings"
	"testing"
)

// What is found on the figures of pulls stands above them: a gain that comes of a wrong unit looks like any other.
func TestDoubtsStandAboveTheFigures(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":                 "",
		"data/pull.csv":              "rpm,power [kW]\n6000,15\n7000,18\n8000,21\n9000,22\n9500,22\n",
		"entries/2026-05-02-dyno.md": "```toml\n[[pulls]]\ndata = \"data/pull.csv\"\ncorrected = \"none\"\nair = { temp = \"95 °C\", pressure = \"95 kPa\", humidity = \"40 %\" }\n```\n# Dyno\n",
	}))
	checkSite(t, m)
	page := words(m, "power.html")
	if doubt, curves := strings.Index(page, "no air that an engine breathes is of 95 °C"), strings.LastIndex(page, "Curves"); doubt < 0 || curves < doubt {
		t.Errorf("not told above the figures: %s", page)
	}
	m = rendered(t, inMemory(map[string]string{"build.toml": "", "data/pull.csv": "rpm,power [kW]\n6000,15\n7000,18\n8000,21\n9000,22\n9500,22\n", "entries/2026-05-02-dyno.md": "```toml\n[[pulls]]\ndata = \"data/pull.csv\"\n```\n# Dyno\n"}))
	if page := words(m, "power.html"); strings.Contains(page, "In doubt") {
		t.Errorf("told of nothing: %s", page)
	}
}

// Lambda that pulls hold is drawn below their power beside what is wanted at full throttle, read at its path in the entry, and told among the logs of the mixture. A correction of the power
// doesn't touch it.
func TestLambdaOfPulls(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":                 "power.correct-to = \"SAE J1349\"\n[fuelling]\nfuel = \"petrol\"\ntarget = \"\"\"\nlambda 6000 8000 10000\n50 0.95 0.93 0.91\n100 0.90 0.88 0.87\n\"\"\"\n",
		"data/pull.csv":              "rpm,power [kW],lambda\n6000,15,0.913\n7000,18,0.892\n8000,21,0.881\n9000,22,0.874\n9500,22,0.862\n",
		"entries/2026-05-02-dyno.md": "```toml\n[[pulls]]\ndata = \"data/pull.csv\"\ncorrected = \"none\"\nair = { temp = \"35 °C\", pressure = \"95 kPa\", humidity = \"40 %\" }\n```\n# Dyno\n",
	}))
	checkSite(t, m)
	for _, part := range []string{", lambda 0.86 to 0.91", `class="c-band"`, `class="c-aim"`} {
		if page := string(m.Page("power.html")); strings.Count(page, part) < 2 { // wide and narrow
			t.Errorf("not drawn: %s", part)
		}
	}
	if got := words(m, "entries/2026-05-02-dyno.html"); !strings.Contains(got, "power .lambda pulls 0.884 λ") || !strings.Contains(got, "pulls, at full throttle") {
		t.Errorf("the entry doesn't tell it: %s", got)
	}
	if got := words(m, "fuelling.html"); !strings.Contains(got, "pulls, at full throttle") {
		t.Errorf("the page of fuelling doesn't tell it: %s", got)
	}
}
