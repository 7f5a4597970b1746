package calc

import "math"

// PortOpens returns the crank angle after top dead centre, in rad, at which the piston uncovers a port whose upper edge is so high (m) above the crown's at bottom dead
// centre. It covers it again as far before top dead centre.
//
//	θ where x(θ) = S − h
//
// It refuses a stroke that is not more than zero, a rod that is not longer than the throw, and a height below zero or above the stroke (m each). Source of the method: the exact law of the
// crank, see [Travel]; that a height is taken from the crown at the bottom is common practice, no source.
func PortOpens(stroke, rod, height float64) (float64, error) {
	if !(height >= 0) || !(height <= stroke) {
		return 0, Refusal("the height of a port is between nought and the stroke")
	}
	return CrankAngle(stroke, rod, stroke-height)
}

// PortHeight returns how high (m) above the crown at bottom dead centre a port's upper edge is which the piston uncovers at a crank angle after top dead centre (rad): the inverse
// of [PortOpens]. It refuses angles that are not between nought and half a turn.
func PortHeight(stroke, rod, opens float64) (float64, error) {
	if !(opens >= 0) || !(opens <= math.Pi) {
		return 0, Refusal("a port opens between top and bottom dead centre")
	}
	travel, err := Travel(stroke, rod, opens)
	if err != nil {
		return 0, err
	}
	return finite(stroke - travel)
}

// PortDuration returns how long, in rad of the crank, a port stays open that opens so far after top dead centre and closes so far before it (rad).
//
//	duration = 2π − opens − closes
//
// It refuses one that would never be open, or never shut. Source of the method: the definition, recomputed.
func PortDuration(opens, closes float64) (float64, error) {
	duration, err := finite(2*math.Pi - opens - closes)
	if err != nil {
		return 0, err
	}
	if !(duration > 0) || !(duration < 2*math.Pi) {
		return 0, Refusal("the port would never open, or never shut")
	}
	return duration, nil
}

// PortBlowdown returns for how long, in rad of the crank, the exhaust is open before the transfers are, from where each opens after top dead centre (rad); less than zero where the
// transfers open first. Source of the method: the definition, recomputed.
func PortBlowdown(exhaust, transfer float64) (float64, error) { return finite(transfer - exhaust) }
