package rule_test

import (
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
)

// Which step of a bolt is missing or another is said, and a slip of the pen in the last one is mended without losing those before it.
func TestWhatIsSaidOfSteps(t *testing.T) {
	for reading, want := range map[string]string{
		`"15 N·m"`:                              "`torque.rod` is 15 N·m: the last step, 90 ± 5°, is missing",
		`"150 N·m then 90°"`:                    "`torque.rod` is 150 N·m then 90°: step 1 is 150 N·m, where the limit says 15 N·m",
		`"15 N·m then 40 N·m"`:                  "`torque.rod` is 15 N·m then 40 N·m: step 2 is 40 N·m, where the limit says 90 ± 5°",
		`"15 N·m then 45° then 45°"`:            "`torque.rod` is 15 N·m then 45° then 45°, 3 steps where the limit has 2: the limit is 15 N·m then 90 ± 5°",
		`"40 N·m"`:                              "`torque.rod` is 40 N·m, which is out: the limit is 15 N·m then 90 ± 5°",
		`"15 N·m then 150°"`:                    "`torque.rod` is 150°: above the limit of 95° by 55°",
		`{ value = "12 N·m", adapter = "5 cm"}`: "`torque.rod` is 15 N·m through the adapter, from a setting of 12 N·m: the last step, 90 ± 5°, is missing",
	} {
		if f := only(t, "torque.rod = "+reading); f.message != want {
			t.Errorf("%s: %q, want %q", reading, f.message, want)
		}
	}
	for reading, want := range map[string]string{
		`"10 N·m"`:             "`torque.main` is 10 N·m: the last step, 85 to 95°, is missing",
		`"10 N·m then 30 N·m"`: "`torque.main` is 10 N·m then 30 N·m: the last step, 85 to 95°, is missing",
		`"30 N·m then 90°"`:    "`torque.main` is 30 N·m then 90°, 2 steps where the limit has 3: the limit is 10 N·m then 30 N·m then 85 to 95°",
	} {
		if f := only(t, "torque.main = "+reading); f.message != want {
			t.Errorf("%s: %q, want %q", reading, f.message, want)
		}
	}
	if f := only(t, `torque.three = "10 N·m then 20 N·m"`); f.message != "`torque.three` is 10 N·m then 20 N·m: the steps from 30 N·m on are missing, the limit is 10 N·m then 20 N·m then 30 N·m then 90°" {
		t.Errorf("two of four: %q", f.message)
	}
	if f := only(t, `torque.rod = "15 N·m then 9°"`); f.rule != "suspected-slip" || f.fix != "15 N·m then 90°" {
		t.Errorf("a slip in the last step: %+v", f)
	}
}

// Figures are told with the digits that they deserve: a bound of a tolerance in another unit to two figures of that, and more only where the digits would tell nothing.
func TestDigitsOfWhatIsOut(t *testing.T) {
	for reading, want := range map[string]string{
		`torque.case = "24.0 N·m"`:       "`torque.case` is 24.0 N·m (17.70 lbf·ft): below the limit of 22.5 lbf·ft by 4.82 lbf·ft",
		`torque.case = "22.5 lbf·ft"`:    "`torque.case` is 22.5 lbf·ft: below the limit of 22.525 lbf·ft by 0.025 lbf·ft",
		`torque.cover = "12.4 N·m"`:      "`torque.cover` is 12.4 N·m: above the limit of 11 N·m by 1.4 N·m",
		`torque.cover = "8.1133 lbf·ft"`: "`torque.cover` is 8.1133 lbf·ft (11.00016 N·m): above the limit of 11 N·m by 0.0002 N·m",
	} {
		if f := only(t, reading); f.message != want {
			t.Errorf("%s: %q, want %q", reading, f.message, want)
		}
	}
}

// told is a finding without its place.
type told struct{ rule, message, fix string }

// only returns the one finding about a reading.
func only(t *testing.T, reading string) told {
	t.Helper()
	result, err := journal.Compile(fstest.MapFS{
		"build.toml": {},
		"limits.toml": {Data: []byte("[torque]\nrod = \"15 N·m then 90 ± 5°\"\nmain = \"10 N·m then 30 N·m then 85..95°\"\nthree = \"10 N·m then 20 N·m then 30 N·m then 90°\"\ncover = \"10 ± 1 N·m\"\n" +
			"[torque.case]\nnominal = \"24 lbf·ft\"\ntolerance = \"2 N·m\"\n")},
		"tools.toml":            {Data: []byte("[wrench]\nfor = [\"torque\"]\nlength = \"20 cm\"\n")},
		"entries/2026-03-01.md": {Data: []byte("```toml\nwith = [\"wrench\"]\n[set]\n" + reading + "\n```\n")},
	}, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(result.Findings) != 1 {
		t.Fatalf("%s: %d findings, want one: %+v", reading, len(result.Findings), result.Findings)
	}
	f := result.Findings[0]
	one := told{rule: f.Rule, message: f.Message}
	if len(f.Fixes) > 0 {
		one.fix = f.Fixes[0].Edits[0].Text
	}
	return one
}
