package calc

import "math"

// Difference is how far two sizes of a grid lie apart: the place of the larger and that of the smaller, each by depth and direction.
type Difference struct {
	Size         float64
	Large, Small [2]int
}

// OutOfRound returns the widest difference of two directions at one depth: sizes by depth, then direction, in one unit, NaN where nothing was measured. It
// refuses sizes that are not more than zero, and a grid without two directions at a depth.
//
// Source of the method: a marine diesel's and an outboard's workshop manual, read in reproductions.
func OutOfRound(sizes [][]float64) (Difference, error) {
	return widest(sizes, "no depth was measured in two directions")
}

// Taper returns the widest difference along one direction over all depths: sizes and refusals as for [OutOfRound], with depth and direction changed about.
//
// Source of the method: a marine diesel's, an outboard's and a car's workshop manual, read in reproductions.
func Taper(sizes [][]float64) (Difference, error) {
	width := 0
	for _, row := range sizes {
		width = max(width, len(row))
	}
	turned := make([][]float64, width)
	for direction := range turned {
		for _, row := range sizes {
			size := math.NaN()
			if direction < len(row) {
				size = row[direction]
			}
			turned[direction] = append(turned[direction], size)
		}
	}
	worst, err := widest(turned, "no direction was measured at two depths")
	turn := func(at [2]int) [2]int { return [2]int{at[1], at[0]} }
	return Difference{worst.Size, turn(worst.Large), turn(worst.Small)}, err
}

// widest returns the widest difference within one row; lacking says what there is none of where no row has two sizes.
func widest(rows [][]float64, lacking string) (Difference, error) {
	worst, found := Difference{}, false
	for i, row := range rows {
		large, small, n, err := extremes(row)
		if err != nil {
			return Difference{}, err
		}
		if n < 2 {
			continue
		}
		if d := row[large] - row[small]; !found || d > worst.Size {
			worst, found = Difference{d, [2]int{i, large}, [2]int{i, small}}, true
		}
	}
	if !found {
		return Difference{}, Refusal(lacking)
	}
	return worst, nil
}

// extremes returns where the largest and the smallest size of a row stand, and how many there are.
func extremes(row []float64) (large, small, n int, err error) {
	for i, x := range row {
		if math.IsNaN(x) {
			continue
		}
		if err := positive("a size", x); err != nil {
			return 0, 0, 0, err
		}
		if n == 0 || x >= row[large] { // of equal sizes the two stand apart
			large = i
		}
		if n == 0 || x < row[small] {
			small = i
		}
		n++
	}
	return large, small, n, nil
}

// SpringRate returns the rate of a spring, in N/m, between two lengths (m) at which it carries two loads (N). It refuses lengths that are not more than zero or
// alike, and a spring that carries less the shorter it is.
//
//	k = (F₂ − F₁) / (L₁ − L₂)
//
// Source of the method: companions to Singh, Machine Design I, example 8.8, and Wentzell, Machine Design, example 8.2, read in the source.
func SpringRate(load1, length1, load2, length2 float64) (float64, error) {
	if err := first(finitely(load1), finitely(load2), positive("the length", length1), positive("the length", length2)); err != nil {
		return 0, err
	}
	if length1 == length2 {
		return 0, Refusal("both loads are at one length")
	}
	rate := (load2 - load1) / (length1 - length2)
	if err := positive("the rate", rate); err != nil {
		return 0, Refusal("it carries no more at the shorter length")
	}
	return finite(rate)
}

// LoadLoss returns by what share a spring carries less than it did new, at the same length: both loads in one unit. It refuses loads that are not more than
// zero. A spring that carries more gives less than zero.
//
//	1 − F / F_new
//
// Source of the method: US Army TM 10-3930-644-14&P, which rejects a loss of more than 10 %; read in the source.
func LoadLoss(fresh, load float64) (float64, error) {
	if err := first(positive("the load when new", fresh), positive("the load", load)); err != nil {
		return 0, err
	}
	return finite(1 - load/fresh)
}

// GapForBore returns the end gap of a ring as a share of the bore, both in one unit. It refuses a gap below zero and a bore that is not more than zero.
//
// Source of the method: a machine shop's page, which asks for 0.004 in an inch of bore; read in a reproduction.
func GapForBore(gap, bore float64) (float64, error) {
	if err := first(finitely(gap), positive("the bore", bore)); err != nil {
		return 0, err
	}
	if gap < 0 {
		return 0, Refusal("the gap must be zero or more")
	}
	return finite(gap / bore)
}
