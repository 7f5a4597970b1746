package calc

import "math"

// Delivered returns the torque, in N·m, that a fastener gets when a wrench of the given length (from the middle of its drive to the
// middle of its grip, m) is set to setting (N·m) and pulls through an adapter (from the middle of the drive to the middle of the
// fastener, m) that stands at an angle (rad) to the wrench: 0 straight on, π/2 square, π back toward the hand.
//
//	T = S · (L + E·cos θ) / L
//
// It refuses a length or a setting that is not more than zero, an adapter below zero, and an adapter that reaches back past the hand.
// Source of the method: US Army TM 9-254, 4-5, read in the source.
func Delivered(setting, length, adapter, angle float64) (float64, error) {
	lever, err := lever(length, adapter, angle)
	if err := first(positive("the setting", setting), err); err != nil {
		return 0, err
	}
	return above(setting * lever / length)
}

// Setting returns what to set a wrench to, in N·m, so that the fastener gets a torque through an adapter; arguments and refusals as
// for [Delivered].
//
//	S = T · L / (L + E·cos θ)
func Setting(torque, length, adapter, angle float64) (float64, error) {
	lever, err := lever(length, adapter, angle)
	if err := first(positive("the torque", torque), err); err != nil {
		return 0, err
	}
	return above(torque * length / lever)
}

func lever(length, adapter, angle float64) (float64, error) {
	if err := positive("the length of the wrench", length); err != nil {
		return 0, err
	}
	if adapter < 0 || math.IsNaN(adapter) || math.IsInf(adapter, 0) || math.IsNaN(angle) || math.IsInf(angle, 0) {
		return 0, Refusal("the adapter's length must be zero or more")
	}
	lever := length + adapter*math.Cos(angle)
	if !(lever > length*1e-9) {
		return 0, Refusal("the adapter reaches back past the hand, where the wrench has no leverage")
	}
	return lever, nil
}
