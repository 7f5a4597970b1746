package calc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/locknut/journal/calc"
)

// norris is a data set of the Statistical Reference Datasets of NIST for linear regression: y, x. Data and certified values from memory; that the one
// gives the other to ten digits is what vouches for both.
var norris = [][2]float64{
	{0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6},
	{778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
	{557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3}, {0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1},
	{888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5},
}

func TestTrendAgainstCertifiedValues(t *testing.T) {
	var points []calc.Point
	for _, p := range norris {
		points = append(points, calc.Point{X: p[1], Y: p[0]})
	}
	d, err := calc.Trend(points)
	if err != nil {
		t.Fatal(err)
	}
	const slope, slopeU, level, levelU = 1.00211681802045, 0.429796848199937e-03, -0.262323073774029, 0.232818234301152
	atZero := d.Y - d.Slope*d.X
	atZeroU := math.Hypot(d.LevelU, d.X*d.SlopeU)
	for _, c := range []struct {
		name      string
		got, want float64
	}{{"slope", d.Slope, slope}, {"its standard deviation", d.SlopeU, slopeU}, {"level", atZero, level}, {"its standard deviation", atZeroU, levelU}} {
		if math.Abs(c.got-c.want) > 1e-9*math.Abs(c.want) {
			t.Errorf("%s %.15g, certified %.15g", c.name, c.got, c.want)
		}
	}
}

// The same lines by the normal equations, solved as a whole: a column a run and one for the slope.
func TestTrendAgainstASecondMethod(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		runs := 1 + r.IntN(3)
		var points []calc.Point
		for run := range runs {
			for range 2 + r.IntN(4) {
				points = append(points, calc.Point{X: r.Float64() * 9, Y: r.Float64() + float64(run), U: 0.1 + r.Float64(), Run: run})
			}
		}
		n := runs + 1
		a, b := make([][]float64, n), make([]float64, n)
		for i := range a {
			a[i] = make([]float64, n)
		}
		for _, p := range points {
			row := make([]float64, n)
			row[p.Run], row[runs] = 1, p.X
			for i := range row {
				for j := range row {
					a[i][j] += row[i] * row[j] / (p.U * p.U)
				}
				b[i] += row[i] * p.Y / (p.U * p.U)
			}
		}
		inverse := invert(a)
		solved := make([]float64, n)
		for i := range solved {
			for j := range b {
				solved[i] += inverse[i][j] * b[j]
			}
		}
		rest := 0.0
		for _, p := range points {
			rest += math.Pow((p.Y-solved[p.Run]-solved[runs]*p.X)/p.U, 2)
		}
		scale := 1.0
		if free := len(points) - n; free > 0 {
			scale = max(1, rest/float64(free))
		}
		d, err := calc.Trend(points)
		if err != nil {
			t.Fatal(err)
		}
		level := solved[runs-1] + solved[runs]*d.X
		levelU := math.Sqrt(scale * (inverse[runs-1][runs-1] + 2*d.X*inverse[runs-1][runs] + d.X*d.X*inverse[runs][runs]))
		for _, c := range [][2]float64{{d.Slope, solved[runs]}, {d.SlopeU, math.Sqrt(scale * inverse[runs][runs])}, {d.Y, level}, {d.LevelU, levelU}} {
			if math.Abs(c[0]-c[1]) > 1e-7*(1+math.Abs(c[1])) {
				t.Fatalf("%v: %+v, by the normal equations %v", points, d, c)
			}
		}
	}
}

// invert inverts a matrix by the method of Gauss and Jordan.
func invert(a [][]float64) [][]float64 {
	n := len(a)
	out := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, n)
		out[i][i] = 1
	}
	for i := range n {
		pivot := i
		for k := i; k < n; k++ {
			if math.Abs(a[k][i]) > math.Abs(a[pivot][i]) {
				pivot = k
			}
		}
		a[i], a[pivot], out[i], out[pivot] = a[pivot], a[i], out[pivot], out[i]
		by := a[i][i]
		for j := range n {
			a[i][j] /= by
			out[i][j] /= by
		}
		for k := range n {
			if factor := a[k][i]; k != i {
				for j := range n {
					a[k][j] -= factor * a[i][j]
					out[k][j] -= factor * out[i][j]
				}
			}
		}
	}
	return out
}

// Readings are drawn about a known line again and again: the crossings must scatter by what is said of each.
func TestCrossingAgainstASecondMethod(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	var mean, square, said float64
	const times = 4000
	for range times {
		var points []calc.Point
		for x := range 6 {
			points = append(points, calc.Point{X: float64(x), Y: 10 - 0.5*float64(x) + 0.02*r.NormFloat64(), U: 0.02})
		}
		d, err := calc.Trend(points)
		if err != nil {
			t.Fatal(err)
		}
		x, u, err := calc.Crossing(d, 5)
		if err != nil {
			t.Fatal(err)
		}
		mean, square, said = mean+x/times, square+(x-10)*(x-10)/times, said+u/times
	}
	// The Birge ratio enlarges what is said, by some tenth on the average of so few points.
	if math.Abs(mean-10) > 0.01 || said < math.Sqrt(square) || said > 1.25*math.Sqrt(square) {
		t.Errorf("they cross at %v, want 10; they scatter by %v, and say %v", mean, math.Sqrt(square), said)
	}
}

func TestTrendRefuses(t *testing.T) {
	for _, c := range []struct {
		points []calc.Point
		want   string
	}{
		{nil, "there is no reading"},
		{[]calc.Point{{X: 1, Y: 2, U: 1}}, "no two readings lie apart"},
		{[]calc.Point{{X: 1, Y: 2, U: 1}, {X: 2, Y: 2, U: 1, Run: 1}}, "no two readings lie apart"},
		{[]calc.Point{{X: 1, Y: 2}, {X: 2, Y: 3, U: 1}}, "the scatter of so few readings can’t be told"},
		{[]calc.Point{{X: 1, Y: 2, U: 1}, {X: math.NaN(), Y: 3, U: 1}}, "no two readings lie apart"},
		{[]calc.Point{{X: 1, Y: math.Inf(1), U: 1}, {X: 2, Y: 3, U: 1}}, "the figures are too large or too small to work with"},
	} {
		if d, err := calc.Trend(c.points); err == nil || err.Error() != c.want {
			t.Errorf("%v: %+v, %v, want %s", c.points, d, err, c.want)
		}
	}
	if _, _, err := calc.Crossing(calc.Drift{Slope: 1, SlopeU: 0.34}, 3); err == nil || err.Error() != "the drift is less than three times its standard uncertainty: it may be scatter" {
		t.Error(err)
	}
	if _, _, err := calc.Crossing(calc.Drift{}, 3); err == nil {
		t.Error("a drift of nothing crosses something")
	}
}
