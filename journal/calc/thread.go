package calc

import "math"

// A thread here is one of 60°, given by its nominal diameter d and its pitch P in m: the profile of ISO 68-1, which unified threads share. H is the height of
// its full triangle, P·√3/2. All functions refuse a diameter or a pitch that is not more than zero, and a pitch so coarse that nothing is left of the core.

// PitchDiameter returns the basic pitch diameter d2 = D2 of a thread, in m.
//
//	d2 = d − 3/4·H
//
// Source of the method: ISO 68-1 and ISO 724, read in a reproduction.
func PitchDiameter(diameter, pitch float64) (float64, error) {
	if err := thread(diameter, pitch); err != nil {
		return 0, err
	}
	return finite(diameter - 0.75*height(pitch))
}

// MinorDiameter returns the basic minor diameter d1 = D1 of a thread, in m: the hole that it is tapped in.
//
//	d1 = d − 5/4·H
//
// Source of the method: ISO 68-1 and ISO 724, read in a reproduction.
func MinorDiameter(diameter, pitch float64) (float64, error) {
	if err := thread(diameter, pitch); err != nil {
		return 0, err
	}
	return finite(diameter - 1.25*height(pitch))
}

// RootDiameter returns the diameter d3 at the rounded root of a screw's thread, in m.
//
//	d3 = d1 − H/6
//
// Source of the method: ISO 724's table of fine threads, read in a reproduction; the clause from memory.
func RootDiameter(diameter, pitch float64) (float64, error) {
	if err := thread(diameter, pitch); err != nil {
		return 0, err
	}
	return finite(diameter - (1.25+1.0/6)*height(pitch))
}

// StressArea returns the nominal stress area of a metric thread, in m²: that of a rod which breaks at the same pull.
//
//	A = π/4 · ((d2 + d3)/2)²
//
// It is not the area of a unified thread of that size, see [UnifiedStressArea]. Source of the method: ISO 898-1, read in a reproduction.
func StressArea(diameter, pitch float64) (float64, error) {
	if err := thread(diameter, pitch); err != nil {
		return 0, err
	}
	d := stressDiameter(diameter, pitch)
	return finite(math.Pi / 4 * d * d)
}

// stressDiameter is that of the stress area of a metric thread: the mean of pitch and root diameter.
func stressDiameter(diameter, pitch float64) float64 {
	return diameter - (0.75+1.25+1.0/6)/2*height(pitch)
}

// UnifiedStressArea returns the tensile area of a unified thread, in m².
//
//	A = π/4 · (d − 0.9743·P)²
//
// At the same size it is 1 % to 1.5 % less than [StressArea]: the two conventions differ. Source of the method: FED-STD-H28/2B, formula (1b), read in the source.
func UnifiedStressArea(diameter, pitch float64) (float64, error) {
	if err := thread(diameter, pitch); err != nil {
		return 0, err
	}
	d := diameter - 0.9743*pitch
	return finite(math.Pi / 4 * d * d)
}

// LeastLimits are the limits of size of a metric thread at which least material is left to shear, in m, for the usual fit of a screw of tolerance 6g in a
// hole of 6H.
type LeastLimits struct {
	ScrewMajor float64 // least major diameter of the screw
	ScrewPitch float64 // least pitch diameter of the screw
	HoleMinor  float64 // greatest minor diameter of the hole
	HolePitch  float64 // greatest pitch diameter of the hole
}

// LeastMaterial returns the limits of size of a metric thread, 6g in 6H, at which least material is left to shear. Tolerances are those of the formulas that
// the tables of ISO 965-1 are rounded from (from memory); the limits that come out lie within 0.015 mm of the published ones for M5 to M12, read in
// reproductions. It refuses pitches below 0.2 mm and above 6 mm, for which they were not made.
func LeastMaterial(diameter, pitch float64) (LeastLimits, error) {
	if err := thread(diameter, pitch); err != nil {
		return LeastLimits{}, err
	}
	d, p := diameter*1000, pitch*1000 // the formulas are for mm and give µm
	if p < 0.2 || p > 6 {
		return LeastLimits{}, Refusal("the limits of size of so fine or so coarse a pitch aren't known")
	}
	allowance := 15 + 11*p
	major := 180*math.Cbrt(p*p) - 3.15/math.Sqrt(p)
	screw := 90 * math.Pow(p, 0.4) * math.Pow(d, 0.1)
	minor := 230 * math.Pow(p, 0.7)
	if p < 1 {
		minor = 433*p - 190*math.Pow(p, 1.22)
	}
	const micron = 1e-6
	return LeastLimits{
		ScrewMajor: diameter - (allowance+major)*micron,
		ScrewPitch: diameter - 0.75*height(pitch) - (allowance+screw)*micron,
		HoleMinor:  diameter - 1.25*height(pitch) + minor*micron,
		HolePitch:  diameter - 0.75*height(pitch) + 1.32*screw*micron,
	}, nil
}

// InternalShearArea returns the area, in m², over which the thread of a hole shears off, along so much engagement (m), for the least major diameter of the
// screw and the greatest pitch diameter of the hole (m).
//
//	A = π·LE/P · d_min · (P/2 + (d_min − D2_max)/√3)
//
// It refuses lengths and diameters that are not more than zero, and limits that leave no overlap. Source of the method: FED-STD-H28/2B, formula (2a), read in the
// source; the metric profile has the same shape.
func InternalShearArea(engagement, pitch, screwMajor, holePitch float64) (float64, error) {
	return shearArea(engagement, pitch, screwMajor, pitch/2+(screwMajor-holePitch)/math.Sqrt(3))
}

// ExternalShearArea returns the area, in m², over which the thread of a screw shears off, along so much engagement (m), for the greatest minor diameter of the
// hole and the least pitch diameter of the screw (m).
//
//	A = π·LE/P · D1_max · (P/2 + (d2_min − D1_max)/√3)
//
// Refusals are those of [InternalShearArea]. Source of the method: FED-STD-H28/2B, formula (4a), read in the source.
func ExternalShearArea(engagement, pitch, holeMinor, screwPitch float64) (float64, error) {
	return shearArea(engagement, pitch, holeMinor, pitch/2+(screwPitch-holeMinor)/math.Sqrt(3))
}

// shearArea is that of teeth which are so thick at a diameter.
func shearArea(engagement, pitch, diameter, thick float64) (float64, error) {
	if err := first(positive("the engagement", engagement), positive("the pitch", pitch), positive("the diameter", diameter)); err != nil {
		return 0, err
	}
	if !(thick > 0) {
		return 0, Refusal("screw and hole don't overlap")
	}
	return above(math.Pi * engagement / pitch * diameter * thick)
}

// thread refuses what no thread can be.
func thread(diameter, pitch float64) error {
	if err := first(positive("the diameter", diameter), positive("the pitch", pitch)); err != nil {
		return err
	}
	if !(diameter > 1.5*height(pitch)) {
		return Refusal("the pitch is too coarse for the diameter: nothing is left of the core")
	}
	return nil
}

func height(pitch float64) float64 { return math.Sqrt(3) / 2 * pitch }
