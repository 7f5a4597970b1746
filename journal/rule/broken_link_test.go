package rule_test

import (
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// What a mistyped link was meant for is offered, a worked-out number as much as a reading, and with the entry that it was asked of.
func TestBrokenLinksToValuesAreOfferedWhatIsNear(t *testing.T) {
	files := fstest.MapFS{
		"build.toml":  {Data: []byte("[engine]\ncylinders = [\"left\", \"right\"]\nbore = \"53 mm\"\nstroke = \"56.4 mm\"\n")},
		"limits.toml": {Data: []byte("[clearance.piston]\nof = [\"bore\", \"piston\"]\nlow = \"0.015 mm\"\nhigh = \"0.045 mm\"\n[clearance.small-end]\nof = [\"rod\", \"pin\"]\nhigh = \"0.02 mm\"\n[chain.slack]\nhigh = \"35 mm\"\n")},
	}
	const head = "```toml\n[found]\nbore.left = \"53.00 mm\"\npiston.left = \"52.97 mm\"\nfloat.idler = \"0.1 mm\"\n```\n"
	for _, c := range []struct{ target, do string }{
		{"value:clerance.piston.left", "did you mean `value:clearance.piston.left`?"},
		{"value:clerance.small-end", "did you mean `value:clearance.small-end`?"}, // a limit that nothing is worked out for yet
		{"value:engine.displacment", "did you mean `value:engine.displacement`?"},
		{"value:float.idlre", "did you mean `value:float.idler`?"},
		{"value:2026-03-01/float.idlre", "did you mean `value:2026-03-01/float.idler`?"},
		{"value:chain.slakc", "mend the target, or take the link out"}, // a limit alone is no value
		{"limit:chain.slakc", "did you mean `limit:chain.slack`?"},
		{"value:set/clerance.piston.left", "mend the target, or take the link out"}, // a number is never set
	} {
		files["entries/2026-03-01.md"] = &fstest.MapFile{Data: []byte(head + "[x](" + c.target + ")\n")}
		result, err := journal.Compile(files, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, f := range result.Findings {
			if f.Rule != "broken-link" {
				continue
			}
			found = true
			if f.Do != c.do || f.At.Text() != c.target {
				t.Errorf("%s: at %q: %s; want %s", c.target, f.At.Text(), f.Do, c.do)
			}
		}
		if !found {
			t.Errorf("%s: no broken link", c.target)
		}
	}
}
