package render

import (
	"strings"
	"testing"
)

// By hand: 210 + 31 + 19 GBP are 260 GBP; 3.4 less 5.9 kg is −2.5 kg; the sprocket takes out nothing whose mass is known.
func TestPlan(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "fitted = [\"pipe-std\"]\n[units]\nmoney = \"GBP\"\n",
		"parts.toml": "[pipe-std]\ntitle = \"Standard pipe\"\nslot = \"exhaust\"\nmass = \"5.9 kg\"\ngives = [\"silencing\"]\n" +
			"[pipe-hill]\ntitle = \"Hill pipe\"\nslot = \"exhaust\"\nmass = \"3.4 kg\"\nprice = 210\nneeds = [\"larger-jets\", \"silencing\"]\nthen = [\"torque.exhaust-nut\"]\nclaim = { power = \"1.5..2 hp\" }\n" +
			"[sprocket]\nslot = \"rear-sprocket\"\nmass = \"0.58 kg\"\nprice = 31\n",
		"entries/gearing.md": "```toml\ntitle = \"Gearing for the short hill\"\nexpects = [\"chain.slack\"]\nspent = [{ for = \"chain\", price = 19 }]\n```\n",
	}))
	checkSite(t, m)
	got := words(m, "plan.html")
	for _, want := range []string{
		"Planned work Gearing for the short hill",
		"Hill pipe Standard pipe 3.4 kg −2.5 kg 210 GBP larger-jets torque .exhaust-nut power 1.5..2.0 hp", "sprocket rear-sprocket 0.58 kg 31 GBP",
		"Cost to come 260 GBP", "Mass to come −2.5 kg",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
	if got := words(m, "entries/gearing.html"); !strings.Contains(got, "Will read chain .slack") {
		t.Errorf("the plan doesn't say what it will read:\n%s", got)
	}
	// A part that is needed needs another, which needs the first: a ring is gone round once. 20 hp and 1.5 to 2.5 make 21.5 to 22.5 hp.
	m = rendered(t, inMemory(map[string]string{
		"build.toml":            "[goals]\npower.peak = \"22 hp\"\n",
		"parts.toml":            "[cam]\nneeds = [\"stiff-springs\"]\nclaim = { power = \"1.5..2.5 hp\" }\n[springs]\ntitle = \"Hill springs\"\ngives = [\"stiff-springs\"]\nneeds = [\"caps\", \"cam\"]\n[caps]\n",
		"entries/2026-03-01.md": "```toml\nbought = [\"springs\"]\n[found]\npower.peak = \"20.0 hp\"\n```\n",
	}))
	checkSite(t, m)
	got = words(m, "plan.html")
	for _, want := range []string{"stiff-springs ( Hill springs gives it, on the shelf, and needs caps (planned) and cam )", "If their claims hold power .peak 21.5..22.5 hp ; the goal is 22 hp"} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
	if m := rendered(t, inMemory(map[string]string{"build.toml": ""})); m.Page("plan.html") != nil || strings.Contains(everything(m), "plan.html") {
		t.Error("a journal without a plan has a page for it")
	}
}
