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
