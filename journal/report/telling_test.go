package report

import (
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// What a finding about one entry or sheet tells of another, that it read something or when it was, is told to nobody where an entry is hidden.
func TestFindingsTellNothingOfHiddenEntries(t *testing.T) {
	for rule, entry := range map[string]string{
		"coarse-tool":   "with = [\"dial\"]\n[found]\nfloat.idler = \"0.025 mm\"\n",
		"before-bought": "bought = [\"cam\"]\n",
		"far-off-date":  "",
		// A number tells the readings that it rests on, though it is one of them alone that is pointed at.
		"out-of-limits": "[found]\nbore = \"20.19 mm\"\npiston = \"20.00 mm\"\n",
		"worn":          "[found]\nbore = \"20.13 mm\"\npiston = \"20.00 mm\"\n",
		"near-bound":    "[found]\nbore = \"20.09 ± 0.02 mm\"\npiston = \"20.00 mm\"\n",
		// That a lash was read before a shim was changed tells that it was read.
		"lash-before-shim": "[found]\nlash.intake = \"0.10 mm\"\n",
	} {
		for hide, want := range map[string]bool{`[]`: true, `["private"]`: false, `["spend"]`: true} {
			result, err := journal.Compile(fstest.MapFS{
				"build.toml":            {Data: []byte("[site]\nhide = " + hide + "\n")},
				"limits.toml":           {Data: []byte("[float]\nidler = \"0.02..0.03 mm\"\n[clearance.skirt]\nof = [\"bore\", \"piston\"]\nhigh = \"0.10 mm\"\nservice = \"..0.15 mm\"\n")},
				"parts.toml":            {Data: []byte("[cam]\n")},
				"tools.toml":            {Data: []byte("[dial]\nfor = [\"float\"]\nresolution = \"0.01 mm\"\n")},
				"entries/2026-02-01.md": {Data: []byte("```toml\nfitted = [\"cam\"]\n```\n")},
				"entries/2026-03-01.md": {Data: []byte("```toml\ntags = [\"private\"]\n" + entry + "```\n")},
				"entries/2026-03-08.md": {Data: []byte("```toml\n[set]\nshim.intake = \"2.20 mm\"\n```\n")},
				"entries/9999-01-01.md": {Data: []byte("```toml\n```\n")},
			}, journal.Options{SkipHTML: true})
			if err != nil {
				t.Fatal(err)
			}
			publication := Publish(result)
			found := false
			for i := range result.Findings {
				if f := &result.Findings[i]; f.Rule == rule {
					found = true
					if got := publication.ShowsFinding(f); got != want {
						t.Errorf("with %s hidden %s is shown: %t", hide, rule, got)
					}
				}
			}
			if !found {
				t.Fatalf("with %s hidden nothing is found by %s: %v", hide, rule, result.Findings)
			}
		}
	}
}
