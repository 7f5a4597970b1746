package calc

import "math"

// RodRatio returns the length of the rod between centres over the stroke, both in one unit. It refuses what [Travel] does.
//
//	n = l / S
//
// Source of the method: common practice, no source; some divide by the throw instead, which gives twice as much.
func RodRatio(rod, stroke float64) (float64, error) {
	if err := crank(stroke, rod, 0); err != nil {
		return 0, err
	}
	return finite(rod / stroke)
}

// Squish returns the gap between a flat crown and the head at top dead centre, in the unit of its arguments: how far the piston stops below the deck (less
// than zero where it stands proud) and the thickness of the gasket. It refuses a gap that is not more than zero: the piston would touch.
//
//	s = deck + t
//
// Source of the method: sum of the two, recomputed.
func Squish(deck, gasket float64) (float64, error) {
	if err := first(finitely(deck), finitely(gasket), positive("the squish", deck+gasket)); err != nil {
		return 0, err
	}
	return finite(deck + gasket)
}

// PeakPistonAcceleration returns the greatest acceleration of a piston either way, in m/s², at a steady speed of rotation (rad/s); the rest as for [Travel].
// With any usual rod it is that at top dead centre, ω²·r·(1 + r/l); one shorter than some 1.2 times the throw is jerked harder on its way.
//
// Source of the method: [PistonAcceleration] over a turn; the place is found by a comb of angles and by halving.
func PeakPistonAcceleration(stroke, rod, rotation float64) (float64, error) {
	if err := first(crank(stroke, rod, 0), finitely(rotation)); err != nil {
		return 0, err
	}
	size := func(angle float64) float64 {
		a, err := PistonAcceleration(stroke, rod, angle, 1)
		if err != nil {
			return math.NaN()
		}
		return math.Abs(a)
	}
	const teeth = 720
	best := 0.0
	for i := 1; i <= teeth; i++ {
		if angle := math.Pi * float64(i) / teeth; size(angle) > size(best) {
			best = angle
		}
	}
	low, high := max(0, best-math.Pi/teeth), min(math.Pi, best+math.Pi/teeth)
	for range 100 {
		third := (high - low) / 3
		if size(low+third) < size(high-third) {
			low += third
		} else {
			high -= third
		}
	}
	return finite(rotation * rotation * max(size(best), size((low+high)/2)))
}

// TrappedCompression returns the compression ratio counted from where the last opening shuts on the way up: an intake valve, or the exhaust port of a
// two-stroke. Closing is that crank angle from top dead centre (rad, either way); the static ratio is [CompressionRatio]'s, the rest is for [Travel]. It is no
// more than the static ratio, and as much where the opening shuts at bottom dead centre. It refuses a static ratio that is not above 1.
//
//	ε_t = 1 + (ε − 1) · x(θ) / S
//
// Source of the method: (A·x + Vc) / Vc, an unsigned tuning article and an encyclopaedia, read in a reproduction; x is exact.
func TrappedCompression(static, stroke, rod, closing float64) (float64, error) {
	x, err := Travel(stroke, rod, closing)
	if err := first(positive("the compression ratio less one", static-1), err); err != nil {
		return 0, err
	}
	return finite(1 + (static-1)*x/stroke)
}

// CurtainArea returns the area, in m², of the cylinder between a valve and its seat: its diameter and how far it is open, in m. It refuses a diameter that is
// not more than zero and a lift below zero.
//
//	A = π · D · L
//
// Source of the method: surface of a cylinder, recomputed.
func CurtainArea(diameter, lift float64) (float64, error) {
	if err := first(positive("the diameter of the valve", diameter), finitely(lift)); err != nil {
		return 0, err
	}
	if lift < 0 {
		return 0, Refusal("the lift must be zero or more")
	}
	return finite(math.Pi * diameter * lift)
}

// CurtainLift returns the lift, in m, from which on the curtain is as large as the hole: a quarter of the diameter (m) of the two alike. It refuses a diameter
// that is not more than zero.
//
//	L = D / 4
//
// Source of the method: π·D·L = π/4·D², recomputed.
func CurtainLift(diameter float64) (float64, error) {
	if err := positive("the diameter of the valve", diameter); err != nil {
		return 0, err
	}
	return finite(diameter / 4)
}

// CrankingPressure returns what a compression gauge may show, in Pa above the air's own: the pressure of the air at the place (Pa, absolute), a compression
// ratio, and the exponent of the compression. It refuses an air pressure that is not more than zero, a ratio that is not above 1, and an exponent outside 1 to
// 1.4, which are the ends: all heat lost, and none.
//
//	p = p_air · (ε^n − 1)
//
// Source of the method: an encyclopaedia's page on the compression ratio, n between 1.2 and 1.3 in general, read in a reproduction. The 13.7 "bar" there for
// 7.5^1.3 is atmospheres.
func CrankingPressure(air, ratio, n float64) (float64, error) {
	if err := first(positive("the air pressure", air), positive("the compression ratio less one", ratio-1)); err != nil {
		return 0, err
	}
	if !(n >= 1) || !(n <= 1.4) {
		return 0, Refusal("the exponent must be between 1 and 1.4")
	}
	return finite(air * (math.Pow(ratio, n) - 1))
}

// LowestOverHighest returns the least of several readings as a share of the greatest. It refuses fewer than two, and one that is not more than zero.
//
// Source of the method: US Army TM 5-4210-230-14&P-1, which wants no cylinder below three quarters of the best; read in the source.
func LowestOverHighest(readings []float64) (float64, error) {
	if len(readings) < 2 {
		return 0, Refusal("there is nothing to compare with")
	}
	low, high := math.Inf(1), 0.0
	for _, x := range readings {
		if err := positive("a reading", x); err != nil {
			return 0, err
		}
		low, high = min(low, x), max(high, x)
	}
	return finite(low / high)
}
