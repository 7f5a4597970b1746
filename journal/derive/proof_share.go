package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// proofShare works out how much of its proof load each bolt's preload is.
func proofShare(m *Moment) {
	for _, b := range m.bolts() {
		if b.preload == nil || !b.isShared() || b.Class == "" && b.classWhy == "" {
			continue
		}
		n := &Number{Path: "proof-share." + b.below, Title: "share of proof load, " + strings.ReplaceAll(b.below, ".", " "), Unit: quantity.UnitShown("%"),
			Formula: "s = F / (A · S_p); A = π/4 · ((d2 + d3)/2)²", Inputs: []Input{{Symbol: "F", Number: b.preload}}}
		n.Estimate.Dimension = quantity.Pure
		proof, err := b.ProofLoad()
		switch {
		case b.isUnread:
			n.Reason = b.Reason
		case err != nil:
			n.Reason = err.Error()
		default:
			n.carry(func(x []float64) (float64, error) { return x[0] / proof, nil }, quantity.Pure)
			if b.isTold {
				n.Words = b.proofWords(proof, m.forceUnit())
			}
		}
		m.add(n)
	}
}

// isShared reports whether the preload has shares, if only to say why they can't be had while something can't be read.
func (b *bolt) isShared() bool { return b.preload.Reason == "" || b.isUnread }

// proofWords says what the bolt bears, the ends of its share, and how near the twist of tightening brought it to its yield point.
func (b *bolt) proofWords(proof float64, unit *quantity.Unit) string {
	words := "class " + b.Class + ", proof load " + threeFigures(proof, unit)
	percent := quantity.UnitShown("%")
	if least, most, err := b.Preloads(b.value.Estimate.Value); err == nil {
		words += "; " + quantity.Show(least/proof, percent, 0.01).Number + " to " + quantity.Show(most/proof, percent, 0.01).String() + " over that friction"
	}
	strength, err := calc.StrengthOf(b.Class, b.Thread.Diameter)
	if err != nil {
		return words
	}
	middle := (b.Friction[0] + b.Friction[1]) / 2
	if stress, err := calc.TighteningStress(b.preload.Estimate.Value, b.Thread.Diameter, b.Thread.Pitch, middle); err == nil {
		words += "; with the twist of tightening " + quantity.Show(stress/strength.Yield, percent, 0.01).String() + " of the yield point"
	}
	return words
}
