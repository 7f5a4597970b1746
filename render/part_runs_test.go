package render

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/locknut/journal"
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
		"in from 2026-03-01 to 2026-04-01 , 400 km ; in from 2026-05-01 until now, 300 km", "Has run 700 km", "Claim power 2 hp", "Measured 1.5 hp at the peak together with Gasket ; power, where it is claimed :",
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

// A time that a hidden entry began or ended is not told by what was read meanwhile: the cam's first ended in one, its second began in one, its third is published.
func TestWhatWasReadMeanwhileTellsNoHiddenEntry(t *testing.T) {
	files := map[string]string{"build.toml": "[site]\nhide = [\"secret\"]\n", "parts.toml": "[cam]\nthen = [\"lash\"]\n"}
	for i, head := range []string{
		"fitted = [\"cam\"]", "", "tags = [\"secret\"]\nremoved = [\"cam\"]", "", "tags = [\"secret\"]\nfitted = [\"cam\"]", "", "removed = [\"cam\"]", "", "fitted = [\"cam\"]", "",
	} {
		files[fmt.Sprintf("entries/2026-03-%02d.md", i+1)] = fmt.Sprintf("```toml\n%s\n[found]\nlash.left = \"0.1%d mm\"\n```\n", head, i)
	}
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	got := words(m, "parts/cam.html")
	if !strings.Contains(got, "Read while it was in When Where State Value Verdict Limit Deviation 2026-03-10 lash .left found 0.19 mm") || strings.Count(got, "lash .left found") != 1 {
		t.Error(got)
	}
}

// The page of a part that asks for lash has the newest forty of what was read, and how many there are beside: 6,000 readings of two cylinders, each entry's
// standing at both of the part's paths, are told once.
func TestManyReadingsWhileAPartWasIn(t *testing.T) {
	files := map[string]string{"build.toml": "[engine]\ncylinders = [\"left\", \"right\"]\n", "parts.toml": "[cam]\nthen = [\"lash\", \"lash.intake\"]\n"}
	const entries = 3000
	for i := range entries {
		head := ""
		if i == 0 {
			head = "fitted = [\"cam\"]\n"
		}
		day := time.Date(2010, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, i).Format("2006-01-02")
		files["entries/"+day+".md"] = "```toml\n" + head + "[set]\nlash.intake.left = \"0.10 mm\"\nlash.intake.right = \"0.11 mm\"\n```\n"
	}
	result, err := journal.Compile(inMemory(files), journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	s := newSite(result)
	newest, older := s.meanwhile(result.Journal.Part("cam"))
	if len(newest) != mostMeanwhile || older != 2*entries-mostMeanwhile {
		t.Fatalf("%d and %d older", len(newest), older)
	}
	for i, v := range newest {
		if want := 2*entries - 1 - i; v.Index != want {
			t.Fatalf("reading %d is the journal's %d, want %d", i, v.Index, want)
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

// Steps that are open stand on one page; where there are none there is no page. A value in a step is filled in as in the prose, and a box without words is no
// step.
func TestSteps(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml": "", "parts.toml": "[cam]\ntitle = \"Cam & cap\"\n",
		"entries/2026-03-01.md": "```toml\n[found]\nlash.left = \"0.11 mm\"\nlash.right = \"0.12 mm\"\n```\n- [x] drained\n- [ ] filled\n- [ ] Is it <b>? *Lash* stood at [?](value:lash.left) and <value:lash.right>, see [the cam](part:cam)\n- [ ]\n",
		"entries/plan.md":       "```toml\ntitle = \"Gearing\"\n```\n- [ ] wheel out\n",
	}))
	checkSite(t, m)
	for name, want := range map[string]string{
		"steps.html":              "Left open Step Of filled 2026-03-01 Is it <b>? Lash stood at 0.11 mm and 0.12 mm , see the cam 2026-03-01 To come, by the plans Step Of wheel out Gearing",
		"entries/2026-03-01.html": "1 of 3 steps done. ☐ open: filled ☐ open: Is it <b>? Lash stood at 0.11 mm and 0.12 mm , see the cam",
	} {
		if got := strings.ReplaceAll(words(m, name), thinSpace, " "); !strings.Contains(got, want) {
			t.Errorf("%s doesn't say %q:\n%s", name, want, got)
		}
	}
	for _, none := range []string{"- [x] drained\n", "- [ ]\n"} {
		if m := rendered(t, inMemory(map[string]string{"build.toml": "", "entries/2026-03-01.md": "```toml\n```\n" + none})); m.Page("steps.html") != nil || strings.Contains(everything(m), "steps.html") {
			t.Errorf("with %q there is a page without an open step", none)
		}
	}
}
