package render

import (
	"strings"
	"testing"
)

// By hand: 145 + 30 − 40 = 135 GBP and 20 EUR; 2.5 + 1.25 = 3.75 h; the standard cam came with the machine and cost nothing here; the sprocket is planned.
func bought() map[string]string {
	return map[string]string{
		"build.toml":                   "fitted = [\"cam-std\"]\n[units]\nmoney = \"GBP\"\n",
		"parts.toml":                   "[cam-std]\nslot = \"camshaft\"\nprice = 99\n[cam-hill]\ntitle = \"Hill cam\"\nslot = \"camshaft\"\nprice = 145\n[gasket]\nprice = \"20 EUR\"\n[sprocket]\ntitle = \"Sprocket\"\nprice = 31\n",
		"entries/2026-03-08-bought.md": "```toml\nbought = [\"cam-hill\"]\nhours = 2.5\nspent = [{ for = \"oil\", price = 30 }]\n```\n",
		"entries/2026-04-18-cam.md":    "```toml\nfitted = [\"cam-hill\", \"gasket\"]\nhours = 1.25\nspent = [{ for = \"sold it\", price = -40, part = \"cam-std\" }]\n```\n",
	}
}

func TestSpend(t *testing.T) {
	m := rendered(t, inMemory(bought()))
	checkSite(t, m)
	got := words(m, "spend.html")
	for _, want := range []string{
		"Spent 20 EUR and 135 GBP To come, by the plan 31 GBP Work 3.75 h", "2026-03 175 GBP 2.5 h 2026-04 20 EUR and −40 GBP 1.25 h",
		"camshaft 105 GBP 2026-03-08 , 145 GBP ; 2026-04-18 sold it, −40 GBP", "everything else 20 EUR and 30 GBP", "Hill cam 145 GBP 2026-03-08", "cam-std −40 GBP 2026-04-18 sold it", "Sprocket 31 GBP",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
}

func TestHiddenSpend(t *testing.T) {
	files := bought()
	files["build.toml"] += "[site]\nhide = [\"spend\"]\n"
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	if got := words(m, "spend.html"); strings.Contains(got, "GBP") || strings.Contains(got, "Spent") || !strings.Contains(got, "3.75 h") {
		t.Errorf("with the money hidden it says\n%s", got)
	}
	files["build.toml"] = strings.Replace(files["build.toml"], `"spend"`, `"spend", "hours"`, 1)
	if m := rendered(t, inMemory(files)); m.Page("spend.html") != nil || strings.Contains(everything(m), "spend.html") {
		t.Error("with both hidden there is a page")
	}
}

// By hand: 10 GBP before the first pulls; the pipe and the dyno of its own day count to the stage that they end, 110 GBP for 2 hp, 55 a hp; what an entry
// spends falls after its pulls before the work, so that the stage up to those has the bearing alone; the goal of 22 hp is reached with 150 GBP and 5 h.
func TestSpendByStageAndToTheGoal(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":            "[units]\nmoney = \"GBP\"\npower = \"hp\"\n[goals]\npower.peak = \"22 hp\"\n",
		"parts.toml":            "[bearing]\nprice = 30\n[pipe]\nprice = 70\n",
		"tools.toml":            "[roller]\nfor = [\"power\"]\nrepeatability = \"0.1 hp\"\n",
		"entries/2026-03-01.md": "```toml\nhours = 1\nspent = [{ for = \"oil\", price = 10 }]\n[[pulls]]\ndyno = \"roller\"\npeak = [\"20.0 hp\"]\n```\n",
		"entries/2026-03-08.md": "```toml\nhours = 1\nfitted = [\"bearing\"]\n```\n",
		"entries/2026-04-01.md": "```toml\nhours = 3\nfitted = [\"pipe\"]\nspent = [{ for = \"dyno\", price = 40 }]\n[[pulls]]\ndyno = \"roller\"\nstate = \"before\"\npeak = [\"20.1 hp\"]\n[[pulls]]\ndyno = \"roller\"\npeak = [\"22.1 hp\"]\n```\n",
		"entries/2026-05-01.md": "```toml\nhours = 2\nspent = [{ for = \"cake\", price = 5 }]\n```\n",
	}))
	checkSite(t, m)
	got := words(m, "spend.html")
	for _, want := range []string{
		"To power.peak 150 GBP and 5 h , reached 2026-04-01",
		"2026-03-01 before the first stage 10 GBP 2026-04-01 before its work 30 GBP 0.10 ± 0.28 hp 2026-04-01 110 GBP 2.00 ± 0.28 hp 55 GBP a hp since 5 GBP",
	} {
		if !strings.Contains(strings.ReplaceAll(got, thinSpace, " "), want) {
			t.Errorf("it doesn't say %q:\n%s", want, got)
		}
	}
}

// By hand: what was spent by the end of pulls that no gain is told of is no price of the gain after them. After the hidden session came a chain and a cam, 90 GBP,
// before pulls of which the journal can't say from where they came; then 30 GBP for 1 hp. Pulls that only measured again cost 25 GBP; then 12 GBP for 1 hp.
func TestWhatIsSpentBetweenStages(t *testing.T) {
	pulls := func(peak string) string {
		return "[[pulls]]\ndyno = \"roller\"\npeak = [\"" + peak + "\"]\n```\n"
	}
	m := rendered(t, inMemory(map[string]string{
		"build.toml":            "[units]\nmoney = \"GBP\"\npower = \"hp\"\n[site]\nhide = [\"secret\"]\n",
		"parts.toml":            "[pipe]\nprice = 70\n[jets]\nprice = 8\n[cam]\nprice = 50\n[airbox]\nprice = 30\n[plug]\nprice = 12\n",
		"tools.toml":            "[roller]\nfor = [\"power\"]\nrepeatability = \"0.1 hp\"\n",
		"entries/2026-03-01.md": "```toml\n" + pulls("20.0 hp"),
		"entries/2026-04-01.md": "```toml\nfitted = [\"pipe\"]\n" + pulls("22.0 hp"),
		"entries/2026-04-10.md": "```toml\ntags = [\"secret\"]\nfitted = [\"jets\"]\n" + pulls("22.5 hp"),
		"entries/2026-04-15.md": "```toml\nspent = [{ for = \"chain\", price = 40 }]\n```\n",
		"entries/2026-04-20.md": "```toml\nfitted = [\"cam\"]\n" + pulls("23.5 hp"),
		"entries/2026-05-01.md": "```toml\nfitted = [\"airbox\"]\n" + pulls("24.5 hp"),
		"entries/2026-06-01.md": "```toml\nspent = [{ for = \"dyno\", price = 25 }]\n" + strings.Replace(pulls("24.6 hp"), "dyno =", "state = \"before\"\ndyno =", 1),
		"entries/2026-06-10.md": "```toml\nfitted = [\"plug\"]\n" + pulls("25.6 hp"),
	}))
	checkSite(t, m)
	got := strings.ReplaceAll(words(m, "spend.html"), thinSpace, " ")
	want := "2026-03-01 before the first stage 2026-04-01 70 GBP 2.00 ± 0.28 hp 35 GBP a hp 2026-04-20 before the next stage 90 GBP 2026-05-01 30 GBP 1.00 ± 0.28 hp 30 GBP a hp" +
		" 2026-06-01 before the next stage 25 GBP 2026-06-10 12 GBP 1.00 ± 0.28 hp 12 GBP a hp since"
	if !strings.Contains(got, want) {
		t.Errorf("it doesn't say %q:\n%s", want, got)
	}
}
