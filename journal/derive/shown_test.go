package derive_test

import (
	"testing"
	"testing/fstest"
)

// What stands between the digits of its inputs is told a digit finer; what doesn't isn't.
func TestNumbersAreNotRoundedAway(t *testing.T) {
	r := compile(t, fstest.MapFS{
		"build.toml":  {Data: []byte("[engine]\nrocker-ratio = { intake = 1.4, exhaust = 1.4 }\n")},
		"limits.toml": {Data: []byte("[lash]\nintake = \"0.15 ± 0.03 mm\"\nexhaust = \"0.15 ± 0.03 mm\"\n")},
		"entries/2026-03-01-a.md": {Data: []byte("```toml\n[found]\nlash.intake = \"0.1 mm\"\nlash.exhaust = \"0 mm\"\ncam.intake.centre = \"107° ATDC\"\ncam.exhaust.centre = \"110° BTDC\"\n" +
			"cam.intake.lift = \"6 mm\"\nspring.intake = { installed = \"33 mm\", solid = \"24 mm\" }\ncam.exhaust.lift = \"5 mm\"\nspring.exhaust = { installed = \"33 mm\", solid = \"24 mm\" }\n```\n")},
	})
	for path, want := range map[string]string{
		"deviation.intake": "−0.05 mm", "deviation.exhaust": "−0.15 mm", "cam.separation": "108.5°", "cam.advance": "1.5°",
		"margin.coil-bind.intake": "0.6 mm", "margin.coil-bind.exhaust": "2 mm",
	} {
		n := numberAt(r.Sums.Now(), path)
		if n == nil {
			t.Errorf("%s: there is none", path)
			continue
		}
		if got := n.Shown().String(); got != want {
			t.Errorf("%s: %s (%s), want %s", path, got, n.Reason, want)
		}
	}
}
