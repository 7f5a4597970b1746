package quantity

import (
	"fmt"
	"math"
	"testing"
)

// Feelers read exactly on edges. Every hundredth from 0.01 to 0.60 mm is met as a low and as a high bound that is written as itself, as
// nominal ∓ tolerance, in micrometres and in inches; a hundredth of a micrometre past it is past it.
func TestCompareOnEveryEdge(t *testing.T) {
	const tiny = 0.01e-6
	for i := 1; i <= 60; i++ {
		edge := resolved(t, fmt.Sprintf("0.%02d mm", i), Want{}).SI()
		bounds := map[string][2]float64{} // bound, and the size of what it was worked out from
		bounds["itself"] = [2]float64{edge, 0}
		bounds["micrometres"] = [2]float64{resolved(t, fmt.Sprintf("%d µm", 10*i), Want{}).SI(), 0}
		bounds["inches"] = [2]float64{resolved(t, fmt.Sprintf("%.18f in", float64(i)/100/25.4), Want{}).SI(), 0}
		for tolerance := 1; tolerance <= 60; tolerance++ {
			tol := resolved(t, fmt.Sprintf("0.%02d mm", tolerance), Want{})
			if nominal := i + tolerance; nominal <= 99 { // a low bound
				n := resolved(t, fmt.Sprintf("0.%02d mm ± 0.%02d mm", nominal, tolerance), Want{})
				bounds[fmt.Sprintf("%d−%d", nominal, tolerance)] = [2]float64{n.SI() - n.SpreadSI(), n.SI()}
			}
			if nominal := i - tolerance; nominal >= 0 { // a high bound
				n := resolved(t, fmt.Sprintf("0.%02d mm", nominal), Want{})
				bounds[fmt.Sprintf("%d+%d", nominal, tolerance)] = [2]float64{n.SI() + tol.SI(), tol.SI()}
			}
		}
		for from, b := range bounds {
			for _, r := range []struct {
				reading float64
				want    int
			}{{edge, 0}, {edge - tiny, -1}, {edge + tiny, 1}} {
				if got := Compare(r.reading, b[0], b[1]); got != r.want {
					t.Errorf("0.%02d mm as %s: %.18g against %.18g gives %d, want %d", i, from, r.reading, b[0], got, r.want)
				}
				if got := Compare(b[0], r.reading, b[1]); got != -r.want {
					t.Errorf("0.%02d mm as %s, turned round: %d, want %d", i, from, got, -r.want)
				}
			}
		}
	}
}

func TestCompareAtItsOwnEdges(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, r := range []struct {
		a, b, scale float64
		want        int
	}{
		{0, 0, 0, 0}, {0, 1e-300, 0, -1}, {0, 1e-10, 1, 0}, {0, 2e-9, 1, -1}, {1, 1 + 0.9e-9, 0, 0}, {1, 1 + 1.1e-9, 0, -1}, {-1, -1 - 1.1e-9, 0, 1},
		{1, 1.0000001, -1000, 0}, {inf, inf, 0, 0}, {1, inf, 0, -1}, {-inf, 1, 0, -1}, {1, 2, inf, -1}, {nan, 1, 0, -1}, {1, nan, 0, 1}, {nan, nan, 0, 0}, {1, 2, nan, -1},
		{math.MaxFloat64, -math.MaxFloat64, 0, 1},
	} {
		if got := Compare(r.a, r.b, r.scale); got != r.want {
			t.Errorf("Compare(%g, %g, %g) = %d, want %d", r.a, r.b, r.scale, got, r.want)
		}
	}
}

// A limit and a reading in the other system meet on the edge: 0.1016 mm is 0.004 in exactly (recomputed from 1 in = 25.4 mm).
func TestCompareAcrossUnits(t *testing.T) {
	for _, r := range [][2]string{{"0.1016 mm", "0.004 in"}, {"0.1016 mm", "4 thou"}, {"17.65197 N·m", "1.8 kgf·m"}, {"32 °F", "0 °C"}, {"1 lbf·ft", "12 lbf·in"}, {"1/4 turn", "90°"}} {
		a, b := resolved(t, r[0], Want{}), resolved(t, r[1], Want{})
		if got := Compare(a.SI(), b.SI(), 0); got != 0 {
			t.Errorf("%s against %s: %d", r[0], r[1], got)
		}
	}
}
