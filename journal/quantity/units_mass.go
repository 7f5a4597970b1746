package quantity

func massUnits() []*Unit {
	return []*Unit{
		unit("mg", "milligram", Mass, 1e-6, fromSI, "milligrams"),
		unit("gr", "grain", Mass, pound/7000, fromPound, "grains"),
		unit("g", "gram", Mass, 1e-3, fromSI, "grams|gramme|grammes|gm|gms"),
		unit("oz avdp", "avoirdupois ounce", Mass, pound/16, fromPound, "oz|ounce|ounces"),
		unit("lb", "pound", Mass, pound, fromPound, "lbs|LB|LBS|Lb|Lbs|pounds|lbm"),
		unit("kg", "kilogram", Mass, 1, fromSI, "KG|Kg|kgs|kilos|kilo|kilograms|kilogramme|kilogrammes"),
		unit("slug", "slug", Mass, poundf/foot, fromPoundf, "slugs"),
		unit("t", "tonne", Mass, 1e3, fromSI, "tonnes"),

		unit("kg/m³", "kilogram per cubic metre", Density, 1, fromSI, ""),
		unit("lb/ft³", "pound per cubic foot", Density, pound/(foot*foot*foot), fromPound, "lb/cu ft"),
		unit("g/cm³", "gram per cubic centimetre", Density, 1e3, fromSI, "g/cc|g/ml|g/mL|kg/L|kg/l|kg/dm³"),
		unit("lb/in³", "pound per cubic inch", Density, pound/(inch*inch*inch), fromPound, "lb/cu in"),
	}
}

func forceUnits() []*Unit {
	return []*Unit{
		unit("dyn", "dyne", Force, 1e-5, fromSI, "dynes"),
		onlyWhere(unit("gf", "gram-force", Force, gravity/1000, fromGravity, "grams force"), "g|gram|grams"),
		onlyWhere(unit("ozf", "ounce-force", Force, poundf/16, fromPoundf, "ounces force"), "oz|ounce|ounces"),
		unit("N", "newton", Force, 1, fromSI, "newtons"),
		onlyWhere(unit("lbf", "pound-force", Force, poundf, fromPoundf, "lbsf|pounds force"), "lb|lbs|LB|LBS|Lb|Lbs|pound|pounds"),
		onlyWhere(unit("kgf", "kilogram-force", Force, gravity, fromGravity, "kp|kiloponds|kilopond|kilograms force"),
			"kg|KG|Kg|kgs|kilo|kilos|kilogram|kilograms"),
		unit("daN", "decanewton", Force, 10, fromSI, "decanewtons"),
		unit("kN", "kilonewton", Force, 1e3, fromSI, "KN|kilonewtons"),
		unit("kip", "kilopound-force", Force, 1000*poundf, fromPoundf, "kips"),

		unit("dyn·cm", "dyne centimetre", Torque, 1e-7, fromSI, ""),
		unit("mN·m", "millinewton metre", Torque, 1e-3, fromSI, "mNm|N·mm|Nmm"),
		unit("ozf·in", "ounce-force inch", Torque, poundf/16*inch, fromPoundf, "oz·in|in·oz|in·ozf|ozin"),
		unit("N·cm", "newton centimetre", Torque, 1e-2, fromSI, "Ncm"),
		unit("kgf·cm", "kilogram-force centimetre", Torque, gravity/100, fromGravity, "kg·cm|kgfcm|kgcm|kp·cm|cm·kg|cm·kgf"),
		unit("lbf·in", "pound-force inch", Torque, poundf*inch, fromPoundf,
			"lb·in|lbs·in|in·lb|in·lbs|in·lbf|lbin|inlb|inlbs|inch pound|inch pounds|pound inch|pound inches|inch lbs|inch lb"),
		unit("N·m", "newton metre", Torque, 1, fromSI,
			"Nm|NM|newton metres|newton meter|newton meters|newtonmetre|newtonmetres"),
		unit("lbf·ft", "pound-force foot", Torque, poundf*foot, fromPoundf,
			"lb·ft|lbs·ft|ft·lb|ft·lbs|ft·lbf|lbft|ftlb|ftlbs|ftlbf|lbfft|foot pound|foot pounds|pound foot|pound feet|ft pounds|foot lbs|foot lb"),
		unit("kgf·m", "kilogram-force metre", Torque, gravity, fromGravity, "kg·m|kgfm|kgm|kp·m|kpm|m·kg|mkg|m·kgf|m·kp|mkp"),
		unit("daN·m", "decanewton metre", Torque, 10, fromSI, "daNm"),
		unit("kN·m", "kilonewton metre", Torque, 1e3, fromSI, "kNm"),

		unit("J", "joule", Energy, 1, fromSI, "joules"),
		energyFootPound(),
		unit("kJ", "kilojoule", Energy, 1e3, fromSI, "kilojoules"),
		unit("W·h", "watt hour", Energy, hour, fromTime, "Wh|watt hours"),
		unit("MJ", "megajoule", Energy, 1e6, fromSI, "megajoules"),
		unit("kW·h", "kilowatt hour", Energy, 1000*hour, fromTime, "kWh|KWh|kilowatt hours"),

		unit("W", "watt", Power, 1, fromSI, "watts"),
		unit("PS", "metric horsepower", Power, 75*gravity, "75 kgf·m/s exactly (NIST SP 811 B.8)", "cv|CV|ch|CH|pk|hp metric|metric hp|DIN hp|hp M"),
		unit("hp", "horsepower", Power, horse, "550 ft·lbf/s (NIST SP 811 B.8), 745.7 W", "HP|Hp|bhp|mechanical horsepower"),
		inexact(unit("hp(UK)", "UK horsepower", Power, 745.70, "as printed in NIST SP 811 B.8", "UK hp|hp UK")),
		unit("hp(E)", "electric horsepower", Power, 746, "746 W exactly (NIST SP 811 B.8)", "electric hp|hp electric"),
		inexact(unit("hp(water)", "water horsepower", Power, 746.043, "as printed in NIST SP 811 B.8", "water hp|hp water")),
		unit("kW", "kilowatt", Power, 1e3, fromSI, "KW|Kw|kw|kilowatts"),

		unit("N/m", "newton per metre", SpringRate, 1, fromSI, "newtons per metre"),
		unit("lbf/in", "pound-force per inch", SpringRate, poundf/inch, fromPoundf, "lb/in|lbs/in|lb/inch|lbs/inch|lbf/inch|ppi|pounds per inch"),
		unit("N/mm", "newton per millimetre", SpringRate, 1e3, fromSI, "kN/m|newtons per millimetre"),
		unit("kgf/mm", "kilogram-force per millimetre", SpringRate, 1000*gravity, fromGravity, "kg/mm|kp/mm"),
	}
}

// energyFootPound is the torque's twin: the same spellings, of another dimension. Workshops write ft·lbf for torque, so it is energy
// only where energy is asked for.
func energyFootPound() *Unit {
	u := unit("ft·lbf", "foot pound-force", Energy, poundf*foot, fromPoundf, "")
	u.Spellings = []string{u.Name}
	return onlyWhere(u, "ft·lbf|ft·lb|ft·lbs|ftlb|ftlbs|ftlbf|foot pound|foot pounds|ft pounds|foot lbs|foot lb|lbf·ft|lb·ft")
}
