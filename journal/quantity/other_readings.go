package quantity

import (
	"math"
	"slices"
	"strconv"
)

// Misreading is a way in which digits come to stand for another quantity than the one that they were meant for. Several are joined by `|`.
type Misreading uint8

// The ways. All but the point are common practice, no source.
const (
	AnotherUnit   Misreading = 1 << iota // one of the units that are written down one for the other
	AnotherCentre                        // of a crank event: counted from another dead centre, or to its other side
	OnePlace                             // the point a decimal place off
	TwoPlaces                            // two places off
	ThreePlaces                          // three, which is the next unit of most
	AcrossWheel                          // of the way round a wheel: its radius or its diameter
	AnotherScale                         // of the air: its temperature on another scale, its pressure by another barometer
	SwappedDigits                        // two digits beside each other swapped
)

// OtherReading is what digits may have been meant for.
type OtherReading struct {
	Quantity
	Way Misreading
	Why string // what was done, or what they are, as in `a decimal place too few`
}

// confused lists the units that are written down one for the other.
var confused = [][]string{{"mm", "in", "thou"}, {"mm³", "cm³"}, {"N·m", "lbf·ft", "lbf·in", "kgf·m"}, {"kPa", "psi", "bar"}, {"kW", "PS", "hp", "W"}}

// scales are those of thermometers and barometers.
var scales = [][]string{{"°C", "°F", "K"}, {"kPa abs", "hPa abs", "inHg abs", "mmHg abs"}}

// scalings are the ways that make a figure so many times what was meant, or so many times as much of it; those of one way stand together.
var scalings = []struct {
	way    Misreading
	factor float64
	why    string
}{
	{OnePlace, 10, "a decimal place too few"}, {OnePlace, 0.1, "a decimal place too many"},
	{TwoPlaces, 100, "two decimal places too few"}, {TwoPlaces, 0.01, "two decimal places too many"},
	{ThreePlaces, 1000, "three decimal places too few"}, {ThreePlaces, 0.001, "three decimal places too many"},
	{AcrossWheel, 2 * math.Pi, "the radius"}, {AcrossWheel, math.Pi, "the diameter"},
}

// OtherReadings returns what else the digits of a figure, or of an interval, may have been meant for, of the ways that are asked for and in their order: another unit first, then another centre, then the point, then swapped digits. Several may come to the same
// quantity. A spread is left as it was typed. An interval has no other dead centre.
func (q Quantity) OtherReadings(ways Misreading) []OtherReading {
	if q.Unit == nil {
		return nil
	}
	var all []OtherReading
	if ways&AnotherUnit != 0 {
		all = q.inOtherUnits(confused)
	}
	if ways&AnotherScale != 0 {
		all = append(all, q.inOtherUnits(scales)...)
	}
	if ways&AnotherCentre != 0 && q.Kind != Interval && q.Event != NoEvent {
		all = append(all, q.atOtherCentres()...)
	}
	for _, s := range scalings {
		if ways&s.way != 0 {
			all = append(all, OtherReading{q.scaled(s.factor), s.way, s.why})
		}
	}
	if ways&SwappedDigits != 0 && q.Kind != Interval {
		all = append(all, q.withSwappedDigits()...)
	}
	return all
}

// withSwappedDigits are the figures whose digits are those of q but for two beside each other, which are swapped: of 62.0 these are 26.0 and 60.2. A nought before the first digit stays where it is.
func (q Quantity) withSwappedDigits() []OtherReading {
	whole := math.Round(math.Abs(q.Value) / q.Step)
	if !(q.Step > 0) || !(whole < 1e9) || math.Abs(whole*q.Step-math.Abs(q.Value)) > 1e-6*q.Step { // not told in digits, as 5/8
		return nil
	}
	digits := []byte(strconv.FormatFloat(whole, 'f', 0, 64))
	var all []OtherReading
	for i := 1; i < len(digits); i++ {
		if digits[i-1] == digits[i] {
			continue
		}
		swapped := slices.Clone(digits)
		swapped[i-1], swapped[i] = swapped[i], swapped[i-1]
		n, _ := strconv.ParseFloat(string(swapped), 64)
		other := q.scaled(1)
		other.Value = math.Copysign(n*q.Step, q.Value)
		all = append(all, OtherReading{other, SwappedDigits, "two digits swapped"})
	}
	return all
}

// scaled returns a figure so many times as large, as finely told.
func (q Quantity) scaled(factor float64) Quantity {
	q.Value, q.Low, q.High, q.Step, q.Text = q.Value*factor, q.Low*factor, q.High*factor, q.Step*factor, ""
	q.ratio = "" // no longer the two numbers that were typed
	return q
}

// inOtherUnits are the same digits in the units of the groups that the figure's is in; of a length that is not in millimetres not in thousandths, which nobody takes an inch for.
func (q Quantity) inOtherUnits(groups [][]string) []OtherReading {
	var all []OtherReading
	for _, group := range groups {
		if !slices.Contains(group, q.Unit.Symbol) {
			continue
		}
		for _, symbol := range group {
			if symbol == q.Unit.Symbol || q.Unit.Symbol != "mm" && symbol == "thou" {
				continue
			}
			other := q
			if other.Unit = UnitOf(symbol, q.Unit.Dimension); other.Unit != nil {
				all = append(all, OtherReading{other, AnotherUnit, "a figure in " + symbol})
			}
		}
	}
	return all
}

// atOtherCentres are the same digits at the other events, and at their own where the sign says the contrary: −22° BTDC is 22° after.
func (q Quantity) atOtherCentres() []OtherReading {
	var all []OtherReading
	for _, event := range []Event{BTDC, ATDC, BBDC, ABDC} {
		other := q
		other.Text, other.Event, other.Value = "", event, event.signed(math.Abs(q.Value))
		if event != q.Event || other.Value != q.Value {
			all = append(all, OtherReading{other, AnotherCentre, "counted " + event.String()})
		}
	}
	return all
}

// Fitting returns the readings that fit, in their order, and of those that come to the same quantity the first.
func Fitting(readings []OtherReading, fits func(Quantity) bool) []OtherReading {
	var found []OtherReading
	for _, r := range readings {
		if fits(r.Quantity) && !slices.ContainsFunc(found, func(other OtherReading) bool { return Compare(other.SI(), r.SI(), 0) == 0 }) {
			found = append(found, r)
		}
	}
	return found
}

// TheOne returns the reading that alone fits; false where none does, or where several do, so that it isn't plain which was meant.
func TheOne(readings []OtherReading, fits func(Quantity) bool) (r OtherReading, ok bool) {
	found := Fitting(readings, fits)
	if len(found) != 1 {
		return r, false
	}
	return found[0], true
}
