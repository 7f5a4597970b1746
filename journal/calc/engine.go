package calc

import "math"

// SweptVolume returns the volume, in m³, that one piston sweeps: bore and stroke in m.
//
//	Vs = π/4 · B² · S
//
// It refuses sizes that are not more than zero. Source of the method: textbook companions (Mathur & Sharma, Internal Combustion Engine,
// example 1.1), read in the source.
func SweptVolume(bore, stroke float64) (float64, error) {
	if err := first(positive("the bore", bore), positive("the stroke", stroke)); err != nil {
		return 0, err
	}
	return above(math.Pi / 4 * bore * bore * stroke)
}

// ClearanceVolume returns the volume, in m³, that is left above a piston at top dead centre: the chamber in the head (m³), the disc
// between the piston's crown and the deck (deck in m, less than zero where the crown stands proud), the disc inside the gasket (its
// bore and thickness in m; a thickness of zero for none), less the piston's dome, plus its dish (m³).
//
//	Vc = V_chamber + π/4·B²·deck + π/4·Bg²·t − V_dome + V_dish
//
// It refuses a bore that is not more than zero and a volume that is not. Source of the method: sum of the volumes, recomputed.
func ClearanceVolume(bore, chamber, deck, gasketBore, gasketThickness, dome, dish float64) (float64, error) {
	if err := positive("the bore", bore); err != nil {
		return 0, err
	}
	if gasketThickness != 0 {
		if err := first(positive("the bore of the gasket", gasketBore), positive("the thickness of the gasket", gasketThickness)); err != nil {
			return 0, err
		}
	}
	disc := math.Pi / 4 * (bore*bore*deck + gasketBore*gasketBore*gasketThickness)
	volume := chamber + disc - dome + dish
	if err := positive("the clearance volume", volume); err != nil {
		return 0, err
	}
	return finite(volume)
}

// CompressionRatio returns the static compression ratio of a cylinder from the volume swept and that left above the piston, both in
// one unit.
//
//	ε = (Vs + Vc) / Vc
//
// It refuses volumes that are not more than zero. Source of the method: textbook companions (Ganesan, Internal Combustion Engines,
// example 1.1), read in the source.
func CompressionRatio(swept, clearance float64) (float64, error) {
	if err := first(positive("the swept volume", swept), positive("the clearance volume", clearance)); err != nil {
		return 0, err
	}
	return finite((swept + clearance) / clearance)
}
