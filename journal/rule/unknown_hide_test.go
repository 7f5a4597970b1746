package rule_test

import (
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// A tag is known whatever the moment that counts: what it hides is only not there yet.
func TestATagOfALaterEntryIsKnown(t *testing.T) {
	files := fstest.MapFS{
		"build.toml":            {Data: []byte("[site]\nhide = [\"at-home\"]\n")},
		"entries/2026-03-01.md": {Data: []byte("```toml\ntags = [\"oil\"]\n```\n")},
		"entries/2026-03-08.md": {Data: []byte("```toml\ntags = [\"at-home\"]\n```\n")},
	}
	for _, asOf := range []string{"2026-03-01", "2026-03-01.md", "2026-03-08", ""} {
		result, err := journal.Compile(files, journal.Options{AsOf: asOf, SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		if result.NoSite != "" || len(result.Findings) > 0 {
			t.Errorf("as of %q: %s, and %v", asOf, result.NoSite, result.Findings)
		}
	}
	files["build.toml"].Data = []byte("[site]\nhide = [\"at-hoem\"]\n")
	result, err := journal.Compile(files, journal.Options{AsOf: "2026-03-01", SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	if result.NoSite == "" || len(result.Findings) != 1 || result.Findings[0].Do != "did you mean `at-home`?" {
		t.Errorf("a name that no entry has: %q, %v", result.NoSite, result.Findings)
	}
}
