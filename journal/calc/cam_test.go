package calc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/locknut/journal/calc"
)

var camFunctions = map[string]called{
	"CamAdvance":     {2, func(x []float64) (float64, error) { return calc.CamAdvance(x[0], x[1]) }},
	"CamDuration":    {2, func(x []float64) (float64, error) { return calc.CamDuration(x[0], x[1]) }},
	"CoilBindMargin": {3, func(x []float64) (float64, error) { return calc.CoilBindMargin(x[0], x[1], x[2]) }},
	"LobeCentre":     {2, func(x []float64) (float64, error) { return calc.LobeCentre(x[0], x[1]) }},
	"LobeSeparation": {2, func(x []float64) (float64, error) { return calc.LobeSeparation(x[0], x[1]) }},
	"NewLiftCurve": {16, func(x []float64) (float64, error) { // of eight points: the greatest lift
		var points []calc.LiftPoint
		for i := 0; i < len(x); i += 2 {
			points = append(points, calc.LiftPoint{Angle: x[i], Lift: x[i+1]})
		}
		c, err := calc.NewLiftCurve(points)
		if err != nil {
			return 0, err
		}
		return c.Peak(), nil
	}},
	"PortBlowdown":   {2, func(x []float64) (float64, error) { return calc.PortBlowdown(x[0], x[1]) }},
	"PortDuration":   {2, func(x []float64) (float64, error) { return calc.PortDuration(x[0], x[1]) }},
	"PortHeight":     {3, func(x []float64) (float64, error) { return calc.PortHeight(x[0], x[1], x[2]) }},
	"PortOpens":      {3, func(x []float64) (float64, error) { return calc.PortOpens(x[0], x[1], x[2]) }},
	"RetainerMargin": {2, func(x []float64) (float64, error) { return calc.RetainerMargin(x[0], x[1]) }},
	"StopCentre":     {2, func(x []float64) (float64, error) { return calc.StopCentre(x[0], x[1]) }},
	"TeethOut":       {2, func(x []float64) (float64, error) { return calc.TeethOut(x[0], x[1]) }},
	"ToothAngle":     {1, func(x []float64) (float64, error) { return calc.ToothAngle(x[0]) }},
	"ValveLift":      {3, func(x []float64) (float64, error) { return calc.ValveLift(x[0], x[1], x[2]) }},
	"ValveOverlap":   {2, func(x []float64) (float64, error) { return calc.ValveOverlap(x[0], x[1]) }},
}

const degree = math.Pi / 180

// With equal durations the separation is half of duration less overlap: the trade's other way of telling it (read in a reproduction).
func TestLobeSeparationAgainstASecondMethod(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 1000 {
		duration, advance := (200+120*r.Float64())*degree, (r.Float64()-0.5)*20*degree
		separation := (95 + 30*r.Float64()) * degree
		intake, exhaust := separation-advance, separation+advance // centres, each with the same duration
		opens, closes := duration/2-intake, duration/2-exhaust
		overlap, err := calc.ValveOverlap(opens, closes)
		if err != nil {
			t.Fatal(err)
		}
		in, _ := calc.LobeCentre(opens, duration-math.Pi-opens)
		ex, _ := calc.LobeCentre(closes, duration-math.Pi-closes)
		got, err := calc.LobeSeparation(in, ex)
		if want := (duration - overlap) / 2; err != nil || math.Abs(got-want) > 1e-12 || math.Abs(got-separation) > 1e-12 {
			t.Fatalf("duration %v, overlap %v: %v, %v; want %v and %v", duration, overlap, got, err, want, separation)
		}
		if got, err := calc.CamAdvance(in, ex); err != nil || math.Abs(got-advance) > 1e-12 {
			t.Fatalf("advance %v, %v; want %v", got, err, advance)
		}
	}
}

// The second method: a port is open where the piston stands lower than its edge, counted over a fine comb of a whole turn.
func TestPortDurationAgainstASecondMethod(t *testing.T) {
	const comb = 200000
	for _, height := range []float64{0.001, 0.012, 0.0254, 0.049} {
		open := 0
		for i := range comb {
			if x, _ := calc.Travel(0.05, 0.1, 2*math.Pi*float64(i)/comb); x > 0.05-height {
				open++
			}
		}
		opens, err := calc.PortOpens(0.05, 0.1, height)
		if err != nil {
			t.Fatal(err)
		}
		got, err := calc.PortDuration(opens, opens)
		if want := 2 * math.Pi * float64(open) / comb; err != nil || math.Abs(got-want) > 4*math.Pi/comb {
			t.Errorf("height %v: %v, %v; want %v", height, got, err, want)
		}
		if back, err := calc.PortHeight(0.05, 0.1, opens); err != nil || math.Abs(back-height) > 1e-12 {
			t.Errorf("height %v comes back as %v, %v", height, back, err)
		}
	}
}

func TestTimingThatCannotBe(t *testing.T) {
	for what, of := range map[string]func() (float64, error){
		"closes before it opens":             func() (float64, error) { return calc.CamDuration(-100*degree, -90*degree) },
		"open for a whole turn":              func() (float64, error) { return calc.CamDuration(100*degree, 80*degree) },
		"a centre of no duration":            func() (float64, error) { return calc.LobeCentre(-90*degree, -90*degree) },
		"no angle":                           func() (float64, error) { return calc.CamDuration(math.NaN(), 0) },
		"lobes the wrong way round":          func() (float64, error) { return calc.LobeSeparation(-110*degree, 100*degree) },
		"no advance":                         func() (float64, error) { return calc.CamAdvance(math.Inf(1), 0) },
		"no overlap":                         func() (float64, error) { return calc.ValveOverlap(math.NaN(), 0) },
		"half a tooth":                       func() (float64, error) { return calc.ToothAngle(34.5) },
		"no tooth":                           func() (float64, error) { return calc.ToothAngle(0) },
		"teeth below zero":                   func() (float64, error) { return calc.TeethOut(0.1, -34) },
		"a port above the stroke":            func() (float64, error) { return calc.PortOpens(0.05, 0.1, 0.051) },
		"a port below the stroke":            func() (float64, error) { return calc.PortOpens(0.05, 0.1, -0.001) },
		"a rod too short":                    func() (float64, error) { return calc.PortOpens(0.05, 0.02, 0.01) },
		"a port that opens after the bottom": func() (float64, error) { return calc.PortHeight(0.05, 0.1, 181*degree) },
		"a port that never opens":            func() (float64, error) { return calc.PortDuration(math.Pi, math.Pi) },
		"a port that never shuts":            func() (float64, error) { return calc.PortDuration(0, 0) },
		"no blowdown":                        func() (float64, error) { return calc.PortBlowdown(math.NaN(), 1) },
		"a cam without lift":                 func() (float64, error) { return calc.ValveLift(0, 1.2, 0.0001) },
		"lash below zero":                    func() (float64, error) { return calc.ValveLift(0.008, 1.2, -0.0001) },
		"lash that takes all":                func() (float64, error) { return calc.ValveLift(0.0001, 1, 0.0001) },
		"a spring solid as installed":        func() (float64, error) { return calc.CoilBindMargin(0.03, 0.001, 0.031) },
		"a lift below zero":                  func() (float64, error) { return calc.CoilBindMargin(0.03, -0.001, 0.02) },
		"no gap":                             func() (float64, error) { return calc.RetainerMargin(0, 0.008) },
		"a gap and no lift":                  func() (float64, error) { return calc.RetainerMargin(0.01, -1) },
		"one stop twice":                     func() (float64, error) { return calc.StopCentre(0.3, 0.3) },
		"stops a turn apart":                 func() (float64, error) { return calc.StopCentre(-math.Pi, math.Pi) },
		"stops changed about":                func() (float64, error) { return calc.StopCentre(38*degree, -34*degree) },
		"stops half a turn apart":            func() (float64, error) { return calc.StopCentre(-math.Pi/2, math.Pi/2) },
		"a stop without end":                 func() (float64, error) { return calc.StopCentre(math.Inf(-1), 0) },
	} {
		if got, err := of(); err == nil {
			t.Errorf("%s: %v", what, got)
		}
	}
}
