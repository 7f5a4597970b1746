package calc_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.org/locknut/journal/calc"
)

// lobe is a test lobe with events that are known in closed form: lift = peak·(1 − u²)³ with u from −1 to 1 over its width, and with a flank on the closing side
// that is as much wider as skew says.
type lobe struct{ centre, width, skew, peak float64 }

func (l lobe) half(side float64) float64 {
	if side > 0 {
		return l.width / 2 * (1 + l.skew)
	}
	return l.width / 2
}

func (l lobe) lift(angle float64) float64 {
	u := (angle - l.centre) / l.half(angle-l.centre)
	if math.Abs(u) >= 1 {
		return 0
	}
	return l.peak * math.Pow(1-u*u, 3)
}

// event is where the lobe passes through a lift: the inverse in closed form.
func (l lobe) event(lift, side float64) float64 {
	return l.centre + side*l.half(side)*math.Sqrt(1-math.Cbrt(lift/l.peak))
}

// area is that under the whole lobe: ∫(1 − u²)³ from 0 to 1 is 16/35.
func (l lobe) area() float64 { return l.peak * 16 / 35 * (l.half(-1) + l.half(1)) }

func (l lobe) points(step float64) []calc.LiftPoint {
	var points []calc.LiftPoint
	for a := l.centre - l.width; a <= l.centre+l.width*(1+l.skew); a += step {
		points = append(points, calc.LiftPoint{Angle: a, Lift: l.lift(a)})
	}
	return points
}

func eachLobe(try func(l lobe)) {
	r := rand.New(rand.NewPCG(11, 12))
	for range 200 {
		try(lobe{centre: (100 + 20*r.Float64()) * degree * (1 - 2*float64(r.IntN(2))), width: (240 + 60*r.Float64()) * degree, skew: 0, peak: 0.006 + 0.004*r.Float64()})
	}
}

// The second methods: the events, the middle and the area of a polynomial lobe in closed form; and the events again by straight lines between the points.
func TestNewLiftCurveAgainstASecondMethod(t *testing.T) {
	eachLobe(func(l lobe) {
		points := l.points(5 * degree)
		c, err := calc.NewLiftCurve(points)
		if err != nil {
			t.Fatalf("%+v: %v", l, err)
		}
		opens, err1 := c.Opens(0.001)
		closes, err2 := c.Closes(0.001)
		if err1 != nil || err2 != nil {
			t.Fatalf("%+v: %v, %v", l, err1, err2)
		}
		if off := opens.Angle - l.event(0.001, -1); math.Abs(off) > 0.15*degree {
			t.Errorf("%+v: opens %v° off", l, off/degree)
		}
		if off := closes.Angle - l.event(0.001, 1); math.Abs(off) > 0.15*degree {
			t.Errorf("%+v: closes %v° off", l, off/degree)
		}
		if off := opens.Angle - straight(points, 0.001); math.Abs(off) > opens.Doubt+1e-9 {
			t.Errorf("%+v: a straight line is %v° off, more than the doubt of %v°", l, off/degree, opens.Doubt/degree)
		}
		if !(opens.Slope > 0 && closes.Slope < 0) {
			t.Errorf("%+v: slopes %v, %v", l, opens.Slope, closes.Slope)
		}
		middle, err := c.Middle()
		if err != nil || math.Abs(middle.Angle-l.centre) > 0.1*degree || middle.Spread > 0.2*degree || middle.Heights != 7 {
			t.Errorf("%+v: middle %+v, %v", l, middle, err)
		}
		if got, err := c.Area(1e-6); err != nil || math.Abs(got/l.area()-1) > 0.002 {
			t.Errorf("%+v: area %v, %v; want %v", l, got, err, l.area())
		}
	})
}

// straight finds the opening by straight lines, by halving.
func straight(points []calc.LiftPoint, lift float64) float64 {
	i := slices.IndexFunc(points, func(p calc.LiftPoint) bool { return p.Lift >= lift })
	p, q := points[i-1], points[i]
	low, high := 0.0, 1.0
	for range 60 {
		if middle := (low + high) / 2; p.Lift+middle*(q.Lift-p.Lift) < lift {
			low = middle
		} else {
			high = middle
		}
	}
	return p.Angle + low*(q.Angle-p.Angle)
}

// A trapezoid of straight flanks: events and middle are exact, its area but for the corners, which the cubics round.
func TestATrapezoidIsMeasuredExactly(t *testing.T) {
	var points []calc.LiftPoint
	for a := -20; a <= 240; a += 5 {
		lift := min(max(0, float64(a)*0.1), 8, max(0, (200-float64(a))*0.1)) // mm: up from 0° to 80°, down from 120° to 200°
		points = append(points, calc.LiftPoint{Angle: float64(a) * degree, Lift: lift / 1000})
	}
	c, err := calc.NewLiftCurve(points)
	if err != nil {
		t.Fatal(err)
	}
	for _, mm := range []float64{1, 1.27, 4, 6.3} {
		opens, err1 := c.Opens(mm / 1000)
		closes, err2 := c.Closes(mm / 1000)
		if err1 != nil || err2 != nil || math.Abs(opens.Angle/degree-mm*10) > 1e-6 || math.Abs(closes.Angle/degree-(200-mm*10)) > 1e-6 || opens.Doubt > 1e-9 {
			t.Errorf("at %v mm: %v, %v; %v, %v", mm, opens.Angle/degree, closes.Angle/degree, err1, err2)
		}
	}
	middle, err := c.Middle()
	if err != nil || math.Abs(middle.Angle/degree-100) > 1e-6 || middle.Spread > 1e-9 {
		t.Errorf("middle %+v, %v", middle, err)
	}
	if got, err := c.Area(0.001); err != nil || math.Abs(got-(180+40)/2*0.007*degree-180*0.001*degree) > 0.0005*degree*8 {
		t.Errorf("area %v mm·°, %v; want %v", got*1000/degree, err, (180+40)/2*7+180)
	}
}

// A lobe whose flanks differ has no one middle: the spread tells it.
func TestALobeWithUnlikeFlanksHasASpread(t *testing.T) {
	l := lobe{centre: 108 * degree, width: 260 * degree, skew: 0.08, peak: 0.008}
	c, err := calc.NewLiftCurve(l.points(4 * degree))
	if err != nil {
		t.Fatal(err)
	}
	middle, err := c.Middle()
	want, n := 0.0, 0.0
	for share := 0.2; share < 0.81; share += 0.1 {
		want += (l.event(share*l.peak, -1) + l.event(share*l.peak, 1)) / 2
		n++
	}
	if err != nil || math.Abs(middle.Angle-want/n) > 0.1*degree || middle.Spread < 0.5*degree {
		t.Errorf("middle %v°, spread %v°, %v; want %v°", middle.Angle/degree, middle.Spread/degree, err, want/n/degree)
	}
}

func TestLiftCurvesThatAreRefused(t *testing.T) {
	good := lobe{centre: 110 * degree, width: 260 * degree, peak: 0.008}.points(10 * degree)
	for _, c := range []struct {
		what  string
		spoil func(p []calc.LiftPoint) []calc.LiftPoint
		point int
		lift  bool
	}{
		{"seven points", func(p []calc.LiftPoint) []calc.LiftPoint { return p[:7] }, -1, false},
		{"no lift at all", func(p []calc.LiftPoint) []calc.LiftPoint {
			for i := range p {
				p[i].Lift = 0
			}
			return p
		}, -1, true},
		{"no number", func(p []calc.LiftPoint) []calc.LiftPoint { p[3].Lift = math.NaN(); return p }, 3, false},
		{"an angle twice", func(p []calc.LiftPoint) []calc.LiftPoint { p[9].Angle = p[8].Angle; return p }, 9, false},
		{"an angle too small", func(p []calc.LiftPoint) []calc.LiftPoint { p[9].Angle -= 60 * degree; return p }, 9, false},
		{"an angle too large", func(p []calc.LiftPoint) []calc.LiftPoint { p[9].Angle += 60 * degree; return p }, 9, false},
		{"a gap", func(p []calc.LiftPoint) []calc.LiftPoint { return slices.Delete(p, 20, 23) }, 20, false},
		{"below zero", func(p []calc.LiftPoint) []calc.LiftPoint { p[2].Lift = -0.0003; return p }, 2, true},
		{"a dip on the way up", func(p []calc.LiftPoint) []calc.LiftPoint { p[20].Lift /= 10; return p }, 20, true},
		{"a dip on the way down", func(p []calc.LiftPoint) []calc.LiftPoint { p[32].Lift /= 10; return p }, 32, true},
		{"a bump on the way up", func(p []calc.LiftPoint) []calc.LiftPoint { p[17].Lift += 0.003; return p }, 17, true},
		{"a bump on the way down", func(p []calc.LiftPoint) []calc.LiftPoint { p[35].Lift += 0.003; return p }, 35, true},
		{"ten times the lift", func(p []calc.LiftPoint) []calc.LiftPoint { p[24].Lift *= 10; return p }, 24, true},
		{"a dial that is off throughout", func(p []calc.LiftPoint) []calc.LiftPoint { return raised(p, 0, 0.0001) }, 0, true},
		{"one that is off the other way", func(p []calc.LiftPoint) []calc.LiftPoint { return raised(p, 0, -0.0001) }, 0, true},
		{"one that was moved on the way", func(p []calc.LiftPoint) []calc.LiftPoint { return raised(p, 20, 0.0003) }, 52, true},
	} {
		_, err := calc.NewLiftCurve(c.spoil(slices.Clone(good)))
		var fault *calc.LiftFault
		if !errors.As(err, &fault) || fault.Point != c.point || fault.Lift != c.lift {
			t.Errorf("%s: %v, %+v; want point %d, lift %v", c.what, err, fault, c.point, c.lift)
		}
	}
	for what, taken := range map[string][]calc.LiftPoint{
		"the whole one": good,
		"a dial that is off by less than a hundredth":           raised(slices.Clone(good), 0, 0.00007),
		"one that begins on the ramp":                           raised(slices.Clone(good[16:]), 0, 0.00007),
		"one that begins with the valve a tenth open, and ends": good[18:35],
		"one that ends at the top of a lobe with a dwell":       append(slices.Clone(good[:27]), calc.LiftPoint{Angle: good[26].Angle + 5*degree, Lift: good[26].Lift}, calc.LiftPoint{Angle: good[26].Angle + 15*degree, Lift: good[26].Lift}),
	} {
		if _, err := calc.NewLiftCurve(taken); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// raised adds to the lifts from a point on.
func raised(points []calc.LiftPoint, from int, by float64) []calc.LiftPoint {
	for i := range points[from:] {
		points[from+i].Lift += by
	}
	return points
}

func TestEventsThatCannotBeHad(t *testing.T) {
	l := lobe{centre: 110 * degree, width: 260 * degree, peak: 0.008}
	points := l.points(10 * degree)
	whole, err := calc.NewLiftCurve(points)
	if err != nil {
		t.Fatal(err)
	}
	half, err := calc.NewLiftCurve(points[19:]) // begins with the valve open
	if err != nil {
		t.Fatal(err)
	}
	for what, of := range map[string]func() (calc.LiftEvent, error){
		"never reached":   func() (calc.LiftEvent, error) { return whole.Opens(0.009) },
		"the peak itself": func() (calc.LiftEvent, error) { return whole.Closes(whole.Peak()) },
		"no lift":         func() (calc.LiftEvent, error) { return whole.Opens(0) },
		"no figure":       func() (calc.LiftEvent, error) { return whole.Opens(math.NaN()) },
		"cut off":         func() (calc.LiftEvent, error) { return half.Opens(0.001) },
	} {
		if got, err := of(); err == nil {
			t.Errorf("%s: %+v", what, got)
		}
	}
	if _, err := half.Closes(0.001); err != nil {
		t.Errorf("the side that is there: %v", err)
	}
	if _, err := half.Area(0.001); err == nil {
		t.Error("the area of half a lobe is had")
	}
	if third, err := calc.NewLiftCurve(points[24:]); err == nil {
		if got, err := third.Middle(); err == nil {
			t.Errorf("the middle of one flank: %+v", got)
		}
	}
}

// Whatever the points are, they are refused, or give figures: never a panic, never what is no number.
func TestNoPointsGiveWhatIsNoNumber(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	odd := []float64{0, math.NaN(), math.Inf(1), 1e300, -1e300, 5e-324, -0.001, 1e-18}
	taken := 0
	for range 20000 {
		l := lobe{centre: r.Float64(), width: 3 + 2*r.Float64(), peak: math.Pow(10, -12*r.Float64())}
		points := l.points((1 + 24*r.Float64()) * degree)
		for range r.IntN(3) {
			p := &points[r.IntN(len(points))]
			switch r.IntN(4) {
			case 0:
				p.Lift = odd[r.IntN(len(odd))]
			case 1:
				p.Angle = odd[r.IntN(len(odd))]
			case 2:
				p.Lift *= 1 + r.NormFloat64()/10
			case 3:
				p.Angle += r.NormFloat64() * 3 * degree
			}
		}
		c, err := calc.NewLiftCurve(points)
		if err != nil {
			continue
		}
		taken++
		for _, share := range []float64{1e-9, 0.1, 0.5, 0.999999} {
			for _, of := range []func(float64) (calc.LiftEvent, error){c.Opens, c.Closes} {
				if e, err := of(share * c.Peak()); err == nil && (math.IsNaN(e.Angle+e.Slope+e.Doubt) || math.IsInf(e.Angle+e.Slope+e.Doubt, 0)) {
					t.Fatalf("%+v of %+v", e, points)
				}
			}
			if area, err := c.Area(share * c.Peak()); err == nil && !(area >= 0) {
				t.Fatalf("area %v of %+v", area, points)
			}
		}
		if m, err := c.Middle(); err == nil && (math.IsNaN(m.Angle+m.Spread) || m.Angle < points[0].Angle || m.Angle > points[len(points)-1].Angle) {
			t.Fatalf("middle %+v of %+v", m, points)
		}
	}
	if taken < 1000 {
		t.Errorf("only %d curves were taken", taken)
	}
}

// A straight flank of 0.1 mm a degree that a dial shows nothing of below nought comes to it between two readings, by hand; and one that is told at its end, there.
func TestSeats(t *testing.T) {
	flank := func(shut float64) []calc.LiftPoint {
		var points []calc.LiftPoint
		for a := -60.0; a <= 60; a += 4 {
			points = append(points, calc.LiftPoint{a * math.Pi / 180, max(0, 0.1e-3*(shut-math.Abs(a)))})
		}
		return points
	}
	for _, shut := range []float64{44, 45, 46.5, 47.9} {
		c, err := calc.NewLiftCurve(flank(shut))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := c.Seats(5e-6); err != nil || math.Abs(got*180/math.Pi-shut) > 1e-6 {
			t.Errorf("shut at %v°, want %v° (%v)", got*180/math.Pi, shut, err)
		}
	}
	if c, err := calc.NewLiftCurve(flank(90)); err != nil {
		t.Fatal(err)
	} else if _, err := c.Seats(5e-6); err == nil {
		t.Error("a file that ends with the valve open tells no seat")
	}
}
