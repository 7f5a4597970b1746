package quantity

// counterparts are the units in which the figures of the trade stand in the other of its two systems: leaves, wrenches and gauges are marked in either.
var counterparts = map[string]string{
	"mm": "in", "cm": "in", "µm": "thou", "in": "mm", "thou": "mm",
	"N·m": "lbf·ft", "lbf·ft": "N·m", "lbf·in": "N·m",
	"kPa": "psi", "bar": "psi", "psi": "kPa",
	"°C": "°F", "°F": "°C",
}

// Counterpart returns the unit of the other system, metric or inch, in which a figure in u may be wanted too; nil if none is usual.
func (u *Unit) Counterpart() *Unit {
	if symbol := counterparts[u.Symbol]; symbol != "" {
		return UnitOf(symbol, u.Dimension)
	}
	return nil
}

// IsCounterpart reports whether two units are of different systems: the one's counterpart goes back to the other's system.
func (u *Unit) IsCounterpart(other *Unit) bool {
	a, b := u.Counterpart(), other.Counterpart()
	return a != nil && b != nil && a != b && u.Dimension == other.Dimension && (a == other || b == u || a.Counterpart() == b)
}
