package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Shown is a figure as the site prints it. A Unit that ends in an event carries it: "° BTDC".
type Shown struct{ Number, Unit string }

// String joins number and unit with a blank, but none before `°`, `%`, `"`, `'` and `:1`. The minus sign is U+2212. Parse reads it
// back.
func (s Shown) String() string { return s.joined(" ") }

// Printed is String as a page prints it: the blank is narrow, and no line breaks there (U+202F NARROW NO-BREAK SPACE).
func (s Shown) Printed() string { return s.joined("\u202f") }

func (s Shown) joined(blank string) string {
	if s.IsCloseUp() {
		return s.Number + s.Unit
	}
	return s.Number + blank + s.Unit
}

// Signed puts a plus before a figure that is more than nothing, and is not shown as nothing.
func (s Shown) Signed(of float64) Shown {
	if of > 0 && !strings.HasPrefix(s.Number, "+") && !s.IsNought() {
		s.Number = "+" + s.Number
	}
	return s
}

// IsNought reports whether a figure is shown as nothing: all its digits are 0.
func (s Shown) IsNought() bool { return !strings.ContainsAny(s.Number, "123456789") }

// IsCloseUp reports whether the unit follows its number without a blank, as it does where there is none.
func (s Shown) IsCloseUp() bool {
	if s.Unit == "" {
		return true
	}
	switch s.Unit[0] {
	case '%', '"', '\'', ':':
		return true
	}
	return strings.HasPrefix(s.Unit, "°") && !strings.HasPrefix(s.Unit, "°C") && !strings.HasPrefix(s.Unit, "°F")
}

// none stands where there is no number to show.
const none = "–"

// Show returns an SI value in a unit. stepSI is the smallest difference in SI that its digits should still tell; the number is rounded
// to the decimal place at or next below it. With stepSI 0 it has six figures. What is no number shows as a dash.
func Show(si float64, u *Unit, stepSI float64) Shown {
	x := u.FromSI(si)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return Shown{none, ""}
	}
	return shown(rounded(x, u.StepFromSI(stepSI, x)), u)
}

// ShowFrom does what Show does, of a figure that is counted from a dead centre, before it less than zero.
func ShowFrom(from Event, si float64, u *Unit, stepSI float64) Shown {
	x := u.FromSI(si)
	if from == NoEvent || math.IsNaN(x) || math.IsInf(x, 0) {
		return Show(si, u, stepSI)
	}
	return Quantity{Kind: Figure, Unit: u, Value: x, Step: u.StepFromSI(stepSI, x), Event: from.sided(x)}.Shown()
}

// Between joins two figures as the ends of a range, with the unit once where both have the same: "0.06 to 0.10 mm", "2° BTDC to 2° ATDC".
func Between(low, high Shown) Shown {
	if low.Unit == high.Unit {
		return Shown{low.Number + " to " + high.Number, high.Unit}
	}
	return Shown{low.Printed() + " to " + high.Number, high.Unit}
}

// ShowEstimate returns an estimate's value and its expanded uncertainty (k = 2) in a unit: the uncertainty to two figures, the value to
// the same place. Without uncertainty the value has six figures. In a unit of another dimension both are dashes.
func ShowEstimate(e Estimate, u *Unit) (value, uncertainty Shown) {
	x := u.FromSI(e.Value)
	expanded := u.StepFromSI(e.Expanded(), x)
	if e.Dimension != u.Dimension || math.IsNaN(x+expanded) || math.IsInf(x+expanded, 0) {
		return Shown{none, ""}, Shown{none, ""}
	}
	step := TwoFigures(expanded)
	return shown(rounded(x, step), u), shown(rounded(expanded, step), u)
}

// Shown returns q as precise as it was written.
func (q Quantity) Shown() Shown {
	switch {
	case q.Unit == nil || math.IsNaN(q.Value):
		return Shown{none, ""}
	case q.ratio != "":
		return Shown{q.ratio, ""}
	case q.Kind == Interval:
		return q.shownInterval()
	}
	step := q.digitStep()
	n := q.number(q.Event.unsigned(q.Value), step)
	if q.HasSpread {
		spreadStep := q.stepOfSpread()
		n = q.number(q.Event.unsigned(q.Value), min(step, spreadStep)) + " ± " + rounded(q.Spread, spreadStep)
	}
	return q.withUnit(n, q.Event.sided(q.Value))
}

// ShownIn returns q in another unit, no more precise than it was written: rounded to half the last written digit, or to the spread's
// two figures, and from there down to a decimal place: 0.10 mm is 0.0039 in. If u is of another dimension it returns q.Shown().
func (q Quantity) ShownIn(u *Unit) Shown {
	q, _ = q.In(u)
	return q.Shown()
}

// digitStep is the difference that q's digits should tell.
func (q Quantity) digitStep() float64 {
	switch {
	case q.converted && q.HasSpread && q.Spread > 0:
		return TwoFigures(q.Spread)
	case q.converted:
		return q.Step / 2
	}
	return q.Step
}

// stepOfSpread is the difference that the digits of the spread should tell: as typed; of a spread that was worked out, as the figure's
// own if that tells it whole (20 N·m ± 5 % is 20 ± 1 N·m), else two figures.
func (q Quantity) stepOfSpread() float64 {
	switch {
	case q.spreadStep > 0:
		return q.spreadStep
	case !q.converted && q.Step > 0 && q.below == 0 && q.Spread >= q.Step && Compare(math.Round(q.Spread/q.Step)*q.Step, q.Spread, 0) == 0:
		return q.Step
	}
	return TwoFigures(q.Spread)
}

func (q Quantity) shownInterval() Shown {
	step := q.digitStep()
	low, high := q.Event.unsigned(q.Low), q.Event.unsigned(q.High)
	switch {
	case !q.HasLow:
		return q.withUnit(".."+q.number(high, step), q.Event.sided(q.High))
	case !q.HasHigh:
		return q.withUnit(q.number(low, step)+"..", q.Event.sided(q.Low))
	}
	lowEvent, highEvent := q.Event.sided(q.Low), q.Event.sided(q.High)
	if lowEvent == highEvent {
		return q.withUnit(q.number(min(low, high), step)+".."+q.number(max(low, high), step), highEvent)
	}
	first := q.withUnit(q.number(low, step), lowEvent)
	return q.withUnit(first.String()+".."+q.number(high, step), highEvent)
}

// unsigned returns a figure without the side that its event tells.
func (e Event) unsigned(value float64) float64 {
	if e == NoEvent {
		return value
	}
	return math.Abs(value)
}

// number prints one number of q: as a fraction if it was written as one, else rounded.
func (q Quantity) number(x, step float64) string {
	if q.below > 1 && math.Abs(x) < 1e6 {
		if parts := math.Abs(x) * float64(q.below); Compare(parts, math.Round(parts), 0) == 0 {
			sign := ""
			if x < 0 {
				sign = "−"
			}
			return sign + fraction(int(math.Round(parts)), int(q.below))
		}
	}
	return rounded(x, step)
}

// fraction prints over/below with its whole part apart, as written: sixteenths stay sixteenths.
func fraction(over, below int) string {
	var b strings.Builder
	whole, rest := over/below, over%below
	if whole > 0 || rest == 0 {
		b.WriteString(strconv.Itoa(whole))
	}
	if rest > 0 {
		if whole > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(strconv.Itoa(rest) + "/" + strconv.Itoa(below))
	}
	return b.String()
}

func (q Quantity) withUnit(n string, event Event) Shown {
	s := shown(n, q.Unit)
	if event != NoEvent {
		s.Unit = strings.TrimSpace(s.Unit + " " + event.String())
	}
	return s
}

// shown joins a number with its unit, a word in its plural but after one or less than one.
func shown(n string, u *Unit) Shown {
	if u.Plural != "" && n != "1" && n != "−1" && (!strings.Contains(n, "/") || strings.Contains(n, " ")) {
		return Shown{n, u.Plural}
	}
	return Shown{n, u.Symbol}
}

// Counted says how many of a thing there are, whose plural ends in s: "1 row", "12 rows".
func Counted(n int, thing string) string {
	text := strconv.Itoa(n) + " " + thing
	if n != 1 {
		text += "s"
	}
	return text
}

// rounded prints x to the decimal place at or next below step; to six figures if step is 0.
func rounded(x, step float64) string {
	place := placeOf(step)
	if !(step > 0) || math.IsInf(step, 0) {
		place = placeOf(math.Abs(x)) - 5
		if x == 0 {
			place = 0
		}
		return trimNoughts(atPlace(x, place))
	}
	return atPlace(x, place)
}

// placeOf returns the decimal place at or next below a size, as a power of ten. A size a rounding error short of a place is at it.
func placeOf(size float64) int {
	return int(math.Floor(math.Log10(size * (1 + closeness))))
}

// TwoFigures returns a step that leaves two figures of a size: 0.01 for 0.74, and for 0.0996, which rounds to 0.10.
func TwoFigures(size float64) float64 {
	if !(size > 0) || math.IsInf(size, 0) {
		return 0
	}
	e := strconv.FormatFloat(size, 'e', 1, 64)
	power, _ := strconv.Atoi(e[strings.IndexByte(e, 'e')+1:])
	return powerOfTen(power - 1)
}

// atPlace prints x rounded to a power of ten, with U+2212 for the minus sign and no negative nought.
func atPlace(x float64, place int) string {
	decimals := min(max(-place, 0), 340)
	if place > 0 {
		unit := powerOfTen(place)
		if y := math.Round(x/unit) * unit; !math.IsInf(y, 0) {
			x = y
		}
	}
	n := strconv.FormatFloat(x, 'f', decimals, 64)
	if n[0] != '-' {
		return n
	}
	if strings.Trim(n, "-0.") == "" {
		return n[1:]
	}
	return "−" + n[1:]
}

func trimNoughts(n string) string {
	if strings.IndexByte(n, '.') < 0 {
		return n
	}
	return strings.TrimRight(strings.TrimRight(n, "0"), ".")
}

// plain prints a number for an offer: to the place of step, without needless noughts, with a typed minus sign.
func plain(x, step float64) string {
	n := rounded(x, step)
	if step < 1 && Compare(x, step, 0) != 0 {
		n = trimNoughts(n)
	}
	return strings.Replace(n, "−", "-", 1)
}

// mostEaten is how much of the width of an interval may be lost by rounding its ends inwards, and mostMoved how much of a lone end; where it is more, they
// get a digit more.
const (
	mostEaten = 0.05
	mostMoved = 0.01
)

// Within returns the interval of q, or of a figure from its spread, in another unit, its ends rounded inwards to where [Quantity.ShownIn] rounds: a figure
// that lies within what is shown lies within q. What is no interval is only converted, and so is one of crank events or of a reciprocal unit.
func (q Quantity) Within(u *Unit) Quantity {
	if q.Kind == Figure && q.HasSpread && q.Unit != nil && !q.Unit.Reciprocal {
		q = Quantity{Kind: Interval, Unit: q.Unit, Value: q.Value, Low: q.Value - q.Spread, High: q.Value + q.Spread, HasLow: true, HasHigh: true, Step: q.Step, Event: q.Event}
	}
	c, ok := q.In(u)
	if !ok || c.Kind != Interval || c.Event != NoEvent || q.Unit.Reciprocal || u.Reciprocal || !(c.digitStep() > 0) {
		return c
	}
	place := placeOf(c.digitStep())
	low, high := upTo(c.Low, place), downTo(c.High, place)
	moved := low - c.Low + c.High - high // an end that isn't there is nought, and stays
	if room := mostEaten * (c.High - c.Low); c.HasLow && c.HasHigh && moved > room || c.HasLow != c.HasHigh && moved > mostMoved*math.Abs(c.High+c.Low) {
		place--
		low, high = upTo(c.Low, place), downTo(c.High, place)
	}
	if c.HasLow && c.HasHigh && low > high {
		return c // a point, or nearly
	}
	c.Low, c.High, c.Step, c.converted, c.below = low, high, powerOfTen(place), false, 0
	if c.Value = c.Low; c.HasHigh && !c.HasLow {
		c.Value = c.High
	}
	return c
}

func upTo(x float64, place int) float64 {
	step := powerOfTen(place)
	return math.Ceil(x/step-1e-9) * step
}

func downTo(x float64, place int) float64 {
	step := powerOfTen(place)
	return math.Floor(x/step+1e-9) * step
}
