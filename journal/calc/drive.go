package calc

import "math"

// OverallRatio returns how many times the engine turns for one turn of the wheel, from the primary ratio, that of a gear and the final one, each driven
// over driver. It refuses ratios that are not more than zero.
//
//	i = i_primary · i_gear · i_final
//
// Source of the method: a motorcycle manual, read in a reproduction.
func OverallRatio(primary, gear, final float64) (float64, error) {
	if err := first(positive("the primary ratio", primary), positive("the ratio of the gear", gear), positive("the final ratio", final)); err != nil {
		return 0, err
	}
	return above(primary * gear * final)
}

// RoadSpeed returns the speed on the road, in m/s, at an engine speed (rad/s), an overall ratio and a rolling circumference (m). It refuses a ratio or a
// circumference that is not more than zero. Nothing slips.
//
//	v = ω / 2π · C / i
//
// Source of the method: companion to Khurmi & Gupta, Theory of Machines, example 3.15, read in the source.
func RoadSpeed(rotation, overall, circumference float64) (float64, error) {
	if err := first(finitely(rotation), positive("the overall ratio", overall), positive("the rolling circumference", circumference)); err != nil {
		return 0, err
	}
	return finite(rotation / (2 * math.Pi) * circumference / overall)
}

// EngineSpeed returns the engine speed, in rad/s, at a speed on the road (m/s): the inverse of [RoadSpeed], with its other arguments and refusals.
//
//	ω = 2π · v · i / C
func EngineSpeed(speed, overall, circumference float64) (float64, error) {
	if err := first(finitely(speed), positive("the overall ratio", overall), positive("the rolling circumference", circumference)); err != nil {
		return 0, err
	}
	return finite(2 * math.Pi * speed * overall / circumference)
}

// RevDrop returns by how much the engine speed falls, in the unit of rotation, where one gear takes over from another at the same road speed. A gear that is
// no higher gives a rise, which is less than zero. It refuses ratios that are not more than zero.
//
//	Δ = ω · (1 − i_to / i_from)
//
// Source of the method: the road speed is the same before and after; recomputed.
func RevDrop(rotation, from, to float64) (float64, error) {
	if err := first(finitely(rotation), positive("the ratio of the lower gear", from), positive("the ratio of the higher gear", to)); err != nil {
		return 0, err
	}
	return finite(rotation * (1 - to/from))
}

// RollingCircumference returns the circumference, in m, of a tyre that carries nothing: the diameter of its rim and its width in m, and its height as a share
// of the width. It refuses sizes that are not more than zero. A loaded tyre rolls less.
//
//	C = π · (d + 2 · w · a)
//
// Source of the method: documentation of the vehicle library of a US national laboratory, read in the source.
func RollingCircumference(rim, width, height float64) (float64, error) {
	if err := first(positive("the diameter of the rim", rim), positive("the width of the tyre", width), positive("the height of the tyre", height)); err != nil {
		return 0, err
	}
	return finite(math.Pi * (rim + 2*width*height))
}

// ChainElongation returns by what share a chain is longer than when it was new: a length (m) over so many links, and the pitch (m). A chain that is shorter
// gives less than zero. It refuses figures that are not more than zero.
//
//	e = L / (n · p) − 1
//
// Source of the method: chain makers' engineering pages, read in a reproduction.
func ChainElongation(length, links, pitch float64) (float64, error) {
	if err := first(positive("the length of the chain", length), positive("the number of links", links), positive("the pitch", pitch)); err != nil {
		return 0, err
	}
	return finite(length/(links*pitch) - 1)
}
