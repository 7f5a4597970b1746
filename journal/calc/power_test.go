package calc_test

import (
	"fmt"
	"math"
	mathrand "math/rand"
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/quick"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

var airFunctions = map[string]called{
	"AirDensity":         {3, func(x []float64) (float64, error) { return calc.AirDensity(x[0], x[1], x[2]) }},
	"DensityAltitude":    {1, func(x []float64) (float64, error) { return calc.DensityAltitude(x[0]) }},
	"DryPressure":        {2, func(x []float64) (float64, error) { return calc.DryPressure(x[0], x[1]) }},
	"SaturationPressure": {1, func(x []float64) (float64, error) { return calc.SaturationPressure(x[0]) }},
	"StandardPressure":   {1, func(x []float64) (float64, error) { return calc.StandardPressure(x[0]) }},
	"StationPressure":    {2, func(x []float64) (float64, error) { return calc.StationPressure(x[0], x[1]) }},
	"VapourPressure":     {2, func(x []float64) (float64, error) { return calc.VapourPressure(x[0], x[1]) }},
}

var powerFunctions = map[string]called{
	"NewSpeedCurve": {6, func(x []float64) (float64, error) { // of two points: the mean over a band
		c, err := calc.NewSpeedCurve([]calc.SpeedPoint{{Speed: x[0], Value: x[1]}, {Speed: x[2], Value: x[3]}})
		if err != nil {
			return 0, err
		}
		return c.Mean(x[4], x[5])
	}},
	"Telling": {8, func(x []float64) (float64, error) { // of as many points at even places, of which four may stay: what those that stay add up to
		sum := 0.0
		for _, i := range calc.Telling(len(x), 4, func(i int) (float64, float64) { return float64(i), x[i] }) {
			sum += x[i]
		}
		return sum, nil
	}},
	"WeightedSum": {4, func(x []float64) (float64, error) { // of two level lines, each with its weight: the figure of the sum
		var curves []*calc.SpeedCurve
		for _, level := range x[:2] {
			c, err := calc.NewSpeedCurve([]calc.SpeedPoint{{Speed: 1, Value: level}, {Speed: 2, Value: level}})
			if err != nil {
				return 0, err
			}
			curves = append(curves, c)
		}
		sum, err := calc.WeightedSum(curves, x[2:])
		if err != nil {
			return 0, err
		}
		return sum.Mean(1, 2)
	}},
	"PowerFactor": {4, func(x []float64) (float64, error) { return calc.PowerFactor(calc.Standard(x[0]), x[1], x[2], x[3]) }},
}

var statisticsFunctions = map[string]called{
	"Covered": {2, func(x []float64) (float64, error) { // of one cause, estimated from repeats: what holds 95 %
		return calc.Covered(quantity.Estimate{Shares: []quantity.Share{{Cause: "repeats", Std: x[0], Freedom: x[1]}}}).Expanded(), nil
	}},
	"Effective":        {4, func(x []float64) (float64, error) { return calc.Effective(x[:2], x[2:]) }},
	"Deviation":        {-1, func(x []float64) (float64, error) { return deviation(x), nil }},
	"DeviationOfPairs": {4, func(x []float64) (float64, error) { return deviation(pairs(x)), nil }},
	"Mean":             {-1, func(x []float64) (float64, error) { mean, _ := quantity.Mean(x); return mean, nil }},
	"MeanOfPairs":      {4, func(x []float64) (float64, error) { mean, _ := quantity.Mean(pairs(x)); return mean, nil }},
	"StudentT":         {2, func(x []float64) (float64, error) { return calc.StudentT(x[0], x[1]) }},
}

// pairs is a list as NIST tells its sets of very many figures: the first, and then two others in turn, so many times.
func pairs(x []float64) []float64 {
	list := []float64{x[0]}
	for range int(x[3]) {
		list = append(list, x[1], x[2])
	}
	return list
}

// deviation is the standard deviation of figures, by that of their mean.
func deviation(x []float64) float64 {
	_, std := quantity.Mean(x)
	return std * math.Sqrt(float64(len(x)))
}

// digitsCorrect is the measure of NIST's sets: the log relative error, −log10(|q − c| / |c|), at most the 15 digits that they are certified to.
func digitsCorrect(got, certified float64) float64 {
	return min(15, -math.Log10(math.Abs(got-certified)/math.Abs(certified)))
}

// Means and deviations of NIST's sets are as good as their rows say.
func TestDigitsOfNISTSets(t *testing.T) {
	held := 0
	for _, r := range rows(t) {
		_, words, ok := strings.Cut(r.text, "LRE ")
		if !ok {
			continue
		}
		want, err := strconv.ParseFloat(strings.Fields(words)[0], 64)
		if err != nil {
			t.Fatalf("%s: %v", r.place, err)
		}
		got, err := functions[r.function].call(r.x)
		if digits := digitsCorrect(got, r.want); err != nil || digits < want {
			t.Errorf("%s: %v has %.1f digits of %v (%v), want %v", r.place, got, digits, r.want, err, want)
		}
		held++
	}
	if held < 12 {
		t.Errorf("%d rows state their digits", held)
	}
}

// The equation of IAPWS-IF97, region 4, is another one for the same thing: coefficients from memory, held to three check points of its own.
func TestSaturationPressureAgainstASecondMethod(t *testing.T) {
	n := [...]float64{0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3}
	second := func(kelvin float64) float64 {
		θ := kelvin + n[8]/(kelvin-n[9])
		a, b, c := θ*θ+n[0]*θ+n[1], n[2]*θ*θ+n[3]*θ+n[4], n[5]*θ*θ+n[6]*θ+n[7]
		return 1e6 * math.Pow(2*c/(-b+math.Sqrt(b*b-4*a*c)), 4)
	}
	for kelvin, want := range map[float64]float64{300: 3536.58941, 500: 2.63889776e6, 600: 12.3443146e6} {
		if got := second(kelvin); math.Abs(got/want-1) > 2e-9 {
			t.Fatalf("the second method gives %v Pa at %v K, want %v", got, kelvin, want)
		}
	}
	for kelvin := 273.15; kelvin <= 333.15; kelvin += 0.5 {
		got, err := calc.SaturationPressure(kelvin)
		if err != nil || math.Abs(got/second(kelvin)-1) > 1.1e-4 {
			t.Errorf("%v Pa at %v K (%v), by the second method %v", got, kelvin, err, second(kelvin))
		}
	}
}

// A correction that is undone gives back what went in; a factor is more in thinner and in warmer air.
func TestCorrectionsUndone(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 1))
	for range 2000 {
		s := calc.Standard(rng.IntN(7))
		dry, vapour, kelvin := 80e3+25e3*rng.Float64(), 4e3*rng.Float64(), 268+45*rng.Float64()
		factor, err := calc.PowerFactor(s, dry, vapour, kelvin)
		if err != nil {
			t.Fatal(err)
		}
		power := 1e3 + 1e5*rng.Float64()
		if back := power * factor / factor; math.Abs(back/power-1) > 1e-12 {
			t.Errorf("%v: %v W comes back as %v", s, power, back)
		}
		thin, _ := calc.PowerFactor(s, dry*0.99, vapour, kelvin)
		warm, _ := calc.PowerFactor(s, dry, vapour, kelvin+1)
		if s != calc.Uncorrected && !(thin > factor && warm > factor) {
			t.Errorf("%v: %v, thinner %v, warmer %v", s, factor, thin, warm)
		}
	}
}

func TestOutsideStandard(t *testing.T) {
	for _, c := range []struct {
		s            calc.Standard
		dry, celsius float64
		want         calc.OutsideWhat
		is           bool
	}{
		{calc.ISO1585, 99e3, 25, 0, false}, {calc.ISO1585, 92748.38, 35, calc.OutsideFactor, true}, {calc.ISO1585, 102301.98, 5, calc.OutsideFactor, true}, {calc.J1349, 88741, 33, calc.OutsideFactor, true},
		{calc.ISO4106, 99e3, 36, calc.OutsideTemperature, true}, {calc.J1349, 105.5e3, 34, calc.OutsidePressure, true}, {calc.J607, 80e3, 40, 0, false}, {calc.DIN70020, 80e3, 40, 0, false}, {calc.Uncorrected, 50e3, 40, 0, false},
	} {
		factor, err := calc.PowerFactor(c.s, c.dry, 0, c.celsius+273.15)
		if err != nil {
			t.Fatal(err)
		}
		got, is := c.s.Outside(factor, c.dry, c.celsius+273.15)
		if got.What != c.want || is != c.is {
			t.Errorf("%v at %v Pa and %v °C: %+v, want %v, %v", c.s, c.dry, c.celsius, got, c.want, c.is)
		}
	}
}

// JCGM 100:2008 (GUM), example H.1: contributions of 25, 9.7, 2.9 and 16.6 nm with 18, 25.6, 50 and 2 degrees of freedom give 16.7, read in a reproduction. From contributions that
// are rounded and uc² = 1002 nm²; these have 1003.
func TestEffectiveOfTheEndGauge(t *testing.T) {
	got, err := calc.Effective([]float64{25, 9.7, 2.9, 16.6}, []float64{18, 25.6, 50, 2})
	if err != nil || math.Abs(got-16.75) > 0.05 {
		t.Errorf("%v (%v), want 16.7", got, err)
	}
	if got, err := calc.Effective([]float64{1, 0}, []float64{math.Inf(1), 2}); err != nil || !math.IsInf(got, 1) {
		t.Errorf("%v (%v), want none that are estimated", got, err)
	}
}

// Straight lines have their mean in closed form, whatever the rows stand on; what nobody measured is not told.
func TestNewSpeedCurveAgainstASecondMethod(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 2))
	for range 300 {
		var points []calc.SpeedPoint
		for speed := 200.0; speed < 1000; speed += 1 + 20*rng.Float64() {
			points = append(points, calc.SpeedPoint{Speed: speed, Value: 3*speed - 40})
		}
		c, err := calc.NewSpeedCurve(points)
		if err != nil {
			t.Fatal(err)
		}
		from, to := c.Span()
		a, b := from+(to-from)*rng.Float64()/2, to-(to-from)*rng.Float64()/2
		if mean, err := c.Mean(a, b); a < b && (err != nil || math.Abs(mean-(3*(a+b)/2-40)) > 1e-9) {
			t.Errorf("mean %v (%v), want %v", mean, err, 3*(a+b)/2-40)
		}
		if at, ok := c.At(a); !ok || math.Abs(at-(3*a-40)) > 1e-9 {
			t.Errorf("%v at %v, %v", at, a, ok)
		}
		if _, ok := c.At(to + 1); ok {
			t.Error("a figure beyond the end")
		}
		if _, err := c.Mean(from-1, to); err == nil {
			t.Error("a mean beyond the end")
		}
	}
}

// Of two pulls, one read at 1, 2 and 4 and the other at 1 and 3, the mean is told from 1 to 3 at every speed that either has; worked out by hand with straight lines between points.
// Any sum of curves is held at random speeds against the sum of what each of them has there.
func TestWeightedSumAgainstASecondMethod(t *testing.T) {
	curve := func(points ...calc.SpeedPoint) *calc.SpeedCurve {
		c, err := calc.NewSpeedCurve(points)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	mean, err := calc.WeightedSum([]*calc.SpeedCurve{curve(calc.SpeedPoint{1, 10}, calc.SpeedPoint{2, 22}, calc.SpeedPoint{4, 40}), curve(calc.SpeedPoint{1, 12}, calc.SpeedPoint{3, 36})}, []float64{0.5, 0.5})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := mean.Thinned(100), []calc.SpeedPoint{{1, 11}, {2, 23}, {3, 33.5}}; !slices.Equal(got, want) {
		t.Errorf("mean %v, want %v", got, want)
	}
	rng := rand.New(rand.NewPCG(6, 3))
	for range 200 {
		var curves []*calc.SpeedCurve
		var weights []float64
		for range 1 + rng.IntN(6) {
			var points []calc.SpeedPoint
			for speed := 100 + 300*rng.Float64(); speed < 800; speed += 0.1 + 40*rng.Float64() {
				points = append(points, calc.SpeedPoint{speed, rng.NormFloat64()})
			}
			curves, weights = append(curves, curve(points...)), append(weights, rng.NormFloat64())
		}
		sum, err := calc.WeightedSum(curves, weights)
		if err != nil {
			t.Fatal(err)
		}
		from, to := sum.Span()
		for range 50 {
			speed, want := from+(to-from)*rng.Float64(), 0.0
			for i, c := range curves {
				at, ok := c.At(speed)
				if !ok {
					t.Fatalf("a curve ends before %v", speed)
				}
				want += weights[i] * at
			}
			if got, ok := sum.At(speed); !ok || math.Abs(got-want) > 1e-9 {
				t.Errorf("%v at %v (%v), want %v", got, speed, ok, want)
			}
		}
	}
}

// What stays of a line is held against a plain search through all of it, for whatever figures come: its peak, its trough and both ends, in order, each once, and no more than asked.
func TestTellingAgainstASecondMethod(t *testing.T) {
	tells := func(steps []uint16, values []float64, most uint8) bool {
		n := min(len(steps), len(values))
		if n == 0 {
			return len(calc.Telling(0, int(most), nil)) == 0
		}
		speeds := make([]float64, n)
		for i := range speeds {
			speeds[i] = float64(steps[i]) + 1
			if i > 0 {
				speeds[i] += speeds[i-1]
			}
		}
		kept := calc.Telling(n, int(most), func(i int) (float64, float64) { return speeds[i], values[i] })
		var left []float64
		for i, k := range kept {
			if i > 0 && k <= kept[i-1] {
				return false
			}
			left = append(left, values[k])
		}
		return len(kept) <= max(int(most), 4) && kept[0] == 0 && kept[len(kept)-1] == n-1 && slices.Max(left) == slices.Max(values[:n]) && slices.Min(left) == slices.Min(values[:n])
	}
	rng := mathrand.New(mathrand.NewSource(7))
	long := func(list []reflect.Value, rng *mathrand.Rand) {
		n := 1 + rng.Intn(3000)
		steps, values := make([]uint16, n), make([]float64, n)
		for i := range n {
			steps[i], values[i] = uint16(rng.Intn(1+rng.Intn(1<<16))), rng.NormFloat64()*math.Pow(10, float64(rng.Intn(20)))
		}
		list[0], list[1], list[2] = reflect.ValueOf(steps), reflect.ValueOf(values), reflect.ValueOf(uint8(rng.Intn(256)))
	}
	if err := quick.Check(tells, &quick.Config{MaxCount: 2000, Rand: rng}); err != nil {
		t.Error(err)
	}
	if err := quick.Check(tells, &quick.Config{MaxCount: 500, Rand: rng, Values: long}); err != nil {
		t.Error(err)
	}
}

func TestPowerRefusals(t *testing.T) {
	inf := math.Inf(1)
	for what, of := range map[string]func() (float64, error){
		"air of 400 °C":            func() (float64, error) { return calc.SaturationPressure(673) },
		"no temperature":           func() (float64, error) { return calc.SaturationPressure(math.NaN()) },
		"humidity in per cent":     func() (float64, error) { return calc.VapourPressure(293, 55) },
		"humidity below nought":    func() (float64, error) { return calc.VapourPressure(293, -0.1) },
		"all vapour":               func() (float64, error) { return calc.DryPressure(2000, 2000) },
		"no air":                   func() (float64, error) { return calc.DryPressure(0, 0) },
		"vapour below nought":      func() (float64, error) { return calc.DryPressure(1e5, -1) },
		"above all weather":        func() (float64, error) { return calc.StandardPressure(12000) },
		"below all mines":          func() (float64, error) { return calc.StationPressure(1e5, -1e4) },
		"no report":                func() (float64, error) { return calc.StationPressure(0, 100) },
		"a place above all roads":  func() (float64, error) { return calc.StationPressure(101800, 9000) },
		"thin at that height":      func() (float64, error) { return calc.StationPressure(1, 9000) },
		"density of nothing":       func() (float64, error) { return calc.DensityAltitude(0) },
		"density of water":         func() (float64, error) { return calc.DensityAltitude(1000) },
		"no such standard":         func() (float64, error) { return calc.PowerFactor(99, 1e5, 0, 298) },
		"no dry air":               func() (float64, error) { return calc.PowerFactor(calc.J1349, 0, 1000, 298) },
		"a factor in a furnace":    func() (float64, error) { return calc.PowerFactor(calc.ISO1585, 1e5, 0, 900) },
		"density in a furnace":     func() (float64, error) { return calc.AirDensity(1e5, 900, 0) },
		"density without air":      func() (float64, error) { return calc.AirDensity(0, 293, 0) },
		"all of it":                func() (float64, error) { return calc.StudentT(1, 5) },
		"no freedom":               func() (float64, error) { return calc.StudentT(0.95, 0) },
		"no sources":               func() (float64, error) { return calc.Effective(nil, nil) },
		"no uncertainty":           func() (float64, error) { return calc.Effective([]float64{0}, []float64{3}) },
		"a source without degrees": func() (float64, error) { return calc.Effective([]float64{1}, []float64{0}) },
		"unlike lists":             func() (float64, error) { return calc.Effective([]float64{1}, []float64{1, 2}) },
		"a source that is none":    func() (float64, error) { return calc.Effective([]float64{inf}, []float64{1}) },
	} {
		if got, err := of(); err == nil {
			t.Errorf("%s: %v", what, got)
		}
	}
	for what, points := range map[string][]calc.SpeedPoint{
		"one point": {{1, 1}}, "standing still": {{1, 1}, {1, 2}}, "falling": {{2, 1}, {1, 2}}, "no speed": {{0, 1}, {1, 2}}, "no figure": {{1, math.NaN()}, {2, 1}},
	} {
		if _, err := calc.NewSpeedCurve(points); err == nil {
			t.Error(what)
		}
	}
	c, _ := calc.NewSpeedCurve([]calc.SpeedPoint{{1, 1}, {2, 2}})
	apart, _ := calc.NewSpeedCurve([]calc.SpeedPoint{{2, 1}, {3, 2}})
	for what, of := range map[string][]*calc.SpeedCurve{"no curve": nil, "one curve of two weights": {c}, "nothing in common": {c, apart}} {
		if _, err := calc.WeightedSum(of, []float64{1, -1}[:min(2, 2*len(of))]); err == nil {
			t.Error(what)
		}
	}
	if _, err := c.Mean(1.5, 1.5); err == nil {
		t.Error("a band without width")
	}
}

func ExamplePowerFactor() {
	vapour, _ := calc.VapourPressure(303.15, 0.70)
	dry, _ := calc.DryPressure(98.5e3, vapour)
	for _, s := range calc.Standards {
		factor, _ := calc.PowerFactor(s, dry, vapour, 303.15)
		fmt.Printf("%s %.4f\n", s, factor)
	}
	// Output:
	// none 1.0000
	// SAE J1349 1.0531
	// ISO 1585 1.0543
	// ISO 4106 1.0543
	// SAE J607 1.0869
	// DIN 70020 1.0458
	// JIS D 1001 1.0543
}

// By the definition, with the interval of the difference of two sessions in closed form: repeats of 0.2 hp three times each, four degrees of freedom, 2.776445 of the deviation. What
// is known has two deviations.
func TestCoveredAgainstASecondMethod(t *testing.T) {
	s := 0.2 / math.Sqrt(3)
	e := calc.Covered(quantity.Combine(2.1, quantity.Power,
		quantity.Term{Partial: 1, Of: quantity.Estimate{Shares: []quantity.Share{{Cause: "after", Std: s, Freedom: 2}}}},
		quantity.Term{Partial: -1, Of: quantity.Estimate{Shares: []quantity.Share{{Cause: "before", Std: s, Freedom: 2}}}}))
	if want := 2.776445105 * math.Sqrt2 * s; math.Abs(e.Expanded()/want-1) > 1e-8 {
		t.Errorf("± %v, want %v", e.Expanded(), want)
	}
	// A small cause that is known doesn't narrow it, by whatever it is, and one that is large adds as ever.
	alone := calc.Covered(quantity.Estimate{Shares: []quantity.Share{{Cause: "pulls", Std: 0.1, Freedom: 2}}}).Expanded()
	last := alone
	for _, air := range []float64{0.001, 0.01, 0.05, 0.1, 0.2, 0.4, 1} {
		e := calc.Covered(quantity.Estimate{Shares: []quantity.Share{{Cause: "air", Std: air}, {Cause: "pulls", Std: 0.1, Freedom: 2}}})
		if e.Expanded() < last*(1-1e-12) {
			t.Errorf("± %v with %v of the air, ± %v with less", e.Expanded(), air, last)
		}
		last = e.Expanded()
	}
	if want := 1.9599639845 * math.Hypot(1, 0.1); math.Abs(last/want-1) > 2e-3 { // 404 degrees of freedom
		t.Errorf("± %v, want about %v", last, want)
	}
	known := calc.Covered(quantity.Estimate{Shares: []quantity.Share{{Cause: "dyno", Std: 0.3}}, Coverage: 9})
	if known.Expanded() != 0.6 {
		t.Errorf("± %v of what is known, want 0.6", known.Expanded())
	}
}
