package chart

import (
	"strings"
	"testing"

	"example.org/locknut/journal/quantity"
)

// Stretches that touch, as finely as they are told, are one; a count of them has no unit. By hand, from the points.
func TestWhereAGainWas(t *testing.T) {
	wave := func(n int) []CurvePoint {
		var points []CurvePoint
		for i := range 2*n + 1 {
			points = append(points, CurvePoint{4000 + float64(i)*200, float64(1 - i%2*2), 0.1})
		}
		return points
	}
	for _, c := range []struct {
		points []CurvePoint
		want   string
	}{
		{[]CurvePoint{{4000, -0.1, 0.2}, {5695, 0.1, 0.2}, {5705, 0.3, 0.2}, {5795, 0.3, 0.2}, {5800, 0.199, 0.2}, {5805, 0.3, 0.2}, {9300, 0.5, 0.2}}, "gained 5700 to 9300 rpm"},
		{wave(12), "gained in 13 places; lost in 12 places"},
		{append(wave(4), CurvePoint{9000, -1, 0.1}, CurvePoint{9100, -1, 0.1}), "gained in 5 places; lost in 5 places"},
		{[]CurvePoint{{4000, -1, 0.1}, {6000, -1, 0.1}, {6100, 1, 0.1}, {9300, 1, 0.1}}, "gained 6050 to 9300; lost 4000 to 6050 rpm"},
	} {
		g := gainCurves{GainCurvesData: GainCurvesData{Speed: quantity.UnitShown("rpm"), Power: quantity.UnitShown("kW")}, x: axis{lo: 4000, hi: 9300, to: 600}}
		if got := strings.ReplaceAll(g.where(&gainPlot{points: c.points, isBand: true}), "\u202f", " "); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
