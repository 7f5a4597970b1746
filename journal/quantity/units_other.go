package quantity

func otherUnits() []*Unit {
	return []*Unit{
		unit("", "number", Pure, 1, fromTrade, ""),
		unit("ppm", "part per million", Pure, 1e-6, fromTrade, "parts per million"),
		unit("%", "per cent", Pure, 0.01, fromTrade, "percent|pct|pc"),
		unit(":1", "to one", Pure, 1, fromTrade, ""),

		kelvins(unit("K", "kelvin", Temperature, 1, fromSI, "kelvins"), 0),
		kelvins(unit("°C", "degree Celsius", Temperature, 1, fromSI, "C|degC|deg C|degrees C|Celsius|degrees Celsius|centigrade"), 273.15),
		kelvins(unit("°F", "degree Fahrenheit", Temperature, 5.0/9, "5/9 K from −459.67 °F (NIST SP 811 B.9)", "F|degF|deg F|degrees F|Fahrenheit|degrees Fahrenheit"), 459.67),
		difference("K", "kelvin difference", 1, fromSI, "kelvins|kelvin"),
		difference("°C", "degree Celsius difference", 1, fromSI, "C|degC|deg C|degrees C|Celsius|degrees Celsius"),
		difference("°F", "degree Fahrenheit difference", 5.0/9, "5/9 K (NIST SP 811 B.8)", "F|degF|deg F|degrees F|Fahrenheit|degrees Fahrenheit"),

		unit("mV", "millivolt", Voltage, 1e-3, fromSI, "millivolts"),
		unit("V", "volt", Voltage, 1, fromSI, "v|volts|Vdc|VDC|V DC"),
		unit("kV", "kilovolt", Voltage, 1e3, fromSI, "KV|kilovolts"),
		unit("mA", "milliampere", Current, 1e-3, fromSI, "milliamp|milliamps|milliamperes"),
		unit("A", "ampere", Current, 1, fromSI, "amp|amps|amperes"),
		unit("mΩ", "milliohm", Resistance, 1e-3, fromSI, "milliohms"),
		unit("Ω", "ohm", Resistance, 1, fromSI, "ohms|Ohm|Ohms"),
		unit("kΩ", "kilohm", Resistance, 1e3, fromSI, "kohm|kohms|KΩ|kilohms|kiloohm|kiloohms"),
		unit("MΩ", "megohm", Resistance, 1e6, fromSI, "Mohm|Mohms|megohms"),
		unit("Hz", "hertz", Frequency, 1, fromSI, "HZ|hz"),
		unit("kHz", "kilohertz", Frequency, 1e3, fromSI, "KHz"),
		unit("cSt", "centistokes", Viscosity, 1e-6, fromSI, "cst|mm²/s|centistoke"),
		unit("m²/s", "square metre per second", Viscosity, 1, fromSI, ""),

		word("click", "clicks", Clicks, 1, fromTrade, "clk|clks|notch|notches"),
		word("tooth", "teeth", Teeth, 1, fromTrade, "T"),
		word("link", "links", Links, 1, fromTrade, ""),
		unit("λ", "lambda", Lambda, 1, fromTrade, ""),
		onlyWhere(unit("AFR", "air-fuel ratio", AirFuel, 1, fromTrade, "afr|A/F|air fuel ratio"), ":1"),
	}
}

// kelvins sets a temperature's offset: what is added, in the unit, to count from absolute zero.
func kelvins(u *Unit, offset float64) *Unit {
	u.Offset = offset
	return u
}

// difference makes a unit of temperature differences. It shares its symbol and spellings with the temperature, which they mean unless
// a difference is asked for.
func difference(symbol, name string, factor float64, source, spellings string) *Unit {
	u := unit(symbol, name, TemperatureStep, factor, source, "")
	u.Spellings = []string{name}
	return onlyWhere(u, symbol+"|"+spellings)
}
