package calc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"example.org/locknut/journal/calc"
)

var fuelFunctions = map[string]called{
	"Blend": {1, func(x []float64) (float64, error) {
		fuel, err := calc.Blend(x[0])
		return fuel.Stoichiometric, err
	}},
	"InjectorDuty": {4, func(x []float64) (float64, error) { return calc.InjectorDuty(x[0], x[1], int(x[2]), x[3]) }},
	"InjectorFlow": {4, func(x []float64) (float64, error) { return calc.InjectorFlow(x[0], x[1], int(x[2]), x[3]) }},
	"NearestBreakpoint": {3, func(x []float64) (float64, error) { // of two breakpoints
		i, ok := calc.NearestBreakpoint(x[:2], x[2])
		if !ok {
			return math.NaN(), nil
		}
		return float64(i), nil
	}},
	"SpanOfBreakpoint": {3, func(x []float64) (float64, error) { // of two breakpoints: where the square begins
		from, _, ok := calc.SpanOfBreakpoint(x[:2], int(x[2]))
		if !ok {
			return math.NaN(), nil
		}
		return from, nil
	}},
}

// airFor is the mass of air for one of a molecule of so many atoms, by the balance of atoms: C 12.011, H 1.008, O 15.999, dry air of 28.9652 g/mol with 0.20946 of oxygen.
func airFor(carbon, hydrogen, oxygen float64) float64 {
	return (carbon + hydrogen/4 - oxygen/2) / 0.20946 * 28.9652 / (12.011*carbon + 1.008*hydrogen + 15.999*oxygen)
}

// The ratios of pure fuels against the balance of atoms. Iso-octane of J. B. Heywood, Internal Combustion Engine Fundamentals, table D.4, 15.13, from memory, holds the balance itself.
func TestFuelsAgainstTheBalanceOfAtoms(t *testing.T) {
	if got := airFor(8, 18, 0); math.Abs(got-15.13) > 0.01 {
		t.Fatalf("iso-octane takes %v of air by the balance of atoms, want 15.13", got)
	}
	ethanol, err := calc.Blend(1)
	if err != nil || math.Abs(ethanol.Stoichiometric-airFor(2, 6, 1)) > 0.01 {
		t.Errorf("ethanol takes %v (%v), by the balance of atoms %v", ethanol.Stoichiometric, err, airFor(2, 6, 1))
	}
	if got := calc.Methanol.Stoichiometric; math.Abs(got-airFor(1, 4, 1)) > 0.03 {
		t.Errorf("methanol takes %v, by the balance of atoms %v", got, airFor(1, 4, 1))
	}
	petrol, err := calc.Blend(0)
	if err != nil || math.Abs(petrol.Stoichiometric-airFor(1, 1.87, 0)) > 0.13 { // petrol is CH1.85 to CH1.9; what the trade reckons with is a tenth more
		t.Errorf("petrol takes %v (%v), CH1.87 by the balance of atoms %v", petrol.Stoichiometric, err, airFor(1, 1.87, 0))
	}
}

// An injector that passes what is needed at a duty is open for that duty.
func TestDutyOfTheFlowNeeded(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 3))
	for range 500 {
		power, consumption, n, duty := 1e3+1e5*rng.Float64(), 5e-8+1e-7*rng.Float64(), 1+rng.IntN(8), 0.1+0.9*rng.Float64()
		flow, err := calc.InjectorFlow(power, consumption, n, duty)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := calc.InjectorDuty(power, consumption, n, flow); err != nil || math.Abs(back-duty) > 1e-12 {
			t.Errorf("a duty of %v comes back as %v (%v)", duty, back, err)
		}
	}
}

func TestFuelRefused(t *testing.T) {
	for name, call := range map[string]func() (float64, error){
		"more duty than time":      func() (float64, error) { return calc.InjectorFlow(1e4, 1e-7, 1, 1.1) },
		"no injector":              func() (float64, error) { return calc.InjectorFlow(1e4, 1e-7, 0, 0.8) },
		"an injector that is shut": func() (float64, error) { return calc.InjectorDuty(1e4, 1e-7, 1, 0) },
		"too far to reckon":        func() (float64, error) { return calc.InjectorDuty(1e308, 1e-7, 1, 1e-300) },
		"E-10":                     func() (float64, error) { f, err := calc.Blend(-0.1); return f.Density, err },
	} {
		if got, err := call(); err == nil {
			t.Errorf("%s: %v, want it refused", name, got)
		}
	}
}

// Weighted means and deviations against gonum's, of figures far from nought beside their scatter.
func TestSteadyAgainstASecondMethod(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 4))
	for range 50 {
		var s calc.Steady
		n := 2 + rng.IntN(2000)
		x, w := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], w[i] = 1e4+rng.NormFloat64(), 0.01+rng.Float64()
			s.Add(x[i], w[i])
		}
		mean, deviation := stat.PopMeanStdDev(x, w)
		if math.Abs(s.Mean()-mean) > 1e-9 || math.Abs(s.Deviation()-deviation) > 1e-9 {
			t.Errorf("%d figures: %v ± %v, by gonum %v ± %v", n, s.Mean(), s.Deviation(), mean, deviation)
		}
	}
}

// Every figure is in the square whose breakpoint is nearest, found by looking at each.
func TestNearestBreakpointAgainstASecondMethod(t *testing.T) {
	points := []float64{1000, 2000, 2500, 4000, 8000}
	for x := 0.0; x <= 12000; x += 12.5 {
		want, ok := -1, x >= 500 && x <= 10000
		for i, p := range points {
			if ok && (want < 0 || math.Abs(p-x) <= math.Abs(points[want]-x)) {
				want = i
			}
		}
		if got, is := calc.NearestBreakpoint(points, x); is != ok || ok && got != want {
			t.Errorf("%v is in square %d (%v), want %d (%v)", x, got, is, want, ok)
		}
	}
	if i, ok := calc.NearestBreakpoint([]float64{3}, 1e9); i != 0 || !ok {
		t.Errorf("a single breakpoint takes %d, %v", i, ok)
	}
	if _, ok := calc.NearestBreakpoint(nil, 1); ok {
		t.Error("without a breakpoint there is a square")
	}
}

// A square ends where another breakpoint is nearer, found by halving between a figure in it and one beyond.
func TestSpanOfBreakpointAgainstASecondMethod(t *testing.T) {
	points := []float64{1000, 2000, 2500, 4000, 8000}
	edge := func(i int, out float64) float64 {
		in := points[i]
		for range 80 {
			mid := in/2 + out/2
			if at, ok := calc.NearestBreakpoint(points, mid); ok && at == i {
				in = mid
			} else {
				out = mid
			}
		}
		return in
	}
	for i := range points {
		from, to, ok := calc.SpanOfBreakpoint(points, i)
		if low, high := edge(i, -1e5), edge(i, 1e5); !ok || math.Abs(from-low) > 1e-5 || math.Abs(to-high) > 1e-5 {
			t.Errorf("square %d goes from %v to %v (%v), want %v to %v", i, from, to, ok, low, high)
		}
	}
	for _, i := range []int{-1, 5} {
		if _, _, ok := calc.SpanOfBreakpoint(points, i); ok {
			t.Errorf("there is a square %d of five", i)
		}
	}
	if _, _, ok := calc.SpanOfBreakpoint(points[:1], 0); ok {
		t.Error("a single breakpoint has an end")
	}
}

// However long a trace is, it stays short, its times rise, and the figure of every moment lies in its stretch.
func TestTraceKeepsPeaks(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 5))
	for _, n := range []int{0, 1, 511, 512, 513, 5000, 100_000} {
		var trace calc.Trace
		times, figures := make([]float64, n), make([]float64, n)
		now := 0.0
		for i := range n {
			if now += rng.Float64(); rng.IntN(1000) == 0 {
				now += 5000 // a pause
			}
			times[i], figures[i] = now, rng.NormFloat64()
			trace.Add(times[i], figures[i])
		}
		if got := len(trace.Stretches); got > calc.MostStretches || n <= calc.MostStretches && got != n {
			t.Fatalf("%d figures make %d stretches", n, got)
		}
		at := 0
		for i := range n {
			for at+1 < len(trace.Stretches) && trace.Stretches[at+1].Begin <= times[i] {
				at++
			}
			if s := trace.Stretches[at]; s.Begin > times[i] || figures[i] < s.Least || figures[i] > s.Greatest {
				t.Fatalf("%d figures: %v at %v is not in its stretch %+v", n, figures[i], times[i], s)
			}
		}
	}
}
