package render

import (
	"strings"
	"testing"
)

// By hand: 3.4 less 5.9 kg is −2.5 kg; the sprocket takes out nothing whose mass is known.
func TestPlan(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "fitted = [\"pipe-std\"]\n[units]\nmoney = \"GBP\"\n",
		"parts.toml": "[pipe-std]\ntitle = \"Standard pipe\"\nslot = \"exhaust\"\nmass = \"5.9 kg\"\ngives = [\"silencing\"]\n" +
			"[pipe-hill]\ntitle = \"Hill pipe\"\nslot = \"exhaust\"\nmass = \"3.4 kg\"\nprice = 210\nneeds = [\"larger-jets\", \"silencing\"]\nthen = [\"torque.exhaust-nut\"]\nclaim = { power = \"1.5..2 hp\" }\n" +
			"[sprocket]\nslot = \"rear-sprocket\"\nmass = \"0.58 kg\"\nprice = 31\n",
		"entries/gearing.md": "```toml\ntitle = \"Gearing for the short hill\"\n```\n",
	}))
	checkSite(t, m)
	got := words(m, "plan.html")
	for _, want := range []string{
		"Planned work Gearing for the short hill",
		"Hill pipe Standard pipe 3.4 kg −2.5 kg 210 GBP larger-jets torque .exhaust-nut power 1.5..2.0 hp", "sprocket rear-sprocket 0.58 kg 31 GBP",
		"Cost to come 241 GBP", "Mass to come −2.5 kg",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
	if m := rendered(t, inMemory(map[string]string{"build.toml": ""})); m.Page("plan.html") != nil || strings.Contains(everything(m), "plan.html") {
		t.Error("a journal without a plan has a page for it")
	}
}
