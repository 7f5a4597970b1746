package calc

import "math"

// AdjusterTurn returns how far to turn a screw adjuster, in rad, so that the lash changes by change (m, less than zero to close the
// gap). Pitch is that of the screw's thread (m). A screw at the valve's end of the rocker moves the gap by its own travel; one at the
// cam's end by its travel times the rocker ratio (valve movement over cam movement), since the lash is measured at the valve: give a
// ratio of 1 for the first.
//
//	θ = 2π · Δ / (p · i)
//
// Small angles; in practice within some 2 %. It refuses a pitch or a ratio that is not more than zero. Source of the method: geometry
// of the lever, recomputed; the dependence on the end of the rocker is common practice, no source.
func AdjusterTurn(change, pitch, ratio float64) (float64, error) {
	if err := first(positive("the pitch of the adjuster", pitch), positive("the rocker ratio", ratio)); err != nil {
		return 0, err
	}
	return finite(2 * math.Pi * change / (pitch * ratio))
}

// LashByTurn returns what so many turns of a screw adjuster change the lash by, in m, for its pitch (m) and the ratio of [AdjusterTurn], whose
// inverse it is.
//
//	Δ = p · i · turns
//
// It refuses a pitch or a ratio that is not more than zero. Source of the method: as there.
func LashByTurn(pitch, ratio, turns float64) (float64, error) {
	if err := first(positive("the pitch of the adjuster", pitch), positive("the rocker ratio", ratio)); err != nil {
		return 0, err
	}
	return finite(pitch * ratio * turns)
}

// ShimToFit returns the thickness of the shim, in m, that brings the lash from measured to wanted (m) where a shim of the thickness
// fitted (m) is in now.
//
//	new = fitted + (measured − wanted)
//
// Lash too wide wants a thicker shim, too tight a thinner one. It refuses a shim that would have to be thinner than nothing. Source of
// the method: a commercial motorcycle workshop manual, read in a reproduction; recomputed.
func ShimToFit(fitted, measured, wanted float64) (float64, error) {
	if err := positive("the thickness of the shim that is in", fitted); err != nil {
		return 0, err
	}
	shim := fitted + (measured - wanted)
	if !(shim > 0) {
		return 0, Refusal("no shim is thin enough")
	}
	return finite(shim)
}
