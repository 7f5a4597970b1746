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
	for _, want := range []string{"0.10 ± 0.02 mm ( 0.0032..0.0047 in )", "in if 0.08 mm goes and 0.12 mm drags or stops", "too wide: screw in; too tight: screw out; a quarter turn is 0.125 mm",
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
