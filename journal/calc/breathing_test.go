package calc_test

import (
	"math"
	"testing"

	"example.org/locknut/journal/calc"
)

var breathingFunctions = map[string]called{
	"CrankingPressure":       {3, func(x []float64) (float64, error) { return calc.CrankingPressure(x[0], x[1], x[2]) }},
	"CurtainArea":            {2, func(x []float64) (float64, error) { return calc.CurtainArea(x[0], x[1]) }},
	"CurtainLift":            {1, func(x []float64) (float64, error) { return calc.CurtainLift(x[0]) }},
	"LowestOverHighest":      {4, calc.LowestOverHighest},
	"PeakPistonAcceleration": {3, func(x []float64) (float64, error) { return calc.PeakPistonAcceleration(x[0], x[1], x[2]) }},
	"RodRatio":               {2, func(x []float64) (float64, error) { return calc.RodRatio(x[0], x[1]) }},
	"Squish":                 {2, func(x []float64) (float64, error) { return calc.Squish(x[0], x[1]) }},
	"TrappedCompression":     {4, func(x []float64) (float64, error) { return calc.TrappedCompression(x[0], x[1], x[2], x[3]) }},
}

// refused checks that each is an error, and no figure.
func refused(t *testing.T, all map[string]func() (float64, error)) {
	t.Helper()
	for what, of := range all {
		if got, err := of(); err == nil || got != 0 {
			t.Errorf("%s: %v, %v", what, got, err)
		}
	}
}

// The second method: at top dead centre by its formula for a usual rod; else the hardest of a fine comb.
func TestPeakPistonAccelerationAgainstASecondMethod(t *testing.T) {
	for _, rod := range []float64{0.0505, 0.055, 0.059, 0.065, 0.1, 0.4} {
		hardest := 0.0
		for i := range 200_001 {
			a, err := calc.PistonAcceleration(0.1, rod, math.Pi*float64(i)/200_000, 2)
			if err != nil {
				t.Fatal(err)
			}
			hardest = max(hardest, math.Abs(a))
		}
		got, err := calc.PeakPistonAcceleration(0.1, rod, 2)
		if err != nil || math.Abs(got-hardest) > 1e-6*hardest {
			t.Errorf("rod %v: %v, %v; want %v", rod, got, err, hardest)
		}
		if top := 4 * 0.05 * (1 + 0.05/rod); rod > 0.06 && math.Abs(got-top) > 1e-12 {
			t.Errorf("rod %v: %v; want that at top dead centre, %v", rod, got, top)
		}
	}
}

// No closing angle makes the trapped ratio more than the static one, and only that at bottom dead centre makes it as much.
func TestTheTrappedRatioIsNoMoreThanTheStaticOne(t *testing.T) {
	cranks(func(stroke, rod, angle float64) {
		got, err := calc.TrappedCompression(10, stroke, rod, angle)
		if err != nil || got > 10 || got < 1 {
			t.Fatalf("stroke %v, rod %v, closing %v: %v, %v", stroke, rod, angle, got, err)
		}
	})
	if got, err := calc.TrappedCompression(10, 0.05, 0.1, math.Pi); err != nil || math.Abs(got-10) > 1e-12 {
		t.Errorf("closing at bottom dead centre: %v, %v; want 10", got, err)
	}
}

func TestEnginesThatCannotBreathe(t *testing.T) {
	refused(t, map[string]func() (float64, error){
		"a rod as long as the throw":     func() (float64, error) { return calc.RodRatio(0.05, 0.1) },
		"a piston that hits the head":    func() (float64, error) { return calc.Squish(-0.001, 0.0008) },
		"a piston that touches":          func() (float64, error) { return calc.Squish(-0.0008, 0.0008) },
		"no squish":                      func() (float64, error) { return calc.Squish(math.NaN(), 0.001) },
		"a rod too short to turn":        func() (float64, error) { return calc.PeakPistonAcceleration(0.1, 0.03, 1) },
		"a static ratio of 1":            func() (float64, error) { return calc.TrappedCompression(1, 0.05, 0.1, 2) },
		"no closing angle":               func() (float64, error) { return calc.TrappedCompression(9, 0.05, 0.1, math.NaN()) },
		"no valve":                       func() (float64, error) { return calc.CurtainArea(0, 0.007) },
		"a lift below zero":              func() (float64, error) { return calc.CurtainArea(0.027, -0.001) },
		"no valve at all":                func() (float64, error) { return calc.CurtainLift(0) },
		"no air":                         func() (float64, error) { return calc.CrankingPressure(0, 9, 1.25) },
		"a compression ratio of 1":       func() (float64, error) { return calc.CrankingPressure(101325, 1, 1.25) },
		"an exponent beyond adiabatic":   func() (float64, error) { return calc.CrankingPressure(101325, 9, 1.5) },
		"an exponent that is none":       func() (float64, error) { return calc.CrankingPressure(101325, 9, math.NaN()) },
		"one cylinder alone":             func() (float64, error) { return calc.LowestOverHighest([]float64{1e6}) },
		"a cylinder without compression": func() (float64, error) { return calc.LowestOverHighest([]float64{1e6, 0}) },
	})
}
