package rule_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// A clearance that is out is the doing of one of the two sizes: both are shown, the one by the place of the finding, and the limit.
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
		shown = append(shown, f.Rule+" at "+f.At.Text())
		for _, note := range f.Notes {
			shown = append(shown, f.Rule+" "+note.Message+" "+note.At.Text())
		}
	}
	for _, want := range []string{"out-of-limits at \"53.09 mm\"", "out-of-limits limit nominal = \"0.04 mm\"", "out-of-limits `bore-size` \"53.00 mm\""} {
		if !slices.Contains(shown, want) {
			t.Errorf("%q lacks %q", shown, want)
		}
	}
}

// A limit with a line for each bound is shown at the one that counts, a part's as a sheet's.
func TestTheRemarkPointsAtTheBoundThatCounts(t *testing.T) {
	const limit = "low = \"0.10 mm\"\nhigh = \"0.20 mm\"\nservice = \"0.05..0.40 mm\"\n"
	for _, holder := range []struct{ name, file, text string }{
		{"a sheet's", "limits.toml", "[float.idler]\n" + limit},
		{"a part's", "parts.toml", "[shaft]\n[shaft.limits.float.idler]\n" + limit},
	} {
		for _, read := range []struct{ value, want string }{
			{"0.105 ± 0.010 mm", "near-bound low = \"0.10 mm\""},
			{"0.195 ± 0.010 mm", "near-bound high = \"0.20 mm\""},
			{"0.11 ± 0.20 mm", "near-bound low = \"0.10 mm\""}, // both lie within
			{"0.19 ± 0.20 mm", "near-bound high = \"0.20 mm\""},
			{"0.08 mm", "worn low = \"0.10 mm\""},
			{"0.30 mm", "worn high = \"0.20 mm\""},
			{"0.04 mm", "out-of-limits service = \"0.05..0.40 mm\""},
			{"0.45 mm", "out-of-limits service = \"0.05..0.40 mm\""},
			{"0.08..0.12 mm", "undecided low = \"0.10 mm\""},
			{"0.18..0.22 mm", "undecided high = \"0.20 mm\""},
			{"1.5 mm", "suspected-slip high = \"0.20 mm\""},
		} {
			files := fstest.MapFS{
				"build.toml":            {Data: []byte("fitted = [\"shaft\"]\n")},
				"parts.toml":            {Data: []byte("[shaft]\n")},
				"entries/2026-03-01.md": {Data: []byte("```toml\n[found]\nfloat.idler = \"" + read.value + "\"\n```\n")},
			}
			files[holder.file] = &fstest.MapFile{Data: []byte(holder.text)}
			result, err := journal.Compile(files, journal.Options{SkipHTML: true})
			if err != nil {
				t.Fatal(err)
			}
			if len(result.Findings) != 1 || len(result.Findings[0].Notes) != 1 {
				t.Errorf("%s limit, %s: %+v", holder.name, read.value, result.Findings)
				continue
			}
			f := result.Findings[0]
			if got := f.Rule + " " + f.Notes[0].At.Text(); got != read.want {
				t.Errorf("%s limit, %s: %s, want %s", holder.name, read.value, got, read.want)
			}
		}
	}
}

// What may be a slip, and may be so, says both: 10 kgf·m is 98 N·m, and a valve at a tenth of its lash may be tight.
func TestWhatMayBeMistypedSaysWhatItMayBe(t *testing.T) {
	for _, r := range []struct{ limits, reading, want string }{
		{"[torque]\ncap = \"10 ± 1 N·m\"\n", "torque.cap = \"10 kgf·m\"", "the unit, or the decimal place? 10 N·m or 1.0 kgf·m would be inside: write that if it is what was set; if it was set as it is written, slacken the fastener"},
		{"[torque]\nhead = \"46 ± 3 N·m\"\n", "torque.head = \"46 lbf·ft\"", "the unit, or the decimal place? 46 N·m would be inside"},
		{"[torque]\nhead = \"46 ± 3 N·m\"\n", "torque.head = \"4.6 N·m\"", "would be inside: write that if it is what was set; if it was set as it is written, put it right"},
		{"[lash]\nintake = \"0.10 ± 0.02 mm\"\n", "lash.intake = \"0.010 mm\"", "a decimal place too few? 0.10 mm would be inside: write that if it is what was read; if not, measure again"},
		{"[compression]\nlow = \"1100 kPa\"\nhigh = \"1500 kPa\"\n", "compression = \"123 kPa\"", "a decimal place too few? 1230 kPa would be inside"},
		{"[torque]\nhead = \"46 ± 3 N·m\"\n", "torque.head = \"64 N·m\"", "slacken the fastener"},
	} {
		files := fstest.MapFS{"build.toml": {}, "limits.toml": {Data: []byte(r.limits)}, "entries/2026-03-01.md": {Data: []byte("```toml\n[set]\n" + r.reading + "\n```\n")}}
		result, err := journal.Compile(files, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		if len(result.Findings) != 1 || result.Findings[0].Rule != "out-of-limits" || !strings.Contains(result.Findings[0].Do, r.want) {
			t.Errorf("%s: %+v; want one finding, which advises %q", r.reading, result.Findings, r.want)
		}
	}
}
