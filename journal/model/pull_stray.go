package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What a stray engine speed is told by. Common practice, no source.
const (
	strayShare  = 0.15 // of the speed of the rows beside it, by which it must lie beyond both
	besideShare = 0.3  // of it, by which those may be apart
)

// stray leaves out single rows whose engine speed lies far beyond that of the rows on both sides of them, which agree with each other: a digit of it is mistyped. It goes first, since the greatest engine speed is where a pull ends.
func (p *pullRows) stray() {
	points := p.run.Points
	if len(points) < judgeable {
		return
	}
	var bad []int
	for i := range points {
		if len(bad) > 0 && bad[len(bad)-1] >= i-1 {
			continue // judged by a row that is stray
		}
		if low, high, ok := p.beside(i); ok && isStray(points[i].Speed, low, high) {
			bad = append(bad, i)
		}
	}
	if len(bad) == 0 || len(bad) > len(points)/10+1 {
		return
	}
	for _, i := range bad[:min(len(bad), mostPointers)] {
		low, high, _ := p.beside(i)
		cell := p.cell(points[i], 0)
		p.report("pull-spike", source.Warning, cell.At, fmt.Sprintf("an engine speed of %s, between rows of %s and %s: the row is left out", showSpeed(points[i].Speed), showSpeed(low), showSpeed(high)),
			strayAdvice(cell.Text, points[i].Speed, low, high))
	}
	kept := make([]Point, 0, len(points)-len(bad))
	for i, pt := range points {
		if !slices.Contains(bad, i) {
			kept = append(kept, pt)
		}
	}
	p.run.Points = kept
}

// beside returns the engine speeds between which a row should lie, by the rows on both sides of it; those of the first and the last row are drawn on from the three rows within. It is not ok where those leap themselves.
func (p *pullRows) beside(i int) (low, high float64, ok bool) {
	points := p.run.Points
	last := len(points) - 1
	a, b := 0.0, 0.0
	switch i {
	case 0, last:
		j, k, m := 1, 2, 3
		if i == last {
			j, k, m = last-1, last-2, last-3
		}
		step := max(math.Abs(points[j].Speed-points[k].Speed), math.Abs(points[k].Speed-points[m].Speed))
		a, b = points[j].Speed-step, points[j].Speed+step
		ok = step < besideShare*points[j].Speed
	default:
		a, b = points[i-1].Speed, points[i+1].Speed
		ok = math.Abs(a-b) < besideShare*max(a, b)
	}
	return min(a, b), max(a, b), ok
}

// isStray reports whether an engine speed lies far beyond both ends of where it should.
func isStray(speed, low, high float64) bool {
	beyond := max(speed-high, low-speed)
	return beyond > strayShare*high && beyond > leastGap && beyond > gapSteps*(high-low)
}

// strayAdvice says what a stray engine speed was probably meant for.
func strayAdvice(written string, speed, low, high float64) string {
	rpm := parse.UnitSpelled("rpm")
	q := quantity.Quantity{Kind: quantity.Figure, Unit: rpm, Value: rpm.FromSI(speed), Step: 1}
	room := (high - low) / 2
	meant, ok := quantity.TheOne(q.OtherReadings(quantity.OnePlace|quantity.TwoPlaces|quantity.ThreePlaces|quantity.SwappedDigits), func(q quantity.Quantity) bool { return q.SI() >= low-room && q.SI() <= high+room })
	if !ok {
		return "mend the cell, or take its row out"
	}
	return fmt.Sprintf("`%s` for %s? if so mend the cell; if not, take its row out", strings.TrimSpace(written), meant.Shown())
}
