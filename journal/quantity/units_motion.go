package quantity

func motionUnits() []*Unit {
	arcminute := onlyWhere(unit("arcmin", "minute of arc", Angle, turn/21_600, fromTurn, "arcmins|minutes of arc|arc minute|arc minutes"), "min|'|minutes")
	gees := onlyWhere(unit("gₙ", "standard gravity", Acceleration, gravity, fromGravity, "g0|gees"), "g|G")
	return []*Unit{
		unit("µs", "microsecond", Duration, 1e-6, fromSI, "us|usec|microseconds"),
		unit("ms", "millisecond", Duration, 1e-3, fromSI, "msec|milliseconds"),
		unit("s", "second", Duration, 1, fromSI, "sec|secs|seconds"),
		onlyWhere(unit("min", "minute", Duration, 60, fromTime, "mins|minutes"), "m"),
		unit("h", "hour", Duration, hour, fromTime, "hr|hrs|hours"),
		word("day", "days", Duration, 24*hour, fromTime, "d"),
		word("week", "weeks", Duration, 7*24*hour, fromTime, "wk|wks"),
		word("month", "months", Calendar, 1, "a month has no fixed length", "mo|mth|mths"),
		word("year", "years", Calendar, 12, "12 months", "yr|yrs|y"),

		unit("mrad", "milliradian", Angle, 1e-3, fromSI, "milliradians"),
		arcminute,
		unit("°", "degree", Angle, turn/360, fromTurn, "deg|degs|degrees|°CA|deg CA|° crank|deg crank|crank degrees|crank deg|degrees of crank"),
		unit("rad", "radian", Angle, 1, fromSI, "radians"),
		word("flat", "flats", Angle, turn/6, "one side of a hexagon nut, a sixth of a turn", "hex flat|hex flats"),
		word("turn", "turns", Angle, turn, fromTurn, "rev|revs|revolution|revolutions|r|rotation|rotations"),

		unit("mm·°", "millimetre degree", LiftArea, 1e-3*turn/360, fromTurn, "mm·deg|millimetre degrees|mm degrees"),
		unit("in·°", "inch degree", LiftArea, inch*turn/360, fromTurn, "in·deg|inch degrees|inch·deg|in degrees"),
		unit("m·rad", "metre radian", LiftArea, 1, fromSI, "metre radians"),

		unit("ft/min", "foot per minute", Speed, foot/60, fromInch, "fpm|ft/minute|feet per minute"),
		unit("km/h", "kilometre per hour", Speed, 1000.0/hour, fromTime, "kmh|km/hr|kph|kmph|kilometres per hour|km/hour"),
		unit("ft/s", "foot per second", Speed, foot, fromInch, "ft/sec|fps|feet per second"),
		unit("mph", "mile per hour", Speed, mile/hour, fromInch, "mi/h|mi/hr|miles/h|miles per hour|m.p.h."),
		unit("m/s", "metre per second", Speed, 1, fromSI, "m/sec|metres per second|meters per second"),
		unit("kn", "knot", Speed, 1852.0/hour, "1852 m in an hour exactly, the international nautical mile, as GNU units 2.22 has it", "knots|kt"),

		unit("rpm", "revolution per minute", Rotation, turn/60, fromTurn, "r/min|rev/min|revs/min|1/min|min⁻¹|/min|U/min|revolutions per minute|r.p.m."),
		unit("krpm", "thousand revolutions per minute", Rotation, 1000*turn/60, fromTurn, "1000 rpm|rpm ×1000|rpm x1000|rpm x 1000|x1000 rpm|x 1000 rpm|rpm/1000|1000/min|1000 1/min|1/min ×1000|1/min x1000|1/min x 1000|x1000 1/min|1000 min⁻¹|1000 r/min|1000 U/min"),
		unit("rad/s", "radian per second", Rotation, 1, fromSI, "rad/sec|radians per second"),
		onlyWhere(unit("r/s", "revolution per second", Rotation, turn, fromTurn, "rev/s|revs/s|rps"), "Hz"),

		unit("ft/s²", "foot per second squared", Acceleration, foot, fromInch, "ft/s/s"),
		unit("m/s²", "metre per second squared", Acceleration, 1, fromSI, "m/s/s"),
		gees,
	}
}

func fuelUnits() []*Unit {
	return []*Unit{
		unit("L/h", "litre per hour", VolumeFlow, 1e-3/hour, fromTime, "l/h|L/hr|l/hr|lph"),
		unit("cm³/min", "cubic centimetre per minute", VolumeFlow, 1e-6/60, fromTime, "cc/min|cc/minute|ccm/min|mL/min|ml/min"),
		unit("L/min", "litre per minute", VolumeFlow, 1e-3/60, fromTime, "l/min|lpm"),
		unit("m³/h", "cubic metre per hour", VolumeFlow, 1.0/hour, fromTime, "m³/hr|cmh"),
		unit("US gal/min", "US gallon per minute", VolumeFlow, usGallon/60, fromUSGal, "US gpm|gpm US|gpm|gal/min"),
		unit("imp gal/min", "imperial gallon per minute", VolumeFlow, impGallon/60, fromImpGal, "imp gpm|gpm imp|UK gpm|gpm|gal/min"),
		unit("ft³/min", "cubic foot per minute", VolumeFlow, foot*foot*foot/60, fromInch, "cfm|cu ft/min"),
		unit("L/s", "litre per second", VolumeFlow, 1e-3, fromSI, "l/s"),
		unit("m³/s", "cubic metre per second", VolumeFlow, 1, fromSI, ""),

		unit("g/min", "gram per minute", MassFlow, 1e-3/60, fromTime, ""),
		unit("lb/h", "pound per hour", MassFlow, pound/hour, fromPound, "lb/hr|lbs/h|lbs/hr|pph"),
		unit("kg/h", "kilogram per hour", MassFlow, 1.0/hour, fromTime, "kg/hr"),
		unit("g/s", "gram per second", MassFlow, 1e-3, fromSI, "g/sec"),
		unit("lb/min", "pound per minute", MassFlow, pound/60, fromPound, "lbs/min"),
		unit("kg/s", "kilogram per second", MassFlow, 1, fromSI, ""),

		unit("L/100 km", "litre per 100 kilometres", Consumption, 1e-8, fromSI, "L/100km|l/100 km|l/100km|litres per 100 km"),
		byFuel(unit("km/L", "kilometre per litre", Consumption, 1e-6, fromSI, "km/l|kpl")),
		byFuel(unit("mpg US", "mile per US gallon", Consumption, usGallon/mile, fromUSGal, "US mpg|mpg|mi/gal|miles per gallon")),
		byFuel(unit("mpg imp", "mile per imperial gallon", Consumption, impGallon/mile, fromImpGal,
			"imp mpg|mpg UK|UK mpg|mpg|mi/gal|miles per gallon")),

		unit("g/(kW·h)", "gram per kilowatt hour", SpecificConsumption, 1e-6/hour, fromTime, "g/kWh|g/kW/h|g/kW-hr"),
		unit("lb/(hp·h)", "pound per horsepower hour", SpecificConsumption, pound/(horse*hour), fromPoundf, "lb/hp/h|lb/hp/hr|lb/hph|lb/hp-hr|lbs/hp/hr|lb/bhp-hr"),
	}
}

// byFuel marks a unit of distance by fuel: its factor over the figure is the fuel by distance.
func byFuel(u *Unit) *Unit {
	u.Reciprocal = true
	return u
}
