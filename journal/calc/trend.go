package calc

import "math"

// Point is one reading of a trend: Y at X, with the standard uncertainty U of Y, 0 where it isn't known. Points of one Run drifted without being set
// anew; each run has a level of its own.
type Point struct {
	X, Y, U float64
	Run     int
}

// Drift is a straight line through the last run of a trend: it passes (X, Y), and its slope is that of all runs together. The standard uncertainties
// of the level Y and of the slope are independent of each other, since X is the mean of the run.
type Drift struct {
	X, Y, LevelU  float64
	Slope, SlopeU float64
}

// Trend fits one slope to all runs, each with its own level, by least squares. Points weigh as the inverse square of their uncertainty where all have
// one, and alike otherwise. The uncertainties come from those of the points, enlarged by the Birge ratio where the points scatter more than that;
// where none are known, from the scatter alone. It refuses points that lie at one X in each run, and points whose scatter can't be told.
//
// Source of the method: weighted least squares with a common slope, in any text on the analysis of covariance; the Birge ratio is as in R. T. Birge,
// Physical Review 40, 207 (1932), from memory.
func Trend(points []Point) (Drift, error) {
	if len(points) == 0 {
		return Drift{}, Refusal("there is no reading")
	}
	weigh, known := weights(points)
	runs := gatherRuns(points, weigh)
	across, along, whole := 0.0, 0.0, 0.0
	for i, p := range points {
		r := runs[p.Run]
		across += weigh[i] * (p.X - r.x) * (p.X - r.x)
		whole += weigh[i] * p.X * p.X
		along += weigh[i] * (p.X - r.x) * (p.Y - r.y)
	}
	if !(across > 1e-18*whole) { // not even in the last bits
		return Drift{}, Refusal("no two readings lie apart")
	}
	slope := along / across
	rest := 0.0
	for i, p := range points {
		off := p.Y - runs[p.Run].y - slope*(p.X-runs[p.Run].x)
		rest += weigh[i] * off * off
	}
	variance := 1.0
	free := len(points) - len(runs) - 1
	switch {
	case free > 0 && (!known || rest/float64(free) > 1):
		variance = rest / float64(free)
	case !known:
		return Drift{}, Refusal("the scatter of so few readings can’t be told")
	}
	last := runs[points[len(points)-1].Run]
	d := Drift{X: last.x, Y: last.y, LevelU: math.Sqrt(variance / last.weight), Slope: slope, SlopeU: math.Sqrt(variance / across)}
	_, err := finite(d.Slope + d.SlopeU + d.LevelU + d.Y)
	return d, err
}

// weights returns what each point counts: alike unless all have an uncertainty, which is known then.
func weights(points []Point) (weigh []float64, known bool) {
	weigh = make([]float64, len(points))
	known = true
	for i, p := range points {
		weigh[i] = 1
		known = known && p.U > 0
	}
	if known {
		for i, p := range points {
			weigh[i] = 1 / (p.U * p.U)
		}
	}
	return weigh, known
}

// run is the mean of the points of one run.
type run struct{ weight, x, y float64 }

func gatherRuns(points []Point, weigh []float64) map[int]run {
	runs := map[int]run{}
	for i, p := range points {
		r := runs[p.Run]
		r.weight += weigh[i]
		r.x += weigh[i] * (p.X - r.x) / r.weight
		r.y += weigh[i] * (p.Y - r.y) / r.weight
		runs[p.Run] = r
	}
	return runs
}

// Crossing returns where a drift reaches a bound, with the standard uncertainty by the first-order rule of the GUM (JCGM 100:2008, 5.1.2):
//
//	x = X + (bound − Y) / b
//
// It refuses a slope that is not more than three times its uncertainty, which chance alone gives in one of several hundred.
func Crossing(d Drift, bound float64) (x, u float64, err error) {
	if !(math.Abs(d.Slope) > 3*d.SlopeU) {
		return 0, 0, Refusal("the drift is less than three times its standard uncertainty: it may be scatter")
	}
	ahead := (bound - d.Y) / d.Slope
	x, err = finite(d.X + ahead)
	if err != nil {
		return 0, 0, err
	}
	u, err = finite(math.Hypot(d.LevelU/d.Slope, ahead*d.SlopeU/d.Slope))
	return x, u, err
}
