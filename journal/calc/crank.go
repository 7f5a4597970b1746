package calc

import "math"

// Travel returns how far a piston stands below top dead centre, in m, at a crank angle (rad, 0 at top dead centre, either way) of a crank with that
// stroke and a rod of that length between centres (m); the cylinder's axis goes through the crank's.
//
//	x = l + r − (r·cos θ + √(l² − r²·sin² θ)); r = S/2
//
// It refuses a stroke that is not more than zero and a rod that is not longer than the throw r. Source of the method: companion to Gupta, example 16.1, read
// in the source; exact, without the textbooks' usual shortening.
func Travel(stroke, rod, angle float64) (float64, error) {
	if err := crank(stroke, rod, angle); err != nil {
		return 0, err
	}
	r := stroke / 2
	sin, cos := math.Sincos(angle)
	// l − √(l² − r²·sin²) as one fraction, which keeps its digits near top dead centre
	return finite(r*(1-cos) + r*r*sin*sin/(rod+math.Sqrt(rod*rod-r*r*sin*sin)))
}

// CrankAngle returns the crank angle from top dead centre, in rad from 0 to π, at which a piston stands so far (m) below it: the inverse of [Travel],
// with its arguments and refusals. It refuses a travel below zero or beyond the stroke.
//
//	tan² (θ/2) = x·(2·l − x) / ((S − x)·(2·l + S − x))
//
// Source of the method: the law of cosines in the triangle of throw, rod and cylinder axis; recomputed.
func CrankAngle(stroke, rod, travel float64) (float64, error) {
	if err := crank(stroke, rod, 0); err != nil {
		return 0, err
	}
	if !(travel >= 0) || !(travel <= stroke) {
		return 0, Refusal("the piston never stands there: its travel is between nought and the stroke")
	}
	// by half angles: the cosine itself loses its digits near both dead centres
	top := travel * (2*rod - travel)
	below := (stroke - travel) * (2*rod + stroke - travel)
	return finite(2 * math.Atan2(math.Sqrt(top), math.Sqrt(below)))
}

// PistonSpeed returns the speed of a piston, in m/s away from top dead centre, at a crank angle (rad) and a steady speed of rotation (rad/s); the rest as
// for [Travel].
//
//	v = ω·r·sin θ·(1 + r·cos θ / √(l² − r²·sin² θ))
//
// Source of the method: companion to Gupta, example 16.1, read in the source.
func PistonSpeed(stroke, rod, angle, rotation float64) (float64, error) {
	if err := first(crank(stroke, rod, angle), finitely(rotation)); err != nil {
		return 0, err
	}
	r := stroke / 2
	sin, cos := math.Sincos(angle)
	return finite(rotation * r * sin * (1 + r*cos/math.Sqrt(rod*rod-r*r*sin*sin)))
}

// PistonAcceleration returns the acceleration of a piston, in m/s² away from top dead centre, where [PistonSpeed] returns its speed.
//
//	a = ω²·r·(cos θ + r·(cos 2θ·l² + r²·sin⁴ θ) / √(l² − r²·sin² θ)³)
//
// Source of the method: the speed differentiated once more; recomputed.
func PistonAcceleration(stroke, rod, angle, rotation float64) (float64, error) {
	if err := first(crank(stroke, rod, angle), finitely(rotation)); err != nil {
		return 0, err
	}
	r := stroke / 2
	sin, cos := math.Sincos(angle)
	root := math.Sqrt(rod*rod - r*r*sin*sin)
	return finite(rotation * rotation * r * (cos + r*(math.Cos(2*angle)*rod*rod+r*r*sin*sin*sin*sin)/(root*root*root)))
}

// MeanPistonSpeed returns the mean speed of a piston, in m/s, at a speed of rotation (rad/s): two strokes (m) a turn. It refuses a stroke that is not more
// than zero. Source of the method: companion to Gupta, example 16.1, read in the source.
func MeanPistonSpeed(stroke, rotation float64) (float64, error) {
	if err := first(positive("the stroke", stroke), finitely(rotation)); err != nil {
		return 0, err
	}
	return finite(stroke * rotation / math.Pi)
}

// PeakPistonSpeed returns the crank angle after top dead centre, in rad, at which a piston is fastest; at what speed is [PistonSpeed]'s. Arguments and refusals
// are those of [Travel]. Before there the acceleration is above zero, and after it below: the place is found by halving.
func PeakPistonSpeed(stroke, rod float64) (float64, error) {
	if err := crank(stroke, rod, 0); err != nil {
		return 0, err
	}
	low, high := 0.0, math.Pi/2
	for range 60 {
		middle := (low + high) / 2
		a, err := PistonAcceleration(stroke, rod, middle, 1)
		if err != nil {
			return 0, err
		}
		if a > 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2, nil
}

// crank refuses what no crank can be.
func crank(stroke, rod, angle float64) error {
	if err := first(positive("the stroke", stroke), positive("the rod", rod), finitely(angle)); err != nil {
		return err
	}
	if !(rod > stroke/2) {
		return Refusal("the rod must be longer than the throw, which is half the stroke")
	}
	return nil
}

// finitely refuses a figure that is none.
func finitely(x float64) error {
	_, err := finite(x)
	return err
}
