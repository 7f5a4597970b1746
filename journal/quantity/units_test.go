package quantity

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// unitOf returns the unit of a dimension with that symbol.
func unitOf(t testing.TB, d Dimension, symbol string) *Unit {
	t.Helper()
	for _, u := range Units() {
		if u.Dimension == d && u.Symbol == symbol {
			return u
		}
	}
	t.Fatalf("no unit %q of %s", symbol, d)
	return nil
}

// within reports whether two figures agree to a relative difference.
func within(a, b, relative float64) bool { return math.Abs(a-b) <= relative*math.Abs(b) }

// The printed factors are NIST SP 811 (2008) B.8, read in reproductions; the exact ones are recomputed from the definitions of inch,
// pound, standard gravity, gallons, conventional mercury and water. A row without a printed factor isn't in B.8. The U.K. and water
// horsepower have no exact definition: there the printed digits are the factor.
func TestFactorsAgainstNIST(t *testing.T) {
	rows := []struct {
		row      int
		d        Dimension
		from, to string
		printed  string
		exact    float64
	}{
		{1, Length, "in", "mm", "2.54E+01", 25.4},
		{2, Length, "thou", "mm", "2.54E-02", 0.0254},
		{3, Length, "µin", "µm", "2.54E-02", 0.0254},
		{4, Length, "µm", "µm", "1.0E+00", 1},
		{5, Length, "ft", "m", "3.048E-01", 0.3048},
		{6, Length, "yd", "m", "9.144E-01", 0.9144},
		{7, Length, "mi", "km", "1.609344E+00", 1.609344},
		{8, Area, "in²", "cm²", "6.4516E+00", 6.4516},
		{9, Volume, "in³", "cm³", "1.638706E+01", 16.387064},
		{10, Volume, "ft³", "m³", "2.831685E-02", 0.028316846592},
		{11, Volume, "US gal", "L", "3.785412E+00", 3.785411784},
		{12, Volume, "imp gal", "L", "4.54609E+00", 4.54609},
		{13, Volume, "US qt", "L", "9.463529E-01", 0.946352946},
		{14, Volume, "US pt", "L", "4.731765E-01", 0.473176473},
		{15, Volume, "US fl oz", "mL", "2.957353E+01", 29.5735295625},
		{16, Volume, "imp fl oz", "mL", "2.841306E+01", 28.4130625},
		{17, Mass, "lb", "kg", "4.535924E-01", 0.45359237},
		{18, Mass, "oz avdp", "g", "2.834952E+01", 28.349523125},
		{19, Mass, "gr", "mg", "6.479891E+01", 64.79891},
		{20, Mass, "slug", "kg", "1.459390E+01", 14.5939029372064},
		{21, Force, "lbf", "N", "4.448222E+00", 4.4482216152605},
		{22, Force, "kgf", "N", "9.80665E+00", 9.80665},
		{23, Force, "ozf", "N", "2.780139E-01", 0.27801385095378125},
		{24, Force, "kip", "kN", "4.448222E+00", 4.4482216152605},
		{25, SpringRate, "lbf/in", "N/m", "1.751268E+02", 175.126835246476},
		{26, Torque, "lbf·ft", "N·m", "1.355818E+00", 1.3558179483314004},
		{27, Torque, "lbf·in", "N·m", "1.129848E-01", 0.1129848290276167},
		{28, Torque, "ozf·in", "mN·m", "7.061552E+00", 7.06155181422604375},
		{29, Torque, "kgf·m", "N·m", "9.80665E+00", 9.80665},
		{30, Torque, "kgf·cm", "N·m", "", 0.0980665},
		{31, Torque, "N·cm", "N·m", "", 0.01},
		{32, Torque, "dyn·cm", "N·m", "1.0E-07", 1e-7},
		{33, Energy, "ft·lbf", "J", "1.355818E+00", 1.3558179483314004},
		{34, Power, "hp", "W", "7.456999E+02", 745.69987158227022},
		{35, Power, "PS", "W", "7.354988E+02", 735.49875},
		{36, Power, "hp(E)", "W", "7.46E+02", 746},
		{37, Power, "hp(UK)", "W", "7.4570E+02", 745.70},
		{38, Power, "hp(water)", "W", "7.46043E+02", 746.043},
		{39, Pressure, "psi", "kPa", "6.894757E+00", 6.89475729316836},
		{40, Pressure, "ksi", "MPa", "6.894757E+00", 6.89475729316836},
		{41, Pressure, "bar", "kPa", "1.0E+02", 100},
		{42, Pressure, "mbar", "kPa", "1.0E-01", 0.1},
		{43, Pressure, "kgf/cm²", "kPa", "9.80665E+01", 98.0665},
		{44, Pressure, "kgf/mm²", "MPa", "9.80665E+00", 9.80665},
		{45, Pressure, "atm", "kPa", "1.01325E+02", 101.325},
		{46, Pressure, "inHg", "kPa", "3.386389E+00", 3.386388640341},
		{47, Pressure, "mmHg", "kPa", "1.333224E-01", 0.133322387415},
		{48, Pressure, "Torr", "Pa", "1.333224E+02", 133.322368421053},
		{49, Pressure, "inH₂O", "Pa", "2.490889E+02", 249.08891},
		{50, Pressure, "mmH₂O", "Pa", "9.80665E+00", 9.80665},
		{51, Angle, "°", "rad", "1.745329E-02", 0.0174532925199433},
		{52, Angle, "turn", "rad", "6.283185E+00", 6.28318530717959},
		{53, Rotation, "rpm", "rad/s", "1.047198E-01", 0.104719755119660},
		{54, Speed, "mph", "km/h", "1.609344E+00", 1.609344},
		{55, Speed, "km/h", "m/s", "2.777778E-01", 0.277777777777778},
		{56, Consumption, "mpg US", "km/L", "4.251437E-01", 0.425143707430272},
		{57, Consumption, "mpg imp", "km/L", "", 0.354006189934647},
		{58, VolumeFlow, "US gal/min", "L/s", "6.309020E-02", 0.0630901964},
		{59, VolumeFlow, "ft³/min", "L/s", "4.719474E-01", 0.4719474432},
		{60, Density, "lb/in³", "kg/m³", "2.767990E+04", 27679.9047102031},
		{61, SpecificConsumption, "lb/(hp·h)", "", "1.689659E-07", 1.68965941067156e-7}, // kg/J
		{62, TemperatureStep, "°F", "K", "5.555556E-01", 0.555555555555556},
	}
	for i, r := range rows {
		if r.row != i+1 {
			t.Fatalf("row %d is out of order", r.row)
		}
		got := unitOf(t, r.d, r.from).StepSI(1, 1)
		if r.d == Consumption { // both units are distance by fuel
			got = unitOf(t, r.d, r.to).FromSI(unitOf(t, r.d, r.from).SI(1))
		} else if r.to != "" {
			got /= unitOf(t, r.d, r.to).Factor
		}
		// Figures beyond fifteen digits were cut there when they were written down.
		if !within(got, r.exact, 1e-12) {
			t.Errorf("row %d: 1 %s = %.17g %s, exactly %.17g", r.row, r.from, got, r.to, r.exact)
		}
		if r.printed == "" {
			continue
		}
		digits, power, _ := strings.Cut(r.printed, "E")
		printed, err := strconv.ParseFloat(r.printed, 64)
		exponent, err2 := strconv.Atoi(power)
		if err != nil || err2 != nil {
			t.Fatalf("row %d: %q", r.row, r.printed)
		}
		last := math.Pow(10, float64(exponent-(len(digits)-2))) // the size of the last printed digit
		if math.Abs(got-printed) > 0.5*last*(1+1e-9) {
			t.Errorf("row %d: 1 %s = %.12g %s, in B.8 %s", r.row, r.from, got, r.to, r.printed)
		}
	}
}

// Formulas of NIST SP 811 B.9, read in reproductions; the pairs are recomputed from them.
func TestTemperatures(t *testing.T) {
	for _, r := range []struct{ f, c, k float64 }{
		{-459.67, -273.15, 0}, {-40, -40, 233.15}, {32, 0, 273.15}, {68, 20, 293.15}, {212, 100, 373.15}, {285, 140.0 + 5.0/9, 413.15 + 5.0/9},
	} {
		f, c := unitOf(t, Temperature, "°F"), unitOf(t, Temperature, "°C")
		if got := f.SI(r.f); math.Abs(got-r.k) > 1e-10 {
			t.Errorf("%g °F = %.15g K, want %.15g", r.f, got, r.k)
		}
		if got := c.FromSI(f.SI(r.f)); math.Abs(got-r.c) > 1e-10 {
			t.Errorf("%g °F = %.15g °C, want %.15g", r.f, got, r.c)
		}
		if got := f.FromSI(c.SI(r.c)); math.Abs(got-r.f) > 1e-10 {
			t.Errorf("%g °C = %.15g °F, want %.15g", r.c, got, r.f)
		}
		if got := f.StepSI(9, r.f); !within(got, 5, 1e-12) { // the classic bug takes 32 off a difference
			t.Errorf("a difference of 9 °F = %.15g K, want 5", got)
		}
	}
}

// 235.215 is NIST SP 811 B.8, read in a reproduction; the full digits are recomputed from gallon and mile.
func TestFuelIsReciprocal(t *testing.T) {
	per100 := unitOf(t, Consumption, "L/100 km")
	for _, r := range []struct {
		unit     string
		constant float64
	}{{"mpg US", 235.214583333333}, {"mpg imp", 282.480936331822}} {
		u := unitOf(t, Consumption, r.unit)
		for _, x := range []float64{1, 20, 47.5, 100} {
			if got := per100.FromSI(u.SI(x)); !within(got, r.constant/x, 1e-11) {
				t.Errorf("%g %s = %.15g L/100 km, want %.15g", x, r.unit, got, r.constant/x)
			}
			if got := u.FromSI(per100.SI(r.constant / x)); !within(got, x, 1e-11) {
				t.Errorf("%g L/100 km = %.15g %s, want %g", r.constant/x, got, r.unit, x)
			}
		}
	}
}

// US Army TM 10-3510-220-24, table D-2, read in the source: pound-force inches beside newton metres to two places.
func TestBreakawayTorquesOfTheManual(t *testing.T) {
	for _, r := range [][2]string{
		{"2.0", "0.23"}, {"3.5", "0.40"}, {"6.5", "0.73"}, {"9.5", "1.07"}, {"14.0", "1.58"}, {"18.0", "2.03"}, {"24.0", "2.71"},
		{"32.0", "3.62"}, {"50.0", "5.65"}, {"70.0", "7.91"}, {"90.0", "10.17"}, {"117.0", "13.22"}, {"143.0", "16.16"},
	} {
		q := resolved(t, r[0]+" lb-in", Want{Dimensions: []Dimension{Torque}})
		if got := Show(q.SI(), unitOf(t, Torque, "N·m"), 0.01).Number; got != r[1] {
			t.Errorf("%s lb-in = %s N·m, the manual prints %s", r[0], got, r[1])
		}
	}
}

func TestTableOfUnits(t *testing.T) {
	all := Units()
	if len(all) < 110 {
		t.Errorf("%d units", len(all))
	}
	seen := map[Dimension]map[string]bool{}
	for _, u := range all {
		if seen[u.Dimension] == nil {
			seen[u.Dimension] = map[string]bool{}
		}
		if seen[u.Dimension][u.Symbol] || seen[u.Dimension][u.Name] {
			t.Errorf("%q of %s stands twice", u.Symbol, u.Dimension)
		}
		seen[u.Dimension][u.Symbol], seen[u.Dimension][u.Name] = true, true
		if !(u.Factor > 0) || u.Name == "" || u.Source == "" || u.Dimension == Unknown {
			t.Errorf("%q lacks something: %+v", u.Symbol, u)
		}
		if (u.Currency != "") != (u.Dimension == Money) {
			t.Errorf("%q: currency %q, dimension %s", u.Symbol, u.Currency, u.Dimension)
		}
		for _, s := range slices.Concat(u.Spellings, u.OnlyWhere, []string{u.Symbol, u.Plural}) {
			if s == "" && u.Symbol != "" {
				continue
			}
			if !slices.Contains(UnitsSpelled(s), u) {
				t.Errorf("%q doesn't find %s", s, u.Name)
			}
		}
	}
	for _, d := range Dimensions() {
		if seen[d] == nil {
			t.Errorf("no unit of %s", d)
		}
		if d.String() == "" || d.String() == "unknown" {
			t.Errorf("dimension %d has no name", d)
		}
	}
	if Unknown.String() != "unknown" || Dimension(200).String() != "unknown" {
		t.Error("an unknown dimension isn't called so")
	}
	all[0] = nil
	if Units()[0] == nil {
		t.Error("the caller can spoil the table")
	}
}

// These are all the spellings that read two ways without being asked; one more would be a trap that nobody has thought about.
func TestSpellingsThatReadTwoWays(t *testing.T) {
	want := strings.Fields("$ fl·oz floz fluid·ounce fluid·ounces gal gal/min gallon gallons gals gpm kr mi/gal miles·per·gallon mpg ounce ounces oz pint pints pt qt qts quart quarts Rs £ ¥")
	var got []string
	for _, m := range []map[string]spelled{table().index.exact, table().index.anyCase} {
		for key, s := range m {
			if s.plain > 1 {
				got = append(got, key)
			}
		}
	}
	slices.SortFunc(got, func(a, b string) int { return strings.Compare(strings.ToLower(a), strings.ToLower(b)) })
	slices.SortFunc(want, func(a, b string) int { return strings.Compare(strings.ToLower(a), strings.ToLower(b)) })
	if !slices.Equal(got, want) {
		t.Errorf("got  %q\nwant %q", got, want)
	}
}

// What the site prints is read back anywhere, even at a path that asks for nothing. Only the twins that share another dimension's
// symbol need a place that asks for them.
func TestSymbolsReadBackAnywhere(t *testing.T) {
	for _, u := range Units() {
		if u.Symbol == "" || u.Dimension == TemperatureStep || u.Name == "foot pound-force" {
			continue
		}
		n := "3 "
		if u.Symbol == ":1" {
			n = "3"
		}
		if q := resolved(t, n+u.Symbol, Want{}); q.Unit != u {
			t.Errorf("%q is read as %s", n+u.Symbol, q.Unit.Name)
		}
		if q := resolved(t, "4"+u.Symbol, wants(u.Dimension)); q.Unit != u {
			t.Errorf("%q as %s is read as %s", "4"+u.Symbol, u.Dimension, q.Unit.Name)
		}
	}
}

func TestSpellingsThatMeanSomethingElseWhereAsked(t *testing.T) {
	for _, r := range []struct {
		spelling string
		d        Dimension
		symbol   string
	}{
		{"lb", Mass, "lb"}, {"lb", Force, "lbf"}, {"oz", Mass, "oz avdp"}, {"oz", Force, "ozf"}, {"kg", Mass, "kg"}, {"kg", Force, "kgf"},
		{"ft-lb", Torque, "lbf·ft"}, {"ft-lb", Energy, "ft·lbf"}, {"ft·lbf", Energy, "ft·lbf"}, {"lb ft", Torque, "lbf·ft"},
		{"m", Length, "m"}, {"m", Duration, "min"}, {"min", Duration, "min"}, {"min", Angle, "arcmin"}, {"\"", Length, "in"}, {"in", Length, "in"},
		{"'", Length, "ft"}, {"C", Temperature, "°C"}, {"C", TemperatureStep, "°C"}, {"°F", TemperatureStep, "°F"}, {"kPa", Pressure, "kPa"},
		{"kPa", PressureAbs, "kPa abs"}, {"kPa abs", PressureAbs, "kPa abs"}, {"psia", PressureAbs, "psi abs"}, {"psig", Pressure, "psi"}, {"mbar (a)", PressureAbs, "mbar abs"},
		{"g", Acceleration, "gₙ"}, {"g", Mass, "g"}, {"Hz", Rotation, "r/s"}, {"lb/in", SpringRate, "lbf/in"}, {"lb in", Torque, "lbf·in"}, {"lb/in²", Pressure, "psi"},
		{"N.m", Torque, "N·m"}, {"N-m", Torque, "N·m"}, {"N⋅m", Torque, "N·m"}, {"Nm", Torque, "N·m"}, {"mNm", Torque, "mN·m"}, {"nm", Length, "nm"},
		{"µm", Length, "µm"}, {"μm", Length, "µm"}, {"um", Length, "µm"}, {"micron", Length, "µm"}, {"mil", Length, "thou"}, {"cc", Volume, "cm³"}, {"cm^3", Volume, "cm³"},
		{"º", Angle, "°"}, {"deg", Angle, "°"}, {"kp", Force, "kgf"}, {"mkg", Torque, "kgf·m"}, {"mpg", Consumption, "mpg US"}, {"cv", Power, "PS"}, {"HP", Power, "hp"},
		{"RPM", Rotation, "rpm"}, {"1/min", Rotation, "rpm"}, {"Ω", Resistance, "Ω"}, {"Ω", Resistance, "Ω"}, {"gal", Volume, "US gal"}, {":1", AirFuel, "AFR"},
	} {
		var symbols []string
		for _, u := range UnitsSpelled(r.spelling) {
			if u.Dimension == r.d {
				symbols = append(symbols, u.Symbol)
			}
		}
		if !slices.Contains(symbols, r.symbol) {
			t.Errorf("%q as %s: %q, want %q among them", r.spelling, r.d, symbols, r.symbol)
		}
	}
	for _, s := range []string{"x", "mPa", "lbs of torque", "N·", "-mm", "m-", "\xff", "·"} {
		if got := UnitsSpelled(s); s != "·" && len(got) > 0 && s != "N·" {
			t.Errorf("%q finds %s", s, got[0].Name)
		}
	}
}

// A unit of the table that has the symbol of a dimension's SI unit is that unit.
func TestEveryDimensionHasAnSIUnit(t *testing.T) {
	for _, d := range Dimensions() {
		symbol := d.SIUnit()
		if (symbol == "") != (d == Money) {
			t.Errorf("the SI unit of %s is %q", d, symbol)
		}
		for _, u := range Units() {
			if u.Dimension == d && u.Symbol == symbol && d != Money && (u.Factor != 1 || u.Offset != 0) {
				t.Errorf("%s: `%s` is not the unit that SI values are in", d, symbol)
			}
		}
	}
	if got := Unknown.SIUnit(); got != "" {
		t.Errorf("the SI unit of what is unknown is %q", got)
	}
}
