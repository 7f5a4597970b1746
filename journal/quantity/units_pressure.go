package quantity

// pressureUnits returns every unit of pressure twice: over the air's own pressure, as gauges read, and over nothing, which is said
// (`kPa abs`) or asked for by the place, as with the air's pressure and a manifold's.
func pressureUnits() []*Unit {
	gauge := []*Unit{
		unit("Pa", "pascal", Pressure, 1, fromSI, "pascals|N/m²"),
		unit("mmH₂O", "millimetre of water", Pressure, water/1000, "conventional water, 1000 kg/m³ (NIST SP 811 B.8)", "mmH2O|mm H2O|mmWC|mm WC|mmwg"),
		unit("hPa", "hectopascal", Pressure, 100, fromSI, "hpa|hectopascals"),
		unit("mbar", "millibar", Pressure, 100, fromSI, "mb|millibars"),
		unit("Torr", "torr", Pressure, 101_325.0/760, "1 atm / 760 (NIST SP 811 B.8)", ""),
		unit("mmHg", "millimetre of mercury", Pressure, mercury/1000, "conventional mercury, 13 595.1 kg/m³ (NIST SP 811 B.8)", "mm Hg"),
		unit("inH₂O", "inch of water", Pressure, water*inch, "conventional water, 1000 kg/m³ (NIST SP 811 B.8)", "inH2O|in H2O|inWC|in WC|inwg"),
		unit("kPa", "kilopascal", Pressure, 1e3, fromSI, "kpa|kilopascals"),
		unit("cmHg", "centimetre of mercury", Pressure, mercury/100, "conventional mercury, 13 595.1 kg/m³ (NIST SP 811 B.8)", "cm Hg"),
		unit("inHg", "inch of mercury", Pressure, mercury*inch, "conventional mercury, 13 595.1 kg/m³ (NIST SP 811 B.8)", "in Hg|\"Hg|inches of mercury"),
		unit("psi", "pound-force per square inch", Pressure, psi, fromPoundf, "lbf/in²|lb/in²|lbs/in²|lb/sq in|lbs/sq in|lbf/sq in"),
		unit("kgf/cm²", "kilogram-force per square centimetre", Pressure, 1e4*gravity, fromGravity, "kg/cm²|kp/cm²|kg/sq cm"),
		unit("bar", "bar", Pressure, 1e5, fromSI, "bars"),
		unit("atm", "standard atmosphere", Pressure, 101_325, "101 325 Pa exactly (NIST SP 811 B.8)", "atmosphere|atmospheres"),
		unit("MPa", "megapascal", Pressure, 1e6, fromSI, "N/mm²|megapascals"),
		unit("ksi", "kilopound-force per square inch", Pressure, 1000*psi, fromPoundf, "kip/in²"),
		unit("kgf/mm²", "kilogram-force per square millimetre", Pressure, 1e6*gravity, fromGravity, "kg/mm²|kp/mm²"),
	}
	all := make([]*Unit, 0, 2*len(gauge))
	for _, u := range gauge {
		all = append(all, u, absolute(u))
	}
	return all
}

// absolute returns the twin of a gauge unit that counts from nothing, and teaches the gauge unit to be called so.
func absolute(u *Unit) *Unit {
	twin := *u
	twin.Symbol, twin.Name, twin.Dimension = u.Symbol+" abs", u.Name+" absolute", PressureAbs
	twin.OnlyWhere = u.Spellings
	twin.Spellings = []string{twin.Name}
	var said []string
	for _, s := range u.Spellings {
		twin.Spellings = append(twin.Spellings, s+" abs", s+" absolute", s+" a", "absolute "+s)
		said = append(said, s+" gauge", s+" gage", s+" g")
	}
	switch u.Symbol {
	case "psi", "bar":
		twin.Spellings = append(twin.Spellings, u.Symbol+"a")
		said = append(said, u.Symbol+"g")
	case "kPa":
		twin.Spellings = append(twin.Spellings, "kPaa", "kPaA")
		said = append(said, "kPag", "kPaG")
	}
	u.Spellings = append(u.Spellings[:len(u.Spellings):len(u.Spellings)], said...)
	return &twin
}
