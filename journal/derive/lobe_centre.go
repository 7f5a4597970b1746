package derive

import (
	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// lobeCentre works out where the middle between each side's two events stands, counted from the top dead centre of overlap: before it is less than zero.
func lobeCentre(m *Moment) {
	if !m.speaks("cam") {
		return
	}
	for _, side := range parse.Sides {
		l, ok := m.lobe(side)
		if !ok {
			continue
		}
		n := &Number{Path: "cam." + side + ".lobe-centre", Title: side + " lobe centre, by its events", Inputs: l.inputs(), Told: l.told, Unit: degrees(), Event: quantity.ATDC, Reason: l.reason}
		way := 1.0
		n.Formula = "centre = duration / 2 − opens"
		if side == "exhaust" {
			way, n.Event, n.Formula = -1, quantity.BTDC, "centre = duration / 2 − closes"
		}
		n.Estimate.Dimension = quantity.Angle
		if n.Reason == "" {
			n.carry(func(x []float64) (float64, error) {
				centre, err := calc.LobeCentre(l.ends(x))
				return way * centre, err
			}, quantity.Angle)
			n.Words = l.lift
		}
		m.add(n)
	}
}
