package quantity

import (
	"math"
	"slices"
)

// clockTime is about `3:30` where a duration is due: hours and minutes, as a clock shows them, would else be a ratio. It returns nil for what is
// no such time.
func (s scan) clockTime(o operand, stop int, want Want) *Slip {
	if !slices.Contains(want.Dimensions, Duration) {
		return nil
	}
	return s.clockIn(o, stop, UnitShown("h"), UnitShown("min"))
}

// clockWithUnit is about `3:30 h` and `12:05 min`: the unit, which ends at stop, is that of the first number.
func (s scan) clockWithUnit(o operand, m spelled, stop int) *Slip {
	minute := UnitShown("min")
	if hour := UnitShown("h"); slices.Contains(m.units, hour) {
		return s.clockIn(o, stop, hour, minute)
	}
	if slices.Contains(m.units, minute) {
		return s.clockIn(o, stop, minute, UnitShown("s"))
	}
	return nil
}

// clockIn offers what a clock shows as one figure. The second number has two digits and is less than sixty.
func (s scan) clockIn(o operand, stop int, large, small *Unit) *Slip {
	twoDigits := o.end-2 > o.start && isDigit(s.text[o.end-1]) && isDigit(s.text[o.end-2]) && !isDigit(s.text[o.end-3])
	if o.sign != ':' || o.step != 1 || o.over.step != 1 || o.over.value >= 60 || !twoDigits || o.value < 0 {
		return nil
	}
	var offers []string
	for _, sum := range inOne(o.value, o.over.value, large, small) {
		offers = append(offers, s.with(o.start, stop, sum))
	}
	return s.slip("bad-quantity", o.start, stop, s.quote(o.start, stop)+" is a time as a clock shows it", "write it as one figure with its unit", offers...)
}

// inOne returns a figure in a large unit and one in a small unit as one: in the large unit if two decimals tell it whole, and in the small one.
func inOne(large, small float64, u, v *Unit) []string {
	var texts []string
	if sum := large + small*v.Factor/u.Factor; Compare(math.Round(sum*100)/100, sum, 0) == 0 {
		texts = append(texts, plain(sum, 0.01)+spaced(u.Symbol))
	}
	return append(texts, plain(large*u.Factor/v.Factor+small, 1)+spaced(v.Symbol))
}

// secondTime is about `5 h 30 min` and `5 h 30`: a duration in hours and minutes. The second number stands at text[at:end], and what follows it up to
// b is its unit. It returns nil for what is no such time.
func (s scan) secondTime(o operand, m mark, second numeral, at, end, b int) *Slip {
	hour, minute := UnitShown("h"), UnitShown("min")
	if end < b && !slices.Contains(lookUp(s.text[end:b]).units, minute) || !slices.Contains(m.units, hour) || o.value < 0 || o.sign != 0 || second.step != 1 || second.value < 0 || second.value >= 60 {
		return nil
	}
	var offers []string
	for _, sum := range inOne(o.value, second.value, hour, minute) {
		offers = append(offers, s.with(o.start, b, sum))
	}
	return s.slip("two-units", at, b, s.quote(at, b)+" is a second figure", "write a duration as one figure in one unit", offers...)
}

// gluedTime is about `5h30` and `5h30m`, whose hours and minutes no blank parts.
func (s scan) gluedTime(o operand, a, b int) *Slip {
	at := a
	for at < b && !isDigit(s.text[at]) {
		at++
	}
	second, end, slip := s.quietly().numeral(at, b)
	if at == b || at == a || slip != nil {
		return nil
	}
	return s.secondTime(o, mark{lookUp(s.text[a:at]), a, at}, second, at, end, b)
}
