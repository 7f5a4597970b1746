package derive

import (
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// boreShape works out how far each bore that was measured by depth and direction is from round, and from straight.
func boreShape(m *Moment) {
	for _, cylinder := range m.cylinderNames() {
		g, unclear := m.grid(cylinder), m.boresUnclear(cylinder)
		if g == nil {
			continue
		}
		m.shape(g, calc.OutOfRound, &Number{Path: "out-of-round." + cylinder, Title: "out of round, " + cylinder, Formula: "o = max over depths of |D_a − D_b|", Reason: unclear})
		m.shape(g, calc.Taper, &Number{Path: "taper." + cylinder, Title: "taper, " + cylinder, Formula: "t = max over directions of (D_max − D_min)", Reason: unclear})
	}
}

// grid is what was read in one bore, by depth, then direction.
type grid struct {
	depths, directions []string
	read               map[[2]string]bored
}

// grid returns what was read in a bore by depth and direction, nil where nothing was.
func (m *Moment) grid(cylinder string) *grid {
	g := &grid{read: map[[2]string]bored{}}
	for _, b := range m.sizes(cylinder) {
		n := len(b.below)
		if n < 2 {
			continue
		}
		depth, direction := strings.Join(b.below[:n-1], "."), b.below[n-1]
		if !slices.Contains(g.depths, depth) {
			g.depths = append(g.depths, depth)
		}
		if !slices.Contains(g.directions, direction) {
			g.directions = append(g.directions, direction)
		}
		g.read[[2]string{depth, direction}] = b
	}
	if len(g.read) == 0 {
		return nil
	}
	return g
}

// shape works a number out from the two sizes of a grid that decide it.
func (m *Moment) shape(g *grid, of func([][]float64) (calc.Difference, error), n *Number) {
	sizes := make([][]float64, len(g.depths))
	for i, depth := range g.depths {
		for _, direction := range g.directions {
			size := math.NaN()
			if b, ok := g.read[[2]string{depth, direction}]; ok {
				size = b.value.Estimate.Value
			}
			sizes[i] = append(sizes[i], size)
		}
	}
	n.Estimate.Dimension = quantity.Length
	d, err := of(sizes)
	if err != nil && n.Reason == "" {
		n.Reason = err.Error()
	}
	if n.Reason != "" {
		m.add(n)
		return
	}
	at := func(place [2]int) Input {
		return Input{Symbol: "D", Value: g.read[[2]string{g.depths[place[0]], g.directions[place[1]]}].value}
	}
	large, small := at(d.Large), at(d.Small)
	n.Inputs = []Input{large, small}
	n.Unit = large.Value.Quantity.Unit
	n.Estimate = calc.Covered(quantity.Combine(d.Size, quantity.Length, quantity.Term{Partial: 1, Of: large.of()}, quantity.Term{Partial: -1, Of: small.of()}))
	m.add(n)
}
