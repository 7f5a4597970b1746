package chart

import (
	"cmp"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// CurvePoint is one point of a curve in SI: a speed, or an angle, and what was measured at it. Expanded is half of the interval of 95 % about that; 0 where it isn't known.
type CurvePoint struct{ Speed, Value, Expanded float64 }

func (p CurvePoint) low() float64  { return p.Value - p.Expanded }
func (p CurvePoint) high() float64 { return p.Value + p.Expanded }

// clean puts the points of a curve in order of speed, leaves out what can't be drawn, and makes one of those at one speed: their mean.
func clean(curve []CurvePoint) []CurvePoint {
	points := slices.DeleteFunc(slices.Clone(curve), func(p CurvePoint) bool { return !isDrawn(p.Speed) || !isDrawn(p.low()) || !isDrawn(p.high()) })
	slices.SortStableFunc(points, func(a, b CurvePoint) int { return cmp.Compare(a.Speed, b.Speed) })
	kept := points[:0]
	for i := 0; i < len(points); {
		sum, spread, n := 0.0, 0.0, 0.0
		for ; i+int(n) < len(points) && points[i+int(n)].Speed == points[i].Speed; n++ {
			sum, spread = sum+points[i+int(n)].Value, max(spread, points[i+int(n)].Expanded)
		}
		kept = append(kept, CurvePoint{points[i].Speed, sum / n, spread})
		i += int(n)
	}
	return kept
}

// shownIn puts a curve in the units of a drawing, in order.
func shownIn(curve []CurvePoint, speed, value *quantity.Unit) []CurvePoint {
	shown := make([]CurvePoint, len(curve))
	for i, p := range curve {
		shown[i] = CurvePoint{speed.FromSI(p.Speed), value.FromSI(p.Value), value.StepFromSI(p.Expanded, 1)}
	}
	return clean(shown)
}

// hasBand reports whether it is known of all of a curve how far off it may be.
func hasBand(curve []CurvePoint) bool {
	return len(curve) > 1 && !slices.ContainsFunc(curve, func(p CurvePoint) bool { return !(p.Expanded > 0) })
}

// thinned returns at most `most` points of a curve that is in order of speed, at least four, its peak and its trough exactly as they are: what [calc.Telling] keeps.
func thinned(points []CurvePoint, most int) []CurvePoint {
	kept := calc.Telling(len(points), most, func(i int) (x, y float64) { return points[i].Speed, points[i].Value })
	thin := make([]CurvePoint, len(kept))
	for i, k := range kept {
		thin[i] = points[k]
	}
	return thin
}

// peak is the point with the greatest value, the first of those that are alike.
func peak(points []CurvePoint) CurvePoint {
	best := points[0]
	for _, p := range points {
		if p.Value > best.Value {
			best = p
		}
	}
	return best
}
