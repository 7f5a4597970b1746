package chart

import (
	"cmp"
	"math"
	"slices"
)

// CurvePoint is one row of a pull in SI: a speed, and what was measured at it.
type CurvePoint struct{ Speed, Value float64 }

// clean puts the points of a run in order of speed, leaves out what can't be drawn, and makes one of those at one speed: their mean.
func clean(run []CurvePoint) []CurvePoint {
	points := slices.DeleteFunc(slices.Clone(run), func(p CurvePoint) bool { return !isDrawn(p.Speed) || !isDrawn(p.Value) })
	slices.SortStableFunc(points, func(a, b CurvePoint) int { return cmp.Compare(a.Speed, b.Speed) })
	kept := points[:0]
	for i := 0; i < len(points); {
		sum, n := 0.0, 0.0
		for ; i+int(n) < len(points) && points[i+int(n)].Speed == points[i].Speed; n++ {
			sum += points[i+int(n)].Value
		}
		kept = append(kept, CurvePoint{points[i].Speed, sum / n})
		i += int(n)
	}
	return kept
}

// reader reads a cleaned run at speeds that only rise: between two points, the straight line.
type reader struct {
	points []CurvePoint
	next   int
}

func (r *reader) at(speed float64) (value float64, ok bool) {
	n := len(r.points)
	if n == 0 || speed < r.points[0].Speed || speed > r.points[n-1].Speed {
		return 0, false
	}
	for r.points[r.next].Speed < speed {
		r.next++
	}
	b := r.points[r.next]
	if b.Speed == speed {
		return b.Value, true
	}
	a := r.points[r.next-1]
	return a.Value + (speed-a.Speed)/(b.Speed-a.Speed)*(b.Value-a.Value), true
}

// repeats puts the runs of a session together, at every speed that any of them has: the least, the greatest, and the mean where all of them
// reach, so that it doesn't jump where one run ends before the others. If there is no such speed the mean is of those that reach.
func repeats(runs [][]CurvePoint) (low, high, mean []CurvePoint) {
	var speeds []float64
	var readers []reader
	for _, run := range runs {
		if points := clean(run); len(points) > 0 {
			readers = append(readers, reader{points: points})
			for _, p := range points {
				speeds = append(speeds, p.Speed)
			}
		}
	}
	slices.Sort(speeds)
	var partly []CurvePoint
	for _, speed := range slices.Compact(speeds) {
		least, most, sum, n := math.Inf(1), math.Inf(-1), 0.0, 0
		for i := range readers {
			if v, ok := readers[i].at(speed); ok {
				least, most, sum, n = min(least, v), max(most, v), sum+v, n+1
			}
		}
		low, high = append(low, CurvePoint{speed, least}), append(high, CurvePoint{speed, most})
		point := CurvePoint{speed, sum / float64(n)}
		partly = append(partly, point)
		if n == len(readers) {
			mean = append(mean, point)
		}
	}
	if len(mean) == 0 {
		mean = partly
	}
	return low, high, mean
}

// thinned returns at most `most` points of a curve that is in order of speed, peaks and troughs kept: the range of speeds is cut into
// even parts, and of each part the least and the greatest point stay, besides the first and the last of all.
func thinned(points []CurvePoint, most int) []CurvePoint {
	if len(points) <= most {
		return points
	}
	most = max(most, 4)
	first, last := points[0], points[len(points)-1]
	parts := (most - 2) / 2
	width := (last.Speed/2 - first.Speed/2) / float64(parts)
	kept := []CurvePoint{first}
	rest := points[1 : len(points)-1]
	for part := range parts {
		n := len(rest)
		if part < parts-1 {
			edge := first.Speed/2 + width*float64(part+1)
			n, _ = slices.BinarySearchFunc(rest, edge, func(p CurvePoint, edge float64) int { return cmp.Compare(p.Speed/2, edge) })
		}
		kept = appendExtremes(kept, rest[:n])
		rest = rest[n:]
	}
	return append(kept, last)
}

func appendExtremes(kept, part []CurvePoint) []CurvePoint {
	if len(part) == 0 {
		return kept
	}
	least, most := 0, 0
	for i, p := range part {
		if p.Value < part[least].Value {
			least = i
		}
		if p.Value > part[most].Value {
			most = i
		}
	}
	kept = append(kept, part[min(least, most)])
	if least != most {
		kept = append(kept, part[max(least, most)])
	}
	return kept
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
