package derive_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/rule"
)

// What may be written as a class has strengths to reckon with.
func TestEveryPropertyClassHasStrengths(t *testing.T) {
	for _, class := range parse.PropertyClasses {
		s, err := calc.StrengthOf(class, 0.008)
		if err != nil || !(0 < s.Proof && s.Proof < s.Yield && s.Yield < s.Tensile) {
			t.Errorf("%s: %+v, %v", class, s, err)
		}
	}
}

// number compiles a journal of one torque and returns the number at a path; nil where there is none.
func number(t *testing.T, limit, reading, path string) *derive.Number {
	t.Helper()
	result := compile(t, fstest.MapFS{
		"build.toml":              {},
		"limits.toml":             {Data: []byte("[torque.bolt]\n" + limit)},
		"tools.toml":              {Data: []byte("[wrench]\nfor = [\"torque\"]\nrange = \"5..60 N·m\"\nerror = \"4 %\"\nlength = \"250 mm\"\n")},
		"entries/2026-03-01-b.md": {Data: []byte("```toml\nwith = [\"wrench\"]\n[set]\ntorque.bolt = " + reading + "\n```\n")},
	})
	for _, n := range result.Numbers {
		if n.Path == path {
			return n
		}
	}
	return nil
}

// The uncertainty of a preload against drawing at random (JCGM 101, from its definition): friction and the wrench's error rectangular. The formula is typed anew, as the wedge that a
// thread is when it is unrolled. The first-order rule leaves out how the pull bends over the friction, which is worth a twentieth of the uncertainty where the friction may be
// more than twice as much at one end as at the other.
func TestPreloadAgreesWithDrawingAtRandom(t *testing.T) {
	for _, c := range []struct {
		state             string
		low, high, within float64
	}{{"oiled", 0.12, 0.18, 0.02}, {"dry", 0.136, 0.24, 0.03}, {"greased", 0.056, 0.132, 0.05}} {
		n := number(t, "nominal = \"26 ± 9 N·m\"\nthread = \"M8\"\nthreads = \""+c.state+"\"\n", `"26 N·m"`, "preload.bolt")
		if n == nil || n.Reason != "" {
			t.Fatalf("%+v", n)
		}
		mean, std := drawnPreload(c.low, c.high)
		if math.Abs(n.Estimate.Std()/std-1) > c.within {
			t.Errorf("%s: standard uncertainty %.5g carried, %.5g drawn", c.state, n.Estimate.Std(), std)
		}
		if math.Abs(n.Estimate.Value-mean) > 0.25*std {
			t.Errorf("%s: %.6g worked out, %.6g drawn", c.state, n.Estimate.Value, mean)
		}
	}
}

// drawnPreload is the mean preload, and its standard deviation, of an M8 at 26 N·m ± 4 % over a range of friction.
func drawnPreload(low, high float64) (mean, std float64) {
	r := rand.New(rand.NewPCG(8, 125))
	const draws = 200_000
	d2 := 0.008 - 0.649519052838329*0.00125
	lead := math.Atan(0.00125 / (math.Pi * d2))
	sum, squares := 0.0, 0.0
	for range draws {
		mu := low + (high-low)*r.Float64()
		torque := 26 * (1 + 0.04*(2*r.Float64()-1))
		pull := torque / (d2/2*math.Tan(lead+math.Atan(mu/math.Cos(math.Pi/6))) + 0.625*0.008*mu)
		sum, squares = sum+pull, squares+pull*pull
	}
	mean = sum / draws
	return mean, math.Sqrt(squares/draws - mean*mean)
}

// Running torque is taken off what is set: the sign that is got wrong most easily. 27.2 on the wrench with 1.2 to run are 26 for the bolt, and no more.
func TestRunningTorqueLessensThePreload(t *testing.T) {
	const limit = "nominal = \"26 ± 2 N·m\"\nthread = \"M8\"\nthread-friction = 0.15\n"
	without := number(t, limit, `"26 N·m"`, "preload.bolt")
	with := number(t, limit+"running-torque = \"1.2 N·m\"\n", `"27.2 N·m"`, "preload.bolt")
	both := number(t, limit+"running-torque = \"1.2 N·m\"\n", `{ value = "21.76 N·m", adapter = "62.5 mm" }`, "preload.bolt")
	if math.Abs(with.Estimate.Value-without.Estimate.Value) > 1e-6 || math.Abs(both.Estimate.Value-without.Estimate.Value) > 1e-6 {
		t.Errorf("%g without, %g with, %g through an adapter too", without.Estimate.Value, with.Estimate.Value, both.Estimate.Value)
	}
	if !(with.Estimate.Std() > without.Estimate.Std()) { // what the wrench is off by is a share of all of it
		t.Errorf("± %g with, ± %g without", with.Estimate.Std(), without.Estimate.Std())
	}
	if n := number(t, limit+"running-torque = \"25 N·m\"\n", `"24 N·m"`, "preload.bolt"); n != nil {
		t.Errorf("all of the torque runs the nut, and yet: %+v", n)
	}
	if n := number(t, limit+"running-torque = \"30 N·m\"\n", `"26 N·m"`, "preload.bolt"); n == nil || n.Reason == "" {
		t.Errorf("more to run than to tighten, and yet: %+v", n)
	}
}

// A class is a label: 10.9 bears more than 8.8, and grade 8 is not 8.8.
func TestAClassIsALabel(t *testing.T) {
	share := func(class string) *derive.Number {
		return number(t, "nominal = \"20 ± 2 N·m\"\nthread = \"M8\"\nthread-friction = 0.15\nclass = \""+class+"\"\n", `"20 N·m"`, "proof-share.bolt")
	}
	if weak, strong := share("8.8"), share("10.9"); !(strong.Estimate.Value < weak.Estimate.Value) {
		t.Errorf("8.8: %g, 10.9: %g", weak.Estimate.Value, strong.Estimate.Value)
	}
	for _, other := range []string{"8", "grade 8", "A2-70"} {
		if n := share(other); n == nil || n.Reason == "" {
			t.Errorf("%s: %+v", other, n)
		}
	}
}

// Whatever is typed, a number is a figure or a reason, and a finding stands at what can't be.
func TestFastenersOfAllSortsGiveFiguresOrReasons(t *testing.T) {
	for _, limit := range []string{
		"thread = \"M1\"", "thread = \"M300x6\"", "thread = \"M1.6x0.2\"", "thread = \"M48x5\"", "thread = \"6-8 UNC\"", "thread = \"#2-56\"", "thread = \"M8\"\nengagement = \"0 mm\"", "thread = \"M8\"\nengagement = \"-4 mm\"",
		"thread = \"M8\"\nengagement = \"900 mm\"", "thread = \"M8\"\ninto-shear = \"-1 MPa\"", "thread = \"M8\"\nthread-friction = \"0.99\"", "thread = \"M8\"\nthread-friction = \"-0.1\"", "thread = \"M8\"\nthread-friction = \"0.1..\"",
		"thread = \"M8\"\nthread-friction = \"0.15 ± 0.20\"", "thread = \"M8\"\nthread-friction = \"12..16 %\"", "thread = \"M8\"\nrunning-torque = \"..1 N·m\"", "thread = \"M8\"\nrunning-torque = \"1000 N·m\"", "thread = \"M8\"\nclass = \"9.8\"", "thread = \"M18\"\nclass = \"9.8\"",
	} {
		for _, torque := range []string{"20 N·m", "0 N·m", "-3 N·m", "1e-300 N·m", "1e300 N·m", "..20 N·m", "18..20 N·m", "20 ± 40 N·m", "90°", "20 N·m then 90°", "20 N·m, by feel", "tight"} {
			for _, with := range []string{"", ", adapter = \"30 mm\", adapter-angle = \"180°\""} {
				files := fstest.MapFS{
					"build.toml":              {},
					"limits.toml":             {Data: []byte("[torque.bolt]\nnominal = \"20 N·m\"\nthreads = \"dry\"\ninto = \"aluminium\"\n" + limit + "\n")},
					"tools.toml":              {Data: []byte("[wrench]\nfor = [\"torque\"]\nlength = \"25 mm\"\nerror = \"4 %\"\nerror-of = \"maximum\"\nrange = \"..60 N·m\"\n")},
					"entries/2026-03-01-b.md": {Data: []byte("```toml\nwith = [\"wrench\"]\n[set]\ntorque.bolt = { value = \"" + torque + "\"" + with + " }\n```\n")},
				}
				result, err := journal.Compile(files, journal.Options{SkipHTML: true})
				if err != nil {
					t.Fatal(err)
				}
				for _, n := range result.Numbers {
					bad := math.IsNaN(n.Estimate.Value) || math.IsInf(n.Estimate.Value, 0) || math.IsNaN(n.Estimate.Std()) || strings.Contains(n.Words, "–") || strings.Contains(n.Words, "NaN")
					if bad || n.Reason != "" && n.Estimate.Value != 0 {
						t.Errorf("%s, %s%s: %s", limit, torque, with, fmt.Sprintf("%+v", n.Estimate)+n.Words+n.Reason)
					}
				}
				for _, f := range result.Findings {
					if rule.Find(f.Rule) == nil {
						t.Errorf("%s, %s: finding of no rule: %s", limit, torque, f.Rule)
					}
				}
			}
		}
	}
}
