package quantity

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// usual holds the units that a missing or wrong one is most often meant for: what is offered.
var usual = map[Dimension][]string{
	Pure: {"%"}, Length: {"mm", "in"}, Area: {"mm²", "in²"}, Volume: {"L", "cm³"}, Mass: {"kg", "g"}, Density: {"kg/m³"}, Force: {"N", "lbf"},
	Torque: {"N·m", "lbf·ft"}, Energy: {"J"}, Power: {"hp", "kW"}, Pressure: {"kPa", "psi", "bar"}, PressureAbs: {"kPa abs"}, Temperature: {"°C", "°F"},
	TemperatureStep: {"°C", "°F"}, Angle: {"°", "turn"}, Speed: {"km/h", "mph"}, Rotation: {"rpm"}, Acceleration: {"m/s²"}, Duration: {"h", "min"},
	Calendar: {"months"}, VolumeFlow: {"cm³/min", "L/min"}, MassFlow: {"g/s", "kg/h"}, SpringRate: {"N/mm", "lbf/in"}, LiftArea: {"mm·°", "in·°"}, Consumption: {"L/100 km", "mpg imp"},
	SpecificConsumption: {"g/(kW·h)"}, Voltage: {"V"}, Current: {"A"}, Resistance: {"Ω"}, Frequency: {"Hz"}, Viscosity: {"cSt"}, Clicks: {"clicks"},
	Teeth: {"teeth"}, Links: {"links"}, Lambda: {"λ"}, AirFuel: {"AFR"},
}

// Sample returns a figure of a dimension to show how one is written; of money, whose unit is the journal's, a bare number.
func Sample(d Dimension) string {
	number := "10"
	switch d {
	case Temperature:
		number = "18"
	case Duration:
		number = "3.5"
	}
	if len(usual[d]) == 0 {
		return number
	}
	return number + spaced(usual[d][0])
}

// noUnit is about a bare number where one may not stand.
func (s scan) noUnit(w *Written, want Want) *Slip {
	end := max(w.first.end, w.last.end, w.spread.end)
	text := s.quote(w.first.start, end)
	do := "write the unit after the number"
	symbols := []string(nil)
	if len(want.Dimensions) > 0 {
		symbols = usual[want.Dimensions[0]]
		if len(symbols) == 0 {
			symbols = []string{want.Money}
		}
		do = "write the unit of the " + want.Dimensions[0].String()
		if slices.Contains(want.Dimensions, Calendar) && slices.Contains(want.Dimensions, Length) { // how long something may go on
			symbols, do = []string{"km", "h", "months"}, "write the unit of the distance, of the hours or of the months"
		}
	} else if w.event != NoEvent {
		symbols = []string{"°", "mm"}
	}
	if want.Offer != nil && want.Offer.Symbol != "" {
		first := want.Offer.Symbol
		symbols = append([]string{first}, slices.DeleteFunc(slices.Clone(symbols), func(s string) bool { return s == first })...)
	}
	var offers []string
	for _, symbol := range symbols {
		if symbol == "%" {
			do = "write it in percent"
			offers = append(offers, s.share(w)...)
		}
		if symbol != "" {
			offers = append(offers, s.with(end, end, spaced(symbol)))
		}
	}
	return s.slip("no-unit", w.first.start, end, text+" has no unit", do, offers...)
}

// share offers a bare number up to 1 as the percent that it is most likely a share in: `0.05` is 5%.
func (s scan) share(w *Written) []string {
	n := w.first.numeral
	if w.Kind != Figure || w.spread.has || n.below != 0 || !(n.value > 0) || n.value > 1 || !(n.step > 0) || n.step >= 1 {
		return nil
	}
	places := max(0, int(math.Round(-math.Log10(n.step)))-2)
	return []string{s.with(w.first.start, w.first.end, strconv.FormatFloat(n.value*100, 'f', places, 64)+"%")}
}

// wrongDimension is about a unit that measures something else than what the place asks for.
func (s scan) wrongDimension(m mark, want Want) *Slip {
	names := make([]string, len(want.Dimensions))
	for i, d := range want.Dimensions {
		names[i] = d.String()
	}
	is, due := m.units[0].Dimension.String(), strings.Join(names, " or ")
	var offers []string
	do := "write a unit of " + due
	if list := usual[want.Dimensions[0]]; len(list) > 0 {
		do += ", such as " + strings.Join(list[:min(2, len(list))], " or ")
	}
	for _, other := range lowerSpellings() { // `20 nm` for N·m
		if other.unit.Dimension == want.Dimensions[0] && other.text == strings.ToLower(string(foldUnit(nil, s.text[m.start:m.end]))) {
			offers = append(offers, s.with(m.start, m.end, other.unit.Symbol))
		}
	}
	return s.slip("wrong-dimension", m.start, m.end, s.quote(m.start, m.end)+" is a unit of "+is+", where "+due+" is due", do, offers...)
}

// ambiguous is about a spelling that several units share.
func (s scan) ambiguous(m mark, choice []*Unit) *Slip {
	var names, offers []string
	for _, u := range choice {
		names = append(names, u.Name)
		offers = append(offers, s.with(m.start, m.end, u.Symbol))
	}
	return s.slip("ambiguous-unit", m.start, m.end, s.quote(m.start, m.end)+" may be "+strings.Join(names, " or "), "say which", offers...)
}

// moneyUnclear is about a currency's sign that the journal doesn't settle.
func (s scan) moneyUnclear(m mark, choice []*Unit, want Want) *Slip {
	var offers []string
	for _, code := range [...]string{want.Money, "GBP", "USD", "SEK", "NOK", "DKK", "JPY", "CNY", "INR"} { // the commonest of each sign first
		for _, u := range choice {
			if u.Currency == code {
				offers = append(offers, s.coded(m, code))
			}
		}
	}
	return s.slip("money-unclear", m.start, m.end, s.quote(m.start, m.end)+" is the sign of several currencies",
		"write the currency's code, or set `[units] money` to one with that sign", offers...)
}

// coded puts a code in a money sign's place, wherever it stands in the figure.
func (s scan) coded(m mark, code string) string {
	sign := strings.TrimFunc(s.text[m.start:m.end], isSpace)
	figure, words := s.text, ""
	if i := strings.IndexByte(s.text, ','); i >= m.end {
		figure, words = s.text[:i], s.text[i:]
	}
	var b strings.Builder
	for rest := figure; rest != ""; {
		i := strings.Index(rest, sign)
		if i < 0 {
			b.WriteString(rest)
			break
		}
		b.WriteString(rest[:i])
		if i > 0 && isDigit(rest[i-1]) {
			b.WriteByte(' ')
		}
		b.WriteString(code)
		if rest = rest[i+len(sign):]; rest != "" && (isDigit(rest[0]) || rest[0] == '-') {
			b.WriteByte(' ')
		}
	}
	return b.String() + words
}

// twoUnits is about an interval whose ends measure different things.
func (s scan) twoUnits(w *Written, slip *Slip) *Slip {
	if slip.Kind != "wrong-dimension" {
		return slip
	}
	return s.slip("two-units", w.first.unit.start, w.last.stop, s.quote(w.first.start, w.last.stop)+" joins two kinds of units",
		"write both ends in one unit")
}
