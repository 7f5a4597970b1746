package derive

import (
	"cmp"
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// springRate works out the rate of each spring of which two loads were read, each with the length that it was read at.
func springRate(m *Moment) {
	type pair struct{ load, length *model.Value }
	read := map[string][]pair{}
	var springs []string
	for _, position := range m.Journal.Positions.Below("spring") {
		at, ok := strings.CutSuffix(position, ".load")
		load, length := m.value(position), m.value(at+".length")
		if !ok || load == nil || length == nil || length.Quantity.Unit.Dimension != quantity.Length {
			continue
		}
		spring := parse.Above(at)
		if len(read[spring]) == 0 {
			springs = append(springs, spring)
		}
		read[spring] = append(read[spring], pair{load, length})
	}
	for _, spring := range springs {
		pairs := read[spring]
		if len(pairs) < 2 || spring == "" {
			continue
		}
		slices.SortStableFunc(pairs, func(a, b pair) int {
			return quantity.Compare(b.length.Estimate.Value, a.length.Estimate.Value, 0)
		})
		long, short := pairs[0], pairs[len(pairs)-1]
		name := strings.TrimPrefix(strings.TrimPrefix(spring, "spring"), ".")
		n := &Number{Path: "spring-rate." + cmp.Or(name, "1"), Title: strings.TrimSpace("spring rate " + strings.ReplaceAll(name, ".", " ")), Formula: "k = (F_2 − F_1) / (L_1 − L_2)",
			Inputs: []Input{{Symbol: "F_1", Value: long.load}, {Symbol: "L_1", Value: long.length}, {Symbol: "F_2", Value: short.load}, {Symbol: "L_2", Value: short.length}}}
		n.Estimate.Dimension = quantity.SpringRate
		entry := long.load.Entry
		if slices.ContainsFunc(n.Inputs, func(in Input) bool { return in.Value.Entry != entry }) {
			n.Reason = "the loads and lengths were not read in one entry"
		} else if long.load.Quantity.Unit.Dimension != quantity.Force || short.load.Quantity.Unit.Dimension != quantity.Force {
			n.Reason = "a load is a force: write it in N, lbf or kgf"
		} else {
			n.carry(func(x []float64) (float64, error) { return calc.SpringRate(x[0], x[1], x[2], x[3]) }, quantity.SpringRate)
		}
		m.add(n)
	}
}
