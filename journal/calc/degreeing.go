package calc

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// LiftPoint is one reading of a degree wheel and a dial: a crank angle, rising (rad), and the lift there (m).
type LiftPoint struct{ Angle, Lift float64 }

// LiftFault says which point of a lift curve can't be right, and why.
type LiftFault struct {
	Point int  // in the list that was given; −1 for the list as a whole
	Lift  bool // the lift is at fault, not the angle
	Shut  bool // the valve is shut there: the lift is what the dial was off nought by
	Why   string
}

// Error returns the reason.
func (f *LiftFault) Error() string { return f.Why }

// LiftCurve is the lift of one valve over the crank angle: up to one peak and down again.
type LiftCurve struct {
	points []LiftPoint
	peak   int
	curve  interp.FritschButland
}

// LiftEvent is a crossing of a checking lift.
type LiftEvent struct {
	Angle float64 // rad
	Slope float64 // m/rad
	Doubt float64 // rad: how far a straight line between the two neighbouring points would put it elsewhere
}

// LobeMiddle is the middle between two equal lifts, the mean over several heights.
type LobeMiddle struct {
	Angle   float64 // rad
	Spread  float64 // rad: one standard deviation of the middle from height to height
	Heights int
}

// What a lift curve is refused for: common practice, no source.
const (
	leastPoints = 8                 // a lobe is not told by fewer
	widestStep  = math.Pi/9 + 1e-9  // 20°, while the valve is open
	smallShare  = 0.02              // of the peak: as much as a dial may go back on the way up, or a base circle be off
	nearest     = 1e-6              // rad: no wheel tells two angles that are nearer
	spikeRatio  = 1.5               // of the greatest lift over both its neighbours, in steps of 20° at most
	justOpen    = smallShare        // of the peak: from here on the valve counts as open
	leastHeight = 3                 // heights at which a middle can be had
	shutFor     = math.Pi/18 - 1e-9 // 10°: for so long a lift stands still where the valve is shut, and on no ramp
	stillShare  = 0.002             // of the peak: as much as a dial wanders while the valve is shut
	shutShare   = 0.01              // of the peak: as far as it may stand off nought there
)

// heights are the shares of the peak at which the middle of a lobe is taken: above the ramps, and where the flanks are still steep.
var heights = [...]float64{0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8}

// NewLiftCurve makes a curve of points in the order in which they were read. It refuses, with a [LiftFault], fewer than eight; figures that are none; angles that
// stand still or run backwards; steps of more than 20° while the valve is open; lifts below zero by more than a fiftieth of the peak; more than one peak; and a lift of more than
// a hundredth of the peak, either way, that stands still for 10° at either end: there the valve is shut, and the dial not at nought.
//
// Between the points the lift is a cubic that neither overshoots nor turns back. Source of the method: Fritsch and Butland, SIAM J. Sci. Statist. Comput. 5 (1984),
// as the library does it; what is refused is common practice, no source.
func NewLiftCurve(points []LiftPoint) (*LiftCurve, error) {
	c := &LiftCurve{points: slices.Clone(points)}
	for _, check := range []func() *LiftFault{c.tooFew, c.backwards, c.findPeak, c.negative, c.jumps, c.turnsBack, c.offNought} {
		if fault := check(); fault != nil {
			return nil, fault
		}
	}
	xs, ys := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		xs[i], ys[i] = p.Angle, p.Lift
	}
	if err := c.curve.Fit(xs, ys); err != nil {
		return nil, Refusal("no curve goes through these points: " + err.Error())
	}
	return c, nil
}

func (c *LiftCurve) tooFew() *LiftFault {
	if len(c.points) < leastPoints {
		return &LiftFault{Point: -1, Why: "a lobe is not told by so few points: eight at least, and closer where the valve opens and closes"}
	}
	for i, p := range c.points {
		if finitely(p.Angle) != nil || finitely(p.Lift) != nil || math.Abs(p.Angle) > 100*math.Pi || math.Abs(p.Lift) > 1 {
			return &LiftFault{Point: i, Why: "no wheel and dial show this"}
		}
	}
	return nil
}

// backwards finds an angle that is not more than the one before. Of two that disagree, the one without which the rest would rise is at fault.
func (c *LiftCurve) backwards() *LiftFault {
	rises := func(i, j int) bool {
		return i < 0 || j >= len(c.points) || c.points[j].Angle-c.points[i].Angle > nearest
	}
	for i := 1; i < len(c.points); i++ {
		if rises(i-1, i) {
			continue
		}
		why := "the angle runs backwards"
		if math.Abs(c.points[i-1].Angle-c.points[i].Angle) <= nearest {
			why = "the angle stands still"
		}
		if rises(i-2, i) && !rises(i-1, i+1) {
			return &LiftFault{Point: i - 1, Why: "the angle jumps ahead, and the next one is less"}
		}
		return &LiftFault{Point: i, Why: why}
	}
	return nil
}

// findPeak finds the greatest lift. One that stands far above both its neighbours is a slip, and so is a curve without a lift.
func (c *LiftCurve) findPeak() *LiftFault {
	for i, p := range c.points {
		if p.Lift > c.points[c.peak].Lift {
			c.peak = i
		}
	}
	peak := c.points[c.peak].Lift
	beside := 0.0
	for _, i := range []int{c.peak - 1, c.peak + 1} {
		if i >= 0 && i < len(c.points) {
			beside = max(beside, c.points[i].Lift)
		}
	}
	switch {
	case !(peak > 0):
		return &LiftFault{Point: -1, Lift: true, Why: "the valve never opens"}
	case peak > spikeRatio*beside:
		return &LiftFault{Point: c.peak, Lift: true, Why: "this lift stands far above the two beside it"}
	}
	return nil
}

func (c *LiftCurve) negative() *LiftFault {
	for i, p := range c.points {
		if p.Lift < -smallShare*c.points[c.peak].Lift {
			return &LiftFault{Point: i, Lift: true, Why: "the lift is below zero: the dial was not at nought on the base circle, or had no travel left"}
		}
	}
	return nil
}

func (c *LiftCurve) jumps() *LiftFault {
	open := justOpen * c.points[c.peak].Lift
	for i := 1; i < len(c.points); i++ {
		if p, q := c.points[i-1], c.points[i]; q.Angle-p.Angle > widestStep && max(p.Lift, q.Lift) > open {
			return &LiftFault{Point: i, Why: "the angle jumps by more than 20° while the valve is open"}
		}
	}
	return nil
}

// turnsBack finds a lift that falls on the way up from either end to the peak. A point that stands out above the two beside it is at fault itself; else the one
// that has fallen is.
func (c *LiftCurve) turnsBack() *LiftFault {
	slack := smallShare * c.Peak()
	for _, way := range []int{1, -1} {
		start := 0
		if way < 0 {
			start = len(c.points) - 1
		}
		for i := start; i != c.peak; i += way {
			here, next := c.points[i].Lift, c.points[i+way].Lift
			if next >= here-slack {
				continue
			}
			at := i + way
			if i != start && next >= c.points[i-way].Lift-slack && c.points[at+way].Lift < here-slack {
				at = i
			}
			return &LiftFault{Point: at, Lift: true, Why: "the lift falls and rises again: a lobe has one peak"}
		}
	}
	return nil
}

// offNought finds an end of the curve at which the valve is shut and the dial not at nought.
func (c *LiftCurve) offNought() *LiftFault {
	peak := c.Peak()
	for _, way := range []int{1, -1} {
		start := 0
		if way < 0 {
			start = len(c.points) - 1
		}
		end := c.points[start]
		last := start
		for last != c.peak && math.Abs(c.points[last+way].Lift-end.Lift) <= stillShare*peak {
			last += way
		}
		if math.Abs(c.points[last].Angle-end.Angle) >= shutFor && math.Abs(end.Lift) > shutShare*peak && end.Lift < peak/2 { // else it stands still on top
			return &LiftFault{Point: start, Lift: true, Shut: true, Why: "the dial was not at nought on the base circle"}
		}
	}
	return nil
}

// Peak returns the greatest lift that was read, in m.
func (c *LiftCurve) Peak() float64 { return c.points[c.peak].Lift }

// Lift returns the lift at an angle within the curve (rad), in m; beyond its ends, that of the nearer end.
func (c *LiftCurve) Lift(angle float64) float64 { return c.curve.Predict(angle) }

// Traced returns so many points of the curve, evenly from its beginning to its end.
func (c *LiftCurve) Traced(n int) []LiftPoint {
	from, to := c.points[0].Angle, c.points[len(c.points)-1].Angle
	traced := make([]LiftPoint, 0, n)
	for i := range n {
		angle := from + (to-from)*float64(i)/float64(max(1, n-1))
		traced = append(traced, LiftPoint{Angle: angle, Lift: c.Lift(angle)})
	}
	return traced
}

// Opens returns where the valve rises through a lift (m): of several places the one nearest the peak. It refuses a lift that the curve never reaches, that is not more than zero,
// or above which it begins.
func (c *LiftCurve) Opens(lift float64) (LiftEvent, error) {
	return c.crossing(lift, -1, "the file begins with the valve further open than that")
}

// Closes returns where the valve falls through a lift (m); the rest as for [LiftCurve.Opens], but for the curve's end.
func (c *LiftCurve) Closes(lift float64) (LiftEvent, error) {
	return c.crossing(lift, 1, "the file ends with the valve further open than that")
}

func (c *LiftCurve) crossing(lift float64, way int, ends string) (LiftEvent, error) {
	if err := positive("the checking lift", lift); err != nil {
		return LiftEvent{}, err
	}
	if !(lift < c.Peak()) {
		return LiftEvent{}, Refusal("the file never reaches that lift")
	}
	i := c.peak
	for i >= 0 && i < len(c.points) && c.points[i].Lift >= lift {
		i += way
	}
	if i < 0 || i == len(c.points) {
		return LiftEvent{}, Refusal(ends)
	}
	below, above := c.points[i], c.points[i-way]
	low, high := below.Angle, above.Angle
	for range 60 {
		middle := (low + high) / 2
		if c.curve.Predict(middle) < lift {
			low = middle
		} else {
			high = middle
		}
	}
	angle := (low + high) / 2
	straight := below.Angle + (above.Angle-below.Angle)*(lift-below.Lift)/(above.Lift-below.Lift)
	return LiftEvent{Angle: angle, Slope: c.curve.PredictDerivative(angle), Doubt: math.Abs(angle - straight)}, nil
}

// Seats returns where the lift has fallen to nought, in rad, of a dial that was read with the lash in: it stands still from there on, and reaches it at a slope. The straight line through the
// last two readings of more than a lift (m) tells it, and the first that is no more bounds it. It refuses a curve that doesn't fall so far. Source of the method: common practice, no source.
func (c *LiftCurve) Seats(least float64) (float64, error) {
	i := c.peak
	for i < len(c.points) && c.points[i].Lift > least {
		i++
	}
	if i == len(c.points) || i < c.peak+2 {
		return 0, Refusal("the file ends with the valve further open than that")
	}
	before, last, shut := c.points[i-2], c.points[i-1], c.points[i]
	return min(shut.Angle, last.Angle+last.Lift*(last.Angle-before.Angle)/max(before.Lift-last.Lift, last.Lift*nearest)), nil
}

// Middle returns the middle of the lobe by equal lift: the mean, over heights from a fifth to four fifths of the peak, of the middle between opening and closing. Heights at
// which the curve lacks a side are left out; fewer than three are refused. Source of the method: common practice, no source.
func (c *LiftCurve) Middle() (LobeMiddle, error) {
	var middles []float64
	for _, share := range heights {
		opens, err := c.Opens(share * c.Peak())
		if err != nil {
			continue
		}
		closes, err := c.Closes(share * c.Peak())
		if err != nil {
			continue
		}
		middles = append(middles, (opens.Angle+closes.Angle)/2)
	}
	if len(middles) < leastHeight {
		return LobeMiddle{}, Refusal("the file holds too little of one flank")
	}
	mean, squares := 0.0, 0.0
	for _, m := range middles {
		mean += m / float64(len(middles))
	}
	for _, m := range middles {
		squares += (m - mean) * (m - mean)
	}
	return LobeMiddle{Angle: mean, Spread: math.Sqrt(squares / float64(len(middles)-1)), Heights: len(middles)}, nil
}

// Area returns the area under the lift from where the valve rises through a lift (m) to where it falls through it, in m·rad of the crank. It refuses what [LiftCurve.Opens] and
// [LiftCurve.Closes] do. By Simpson's rule from point to point, which is exact for the cubics there.
func (c *LiftCurve) Area(lift float64) (float64, error) {
	opens, err := c.Opens(lift)
	if err != nil {
		return 0, err
	}
	closes, err := c.Closes(lift)
	if err != nil {
		return 0, err
	}
	area, from := 0.0, opens.Angle
	for _, p := range append(slices.Clone(c.points), LiftPoint{Angle: closes.Angle}) {
		to := min(p.Angle, closes.Angle)
		if !(to > from) {
			continue
		}
		area += (to - from) / 6 * (c.Lift(from) + 4*c.Lift((from+to)/2) + c.Lift(to))
		from = to
	}
	return finite(area)
}

// StopCentre returns what a wheel shows at top dead centre, in rad from half a turn before its nought to half a turn after, from what it shows where a stop in the plug hole
// halts the piston: on its way up, before top dead centre, and turned back against it from after (rad, rising with the crank; a wheel may go through its nought between them).
//
//	centre = (before + after) / 2
//
// It refuses two readings that are alike, or half a turn or more apart: a stop holds the piston off the top, so the way through the top is the shorter one. Source of the
// method: common practice, no source.
func StopCentre(before, after float64) (float64, error) {
	apart := math.Mod(after-before, 2*math.Pi)
	if apart < 0 {
		apart += 2 * math.Pi
	}
	if !(apart > nearest) || !(apart < math.Pi-nearest) { // infinite ones too
		return 0, Refusal("a stop halts the piston before top dead centre and after it, less than half a turn apart")
	}
	return math.Remainder(before+apart/2, 2*math.Pi), nil
}
