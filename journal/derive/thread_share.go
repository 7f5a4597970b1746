package derive

import (
	"strings"

	"example.org/locknut/journal/quantity"
)

// threadShare works out how much of what its thread bears each fastener's preload is, in the part that it is screwed into.
func threadShare(m *Moment) {
	for _, b := range m.bolts() {
		if b.preload == nil || !b.isShared() || !b.hole.isTold {
			continue
		}
		n := &Number{Path: "thread-share." + b.below, Title: "share of the thread’s strength, " + strings.ReplaceAll(b.below, ".", " "), Unit: quantity.UnitShown("%"),
			Formula: "s = F / (τ · A); A = π · LE/P · d_min · (P/2 + (d_min − D2_max)/√3)", Inputs: []Input{{Symbol: "F", Number: b.preload}}}
		n.Estimate.Dimension = quantity.Pure
		load, ofHole, err := b.StripLoad()
		switch {
		case b.isUnread:
			n.Reason = b.Reason
		case err != nil:
			n.Reason = err.Error()
		default:
			n.carry(func(x []float64) (float64, error) { return x[0] / load, nil }, quantity.Pure)
			whose := "the thread in the " + b.hole.into + " strips first"
			if !ofHole {
				whose = "the bolt’s own thread strips first"
			}
			n.Words = whose + ", at " + threeFigures(load, m.forceUnit()) + "; engaged are " +
				quantity.Show(b.hole.engagement/b.Thread.Diameter, quantity.One(), 0.1).String() + " diameters"
		}
		m.add(n)
	}
}
