package derive_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// levels is a journal with a stage after each session but the first; each pull of a session is level over the engine speed, at the power given.
func levels(t *testing.T, pull string, sessions ...[]float64) *journal.Result {
	t.Helper()
	files := fstest.MapFS{"build.toml": {Data: []byte("[units]\npower = \"hp\"\n[power]\nband = \"5500..6500 rpm\"\n")}, "tools.toml": {Data: []byte("[road]\nfor = [\"power\"]\nrepeatability = \"1 %\"\n")}}
	parts := ""
	for i, peaks := range sessions {
		parts += fmt.Sprintf("[part-%d]\n", i)
		var names []string
		for k, peak := range peaks {
			name := fmt.Sprintf("data/%d-%d.csv", i, k)
			names = append(names, `"`+name+`"`)
			files[name] = &fstest.MapFile{Data: fmt.Appendf(nil, "rpm,P [hp]\n5000,%v\n6000,%[1]v\n7000,%[1]v\n", peak)}
		}
		files[fmt.Sprintf("entries/2026-03-%02d-x.md", i+1)] = &fstest.MapFile{Data: fmt.Appendf(nil, "```toml\nfitted = [\"part-%d\"]\n[[pulls]]\n%sdata = [%s]\n```\n", i, pull, strings.Join(names, ", "))}
	}
	files["parts.toml"] = &fstest.MapFile{Data: []byte(parts)}
	r, err := journal.Compile(files, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Sums.Stages) != len(sessions)-1 {
		t.Fatalf("%d stages of %d sessions: %v", len(r.Sums.Stages), len(sessions), r.Findings)
	}
	return r
}

// Of pulls that are level the gain at each engine speed is the gain at the peak: figures and intervals are those of the page of stage-gain, which were worked out by hand there. In all stages the
// session in the middle cancels: of 50.13, 52 and 53.9 kW with 0.145297, 0.173205 and 0.173205 kW it is what the first and the last leave, √(0.145297² + 0.173205²) by Student's 2.80988 of 3.8826
// degrees of freedom.
func TestGainOverTheEngineSpeed(t *testing.T) {
	hp, kw := quantity.UnitShown("hp"), quantity.UnitShown("kW")
	inHP := func(x float64) float64 { return x * kw.Factor / hp.Factor }
	for _, c := range []struct {
		name           string
		pull           string
		sessions       [][]float64
		gain, expanded float64
	}{
		{"three pulls each", "", [][]float64{{24.0, 24.2, 24.4}, {26.1, 26.3, 26.5}}, 2.1, 0.4534},
		{"one pull each on a dyno that repeats to 1 %", "dyno = \"road\"\n", [][]float64{{24.0}, {24.3}}, 0.3, 0.683},
		{"a pull that nothing is known of", "", [][]float64{{24.0}, {24.2, 24.3, 24.4}}, 0.3, 0},
		{"a loss", "", [][]float64{{26.1, 26.3, 26.5}, {24.0, 24.2, 24.4}}, -2.1, 0.4534},
		{"two stages", "", [][]float64{{inHP(50.1), inHP(50.4), inHP(49.9)}, {inHP(52.0), inHP(52.3), inHP(51.7)}, {inHP(53.9), inHP(53.6), inHP(54.2)}}, inHP(3.766667), inHP(2.8098791 * math.Hypot(0.1452966315, 0.1732050808))},
	} {
		r := levels(t, c.pull, c.sessions...)
		over := derive.GainOver(r.Sums.Stages)
		if over.Reason != "" {
			t.Fatalf("%s: %s", c.name, over.Reason)
		}
		rpm := parse.UnitSpelled("rpm")
		for _, speed := range []float64{5000, 5432.1, 7000} {
			gain, ok := over.At(rpm.SI(speed))
			if got, spread := hp.FromSI(gain.Value), hp.FromSI(gain.Expanded()); !ok || math.Abs(got-c.gain) > 1e-6 || math.Abs(spread-c.expanded) > 1e-4*max(1, 10*c.expanded) {
				t.Errorf("%s: %v ± %v hp at %v rpm (%v), want %v ± %v", c.name, got, spread, speed, ok, c.gain, c.expanded)
			}
		}
		if _, ok := over.At(rpm.SI(7001)); ok {
			t.Errorf("%s: a gain where nobody measured", c.name)
		}
		if points := over.Points(); len(points) != 3 || math.Abs(hp.FromSI(points[2].Value)-c.gain) > 1e-6 {
			t.Errorf("%s: the points %v", c.name, points)
		}
		if n := len(r.Sums.Stages); n > 1 {
			for _, number := range r.Sums.Now() {
				if got, _ := over.At(rpm.SI(6000)); number.Path == "gain.total" && math.Abs(number.Estimate.Expanded()-got.Expanded()) > 1e-9*got.Expanded() {
					t.Errorf("%s: ± %v in all at the peak, ± %v at 6000 rpm", c.name, number.Estimate.Expanded(), got.Expanded())
				}
			}
		}
	}
}

// What a mean over a band comes from are curves, and not the peaks of their pulls.
func TestTheInputsOfABandAreCurves(t *testing.T) {
	r := levels(t, "", []float64{24.0, 24.2, 24.4}, []float64{25})
	told := 0
	for _, n := range r.Sums.Now() {
		if n.Family.Name != "band-gain" || !strings.Contains(n.Path, "band") {
			continue
		}
		told++
		for i, want := range []struct{ symbol, id string }{{"mean_after", "2026-03-02-x/pulls-after:1-0/curves"}, {"mean_before", "2026-03-01-x/pulls-after:0-0/curves"}} {
			in := n.Inputs[i]
			if in.Curves == nil {
				t.Fatalf("%s comes from %s, which is no curve", n.Path, in.Symbol)
			}
			if got := in.Curves.CurvesID(); in.Symbol != want.symbol || got != want.id {
				t.Errorf("%s comes from %s, %s; want %s, %s", n.Path, in.Symbol, got, want.symbol, want.id)
			}
		}
	}
	if told != 2 {
		t.Errorf("%d gains over the band, want one of power and one of torque", told)
	}
}

// The mean curve of a session holds its mean in a band of 95 %, by Student's 4.302653 of two degrees of freedom: ± 4.302653 · 0.2/√3 hp. What the dyno gets wrong each time is not in it.
func TestTheCurveOfASession(t *testing.T) {
	hp := quantity.UnitShown("hp")
	r := levels(t, "", []float64{24.0, 24.2, 24.4}, []float64{25})
	first, second := r.Sums.Session(r.Sums.Stages[0].From), r.Sums.Session(r.Sums.Stages[0].To)
	points, reason := first.Curve(quantity.Power)
	if reason != "" || len(points) != 3 {
		t.Fatalf("%v, %q", points, reason)
	}
	for _, p := range points {
		if math.Abs(hp.FromSI(p.Value)-24.2) > 1e-9 || math.Abs(hp.FromSI(p.Expanded)-4.302653*0.2/math.Sqrt(3)) > 1e-5 {
			t.Errorf("%v ± %v hp", hp.FromSI(p.Value), hp.FromSI(p.Expanded))
		}
	}
	if points, reason = second.Curve(quantity.Torque); reason != "" || len(points) != 3 || points[0].Expanded != 0 {
		t.Errorf("of one pull: %v, %q", points, reason)
	}
}
