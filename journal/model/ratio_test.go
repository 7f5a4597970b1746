package model_test

import (
	"math"
	"testing"

	"example.org/locknut/journal/model"
)

// The factors are those of the GUM (JCGM 100:2008, 4.3): half of an expanded figure is a standard deviation (k = 2), a/√3 that of a greatest error,
// r/√12 that of a step, and independent ones add in quadrature. The ratio is the width of the limit over four standard deviations, as the test
// uncertainty ratio of ANSI/NCSL Z540.3 has it (from memory). Each by hand.
func TestTheRatioOfALimitToItsTool(t *testing.T) {
	j := compile(t, `
-- limits.toml --
[torque]
mount = "40 ± 4 N·m"
nut = { nominal = "20 N·m", plus = "4 N·m" }
bolt = "18 N·m then 90 ± 5°"
flat = { low = "20 N·m", high = "20 N·m" }
[float]
idler = "0.020..0.030 mm"
wheel = "..0.05 mm"
pin = { low = "0.05 thou", high = "4 thou" }
[oil.temp]
low = "80 °C"
high = "100 °C"
[lash]
intake = "0.08 ± 0.02 mm"
[timing.marks]
expect = "aligned"
[chain.slack]
nominal = "30 mm"
[jet]
broken = "0.1..0.2 zz"
-- tools.toml --
[click-wrench]
for = ["torque"]
error = "4 %"
[certified]
for = ["torque"]
uncertainty = "1 N·m"
[all]
for = ["float"]
uncertainty = "0.006 mm"
error = "0.004 mm"
resolution = "0.01 mm"
repeatability = "0.002 mm"
[dial]
for = ["float"]
resolution = "0.01 mm"
[thermometer]
for = ["oil.temp"]
uncertainty = "2 °C"
[feeler]
for = ["lash"]
leaves = ["0.08 mm", "0.10 mm"]
[plain]
for = ["torque"]
[unclear]
for = ["torque"]
error = "4 %"
resolution = "1 mm"
`, "").Journal
	squared := func(x float64) float64 { return x * x }
	for _, want := range []struct {
		tool, limit string
		ratio       float64 // 0: none
	}{
		{"click-wrench", "torque.mount", 8 / (4 * 0.04 * 40 / math.Sqrt(3))}, // 2.165
		{"click-wrench", "torque.nut", 4 / (4 * 0.04 * 22 / math.Sqrt(3))},   // in the middle, and not at nominal
		{"certified", "torque.mount", 8.0 / 2},
		{"click-wrench", "torque.bolt", 0}, // degrees are not read off its scale
		{"certified", "torque.flat", 0},
		{"dial", "float.idler", 0.010 / (4 * 0.01 / math.Sqrt(12))}, // 0.866
		{"all", "float.idler", 0.010 / (4 * math.Sqrt(squared(0.003)+squared(0.004)/3+squared(0.01)/12+squared(0.002)))},
		{"dial", "float.pin", 3.95 * 0.0254 / (4 * 0.01 / math.Sqrt(12))},
		{"dial", "float.wheel", 0},
		{"thermometer", "oil.temp", 20.0 / 4},
		{"feeler", "lash.intake", 0},
		{"plain", "torque.mount", 0},
		{"unclear", "torque.mount", 0},
		{"click-wrench", "timing.marks", 0},
		{"click-wrench", "chain.slack", 0},
		{"click-wrench", "jet.broken", 0},
	} {
		var limit *model.Limit
		for _, l := range j.Limits {
			if l.Path == want.limit {
				limit = l
			}
		}
		ratio, ok := j.Tool(want.tool).Ratio(limit)
		if want.limit == "torque.flat" { // no width, but a ratio
			if !ok || ratio != 0 {
				t.Errorf("%s at %s: %g, %t; want nought", want.tool, want.limit, ratio, ok)
			}
			continue
		}
		if ok != (want.ratio > 0) || math.Abs(ratio-want.ratio) > 1e-9*want.ratio {
			t.Errorf("%s at %s: %g, %t; want %g", want.tool, want.limit, ratio, ok, want.ratio)
		}
	}
}

func TestARatioIsNotShownAsMoreThanItIs(t *testing.T) {
	for ratio, want := range map[float64]string{
		2.165: "2.2:1", 4: "4.0:1", 3.96: "3.96:1", 3.9999: "3.9999:1", 0.96: "0.96:1", 0.999: "0.999:1", 0.043: "0.043:1", 0.866: "0.87:1",
		12.3: "12:1", 9.97: "9.97:1", 0: "0.0:1", 1: "1.0:1", 4 - 1e-12: "4.0:1",
	} {
		if got := model.ShowRatio(ratio).String(); got != want {
			t.Errorf("%v is shown as %s, want %s", ratio, got, want)
		}
	}
}
