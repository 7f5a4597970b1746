package model_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/locknut/journal/quantity"
)

// The causes of uncertainty and their factors are those of the GUM (JCGM 100:2008, from memory, recomputed from the definitions): an
// expanded figure is halved (k = 2), a greatest permitted error is rectangular (a/√3, 4.3.7), a resolution is rectangular over one step
// (r/√12, F.2.2.1), a bracket between its ends, and repeats give s/√n (4.2.3).
func TestCausesOfUncertainty(t *testing.T) {
	const mm = 1e-3
	for _, row := range []struct {
		name, tool, reading string
		std                 float64 // in SI
	}{
		{"nothing is known", "", `"0.10 mm"`, 0},
		{"± in the reading is halved", "", `"0.10 ± 0.02 mm"`, 0.01 * mm},
		{"± speaks over the tool", `error = "0.5 mm"`, `"0.10 ± 0.02 mm"`, 0.01 * mm},
		{"± in per cent", "", `"20 mm ± 5 %"`, 0.5 * mm},
		{"expanded uncertainty of the tool", `uncertainty = "0.02 mm"`, `"0.10 mm"`, 0.01 * mm},
		{"greatest permitted error", `error = "0.03 mm"`, `"0.10 mm"`, 0.03 / math.Sqrt(3) * mm},
		{"greatest permitted error, in per cent of the reading", `error = "4 %"`, `"20 mm"`, 0.8 / math.Sqrt(3) * mm},
		{"resolution", `resolution = "0.01 mm"`, `"0.10 mm"`, 0.01 / math.Sqrt(12) * mm},
		{"resolution in another unit", `resolution = "1 thou"`, `"0.10 mm"`, 0.0254 / math.Sqrt(12) * mm},
		{"repeatability", `repeatability = "0.01 mm"`, `"0.10 mm"`, 0.01 * mm},
		{"repeatability in per cent", `repeatability = "1 %"`, `"20 mm"`, 0.2 * mm},
		{"a bracket, between its ends", "", `"0.10..0.13 mm"`, 0.03 / math.Sqrt(12) * mm},
		{"a bracket has no resolution", `resolution = "0.01 mm"`, `"0.10..0.13 mm"`, 0.03 / math.Sqrt(12) * mm},
		{"half a bracket says nothing", "", `"0.10.. mm"`, 0},
		{"repeats: s/√n", "", `["9.1 mm", "9.3 mm", "9.2 mm"]`, 0.1 / math.Sqrt(3) * mm},
		{"repeats speak over repeatability", `repeatability = "1 mm"`, `["9.1 mm", "9.3 mm", "9.2 mm"]`, 0.1 / math.Sqrt(3) * mm},
		{"repeats don't average the tool's error away", `error = "0.3 mm"`, `["9.2 mm", "9.2 mm", "9.2 mm"]`, 0.3 / math.Sqrt(3) * mm},
		{"nor what stands after ±", "", `["9.2 ± 0.2 mm", "9.2 ± 0.4 mm"]`, 0.2 * mm},
		{"all at once, in quadrature", "uncertainty = \"0.02 mm\"\nerror = \"0.03 mm\"\nresolution = \"0.01 mm\"", `"0.10 mm"`,
			math.Sqrt(0.01*0.01+0.0003+0.0001/12) * mm},
	} {
		files := fmt.Sprintf("-- tools.toml --\n[tool]\nfor = [\"clearance\"]\n%s\n-- 2026-01-01.md --\nwith = [\"tool\"]\n[set]\nclearance.x = %s\n", row.tool, row.reading)
		j := compile(t, files, "").Journal
		about(t, row.name, valueOf(t, j, "2026-01-01/set/clearance.x").Estimate.Std(), row.std)
	}
}

func TestTemperaturesHaveDifferencesForUncertainty(t *testing.T) {
	for tool, std := range map[string]float64{`resolution = "1 °C"`: 1 / math.Sqrt(12), "range = \"0..150 °C\"\nerror = \"2 °C\"": 2 / math.Sqrt(3), `error = "9 °F"`: 5 / math.Sqrt(3), `uncertainty = "2 K"`: 1} {
		j := compile(t, "-- tools.toml --\n[probe]\nfor = [\"oil.temp\"]\n"+tool+"\n-- 2026-01-01.md --\nwith = [\"probe\"]\n[set]\noil.temp = \"90 °C\"\n", "").Journal
		about(t, tool, valueOf(t, j, "2026-01-01/set/oil.temp").Estimate.Std(), std)
	}
}

// What a tool gets wrong in the same way each time is one cause: in a difference of two readings it cancels. What each reading gets wrong
// for itself doesn't.
func TestReadingsShareTheirTool(t *testing.T) {
	j := compile(t, `
-- tools.toml --
[mic]
for = ["bore", "piston"]
error = "0.03 mm"
resolution = "0.01 mm"
-- 2026-01-01.md --
with = ["mic"]
[set]
bore.left = "53.02 mm"
piston.left = "52.98 mm"
`, "").Journal
	bore, piston := valueOf(t, j, "2026-01-01/set/bore.left"), valueOf(t, j, "2026-01-01/set/piston.left")
	about(t, "covariance", quantity.Covariance(bore.Estimate, piston.Estimate), 0.03*0.03/3*1e-6)
	difference := quantity.Combine(0, quantity.Length, quantity.Term{Partial: 1, Of: bore.Estimate}, quantity.Term{Partial: -1, Of: piston.Estimate})
	about(t, "uncertainty of the difference", difference.Std(), math.Sqrt(2)*0.01/math.Sqrt(12)*1e-3)
}

// A figure that lies within its expanded uncertainty of a bound is near it; on the very edge of that it isn't.
func TestFiguresNearABound(t *testing.T) {
	for reading, near := range map[string]bool{
		"0.110 ± 0.010 mm": false, // 0.120 is exactly its uncertainty away
		"0.110 ± 0.011 mm": true,
		"0.121 ± 0.002 mm": true, // out, but might be in
		"0.095 ± 0.004 mm": false,
		"0.11..0.12 mm":    false, // a bracket is decided by its ends
	} {
		j := compile(t, "-- limits.toml --\n[clearance]\nhigh = \"0.12 mm\"\n-- 2026-01-01.md --\n[set]\nclearance.x = \""+reading+"\"\n", "").Journal
		if _, got := valueOf(t, j, "2026-01-01/set/clearance.x").IsNear(); got != near {
			t.Errorf("%s against 0.12 mm: near %v, want %v", reading, got, near)
		}
	}
}

// The tool of a reading: its own, else the only one of the entry's that is for its path.
func TestTheToolOfAReading(t *testing.T) {
	const text = `
-- tools.toml --
[feeler]
for = ["lash"]
[gauge]
for = ["lash.exhaust", "float"]
[other]
for = ["lash"]
-- 2026-01-01.md --
with = ["feeler", "gauge"]
[set]
lash.intake.left = "0.10 mm"
lash.exhaust.left = "0.10 mm"
lash.intake.right = { value = "0.10 mm", with = "other" }
float.cam = "0.10 mm"
chain.slack = "30 mm"
`
	j := compile(t, text, "").Journal
	for path, want := range map[string]string{"lash.intake.left": "feeler", "lash.exhaust.left": "", "lash.intake.right": "other", "float.cam": "gauge", "chain.slack": ""} {
		got := ""
		if tool := valueOf(t, j, "2026-01-01/set/"+path).Tool; tool != nil {
			got = tool.Name
		}
		if got != want {
			t.Errorf("%s was read with %q, want %q", path, got, want)
		}
	}
}
