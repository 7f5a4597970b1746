package calc

// ValveLift returns the lift that is left at a valve, in m: what the cam lifts (m), times the rocker ratio (valve movement over cam movement), less the lash measured at the valve (m).
//
//	lift = cam · i − lash
//
// It refuses a cam lift or a ratio that is not more than zero, a lash below zero, and a lash that takes all the lift. Source of the method: a camshaft maker's glossary, read in a
// reproduction, for lift times ratio; that the lash comes off is geometry, recomputed.
func ValveLift(cam, ratio, lash float64) (float64, error) {
	if err := first(positive("the cam lift", cam), positive("the rocker ratio", ratio), finitely(lash)); err != nil {
		return 0, err
	}
	if lash < 0 {
		return 0, Refusal("the lash is less than nothing: the valve never closes")
	}
	lift := cam*ratio - lash
	if !(lift > 0) {
		return 0, Refusal("the lash takes all the lift")
	}
	return finite(lift)
}

// CoilBindMargin returns how much further a valve spring could be pressed than its valve's lift presses it, in m, from its installed height, the lift and its solid height (m); less
// than zero where its coils would meet.
//
//	margin = installed − lift − solid
//
// It refuses heights that are not more than zero, a lift below zero, and a spring installed no longer than solid. Source of the method: common practice, no source; the definition.
func CoilBindMargin(installed, lift, solid float64) (float64, error) {
	if err := first(positive("the installed height", installed), positive("the solid height", solid), finitely(lift)); err != nil {
		return 0, err
	}
	switch {
	case lift < 0:
		return 0, Refusal("the lift is below zero")
	case !(installed > solid):
		return 0, Refusal("the spring would be solid as it is installed")
	}
	return finite(installed - lift - solid)
}

// RetainerMargin returns what is left between a spring's retainer and the guide or its seal at full lift, in m, from the gap with the valve shut and the lift (m); less than zero where
// they would meet. It refuses a gap that is not more than zero and a lift below zero. Source of the method: the definition.
func RetainerMargin(gap, lift float64) (float64, error) {
	if err := first(positive("the gap with the valve shut", gap), finitely(lift)); err != nil {
		return 0, err
	}
	if lift < 0 {
		return 0, Refusal("the lift is below zero")
	}
	return finite(gap - lift)
}
