package render

import (
	"strings"
	"testing"
)

// By hand: the cam was in from 1000 to 1400 km and from 2000 to 2300 km: 400 and 300 km, 700 in all. What was found on the day that it went in was read
// without it, and what was set with it; while it lay on the shelf nothing was read with it.
func TestAPartTellsItsRunsAndWhatWasReadMeanwhile(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":            "fitted = [\"cam-std\"]\n[machine]\nmeter = \"km\"\n[units]\npower = \"hp\"\n",
		"parts.toml":            "[cam-std]\nslot = \"camshaft\"\n[cam-hill]\ntitle = \"Hill cam\"\nslot = \"camshaft\"\nthen = [\"lash\"]\nclaim = { power = \"2 hp\" }\n[gasket]\ntitle = \"Gasket\"\n",
		"entries/2026-03-01.md": "```toml\nmeter = 1000\nfitted = [\"cam-hill\", \"gasket\"]\n[found]\nlash.left = \"0.11 mm\"\n[set]\nlash.left = \"0.12 mm\"\n[[pulls]]\nstate = \"before\"\npeak = [\"20.0 hp\"]\n[[pulls]]\npeak = [\"21.5 hp\"]\n```\n",
		"entries/2026-04-01.md": "```toml\nmeter = 1400\nfitted = [\"cam-std\"]\n[found]\nlash.left = \"0.13 mm\"\n[set]\nlash.left = \"0.14 mm\"\n```\n",
		"entries/2026-05-01.md": "```toml\nmeter = 2000\nfitted = [\"cam-hill\"]\n[set]\nlash.left = \"0.15 mm\"\n```\n",
		"entries/2026-06-01.md": "```toml\nmeter = 2300\n[found]\nlash.left = \"0.16 mm\"\n```\n",
	}))
	checkSite(t, m)
	got := strings.ReplaceAll(words(m, "parts/cam-hill.html"), thinSpace, " ")
	for _, want := range []string{
		"in from 2026-03-01 to 2026-04-01 , 400 km ; in from 2026-05-01 until now, 300 km", "Has run 700 km", "Claim power 2 hp", "Measured 1.5 hp together with Gasket",
		"2026-06-01 lash .left found 0.16 mm", "2026-05-01 lash .left set 0.15 mm", "2026-04-01 lash .left found 0.13 mm", "2026-03-01 lash .left set 0.12 mm",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
	for _, wrong := range []string{"0.11 mm", "0.14 mm"} {
		if strings.Contains(got, wrong) {
			t.Errorf("it says %q, which was read without the part", wrong)
		}
	}
}

// A tool's page has what was read with it.
func TestAToolTellsWhatItRead(t *testing.T) {
	files := map[string]string{
		"build.toml": "", "tools.toml": "[feeler]\nfor = [\"lash\"]\n[rule]\nfor = [\"chain\"]\n",
		"entries/2026-03-01.md": "```toml\nwith = [\"feeler\", \"rule\"]\n[found]\nlash.left = \"0.11 mm\"\nchain.slack = \"31 mm\"\n```\n",
	}
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	if got := words(m, "tools/feeler.html"); !strings.Contains(got, "Read with it When Where State Value Verdict Limit Deviation 2026-03-01 lash .left found 0.11 mm") || strings.Contains(got, "31 mm") {
		t.Error(got)
	}
}

// Steps that are open stand on one page; where there are none there is no page.
func TestSteps(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":            "",
		"entries/2026-03-01.md": "```toml\n```\n- [x] drained\n- [ ] filled\n",
		"entries/plan.md":       "```toml\ntitle = \"Gearing\"\n```\n- [ ] wheel out\n",
	}))
	checkSite(t, m)
	if got := words(m, "steps.html"); !strings.Contains(got, "Left open Step Of filled 2026-03-01") || !strings.Contains(got, "To come, by the plans Step Of wheel out Gearing") || strings.Contains(got, "drained") {
		t.Error(got)
	}
	if m := rendered(t, inMemory(map[string]string{"build.toml": "", "entries/2026-03-01.md": "```toml\n```\n- [x] drained\n"})); m.Page("steps.html") != nil || strings.Contains(everything(m), "steps.html") {
		t.Error("there is a page without an open step")
	}
}
