package rule_test

import (
	"slices"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
)

// An accept whose path is mistyped names the one that the finding of its name is about, and offers it in the place of the path.
func TestAcceptAtAMistypedPathNamesTheOneThatIsMeant(t *testing.T) {
	for at, do := range map[string]string{
		"lash intake":  "did you mean `lash.intake`?",
		"lash..intake": "did you mean `lash.intake`?",
		"lash.intaek":  "did you mean `lash.intake`?",
		"bore.top":     "take it out, or mend its name and place",
	} {
		head := "```toml\n[found]\nlash.intake = \"0.22 mm\"\n[[accept]]\nfinding = \"out-of-limits\"\nat = \"" + at + "\"\nwhy = \"So it was.\"\n```\n"
		result, err := journal.Compile(fstest.MapFS{
			"build.toml":               {Data: []byte("")},
			"limits.toml":              {Data: []byte("[lash]\nintake = \"0.10 ± 0.04 mm\"\n")},
			"entries/2026-03-01-up.md": {Data: []byte(head)},
		}, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(result.Findings, func(f source.Finding) bool { return f.Rule == "unused-accept" })
		if i < 0 {
			t.Errorf("%s: %v", at, result.Findings)
			continue
		}
		f := result.Findings[i]
		if f.Do != do || len(f.Fixes) != 0 && f.Fixes[0].Edits[0].Text != `"lash.intake"` || (len(f.Fixes) != 0) != (at != "bore.top") {
			t.Errorf("%s: %s, %v", at, f.Do, f.Fixes)
		}
	}
}
