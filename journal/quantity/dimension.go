package quantity

// Dimension is what a unit measures. Two figures can be compared only if their dimensions are the same. Its zero value is Unknown.
type Dimension uint8

// The dimensions, each with the SI unit that Quantity.SI and the other SI values are in.
const (
	Unknown             Dimension = iota
	Pure                          // 1; per cent is a unit of it
	Length                        // m
	Area                          // m²
	Volume                        // m³
	Mass                          // kg
	Density                       // kg/m³
	Force                         // N
	Torque                        // N·m
	Energy                        // J
	Power                         // W
	Pressure                      // Pa above the air's own (gauge)
	PressureAbs                   // Pa above nothing at all
	Temperature                   // K
	TemperatureStep               // K, a difference
	Angle                         // rad
	Speed                         // m/s
	Rotation                      // rad/s
	Acceleration                  // m/s²
	Duration                      // s
	Calendar                      // months: a month has no fixed number of seconds
	VolumeFlow                    // m³/s
	MassFlow                      // kg/s
	SpringRate                    // N/m
	LiftArea                      // m·rad, lift over the angle of the crank
	Consumption                   // m³/m, fuel by distance
	SpecificConsumption           // kg/J, fuel by work
	Voltage                       // V
	Current                       // A
	Resistance                    // Ω
	Frequency                     // Hz
	Viscosity                     // m²/s, kinematic
	Clicks                        // clicks of an adjuster
	Teeth                         // teeth of a wheel
	Links                         // links of a chain
	Lambda                        // 1, air-fuel ratio over the stoichiometric one
	AirFuel                       // 1, mass of air over mass of fuel
	Money                         // units of one currency; currencies never convert
)

var dimensionNames = [...]string{
	Unknown: "unknown", Pure: "pure number", Length: "length", Area: "area", Volume: "volume", Mass: "mass", Density: "density",
	Force: "force", Torque: "torque", Energy: "energy", Power: "power", Pressure: "pressure", PressureAbs: "absolute pressure",
	Temperature: "temperature", TemperatureStep: "temperature difference", Angle: "angle", Speed: "speed", Rotation: "speed of rotation",
	Acceleration: "acceleration", Duration: "time", Calendar: "calendar time", VolumeFlow: "volume flow", MassFlow: "mass flow",
	SpringRate: "spring rate", LiftArea: "area under a lift", Consumption: "fuel consumption", SpecificConsumption: "specific fuel consumption", Voltage: "voltage",
	Current: "current", Resistance: "resistance", Frequency: "frequency", Viscosity: "viscosity", Clicks: "number of clicks",
	Teeth: "number of teeth", Links: "number of links", Lambda: "lambda", AirFuel: "air-fuel ratio", Money: "money",
}

// String returns plain words: "length", "spring rate".
func (d Dimension) String() string {
	if int(d) < len(dimensionNames) {
		return dimensionNames[d]
	}
	return "unknown"
}

var siUnits = [...]string{
	Pure: "1", Length: "m", Area: "m²", Volume: "m³", Mass: "kg", Density: "kg/m³", Force: "N", Torque: "N·m", Energy: "J", Power: "W", Pressure: "Pa",
	PressureAbs: "Pa abs", Temperature: "K", TemperatureStep: "K", Angle: "rad", Speed: "m/s", Rotation: "rad/s", Acceleration: "m/s²", Duration: "s",
	Calendar: "month", VolumeFlow: "m³/s", MassFlow: "kg/s", SpringRate: "N/m", LiftArea: "m·rad", Consumption: "m³/m", SpecificConsumption: "kg/J", Voltage: "V",
	Current: "A", Resistance: "Ω", Frequency: "Hz", Viscosity: "m²/s", Clicks: "click", Teeth: "tooth", Links: "link", Lambda: "λ", AirFuel: "AFR",
	Money: "",
}

// SIUnit returns the symbol of the unit that SI values of the dimension are in: `m`, `1` for a plain number; "" for money, whose values are
// in their own currency, and for Unknown.
func (d Dimension) SIUnit() string {
	if int(d) < len(siUnits) {
		return siUnits[d]
	}
	return ""
}

// Dimensions returns all dimensions but Unknown, in the order of the constants.
func Dimensions() []Dimension {
	all := make([]Dimension, 0, len(dimensionNames)-1)
	for d := Pure; int(d) < len(dimensionNames); d++ {
		all = append(all, d)
	}
	return all
}
