package render

import (
	"strings"
	"testing"
)

func carded() map[string]string {
	return map[string]string{
		"build.toml":              "[machine]\nmeter = \"km\"\n[engine]\ncylinders = [\"left\", \"right\"]\nadjuster = { kind = \"screw\", pitch = \"0.5 mm\", at = \"valve\" }\n",
		"limits.toml":             "[lash]\nwhen = { engine-temp = \"..35 °C\" }\nintake = \"0.10 ± 0.02 mm\"\n[timing]\nmarks = \"aligned\"\n[torque.head-bolt]\nbasis = \"assumed\"\nnominal = \"20 N·m then 35 N·m\"\ntolerance = \"2 N·m\"\norder = \"2 1 3\"\ndrive = \"12 mm hex\"\n",
		"tools.toml":              "[feeler]\ntitle = \"Feeler leaves\"\nfor = [\"lash\"]\nleaves = [\"0.08 mm\", \"0.10 mm\", \"0.12 mm\"]\n",
		"entries/2026-03-01-a.md": "```toml\n[found]\nlash.intake.left = \"0.09 mm\"\n```\nRead.\n",
		"entries/plan.md":         "```toml\nexpects = [\"lash.intake\", \"timing.marks\", \"torque.head-bolt\"]\n```\n\n- [ ] Turned over twice by hand\n",
		"entries/2026-03-02-b.md": "```toml\n```\nNothing was done.\n",
	}
}

// A card has the limits in both units, how a gap is set and proved, the steps of a pattern with a box for each bolt, and what to mind.
func TestBenchCard(t *testing.T) {
	m := rendered(t, inMemory(carded()))
	checkSite(t, m)
	text := words(m, "bench/plan.html")
	for _, want := range []string{"0.10 ± 0.02 mm ( 0.0032..0.0047 in )", "in if 0.08 mm goes and 0.12 mm drags or stops", "too wide: close the gap; too tight: open it; a quarter turn is 0.125 mm",
		"for lash up to 35 °C", "35 ± 2 N·m ( 24.34..27.28 lbf·ft ) assumed", "12 mm hex", "“aligned”", "Turned over twice by hand", "0.09 mm", "plug leads off and earthed", "The maker’s manual, local rules"} {
		if !strings.Contains(strings.ReplaceAll(text, "\u202f", " "), want) {
			t.Errorf("%q is not on the card:\n%s", want, text)
		}
	}
	page := string(m.Page("bench/plan.html"))
	pattern := page[strings.Index(page, `<div class="pattern">`):]
	pattern = pattern[:strings.Index(pattern, "</div>\n</div>")]
	if n := strings.Count(pattern, `class="box"`); n != 2*3 {
		t.Errorf("%d boxes for two steps of three bolts", n)
	}
	if m.Page("bench/2026-03-02-b.html") != nil || strings.Contains(string(m.Page("entries/2026-03-02-b.html")), "bench/") {
		t.Error("an entry that takes nothing to the bench has a card")
	}
	if !strings.Contains(string(m.Page("entries/plan.html")), `href="../bench/plan.html"`) {
		t.Error("the plan does not lead to its card")
	}
}

// Without tools nothing of them is on a card, their leaves neither.
func TestHiddenToolsAreOnNoCard(t *testing.T) {
	files := carded()
	files["build.toml"] += "[site]\nhide = [\"tools\"]\n"
	for _, word := range []string{"Feeler", "goes and"} {
		if text := words(rendered(t, inMemory(files)), "bench/plan.html"); strings.Contains(text, word) {
			t.Errorf("%q is on the card", word)
		}
	}
}

// A card tells nothing that only hidden entries hold: no size that it works with, no path, no sum of money.
func TestHiddenThingsAreOnNoCard(t *testing.T) {
	files := map[string]string{
		"build.toml":              "[engine]\nadjuster = { kind = \"screw\", at = \"valve\" }\n",
		"limits.toml":             "[lash]\nintake = \"0.10 ± 0.02 mm\"\n[cost.all]\nnominal = \"432.10 GBP\"\ntolerance = \"55 GBP\"\n",
		"entries/2026-03-01-a.md": "```toml\ntags = [\"private\"]\nexpects = [\"torque.sekret-a\"]\n[set]\nengine.adjuster.pitch = \"0.77 mm\"\nlash.intake.left.sekret-f = \"0.11 mm\"\ntorque.sekret-b = \"3 quux\"\n```\n",
		"entries/2026-03-02-b.md": "```toml\nexpects = [\"torque\"]\n[found]\nlash.intake = \"0.09 mm\"\ncost.all = \"400 GBP\"\n```\n",
		"entries/plan.md":         "```toml\nexpects = [\"lash.intake\", \"torque\", \"cost.all\"]\n```\n",
	}
	secrets := []string{"0.193", "sekret", "GBP"}
	shown := everything(rendered(t, inMemory(files)))
	files["build.toml"] += "[site]\nhide = [\"private\", \"spend\"]\n"
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	all := everything(m)
	for _, secret := range secrets {
		if !strings.Contains(shown, secret) {
			t.Errorf("%q is nowhere even when nothing is hidden: the test proves nothing", secret)
		}
		if i := strings.Index(all, secret); i >= 0 {
			t.Errorf("%q got out: …%s…", secret, all[max(0, i-200):min(len(all), i+60)])
		}
	}
}

// Where a limit can't be read the card says so; the temperature stands with all that asks for it.
func TestCardsSayWhatIsMissing(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":      "",
		"limits.toml":     "[lash]\nwhen = { engine-temp = \"..35 °C\" }\nintake = \"0.10 ± 0.02 mm\"\n[compression]\nwhen = { engine-temp = \"60.. °C\" }\nlow = \"900 kPa\"\n[torque.head]\nwhen = { engine-temp = \"..35 °C\" }\nnominal = \"20\"\n",
		"tools.toml":      "[small]\ntitle = \"Small wrench\"\nfor = [\"torque.stud\"]\nrange = \"2..12 N·m\"\n",
		"entries/plan.md": "```toml\nexpects = [\"lash\", \"torque.head\", \"torque.stud\", \"compression\"]\n```\n",
	}))
	checkSite(t, m)
	got := strings.ReplaceAll(words(m, "bench/plan.html"), "\u202f", " ")
	for _, want := range []string{"; for torque, lash up to 35 °C ; for compression from 60 °C", "torque .head can’t be read: see the warnings"} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
}

// What is worked out has no box to be written in: the card says from which readings it comes.
func TestWorkedOutNumbersHaveNoBoxes(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":            "[engine]\nrocker-ratio = { intake = 1, exhaust = 1 }\n",
		"limits.toml":           "[margin]\ncoil-bind = \"1.0.. mm\"\n",
		"entries/2026-03-01.md": "```toml\n[found]\ncam.intake.lift = \"9.1 mm\"\nspring.intake = { installed = \"34.2 mm\", solid = \"23.4 mm\" }\n```\n",
		"entries/plan.md":       "```toml\nexpects = [\"margin.coil-bind\", \"taper\"]\n```\n",
	}))
	checkSite(t, m)
	text := strings.ReplaceAll(words(m, "bench/plan.html"), "\u202f", " ")
	for _, want := range []string{"margin .coil-bind from 1.0 mm", "spring .intake .installed , spring .intake .solid , cam .intake .lift", "taper no limit –"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on the card:\n%s", want, text)
		}
	}
	if strings.Contains(string(m.Page("bench/plan.html")), `class="box"`) {
		t.Error("there is a box for what is never read")
	}
}
