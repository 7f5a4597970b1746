package rule_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// A reading and its limit that are one another with two digits swapped: nothing says which of the two was mistyped, and another unit is no likelier, so that both are told.
func TestSwappedDigitsAreToldAsThose(t *testing.T) {
	for _, r := range []struct {
		read, limit string
		rule, told  string
		swapped     bool
	}{
		{"46 N·m", "64 ± 2 N·m", "out-of-limits", "46 N·m and 64 N·m are one another with two digits swapped: look up which was mistyped, the figure or the limit; 46 lbf·ft would be inside too; if none of this was meant, ", true},
		{"64 N·m", "46 ± 2 N·m", "out-of-limits", "64 N·m and 46 N·m are one another with two digits swapped: look up which was mistyped, the figure or the limit; if neither was, ", true},
		{"146 N·m", "164 ± 3 N·m", "out-of-limits", "146 N·m and 164 N·m are one another", true},
		{"47 N·m", "64 ± 2 N·m", "suspected-slip", "a figure in lbf·ft?", false},
		{"45 N·m", "64 ± 2 N·m", "out-of-limits", "", false},
		{"640 N·m", "64 ± 2 N·m", "suspected-slip", "a decimal place too many?", false},
	} {
		result, err := journal.Compile(fstest.MapFS{
			"build.toml":               {Data: []byte("")},
			"limits.toml":              {Data: []byte("[torque]\nhead-bolt = \"" + r.limit + "\"\n")},
			"entries/2026-03-01-up.md": {Data: []byte("```toml\n[set]\ntorque.head-bolt = \"" + r.read + "\"\n```\n")},
		}, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		if len(result.Findings) != 1 {
			t.Errorf("%s of %s: %v", r.read, r.limit, result.Findings)
			continue
		}
		f := result.Findings[0]
		if f.Rule != r.rule || !strings.Contains(f.Do, r.told) || strings.Contains(f.Do, "swapped") != r.swapped || r.swapped && len(f.Fixes) > 0 {
			t.Errorf("%s of %s: %s: %s; %s", r.read, r.limit, f.Rule, f.Message, f.Do)
		}
	}
}
