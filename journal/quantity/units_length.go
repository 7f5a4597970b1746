package quantity

import "strings"

// The exact figures that the factors below are made of. Go works constants out exactly and rounds once.
const (
	inch      = 0.0254                                    // m
	foot      = 12 * inch                                 // m
	mile      = 5280 * foot                               // m
	pound     = 0.453_592_37                              // kg
	gravity   = 9.806_65                                  // m/s², standard
	poundf    = pound * gravity                           // N
	psi       = poundf / (inch * inch)                    // Pa
	usGallon  = 231 * inch * inch * inch                  // m³
	impGallon = 4.546_09e-3                               // m³
	mercury   = 13_595.1 * gravity                        // Pa/m, conventional
	water     = 1000 * gravity                            // Pa/m, conventional
	turn      = 6.283_185_307_179_586_476_925_286_766_559 // rad
	hour      = 3600                                      // s
	horse     = 550 * foot * poundf                       // W
)

// Where the factors come from. NIST SP 811 is the 2008 edition; it was read in reproductions.
const (
	fromSI      = "SI unit or a decimal multiple of one"
	fromInch    = "1 in = 25.4 mm exactly (NIST SP 811 B.8)"
	fromPound   = "1 lb = 0.453 592 37 kg exactly (NIST SP 811 B.8, note 22)"
	fromPoundf  = "1 lbf = 1 lb at 9.806 65 m/s² (NIST SP 811 B.8, note 23)"
	fromGravity = "standard gravity, 9.806 65 m/s² exactly (NIST SP 811 B.8)"
	fromUSGal   = "1 US gal = 231 in³ exactly (NIST Handbook 44, appendix C)"
	fromImpGal  = "1 imp gal = 4.546 09 L exactly (NIST SP 811 B.8)"
	fromTrade   = "a count"
	fromTurn    = "1 turn = 2π rad"
	fromTime    = "1 min = 60 s, 1 h = 3600 s"
)

// unit makes a row of the table. The spellings are parted by `|`; the symbol and the name are always among them.
func unit(symbol, name string, d Dimension, factor float64, source, spellings string) *Unit {
	u := &Unit{Symbol: symbol, Name: name, Dimension: d, Factor: factor, Source: source, Exact: true, Spellings: []string{symbol, name}}
	if spellings != "" {
		u.Spellings = append(u.Spellings, strings.Split(spellings, "|")...)
	}
	return u
}

// word makes a row whose symbol is a word with a plural.
func word(symbol, plural string, d Dimension, factor float64, source, spellings string) *Unit {
	u := unit(symbol, symbol, d, factor, source, spellings)
	u.Plural, u.Spellings = plural, append(u.Spellings, plural)
	return u
}

// onlyWhere adds spellings that mean u only where its dimension is asked for.
func onlyWhere(u *Unit, spellings string) *Unit {
	u.OnlyWhere = strings.Split(spellings, "|")
	return u
}

// inexact marks a unit whose factor is measured, or printed without a definition.
func inexact(u *Unit) *Unit {
	u.Exact = false
	return u
}

func lengthUnits() []*Unit {
	return []*Unit{
		unit("nm", "nanometre", Length, 1e-9, fromSI, "nanometres|nanometer|nanometers"),
		unit("µin", "microinch", Length, inch/1e6, fromInch, "uin|microinches|µinch"),
		unit("µm", "micrometre", Length, 1e-6, fromSI, "um|micron|microns|micrometres|micrometer|micrometers|mu|µ"),
		unit("thou", "thousandth of an inch", Length, inch/1000, fromInch, "mil|mils|thous|thousandth|thousandths|tho"),
		unit("mm", "millimetre", Length, 1e-3, fromSI, "MM|millimetres|millimeter|millimeters|mms"),
		unit("cm", "centimetre", Length, 1e-2, fromSI, "CM|centimetres|centimeter|centimeters"),
		unit("in", "inch", Length, inch, fromInch, "IN|In|\"|inches|ins"),
		unit("ft", "foot", Length, foot, fromInch, "FT|Ft|'|feet"),
		unit("yd", "yard", Length, 3*foot, fromInch, "yds|yards"),
		unit("m", "metre", Length, 1, fromSI, "metres|meter|meters|mtr"),
		unit("km", "kilometre", Length, 1e3, fromSI, "KM|Km|kms|kilometres|kilometer|kilometers"),
		unit("mi", "mile", Length, mile, fromInch, "miles|Mi"),

		unit("mm²", "square millimetre", Area, 1e-6, fromSI, "sq mm|square millimetres|square millimeters"),
		unit("cm²", "square centimetre", Area, 1e-4, fromSI, "sq cm|square centimetres|square centimeters"),
		unit("in²", "square inch", Area, inch*inch, fromInch, "sq in|square inches"),
		unit("ft²", "square foot", Area, foot*foot, fromInch, "sq ft|square feet"),
		unit("m²", "square metre", Area, 1, fromSI, "sq m|square metres|square meters"),

		unit("mm³", "cubic millimetre", Volume, 1e-9, fromSI, "cu mm|cubic millimetres|cubic millimeters"),
		unit("cm³", "cubic centimetre", Volume, 1e-6, fromSI, "cc|CC|ccs|c.c.|ccm|cu cm|cubic centimetres|cubic centimeters"),
		unit("mL", "millilitre", Volume, 1e-6, fromSI, "ml|ML|millilitres|milliliter|milliliters"),
		unit("L", "litre", Volume, 1e-3, fromSI, "l|ℓ|litres|liter|liters|ltr|ltrs|dm³"),
		unit("m³", "cubic metre", Volume, 1, fromSI, "cu m|cubic metres|cubic meters"),
		unit("in³", "cubic inch", Volume, inch*inch*inch, fromInch, "cu in|cubic inches|cuin|CI|ci|cid"),
		unit("ft³", "cubic foot", Volume, foot*foot*foot, fromInch, "cu ft|cubic feet|cuft"),
		unit("US fl oz", "US fluid ounce", Volume, usGallon/128, fromUSGal, "fl oz US|fl oz|oz|floz|fluid ounce|fluid ounces|ounce|ounces"),
		unit("US pt", "US pint", Volume, usGallon/8, fromUSGal, "pt US|pt|pint|pints|US pints"),
		unit("US qt", "US quart", Volume, usGallon/4, fromUSGal, "qt US|qt|qts|quart|quarts|US quarts"),
		unit("US gal", "US gallon", Volume, usGallon, fromUSGal, "gal US|gal|gals|gallon|gallons|US gallons"),
		unit("imp fl oz", "imperial fluid ounce", Volume, impGallon/160, fromImpGal,
			"fl oz imp|UK fl oz|fl oz UK|fl oz|oz|floz|fluid ounce|fluid ounces|ounce|ounces"),
		unit("imp pt", "imperial pint", Volume, impGallon/8, fromImpGal, "pt imp|UK pt|pt UK|pt|pint|pints|imperial pints|UK pint|UK pints"),
		unit("imp qt", "imperial quart", Volume, impGallon/4, fromImpGal, "qt imp|UK qt|qt UK|qt|qts|quart|quarts|imperial quarts"),
		unit("imp gal", "imperial gallon", Volume, impGallon, fromImpGal,
			"gal imp|UK gal|gal UK|gal|gals|gallon|gallons|imperial gallons|UK gallon|UK gallons"),
	}
}
