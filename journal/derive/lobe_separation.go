package derive

import "example.org/locknut/journal/calc"

// lobeSeparation works out the angle between the two lobes of a camshaft, in degrees of the cam.
func lobeSeparation(m *Moment) {
	m.ofCentres(&Number{Path: "cam.separation", Title: "lobe separation, in degrees of the cam", Formula: "separation = (intake + exhaust) / 2"}, calc.LobeSeparation)
}
