package quantity

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// GUM (JCGM 100:2008) H.2: five readings each of a voltage, a current and a phase, taken together, give resistance, reactance and
// impedance. Readings and results are from memory; that the printed results follow from the readings confirms them. The deviations are
// held to one in the last digit: the printed ones come from rounded inputs.
func TestResistanceReactanceImpedance(t *testing.T) {
	volts := []float64{5.007, 4.994, 5.005, 4.990, 4.999}
	amps := []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}
	phases := []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}
	v, i, p := jointly(volts, Voltage), jointly(amps, Current), jointly(phases, Angle)
	sin, cos := math.Sincos(p.Value)
	z := v.Value / i.Value
	resistance := Combine(z*cos, Resistance, Term{cos / i.Value, v}, Term{-z * cos / i.Value, i}, Term{-z * sin, p})
	reactance := Combine(z*sin, Resistance, Term{sin / i.Value, v}, Term{-z * sin / i.Value, i}, Term{z * cos, p})
	impedance := Combine(z, Resistance, Term{1 / i.Value, v}, Term{-z / i.Value, i})
	correlation := func(a, b Estimate) float64 { return Covariance(a, b) / a.Std() / b.Std() }
	for _, r := range []struct {
		what    string
		got     float64
		printed string
	}{
		{"mean voltage", v.Value, "4.9990"}, {"its deviation", v.Std(), "0.0032"},
		{"resistance", resistance.Value, "127.732"}, {"its deviation", resistance.Std(), "0.071"},
		{"reactance", reactance.Value, "219.847"}, {"its deviation", reactance.Std(), "0.295"},
		{"impedance", impedance.Value, "254.260"}, {"its deviation", impedance.Std(), "0.236"},
		{"r(R, X)", correlation(resistance, reactance), "-0.588"},
		{"r(R, Z)", correlation(resistance, impedance), "-0.485"},
		{"r(X, Z)", correlation(reactance, impedance), "0.993"},
	} {
		printed, err := strconv.ParseFloat(r.printed, 64)
		if err != nil {
			t.Fatal(err)
		}
		places := len(r.printed) - 1 - strings.IndexByte(r.printed, '.')
		within := 0.5
		if r.what == "its deviation" {
			within = 1
		}
		if last := math.Pow(10, -float64(places)); math.Abs(r.got-printed) > within*last {
			t.Errorf("%s = %.7g, the GUM prints %s", r.what, r.got, r.printed)
		}
	}
	for _, e := range []Estimate{resistance, reactance, impedance} {
		if !slices.IsSortedFunc(e.Shares, func(a, b Share) int { return strings.Compare(a.Cause, b.Cause) }) || len(e.Shares) != 5 {
			t.Errorf("shares: %v", e.Shares)
		}
	}
}

// The GUM's second way through the same example: work out each moment's result, then take the mean of five. Here the printed deviations
// hold to the last digit.
func TestResistanceReactanceImpedanceByMoments(t *testing.T) {
	volts := []float64{5.007, 4.994, 5.005, 4.990, 4.999}
	amps := []float64{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}
	phases := []float64{1.0456, 1.0438, 1.0468, 1.0428, 1.0433}
	var r, x, z []float64
	for k, p := range phases {
		sin, cos := math.Sincos(p)
		z = append(z, volts[k]/amps[k])
		r = append(r, z[k]*cos)
		x = append(x, z[k]*sin)
	}
	for _, c := range []struct {
		values    []float64
		mean, std string
	}{{r, "127.732", "0.071"}, {x, "219.847", "0.295"}, {z, "254.260", "0.236"}} {
		mean, std := Mean(c.values)
		if got, gotStd := strconv.FormatFloat(mean, 'f', 3, 64), strconv.FormatFloat(std, 'f', 3, 64); got != c.mean || gotStd != c.std {
			t.Errorf("%s, deviation %s; the GUM prints %s and %s", got, gotStd, c.mean, c.std)
		}
	}
}

// jointly makes an estimate of repeats, each taking a cause of its own that other figures of the same moment share.
func jointly(values []float64, d Dimension) Estimate {
	mean, _ := Mean(values)
	e := Estimate{Value: mean, Dimension: d}
	n := float64(len(values))
	for i, v := range values {
		e.Shares = append(e.Shares, Share{Cause: "moment " + strconv.Itoa(i), Std: (v - mean) / math.Sqrt(n*(n-1))})
	}
	return e
}

// Recomputed from the definition s/√n: 9.1, 9.3, 9.2 have s = 0.1.
func TestMean(t *testing.T) {
	mean, std := Mean([]float64{9.1, 9.3, 9.2})
	if !within(mean, 9.2, 1e-14) || !within(std, 0.1/math.Sqrt(3), 1e-12) {
		t.Errorf("%.17g ± %.17g", mean, std)
	}
	if mean, std := Mean([]float64{9.1}); mean != 9.1 || std != 0 {
		t.Errorf("one value: %g ± %g", mean, std)
	}
	if mean, std := Mean([]float64{5, 5, 5}); mean != 5 || std != 0 {
		t.Errorf("three alike: %g ± %g", mean, std)
	}
}

func TestOneToolInTwoReadings(t *testing.T) {
	a := Estimate{Value: 10, Dimension: Length, Shares: []Share{{Cause: "micrometer", Std: 3}, {Cause: "repeat a", Std: 4}}}
	b := Estimate{Value: 8, Dimension: Length, Shares: []Share{{Cause: "micrometer", Std: 3}, {Cause: "repeat b", Std: 4}}}
	difference := Combine(2, Length, Term{1, a}, Term{-1, b})
	sum := Combine(18, Length, Term{1, a}, Term{1, b})
	if got, want := difference.Std(), math.Sqrt(32); !within(got, want, 1e-15) { // the tool cancels
		t.Errorf("difference: %g, want %g", got, want)
	}
	if got, want := sum.Std(), math.Sqrt(36+32); !within(got, want, 1e-15) { // the tool adds up
		t.Errorf("sum: %g, want %g", got, want)
	}
	if got := Covariance(a, b); got != 9 {
		t.Errorf("covariance %g, want 9", got)
	}
	if got := difference.Expanded(); !within(got, 2*math.Sqrt(32), 1e-15) {
		t.Errorf("expanded %g", got)
	}
	if a.Shares[0].Std != 3 || len(Combine(1, Length).Shares) != 0 {
		t.Error("an input was changed, or something came of nothing")
	}
}
