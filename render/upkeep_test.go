package render

import (
	"strings"
	"testing"
)

// kept is a journal with something of every state. By hand: the lash was read at 18000 km, so 4000 km are up at 22000 km, which is 1 km ago; the
// plug's 8000 km at 26000 km; half a year from the last of August ends on the last of February, 14 days ago, and 181 days is how
// long it was; the chain has run 4001 km of 4200; a piston in hours can't be reckoned.
func kept() map[string]string {
	return map[string]string{
		"build.toml":  "[machine]\nname = \"Curlew 250\"\nmeter = \"km\"\n",
		"limits.toml": "[lash]\nevery = \"4000 km\"\nintake = \"0.08 ± 0.02 mm\"\n[gap.plug]\nevery = \"8000 km\"\nlow = \"0.6 mm\"\nhigh = \"0.7 mm\"\n[brake.fluid]\nevery = \"6 months\"\nexpect = \"dot 4\"\n",
		"parts.toml":  "[chain]\ntitle = \"Chain, 520\"\nevery = \"4200 km\"\n[piston]\nevery = \"30 h\"\n",
		"tools.toml":  "[wrench]\ntitle = \"Click wrench\"\nfor = [\"torque\"]\ncalibrated = [2024-01-10]\ncalibrate-every = \"1 year\"\n",
		"entries/2025-08-31-start.md": "```toml\nmeter = 18000\nfitted = [\"chain\", \"piston\"]\n[set]\nbrake.fluid = \"DOT 4\"\nlash.intake = \"0.08 mm\"\ngap.plug = \"0.65 mm\"\n" +
			"[[later]]\ndo = \"Look at the sprocket nut\"\nreading = \"torque.sprocket-nut\"\nafter = \"10000 km\"\n```\n",
		"entries/2026-03-14-ride.md": "```toml\nmeter = 22001\n```\n",
	}
}

func TestUpkeep(t *testing.T) {
	m := rendered(t, inMemory(kept()))
	checkSite(t, m)
	got := words(m, "upkeep.html")
	for _, want := range []string{
		"Overdue What State Every Gone by Up Last done Click wrench calibrate it ✕ overdue 1 year 794 days 2025-01-10 2024-01-10",
		"brake .fluid ● due 6 months 195 days 2026-02-28 2025-08-31", "lash ● due 4000 km 4001 km 22000 km 2025-08-31",
		"Soon What State Every Gone by Up Last done Chain, 520 renew it ◔ soon 4200 km 4001 km 22200 km 2025-08-31",
		"piston renew it ? unclear 30 h – the meter counts km – 2025-08-31",
		"gap .plug ✓ not yet 8000 km 4001 km 26000 km 2025-08-31", "Look at the sprocket nut ✓ not yet 10000 km 4001 km 28000 km asked for on 2025-08-31",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("upkeep.html doesn't say %q:\n%s", want, got)
		}
	}
	for page, want := range map[string]string{
		"parts/chain.html": "Up 22200 km : ◔ soon Has run 4001 km", "tools/wrench.html": "Up 2025-01-10 : ✕ overdue", "paths/brake.fluid.html": "Up 2026-02-28 : ● due",
	} {
		if got := words(m, page); !strings.Contains(got, want) {
			t.Errorf("%s doesn't say %q:\n%s", page, want, got)
		}
	}
	if got := words(m, "index.html"); !strings.Contains(got, "Due, and soon ✕ overdue Click wrench calibrate it ● due brake .fluid ● due lash ◔ soon Chain, 520 renew it All upkeep") {
		t.Errorf("the front page says\n%s", got)
	}
	if m := rendered(t, inMemory(map[string]string{"build.toml": ""})); m.Page("upkeep.html") != nil || strings.Contains(everything(m), "upkeep.html") {
		t.Error("a journal with nothing to do again has a page for it")
	}
}

// A hidden ride tells neither its day nor its meter: things are due as of the newest entry that is shown, and what was last done in a hidden one is
// not listed.
func TestUpkeepOfHiddenEntries(t *testing.T) {
	files := kept()
	files["build.toml"] += "[site]\nhide = [\"private\"]\n"
	delete(files, "entries/2026-03-14-ride.md")
	files["entries/2026-03-15-ride.md"] = "```toml\nmeter = 22001\ntags = [\"private\"]\n[set]\ngap.plug = \"0.65 mm\"\n```\n"
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	all := everything(m)
	for _, secret := range []string{"22001", "4001", "2026-03-15", "1" + thinSpace + "km ago"} {
		if strings.Contains(all, secret) {
			t.Errorf("the site tells %q", secret)
		}
	}
	if got := words(m, "warnings.html"); !strings.Contains(got, "the tool wrench is overdue to be calibrated: 1 year were up on 2025-01-10") || strings.Contains(got, "lash is") {
		t.Errorf("warnings.html says\n%s", got)
	}
	if got := words(m, "upkeep.html"); !strings.Contains(got, "lash ✓ not yet 4000 km 0 km 22000 km") || strings.Contains(got, "gap .plug") {
		t.Errorf("upkeep.html says\n%s", got)
	}
}
