package calc

import "math"

// CamDuration returns how long a cam keeps its valve open, in rad of the crank. The event at the top dead centre of overlap is the intake's opening, counted
// before it, or the exhaust's closing, counted after it; the event at the bottom is the intake's closing, counted after that, or the exhaust's opening, counted
// before it (rad). One on the other side of its dead centre is less than zero.
//
//	duration = top + π + bottom
//
// Both events must have been taken at one lift. It refuses a duration that is not more than zero, and one of a whole turn of the crank or more. Source of the
// method: US Army TM 9-8000, chapter 2, for what duration is, read in the source; the sum, read in a reproduction and recomputed.
func CamDuration(top, bottom float64) (float64, error) {
	duration, err := finite(top + math.Pi + bottom)
	switch {
	case err != nil:
		return 0, err
	case !(duration > 0):
		return 0, Refusal("the valve would close before it opens")
	case !(duration < 2*math.Pi):
		return 0, Refusal("the valve would stay open for a whole turn of the crank")
	}
	return duration, nil
}

// LobeCentre returns how far the middle of a valve's opening is from the top dead centre of overlap, in rad of the crank: after it for the intake, before it
// for the exhaust. Arguments and refusals are those of [CamDuration].
//
//	centre = duration / 2 − top
//
// The middle is where the lobe is highest if its two flanks are alike. Source of the method: an owners' club's how-to, read in a reproduction; recomputed.
func LobeCentre(top, bottom float64) (float64, error) {
	duration, err := CamDuration(top, bottom)
	if err != nil {
		return 0, err
	}
	return duration/2 - top, nil
}

// LobeSeparation returns the angle between the lobes of intake and exhaust, in rad of the CAM, from their centres in rad of the crank, counted as [LobeCentre]
// returns them. The crank turns by twice that between the two.
//
//	separation = (intake + exhaust) / 2
//
// It refuses a separation that is not more than zero. Source of the method: a camshaft grinder's glossary, which counts it on the cam, and a worked example in a
// forum; read in reproductions and recomputed.
func LobeSeparation(intake, exhaust float64) (float64, error) {
	separation, err := finite((intake + exhaust) / 2)
	if err == nil && !(separation > 0) {
		return 0, Refusal("the intake would be open before the exhaust")
	}
	return separation, err
}

// CamAdvance returns how far a camshaft that has both lobes stands ahead of the position in which the two are as far from the top dead centre of overlap, in rad
// of the crank; less than zero behind it. The centres are those of [LobeSeparation].
//
//	advance = (exhaust − intake) / 2
//
// Source of the method: common practice, no source; it is the separation, as a bare number of degrees, less the intake's centre.
func CamAdvance(intake, exhaust float64) (float64, error) { return finite((exhaust - intake) / 2) }

// ValveOverlap returns how long intake and exhaust are open together, in rad of the crank, from the intake's opening before top dead centre and the exhaust's
// closing after it (rad); less than zero where the one has closed when the other opens. Both must have been taken at one lift.
//
//	overlap = opens + closes
//
// Source of the method: US Army TM 9-8000, chapter 2, read in the source.
func ValveOverlap(opens, closes float64) (float64, error) { return finite(opens + closes) }

// ToothAngle returns how far the crank turns, in rad, for one tooth of a cam wheel of so many teeth that turns half as fast.
//
//	angle = 4π / N
//
// It refuses a number of teeth that is not whole, or less than three. Source of the method: geometry, recomputed.
func ToothAngle(teeth float64) (float64, error) {
	if !(teeth >= 3) || teeth != math.Trunc(teeth) || math.IsInf(teeth, 0) {
		return 0, Refusal("a cam wheel has a whole number of teeth, three or more")
	}
	return 4 * math.Pi / teeth, nil
}

// TeethOut returns by how many teeth of the cam wheel an event is late that is late by so much (rad of the crank); less than zero for one that is early. Only
// near whole numbers is it the chain that is out. It refuses what [ToothAngle] does.
func TeethOut(late, teeth float64) (float64, error) {
	tooth, err := ToothAngle(teeth)
	if err != nil {
		return 0, err
	}
	return finite(late / tooth)
}
