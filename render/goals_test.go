package render

import (
	"strings"
	"testing"
)

// By hand: from 20 to 30 hp, 26 is 60 % of the way with 4 to go; 140 kg is under the 142 that was wanted, from 150; 0.50 mm is what was wanted.
// A goal that is farther off than at first has no way behind it.
func TestGoals(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":            "[goals]\npower.peak = \"30 hp\"\nengine.mass = \"142 kg\"\nsquish = \"0.50 mm\"\nchain.slack = \"30 mm\"\nfloat.cam = \"0.10 mm\"\n",
		"entries/2026-03-01.md": "```toml\n[found]\npower.peak = \"20 hp\"\nengine.mass = \"150 kg\"\nsquish = \"0.80 mm\"\nchain.slack = \"35 mm\"\n```\n",
		"entries/2026-04-01.md": "```toml\n[found]\npower.peak = \"26 hp\"\nengine.mass = \"140 kg\"\nsquish = \"0.50 mm\"\nchain.slack = \"40 mm\"\n```\n",
	}))
	checkSite(t, m)
	got := words(m, "index.html")
	for _, want := range []string{
		"power .peak 30 hp ( 22.4 kW ) 20 hp 26 hp +4 hp 60% of the way", "engine .mass 142 kg 150 kg 140 kg reached, 2 kg beyond",
		"squish 0.50 mm 0.80 mm 0.50 mm reached", "chain .slack 30 mm 35 mm 40 mm −10 mm float .cam 0.10 mm – – –",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
}

// By hand: π/4 · 5.3² cm² · 5.64 cm · 2 is 248.86 cm³, so that 11.14 are missing to 260.
func TestAGoalAtAWorkedOutNumber(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "[goals]\nengine.displacement = \"260.00 cm3\"\n[engine]\ncylinders = 2\nbore = \"53.0 mm\"\nstroke = \"56.4 mm\"\n",
	}))
	checkSite(t, m)
	got := strings.ReplaceAll(words(m, "index.html"), thinSpace, " ")
	if want := "engine .displacement 260.00 cm³ – 248.9 cm³ +11.1"; !strings.Contains(got, want) {
		t.Errorf("it doesn't say %q:\n%s", want, got)
	}
}
