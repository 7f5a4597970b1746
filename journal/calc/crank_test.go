package calc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/locknut/journal/calc"
)

var crankFunctions = map[string]called{
	"CrankAngle":         {3, func(x []float64) (float64, error) { return calc.CrankAngle(x[0], x[1], x[2]) }},
	"MeanPistonSpeed":    {2, func(x []float64) (float64, error) { return calc.MeanPistonSpeed(x[0], x[1]) }},
	"PeakPistonSpeed":    {2, func(x []float64) (float64, error) { return calc.PeakPistonSpeed(x[0], x[1]) }},
	"PistonAcceleration": {4, func(x []float64) (float64, error) { return calc.PistonAcceleration(x[0], x[1], x[2], x[3]) }},
	"PistonSpeed":        {4, func(x []float64) (float64, error) { return calc.PistonSpeed(x[0], x[1], x[2], x[3]) }},
	"Travel":             {3, func(x []float64) (float64, error) { return calc.Travel(x[0], x[1], x[2]) }},
}

// cranks are a thousand strokes with rods from barely longer than the throw to twenty times it.
func cranks(try func(stroke, rod, angle float64)) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1000 {
		stroke := 0.01 + 0.2*r.Float64()
		try(stroke, stroke/2*(1.01+20*r.Float64()), math.Pi*(2*r.Float64()-1))
	}
}

// The second method: the crank pin and the rod as points in a plane, the far end of the rod on the axis.
func TestTravelAgainstASecondMethod(t *testing.T) {
	cranks(func(stroke, rod, angle float64) {
		pin := [2]float64{stroke / 2 * math.Sin(angle), stroke / 2 * math.Cos(angle)}
		low, high := pin[1], pin[1]+2*rod // the gudgeon pin is in between, where the rod reaches it
		for range 200 {
			middle := (low + high) / 2
			if math.Hypot(pin[0], middle-pin[1]) < rod {
				low = middle
			} else {
				high = middle
			}
		}
		got, err := calc.Travel(stroke, rod, angle)
		if want := stroke/2 + rod - low; err != nil || math.Abs(got-want) > 1e-12 {
			t.Fatalf("stroke %v, rod %v, %v rad: %v, %v; want %v", stroke, rod, angle, got, err, want)
		}
		other, _ := calc.Travel(stroke, rod, -angle)
		if got != other {
			t.Fatalf("before top dead centre %v, after it %v", other, got)
		}
	})
}

// The second method halves the angle until the travel is the one asked for.
func TestCrankAngleAgainstASecondMethod(t *testing.T) {
	cranks(func(stroke, rod, angle float64) {
		travel := stroke * math.Abs(angle) / math.Pi
		low, high := 0.0, math.Pi
		for range 200 {
			middle := (low + high) / 2
			if x, err := calc.Travel(stroke, rod, middle); err != nil {
				t.Fatal(err)
			} else if x < travel {
				low = middle
			} else {
				high = middle
			}
		}
		if got, err := calc.CrankAngle(stroke, rod, travel); err != nil || math.Abs(got-low) > 1e-9 {
			t.Fatalf("stroke %v, rod %v, travel %v: %v, %v; want %v", stroke, rod, travel, got, err, low)
		}
	})
}

// The second method: differences of the travel, and of the speed.
func TestPistonSpeedAgainstASecondMethod(t *testing.T) {
	const step = 1e-5
	cranks(func(stroke, rod, angle float64) {
		for what, of := range map[string][2]func(angle float64) (float64, error){
			"speed": {
				func(a float64) (float64, error) { return calc.Travel(stroke, rod, a) },
				func(a float64) (float64, error) { return calc.PistonSpeed(stroke, rod, a, 1) },
			},
			"acceleration": {
				func(a float64) (float64, error) { return calc.PistonSpeed(stroke, rod, a, 1) },
				func(a float64) (float64, error) { return calc.PistonAcceleration(stroke, rod, a, 1) },
			},
		} {
			before, _ := of[0](angle - step)
			after, _ := of[0](angle + step)
			got, err := of[1](angle)
			if want := (after - before) / (2 * step); err != nil || math.Abs(got-want) > 1e-5*(stroke+math.Abs(want)) {
				t.Fatalf("%s, stroke %v, rod %v, %v rad: %v, %v; want %v", what, stroke, rod, angle, got, err, want)
			}
		}
	})
}

// The second method: the fastest of a fine comb of angles.
func TestPeakPistonSpeedAgainstASecondMethod(t *testing.T) {
	const teeth = 20000
	for _, rod := range []float64{0.051, 0.075, 0.1, 1} {
		best, fastest := 0.0, 0.0
		for i := range teeth {
			angle := math.Pi / 2 * float64(i) / teeth
			if v, _ := calc.PistonSpeed(0.1, rod, angle, 1); v > fastest {
				best, fastest = angle, v
			}
		}
		if got, err := calc.PeakPistonSpeed(0.1, rod); err != nil || math.Abs(got-best) > math.Pi/2/teeth {
			t.Errorf("rod %v: %v, %v; want %v", rod, got, err, best)
		}
	}
}

func TestCranksThatCannotBe(t *testing.T) {
	for what, of := range map[string]func() (float64, error){
		"a rod as long as the throw": func() (float64, error) { return calc.Travel(0.1, 0.05, 1) },
		"a rod below zero":           func() (float64, error) { return calc.PistonSpeed(0.1, -0.1, 1, 1) },
		"no stroke":                  func() (float64, error) { return calc.MeanPistonSpeed(0, 1) },
		"no angle":                   func() (float64, error) { return calc.Travel(0.1, 0.2, math.NaN()) },
		"no speed":                   func() (float64, error) { return calc.PistonAcceleration(0.1, 0.2, 1, math.Inf(1)) },
		"beyond the stroke":          func() (float64, error) { return calc.CrankAngle(0.1, 0.2, 0.1001) },
		"above top dead centre":      func() (float64, error) { return calc.CrankAngle(0.1, 0.2, -1e-9) },
		"a travel that is none":      func() (float64, error) { return calc.CrankAngle(0.1, 0.2, math.NaN()) },
		"a rod too short to turn":    func() (float64, error) { return calc.PeakPistonSpeed(0.1, 0.03) },
	} {
		if got, err := of(); err == nil {
			t.Errorf("%s: %v", what, got)
		}
	}
}
