package rule_test

import (
	"slices"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// A clearance that is out is the doing of one of the two sizes: both are shown.
func TestAWorkedOutNumberThatIsOutShowsItsFigures(t *testing.T) {
	files := fstest.MapFS{
		"build.toml":            {},
		"limits.toml":           {Data: []byte("[clearance.piston]\nof = [\"bore-size\", \"piston.skirt\"]\nnominal = \"0.04 mm\"\ntolerance = \"0.02 mm\"\n")},
		"entries/2026-03-01.md": {Data: []byte("```toml\n[found]\nbore-size = \"53.00 mm\"\npiston.skirt = \"53.09 mm\"\n```\n")},
	}
	result, err := journal.Compile(files, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	var shown []string
	for _, f := range result.Findings {
		for _, note := range f.Notes {
			shown = append(shown, f.Rule+" "+note.Message+" "+note.At.Text())
		}
	}
	for _, want := range []string{"out-of-limits `bore-size` \"53.00 mm\"", "out-of-limits `piston.skirt` \"53.09 mm\""} {
		if !slices.Contains(shown, want) {
			t.Errorf("%q lacks %q", shown, want)
		}
	}
}
