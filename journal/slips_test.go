package journal_test

import (
	"encoding/csv"
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/quantity"
)

// TestSlips holds thirty typed slips and thirty merely bad readings against the rule that tells them apart. They were worked out apart
// from the program, with exact fractions; slips.md says how.
func TestSlips(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(readFile(t, "../testdata/slips.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	slips, bad := 0, 0
	for _, row := range rows[1:] {
		at, limit, typed, kind, meant := row[0], row[1], row[2], row[3], row[4]
		t.Run(at+" "+typed, func(t *testing.T) {
			rule, offer := verdictOn(t, at, limit, typed)
			if kind == "bad" {
				bad++
				if rule != "out-of-limits" {
					t.Errorf("%s with the limit %s: %s; want out-of-limits: it is a bad reading, not a slip", typed, limit, rule)
				}
				return
			}
			slips++
			if rule != "suspected-slip" {
				t.Fatalf("%s with the limit %s: %s; want suspected-slip (%s)", typed, limit, rule, kind)
			}
			if !sameQuantity(t, offer, meant) {
				t.Errorf("%s with the limit %s: offered %s; meant %s", typed, limit, offer, meant)
			}
		})
	}
	if slips < 30 || bad < 30 {
		t.Errorf("%d slips and %d bad readings; want 30 of each", slips, bad)
	}
}

// verdictOn compiles a journal of one reading and returns the rule that it breaks and the text that is offered.
func verdictOn(t *testing.T, at, limit, typed string) (rule, offer string) {
	t.Helper()
	parent, last := at[:strings.LastIndexByte(at, '.')], at[strings.LastIndexByte(at, '.')+1:]
	folder := fstest.MapFS{
		"build.toml":                 {Data: []byte("[engine]\ncylinders = [\"left\", \"right\"]\n")},
		"limits.toml":                {Data: fmt.Appendf(nil, "[%s]\n%s = %q\n", parent, last, limit)},
		"entries/2026-03-01-slip.md": {Data: fmt.Appendf(nil, "```toml\n[set]\n%s = %q\n```\n", at, typed)},
	}
	r, err := journal.Compile(folder, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Findings) != 1 {
		t.Fatalf("%d findings, want one: %v", len(r.Findings), r.Findings)
	}
	f := r.Findings[0]
	if len(f.Fixes) > 0 {
		offer = f.Fixes[0].Edits[0].Text
	}
	return f.Rule, offer
}

func sameQuantity(t *testing.T, a, b string) bool {
	t.Helper()
	var si [2]float64
	var dimension [2]quantity.Dimension
	for i, text := range []string{a, b} {
		written, slip := quantity.Parse(text)
		if slip != nil {
			t.Fatalf("%q is no quantity: %s", text, slip.Message)
		}
		q, slip := written.Resolve(quantity.Want{})
		if slip != nil {
			t.Fatalf("%q is no quantity: %s", text, slip.Message)
		}
		si[i], dimension[i] = q.SI(), q.Unit.Dimension
	}
	return dimension[0] == dimension[1] && quantity.Compare(si[0], si[1], 0) == 0
}
