package rule_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
)

// logged compiles a journal of one log and returns its findings.
func logged(t *testing.T, limits, csv string) []source.Finding {
	t.Helper()
	result, err := journal.Compile(fstest.MapFS{
		"build.toml":                 {Data: []byte("[fuelling]\nfuel = \"E10\"\ntarget = \"\"\"\nlambda 4000 8000\n50 0.92 0.90\n100 0.90 0.88\n\"\"\"\n")},
		"limits.toml":                {Data: []byte(limits)},
		"data/ride.csv":              {Data: []byte(csv)},
		"entries/2026-05-02-ride.md": {Data: []byte("```toml\n[[fuelling]]\ndata = \"data/ride.csv\"\n```\n")},
	}, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	return result.Findings
}

// A meter that counts by 14.7 shows 13.0 at lambda 0.884; read by the 14.1 of E10 that is 0.922: leaner than it was.
func TestARatioByTheWrongScaleWasRicher(t *testing.T) {
	var said string
	for _, f := range logged(t, "", "time [s],rpm,throttle [%],AFR\n0,4000,50,13.0\n1,4000,50,13.0\n2,4000,50,13.0\n") {
		if f.Rule == "guessed-ratio" {
			said = f.Message
		}
	}
	if !strings.Contains(said, "it was richer by 4") {
		t.Errorf("it says %q, want that the mixture was richer by 4 %%", said)
	}
}

// Nobody typed the figures of a log: one that is far out is out, and no slip.
func TestAFigureOfALogIsNoSlip(t *testing.T) {
	for _, f := range logged(t, "oil.pressure = \"4.0..4.4 bar\"\n", "time [s],rpm,throttle [%],lambda,oil.pressure [bar]\n0,4000,50,0.92,4.2\n1,4000,50,0.92,0.40\n2,4000,50,0.92,4.1\n") {
		if f.Rule != "out-of-limits" || f.At.Text() != "0.40" || len(f.Fixes) > 0 {
			t.Errorf("%s at %q with %d fixes: %s", f.Rule, f.At.Text(), len(f.Fixes), f.Message)
		}
	}
}
