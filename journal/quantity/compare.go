package quantity

import (
	"cmp"
	"math"
)

// closeness is how far apart two figures may be and still be the same one: floating point strays by less, no builder measures finer.
const closeness = 1e-9

// Compare returns −1, 0 or +1 as a is below, equal to or above b. They are equal within 1e-9 of the largest of |a|, |b| and |scale|;
// scale is the size of the figures that a and b were worked out from (a nominal, for a bound that is nominal − tolerance), 0 if none.
// All three are in one unit; temperatures are in kelvin, so that 0 °C is a size too. This is the one compare function: feelers read
// exactly on edges. A NaN is below everything else.
func Compare(a, b, scale float64) int {
	if a == b || math.IsInf(a, 0) || math.IsInf(b, 0) || math.IsNaN(a) || math.IsNaN(b) {
		return cmp.Compare(a, b)
	}
	size := max(math.Abs(a), math.Abs(b))
	if s := math.Abs(scale); s > size && !math.IsInf(s, 0) {
		size = s
	}
	if math.Abs(a-b) <= closeness*size {
		return 0
	}
	return cmp.Compare(a, b)
}

// Agrees reports whether two figures, perhaps in two units, can be one: half of their last digits either way, they overlap.
func (q Quantity) Agrees(other Quantity) bool {
	low, high := q.SI()-q.StepSI()/2, q.SI()+q.StepSI()/2
	otherLow, otherHigh := other.SI()-other.StepSI()/2, other.SI()+other.StepSI()/2
	return Compare(low, otherHigh, 0) <= 0 && Compare(otherLow, high, 0) <= 0
}
