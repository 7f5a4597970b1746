package derive

import "example.org/locknut/journal/calc"

// camAdvance works out how far a camshaft with both lobes stands ahead of straight up, in degrees of the crank.
func camAdvance(m *Moment) {
	m.ofCentres(&Number{Path: "cam.advance", Title: "cam advance, in degrees of the crank", Formula: "advance = (exhaust − intake) / 2"}, calc.CamAdvance)
}
