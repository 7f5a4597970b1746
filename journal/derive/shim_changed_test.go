package derive_test

import (
	"slices"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal/derive"
)

// A lash belongs to the shim that it was read with. By hand, with the middle of 5 and 7 thou at 6 thou = 0.1524 mm and that of 4 and 5 thou at
// 0.1143 mm: 2.20 + (0.1143 − 0.1524) = 2.1619 mm is what the found shim asks for; reckoned with the one that went in it would be one size too thin.
func TestNoShimIsReckonedFromALashReadWithAnother(t *testing.T) {
	const found = "[found]\nlash.intake.left = \"4..5 thou\"\nshim.intake.left = \"2.20 mm\"\n"
	const changed = "the shim was changed after the lash was read: read it again"
	for name, c := range map[string]struct {
		first, later          string
		asFirst, now, deviate string // a reason, or a figure in mm; deviate is as it is now
	}{
		"changed by the entry that read it": {found + "[set]\nshim.intake.left = \"2.15 mm\"\n", "", "2.1619", changed, changed},
		"and read again by it":              {found + "[set]\nshim.intake.left = \"2.15 mm\"\nlash.intake.left = \"0.150 mm\"\n", "", "2.1476", "2.1476", "-0.0024"},
		"changed by a later entry":          {found, "[set]\nshim.intake.left = \"2.15 mm\"\n", "2.1619", changed, changed},
		"another found in by a later one":   {found, "[found]\nshim.intake.left = \"2.15 mm\"\n", "2.1619", changed, changed},
		"the same one measured again":       {found, "[found]\nshim.intake.left = \"2.195 mm\"\n", "2.1619", "2.1569", "-0.0381"},
		"put back":                          {found, "[set]\nshim.intake.left = \"2.20 mm\"\n", "2.1619", "2.1619", "-0.0381"},
		"first measured after the lash":     {"[found]\nlash.intake.left = \"4..5 thou\"\n", "[found]\nshim.intake.left = \"2.20 mm\"\n", "not given: shim.intake.left", "2.1619", "-0.0381"},
		"put in where none was known":       {"[found]\nlash.intake.left = \"4..5 thou\"\n", "[set]\nshim.intake.left = \"2.20 mm\"\n", "not given: shim.intake.left", changed, changed},
		"put in by the entry, none known":   {"[found]\nlash.intake.left = \"4..5 thou\"\n[set]\nshim.intake.left = \"2.20 mm\"\n", "", changed, changed, changed},
		"brought by a part":                 {found, "fitted = [\"shims\"]\n", "2.1619", changed, changed},
		"changed, and the lash found later": {found + "[set]\nshim.intake.left = \"2.15 mm\"\n", "[found]\nlash.intake.left = \"0.150 mm\"\n", "2.1619", "2.1476", "-0.0024"},
		"changed for both valves at once":   {found, "[set]\nshim.intake = \"2.15 mm\"\n", "2.1619", changed, changed},
	} {
		files := fstest.MapFS{
			"build.toml":              {Data: []byte("[engine]\ncylinders = [\"left\", \"right\"]\nadjuster = { kind = \"shim\" }\n")},
			"limits.toml":             {Data: []byte("[lash]\nintake = \"5..7 thou\"\n")},
			"parts.toml":              {Data: []byte("[shims]\nbrings.shim.intake.left = \"2.15 mm\"\n")},
			"entries/2026-03-01-l.md": {Data: []byte("```toml\n" + c.first + "```\n")},
			"entries/2026-03-08-l.md": {Data: []byte("```toml\n" + c.later + "```\n")},
		}
		result := compile(t, files)
		asFirst := result.Sums.AsLeft(result.Journal.Entry("2026-03-01-l"))
		for _, want := range []struct {
			when, path, is string
			numbers        []*derive.Number
		}{
			{"as the first entry left it", "shim-to-fit.intake.left", c.asFirst, asFirst},
			{"now", "shim-to-fit.intake.left", c.now, result.Numbers},
			{"now", "deviation.intake.left", c.deviate, result.Numbers},
		} {
			i := slices.IndexFunc(want.numbers, func(n *derive.Number) bool { return n.Path == want.path })
			if i < 0 {
				t.Errorf("%s, %s: no %s", name, want.when, want.path)
				continue
			}
			n := want.numbers[i]
			if n.Reason != want.is && (n.Reason != "" || !agrees(n.Estimate.Value*1e3, want.is)) {
				t.Errorf("%s, %s: %s, want %s", name, want.when, printed(n), want.is)
			}
		}
	}
}
