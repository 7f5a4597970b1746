package quantity

import (
	"strings"
	"unicode/utf8"
)

// figure reads one figure, interval or ratio that must fill text[a:b].
func (s scan) figure(a, b int) (Written, *Slip) {
	w := Written{Text: s.text[a:b], whole: s.text, Kind: Figure}
	if strings.HasPrefix(s.text[a:b], "..") {
		return s.interval(w, operand{start: a, end: a, stop: a}, a, b)
	}
	first, next, slip := s.operand(a, b)
	if slip != nil {
		return w, slip
	}
	if !first.has {
		return w, s.unreadable(a, b)
	}
	switch s.stopAt(next, b) {
	case interval:
		return s.interval(w, first, next, b)
	case plusMinus:
		return s.withSpread(w, first, next, b)
	}
	w.first, w.unit, w.event = first, first.unit, first.event
	w.Units = first.unit.units
	if first.sign == ':' || first.sign == '/' && first.unit.absent() && first.event == NoEvent {
		w.Kind = Ratio
		if first.value < 0 {
			return w, s.negativeRatio(first)
		}
	}
	return w, nil
}

// operand reads a number, and its unit and event up to the next `..`, `±` or the end. Without a number it reads nothing.
func (s scan) operand(a, b int) (o operand, next int, slip *Slip) {
	o.start = a
	i := a
	if at := s.skipSigns(a, b); at < b && !isDigit(s.text[at]) {
		if m, width := moneySign(s.text[at:b]); width > 0 {
			o.unit, o.money = mark{m, at, at + len(trimEnd(s.text[at:at+width]))}, true
			if at > a && s.sameSign(a, at+width, b) {
				return o, a, s.unreadable(a, b)
			}
			i = at + width
		}
	}
	n, end, slip := s.numeral(i, b)
	if slip != nil || end == i {
		return o, a, slip
	}
	if o.money && i > a {
		if minus, _ := s.sign(a, b); minus && n.value != 0 {
			n.value = -n.value
		}
	}
	o.numeral, o.has, o.end = n, true, end
	if slip := s.ratio(&o, b); slip != nil {
		return o, a, slip
	}
	if slip := s.rangeDash(o.start, o.end, b); slip != nil {
		return o, a, slip
	}
	return s.unitOf(o, b)
}

// unitOf reads the unit and the event after a number.
func (s scan) unitOf(o operand, b int) (operand, int, *Slip) {
	ua := s.skip(o.end, b)
	next := s.nextStop(ua, b)
	ub := ua + len(trimEnd(s.text[ua:next]))
	o.stop = max(ub, o.end)
	rest, event := cutEvent(s.text[ua:ub])
	o.event = event
	ub = ua + rest
	if rest == 0 {
		return o, next, nil
	}
	m := lookUp(s.text[ua:ub])
	if m.units == nil {
		if both, ok := s.apart(o, ua, ub); ok {
			return both, next, nil
		}
	}
	if m.units == nil || m.units[0] == table().number { // a plain number has no spelling
		return o, next, s.unknownUnit(o, ua, ub)
	}
	if o.money || o.sign == ':' {
		unit := m
		if m = bothMean(o.unit.spelled, m); m.units == nil {
			if slip := s.clockWithUnit(o, unit, ub); slip != nil {
				return o, next, slip
			}
			return o, next, s.secondUnit(o, ua, ub)
		}
	}
	o.unit = mark{m, ua, ub}
	return o, next, nil
}

// apart reads on over `kPa / 650 kPa`, or `kPa / 650`, where one figure stands over another in the same unit. It is false where that isn't so.
func (s scan) apart(o operand, a, b int) (operand, bool) {
	stroke := strings.LastIndexByte(s.text[a:b], '/')
	if stroke < 0 || o.sign != 0 || o.money || o.event != NoEvent {
		return o, false
	}
	stroke += a
	unit := mark{lookUp(strings.TrimSpace(s.text[a:stroke])), a, a + len(trimEnd(s.text[a:stroke]))}
	over, end, slip := s.quietly().unsigned(s.skip(stroke+1, b), b)
	if unit.absent() || slip != nil || !(over.value > 0) {
		return o, false
	}
	if rest := strings.TrimSpace(s.text[end:b]); rest != "" && !unit.sameAs(mark{spelled: lookUp(rest)}) {
		return o, false
	}
	o.over, o.sign, o.apart, o.unit, o.end, o.stop = over, '/', true, unit, b, b
	return o, true
}

// bothMean returns the units that two marks beside one number agree on: `$20 CAD` is Canadian.
func bothMean(a, b spelled) spelled {
	var m spelled
	for i, u := range b.units {
		for _, v := range a.units {
			if u == v {
				m.units = append(m.units, u)
				if i < b.plain {
					m.plain++
				}
			}
		}
	}
	return m
}

// skipSigns steps over a sign before a currency.
func (s scan) skipSigns(a, b int) int {
	_, next := s.sign(a, b)
	return next
}

// sameSign reports whether signs stand both before and after the currency.
func (s scan) sameSign(a, after, b int) bool {
	_, before := s.sign(a, b)
	_, inside := s.sign(after, b)
	return before > a && inside > after
}

// ratio reads on over `:1` or `/10`.
func (s scan) ratio(o *operand, b int) *Slip {
	i := s.skip(o.end, b)
	if i >= b || s.text[i] != ':' && s.text[i] != '/' {
		return nil
	}
	j := s.skip(i+1, b)
	if j >= b || !isDigit(s.text[j]) || o.money || o.below != 0 {
		return nil
	}
	over, end, slip := s.unsigned(j, b)
	if slip != nil {
		return slip
	}
	if over.value == 0 {
		clock := *o
		clock.over, clock.sign, clock.end = over, s.text[i], end
		if slip := s.clockIn(clock, end, UnitShown("h"), UnitShown("min")); slip != nil {
			return slip
		}
		return s.slip("divided-by-zero", o.start, end, s.quote(o.start, end)+" divides by zero", "check the second number")
	}
	top := o.numeral
	o.over, o.sign, o.end = over, s.text[i], end
	if o.sign == ':' {
		o.unit = mark{table().toOne, i, end}
	}
	if top.value < 0 && o.sign == ':' {
		return s.negativeRatio(*o)
	}
	if o.sign == '/' && top.step == 1 && over.step == 1 && top.value < 1e6 && over.value < 1e6 {
		o.below = int(over.value)
	}
	return nil
}

func (s scan) negativeRatio(o operand) *Slip {
	return s.slip("bad-quantity", o.start, o.end, s.quote(o.start, o.end)+" is a ratio below zero", "write it without the sign")
}

// share returns the number of an operand, its ratio worked out.
func (o operand) share() (value, step float64) {
	if o.sign == 0 {
		return o.value, o.step
	}
	return o.value / o.over.value, o.step / o.over.value
}

// token is what ends a number and its unit.
type token uint8

const (
	nothing token = iota
	interval
	plusMinus
)

// nextStop finds the next `..`, `±`, `+/-` or `+-` in text[a:b], or b.
func (s scan) nextStop(a, b int) int {
	for i := a; i < b; i++ {
		switch s.text[i] {
		case '.', '+', 0xC2:
			if s.stopAt(i, b) != nothing {
				return i
			}
		}
	}
	return b
}

func (s scan) stopAt(i, b int) token {
	if strings.HasPrefix(s.text[i:b], "..") {
		return interval
	}
	if s.spreadSign(i, b) > 0 {
		return plusMinus
	}
	return nothing
}

// spreadSign returns the width of a `±`, `+/-` or `+-` at i, or 0.
func (s scan) spreadSign(i, b int) int {
	for _, sign := range [...]string{"±", "+/-", "+/−", "+/–", "+-", "+−"} {
		if strings.HasPrefix(s.text[i:b], sign) {
			return len(sign)
		}
	}
	return 0
}

// withSpread reads what follows ±: `27 ± 1 N·m`, `27 N·m ± 1 N·m`, `20 N·m ± 5 %`.
func (s scan) withSpread(w Written, first operand, at, b int) (Written, *Slip) {
	i := s.skip(at+s.spreadSign(at, b), b)
	spread, next, slip := s.operand(i, b)
	switch {
	case slip != nil:
		return w, slip
	case !spread.has:
		return w, s.slip("bad-spread", at, b, "no number follows `±`", "write the spread as a number, as in `27 ± 1 N·m`")
	case next < b:
		return w, s.unreadable(next, b)
	case spread.value < 0:
		return w, s.slip("bad-spread", spread.start, spread.end, s.quote(spread.start, spread.end)+" is a spread below zero",
			"write the spread without a sign")
	case first.sign == '/' && first.unit.absent() && spread.unit.absent():
		return w, s.unreadable(first.start, b)
	}
	w.first, w.spread = first, spread
	w.unit, w.event = first.unit, first.event
	if w.event == NoEvent {
		w.event = spread.event
	} else if spread.event != NoEvent && spread.event != w.event {
		return w, s.slip("two-centres", spread.start, b, "the spread counts from another event than the figure", "name the event once, at the end")
	}
	if first.unit.absent() {
		w.unit = spread.unit // `27 ± 1 N·m`, and `55 ± 2 %` in points of per cent
	} else if spread.unit.absent() && !first.money {
		return w, s.spreadUnit(&w)
	}
	w.Units = w.unit.units
	return w, nil
}

func isPercent(m mark) bool { return len(m.units) == 1 && m.units[0] == table().percent }

// interval reads what follows `..`. The unit stands once, after the high end, or at both ends.
func (s scan) interval(w Written, low operand, at, b int) (Written, *Slip) {
	w.Kind = Interval
	if r, _ := utf8.DecodeRuneInString(s.text[at+2 : b]); r == '.' || r == '…' {
		return w, s.intervalDots(at, b)
	}
	i := s.skip(at+2, b)
	high, next, slip := s.operand(i, b)
	if slip == nil && !high.has { // `0.25.. mm`: open above
		high.end, high.stop = i, i
		high, next, slip = s.unitOf(high, b)
	}
	if slip != nil {
		return w, slip
	}
	switch {
	case next < b && s.stopAt(next, b) == plusMinus:
		return w, s.slip("interval-spread", next, b, "an interval has no spread", "write the two ends, or a figure with its spread")
	case next < b:
		return w, s.slip("bad-quantity", next, b, "`..` stands twice", "write one low end and one high end")
	case !low.has && !high.has:
		return w, s.slip("empty-interval", at, b, "no number stands beside `..`", "write a low end, a high end or both")
	}
	w.first, w.last = low, high
	return s.intervalUnit(w)
}

// intervalUnit finds the unit and the events of an interval's ends.
func (s scan) intervalUnit(w Written) (Written, *Slip) {
	low, high := &w.first, &w.last
	w.unit = high.unit
	switch {
	case high.unit.absent():
		w.unit = low.unit
		if low.has && high.has && !low.unit.absent() && !low.money {
			return w, s.unitPlace(&w)
		}
	case !high.has && !low.unit.absent():
		return w, s.secondUnit(*low, high.unit.start, high.unit.end)
	}
	w.Units = w.unit.units
	w.event = high.event
	switch {
	case high.event == NoEvent:
		w.event = low.event
		if low.event != NoEvent && high.has {
			return w, s.unitPlace(&w)
		}
	case low.event == NoEvent:
		low.event = high.event
	case !low.event.sameCentre(high.event):
		return w, s.slip("two-centres", low.start, high.stop, "the two ends count from different dead centres", "count both from one")
	}
	if low.has && high.has && low.unit.absent() || low.unit.sameAs(high.unit) {
		if slip := s.reversed(&w); slip != nil {
			return w, slip
		}
	}
	return w, nil
}

func (m mark) sameAs(other mark) bool {
	return len(m.units) > 0 && len(m.units) == len(other.units) && m.units[0] == other.units[0]
}
