package rule_test

import (
	"slices"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// A reading above several limits is out for some of them: it is said for which.
func TestAReadingAboveSeveralLimitsSaysByWhich(t *testing.T) {
	for reading, want := range map[string]string{
		`lash = "6 thou"`:                       "`lash` is 6 thou: below the limit of 8 thou by 2 thou, at `lash.exhaust`",
		`lash = "20 thou"`:                      "`lash` is 20 thou: above the limit of 10 thou by 10 thou, at `lash.exhaust`; it is out at `lash.intake` too",
		`lash.exhaust = "6 thou"`:               "`lash.exhaust` is 6 thou: below the limit of 8 thou by 2 thou",
		`lash.exhaust.left = "6 thou"`:          "`lash.exhaust.left` is 6 thou: below the limit of 8 thou by 2 thou",
		`float = "0.30 mm"`:                     "`float` is 0.30 mm: above the limit of 0.20 mm by 0.10 mm, at `float.idler`",
		`lash = "7..9 thou"`:                    "`lash` is 7..9 thou, which straddles a bound: the limit is 8 to 10 thou, at `lash.exhaust`; it is undecided at `lash.intake` too",
		`lash = ["5 thou", "8 thou"]`:           "the repeats at `lash` lie on both sides of a bound: 5 thou, 8 thou; the limit is 8 to 10 thou, at `lash.exhaust`; it is undecided at `lash.intake` too",
		`spring = "38.5 mm"`:                    "`spring` is 38.5 mm: below standard (39.0 mm), inside service (38.0 mm), at `spring.inner`",
		`mark = "late"`:                         "`mark` is `late`; it should be `aligned`, at `mark.cam`",
		`gasket = { value = "1.02 ± 0.01 mm" }`: "`gasket` is 1.02 ± 0.01 mm, and the limit asks for proof: it is unsure by 0.010 mm; the limit is at most 1.025 mm, at `gasket.head`",
	} {
		result, err := journal.Compile(fstest.MapFS{
			"build.toml": {},
			"limits.toml": {Data: []byte("[lash]\nintake = \"5..7 thou\"\nexhaust = \"8..10 thou\"\n[float]\nidler = \"..0.20 mm\"\n[spring.inner]\nlow = \"39.0 mm\"\nservice = \"38.0 mm..\"\n" +
				"[spring.outer]\nlow = \"38.0 mm\"\n[mark]\ncam = \"aligned\"\n[gasket.head]\nhigh = \"1.025 mm\"\ndecision = \"guarded\"\n")},
			"entries/2026-03-01.md": {Data: []byte("```toml\n[found]\n" + reading + "\n```\n")},
		}, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range result.Findings {
			got = append(got, f.Message)
		}
		if !slices.Contains(got, want) {
			t.Errorf("%s: %q, want %q", reading, got, want)
		}
	}
}
