package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// compressionRatio works out the static compression ratio of one cylinder from its bore and stroke and the volumes above its piston.
func compressionRatio(m *Moment) {
	inputs, missing := m.gather([2]string{"B", "engine.bore"}, [2]string{"S", "engine.stroke"}, [2]string{"V_chamber", "engine.chamber"})
	if m.value("engine.chamber") == nil && !m.unread("engine.chamber") {
		return
	}
	n := &Number{Path: "engine.compression-ratio", Title: "compression ratio", Formula: "ε = (V_s + V_c) / V_c; V_s = π/4 · B² · S; V_c = V_chamber + π/4 · B² · deck + π/4 · B_g² · t − V_dome + V_dish", Reason: m.lacks(missing)}
	n.Estimate.Dimension = quantity.Pure
	fixed := len(inputs)
	at := map[string]int{}
	var nought, optional []string
	for _, each := range [][2]string{{"deck", "engine.deck"}, {"B_g", "engine.gasket.bore"}, {"t", "engine.gasket.thickness"}, {"V_dome", "engine.dome"}, {"V_dish", "engine.dish"}} {
		optional = append(optional, each[1])
		v := m.value(each[1])
		if v == nil {
			nought = append(nought, each[0])
			continue
		}
		at[each[0]] = len(inputs)
		inputs = append(inputs, Input{Symbol: each[0], Value: v})
	}
	if n.Reason == "" {
		n.Reason = m.unclear(optional...)
	}
	if len(nought) > 0 && n.Reason == "" {
		n.Words = "not given, and taken as nought: " + strings.Join(nought, ", ")
	}
	n.Inputs = inputs
	_, bore := at["B_g"]
	_, thickness := at["t"]
	switch {
	case n.Reason != "" || bore == thickness:
	case bore:
		n.Reason = m.lacks([]string{"engine.gasket.thickness"})
	default:
		n.Reason = m.lacks([]string{"engine.gasket.bore"})
	}
	if n.Reason == "" {
		ratio := func(x []float64) (float64, error) {
			option := func(symbol string) float64 {
				if i := at[symbol]; i >= fixed {
					return x[i]
				}
				return 0
			}
			swept, err := calc.SweptVolume(x[0], x[1])
			if err != nil {
				return 0, err
			}
			clearance, err := calc.ClearanceVolume(x[0], x[2], option("deck"), option("B_g"), option("t"), option("V_dome"), option("V_dish"))
			if err != nil {
				return 0, err
			}
			return calc.CompressionRatio(swept, clearance)
		}
		n.carry(ratio, quantity.Pure)
	}
	n.Unit = quantity.UnitShown(":1") // as `10.2:1`
	m.add(n)
}
