package rule_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// What a limit is told to be wrong by goes by how it was written, and several limits count where there are several.
func TestWordsAboutLimits(t *testing.T) {
	for _, c := range []struct{ limits, entry, want string }{
		{"[out-of-round]\nr = \"0.01 ± 0.005 mm\"\n", "", "a limit there has no low bound: look it up again"},
		{"[taper]\nl = { low = \"0.01 mm\" }\n", "", "`high`, and not `low`? look it up again"},
		{"[lash]\nwhen = { engine-temp = \"..35 °C\" }\nintake = \"0.10 ± 0.02 mm\"\nexhaust = \"0.15 ± 0.02 mm\"\n", "engine-temp = \"60 °C\"\n[found]\nlash = { intake = \"0.10 mm\", exhaust = \"0.15 mm\" }\n",
			"2 readings under `lash.intake` and `lash.exhaust` were read at 60 °C; the limits count up to 35 °C, so there is no verdict"},
		{"[lash]\nwhen = { engine-temp = \"..35 °C\" }\nintake = \"0.10 ± 0.02 mm\"\n", "engine-temp = \"60 °C\"\n[found]\nlash = { intake = { l = \"0.10 mm\", r = \"0.10 mm\" } }\n",
			"2 readings under `lash.intake` were read at 60 °C; the limit counts up to 35 °C, so there is no verdict"},
		{"[lash]\nwhen = { engine-temp = \"..35 °C\" }\nintake = \"0.10 ± 0.02 mm\"\nexhaust = \"0.15 ± 0.02 mm\"\n", "[found]\nlash = { intake = \"0.10 mm\", exhaust = \"0.15 mm\" }\n", "the limits count up to 35 °C, so there is no verdict"},
	} {
		result, err := journal.Compile(fstest.MapFS{
			"build.toml":               {Data: []byte("[engine]\ncylinders = [\"l\", \"r\"]\n")},
			"limits.toml":              {Data: []byte(c.limits)},
			"entries/2026-03-01-up.md": {Data: []byte("```toml\n" + c.entry + "```\n")},
		}, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		if len(result.Findings) != 1 || !strings.Contains(result.Findings[0].Message+"; "+result.Findings[0].Do, c.want) {
			t.Errorf("%s: %v", c.limits, result.Findings)
		}
	}
}
