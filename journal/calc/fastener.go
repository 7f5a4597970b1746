package calc

import (
	"fmt"
	"math"
)

// Strength is what the material of a bolt bears, in Pa.
type Strength struct {
	Tensile float64 // least stress at which it breaks
	Yield   float64 // least stress at which it gives
	Proof   float64 // stress under proof load, which it bears without giving
}

// classes are the property classes of ISO 898-1:2013, table 3, in MPa: read in reproductions but for 4.6, 5.6 and 6.8, which are from memory. A row holds
// for diameters up to its limit.
var classes = []struct {
	name                  string
	upTo                  float64 // m; 0: all
	tensile, yield, proof float64
}{
	{"4.6", 0, 400, 240, 225}, {"4.8", 0, 420, 340, 310}, {"5.6", 0, 500, 300, 280}, {"5.8", 0, 520, 420, 380}, {"6.8", 0, 600, 480, 440},
	{"8.8", 0.016, 800, 640, 580}, {"8.8", 0, 830, 660, 600}, {"9.8", 0.016, 900, 720, 650}, {"10.9", 0, 1040, 940, 830}, {"12.9", 0, 1220, 1100, 970},
}

// StrengthOf returns the least strengths of a bolt of a property class and a nominal diameter (m): 8.8 is stronger above 16 mm, and there is no 9.8
// there. It refuses other labels: those of nuts, of stainless steel (ISO 3506) and SAE grades are none of these. Source: ISO 898-1:2013, table 3, read in
// reproductions; 4.6, 5.6 and 6.8 from memory.
func StrengthOf(class string, diameter float64) (Strength, error) {
	if err := positive("the diameter", diameter); err != nil {
		return Strength{}, err
	}
	known := false
	for _, c := range classes {
		known = known || c.name == class
		if c.name == class && (c.upTo == 0 || diameter <= c.upTo*(1+1e-9)) {
			return Strength{Tensile: c.tensile * 1e6, Yield: c.yield * 1e6, Proof: c.proof * 1e6}, nil
		}
	}
	if known {
		return Strength{}, Refusal(fmt.Sprintf("there is no class %s of that diameter", class))
	}
	return Strength{}, Refusal(fmt.Sprintf("the strength of `%s` isn't known here", class))
}

// ProofLoad returns the proof load, in N, of a metric bolt: its stress area times the proof stress of its class. The loads that ISO 898-1 prints are rounded
// by hand, up to 0.5 % either way. Source of the method: ISO 898-1, read in a reproduction.
func ProofLoad(class string, diameter, pitch float64) (float64, error) {
	strength, area, err := ofBolt(class, diameter, pitch)
	return strength.Proof * area, err
}

// BreakingLoad returns the least load, in N, at which a metric bolt breaks, as [ProofLoad] does the proof load.
func BreakingLoad(class string, diameter, pitch float64) (float64, error) {
	strength, area, err := ofBolt(class, diameter, pitch)
	return strength.Tensile * area, err
}

func ofBolt(class string, diameter, pitch float64) (Strength, float64, error) {
	area, err := StressArea(diameter, pitch)
	if err != nil {
		return Strength{}, 0, err
	}
	strength, err := StrengthOf(class, diameter)
	return strength, area, err
}

// BearingDiameter returns the effective diameter, in m, of the ring that turns under a usual head or nut: the mean of the bolt's own and of a washer face
// 1.5 times as wide. Sources: MIL-HDBK-60, 100.5.1, read in the source; the same 0.625·d a side stands in NASA TM-106943, equation (2), read in the source.
func BearingDiameter(diameter float64) (float64, error) {
	if err := positive("the diameter", diameter); err != nil {
		return 0, err
	}
	return finite(1.25 * diameter)
}

// NutFactor returns K, the torque over preload times diameter, by the long form: from the coefficients of friction in the thread and under the head or nut, for
// the effective diameter of that bearing (m).
//
//	K = d2/(2·d) · (tan ψ + μ/cos 30°)/(1 − μ·tan ψ/cos 30°) + D_b/(2·d)·μ_b; tan ψ = P/(π·d2)
//
// It refuses friction below zero or of 1 and more, and what no thread can be. Source of the method: NASA TM-106943, equation (2), read in the source, with the
// bearing's own diameter in the place of 1.25·d.
func NutFactor(diameter, pitch, bearing, threadFriction, headFriction float64) (float64, error) {
	d2, err := PitchDiameter(diameter, pitch)
	if err := first(err, positive("the bearing's diameter", bearing), friction(threadFriction), friction(headFriction)); err != nil {
		return 0, err
	}
	slope, drag := pitch/(math.Pi*d2), threadFriction/cos30
	return finite(d2/(2*diameter)*(slope+drag)/(1-drag*slope) + bearing/(2*diameter)*headFriction)
}

var cos30 = math.Sqrt(3) / 2

func friction(mu float64) error {
	if !(mu >= 0) || !(mu < 1) {
		return Refusal("friction must be zero or more, and less than 1")
	}
	return nil
}

// Preload returns the pull in a bolt, in N, that a torque (N·m) makes at a nut factor K, the short form; running torque, which turns the thread before
// anything is clamped, has to be taken off the torque first.
//
//	F = T / (K·d)
//
// It refuses a torque, a factor or a diameter that is not more than zero. Source of the method: NASA-STD-5020B, appendix A.2, and NASA TM-106943, equation (1), both
// read in the source.
func Preload(torque, factor, diameter float64) (float64, error) {
	if err := first(positive("the torque", torque), positive("the nut factor", factor), positive("the diameter", diameter)); err != nil {
		return 0, err
	}
	return above(torque / (factor * diameter))
}

// TighteningTorque returns the torque, in N·m, that makes a preload (N) at a nut factor K: [Preload] the other way round, with its refusals.
//
//	T = K·F·d
func TighteningTorque(preload, factor, diameter float64) (float64, error) {
	if err := first(positive("the preload", preload), positive("the nut factor", factor), positive("the diameter", diameter)); err != nil {
		return 0, err
	}
	return above(preload * factor * diameter)
}

// NetTorque returns what is left of a torque (N·m) once the running torque of a self-locking nut or a tight thread (N·m) is taken off: that alone
// stretches the bolt. Going the other way, to what a wrench is set to, it is added. It refuses a torque that is not more than zero, a running torque
// below zero and one that leaves nothing. Sources: NASA-STD-5020B, equations 29 and 30 (taken off), read in the source; AC 43.13-1B, 7-40 (added), read in a
// reproduction.
func NetTorque(torque, running float64) (float64, error) {
	if err := positive("the torque", torque); err != nil {
		return 0, err
	}
	if !(running >= 0) {
		return 0, Refusal("the running torque must be zero or more")
	}
	if !(running < torque) {
		return 0, Refusal("the running torque takes all of the torque")
	}
	return above(torque - running)
}

// TighteningStress returns the stress, in Pa, that a bolt of a metric thread feels while it is tightened to a preload (N) with a friction in the thread: its
// pull, and the twist that the wrench makes beside it.
//
//	σ_eq = F/A · √(1 + 3·(3/2·d2/d0·(tan ψ + μ/cos 30°))²); d0 = (d2 + d3)/2
//
// The twist goes once the wrench is off, in part. It refuses a preload that is not more than zero and what [NutFactor] does. Source of the method: VDI 2230, from
// memory, held against 27 of its published cells.
func TighteningStress(preload, diameter, pitch, threadFriction float64) (float64, error) {
	area, err := StressArea(diameter, pitch)
	if err := first(err, positive("the preload", preload), friction(threadFriction)); err != nil {
		return 0, err
	}
	d2 := diameter - 0.75*height(pitch)
	twist := 1.5 * d2 / stressDiameter(diameter, pitch) * (pitch/(math.Pi*d2) + threadFriction/cos30)
	return above(preload / area * math.Sqrt(1+3*twist*twist))
}

// PermittedError returns the greatest error that a torque tool of a maximum (N·m) is permitted, as a share of what it reads, from a fifth of that maximum on:
// 6 % where the maximum is 10 N·m or less, else 4 %. It goes by the maximum, not by the torque that is set. It refuses a maximum that is not more than zero. Source:
// ISO 6789, setting tools of type II class A, read in a reproduction; below a fifth of the scale nothing is claimed.
func PermittedError(maximum float64) (float64, error) {
	if err := positive("the tool's maximum", maximum); err != nil {
		return 0, err
	}
	if maximum <= 10*(1+1e-9) {
		return 0.06, nil
	}
	return 0.04, nil
}
