package quantity

import (
	"math"
	"strings"
)

// Event is the crank position that an angle or a height is counted from, and to which side. The figure carries the side as its sign:
// before is negative, after is positive.
type Event uint8

// The events: before and after the top and the bottom dead centre.
const (
	NoEvent Event = iota
	BTDC
	ATDC
	BBDC
	ABDC
)

// String returns the trade's abbreviation, or nothing for NoEvent.
func (e Event) String() string {
	return [...]string{"", "BTDC", "ATDC", "BBDC", "ABDC"}[e%5]
}

// Centre returns the dead centre that e counts from, in rad of the crank after the top one; false for NoEvent.
func (e Event) Centre() (angle float64, ok bool) {
	if e == BBDC || e == ABDC {
		angle = math.Pi
	}
	return angle, e != NoEvent
}

// IsBefore reports whether figures with e are counted backwards: less than zero.
func (e Event) IsBefore() bool { return e == BTDC || e == BBDC }

// sameCentre reports whether both events are at the top, both at the bottom, or both absent.
func (e Event) sameCentre(other Event) bool {
	return (e+1)/2 == (other+1)/2
}

// sided returns the event at e's centre on the side of a signed figure; a zero stays on the side that was written.
func (e Event) sided(value float64) Event {
	switch {
	case e == NoEvent || value == 0 || e.IsBefore() == (value < 0):
		return e
	case e.IsBefore():
		return e + 1
	}
	return e - 1
}

// signed returns the figure as it is kept: negative before the centre.
func (e Event) signed(value float64) float64 {
	if e.IsBefore() && value != 0 {
		return -value
	}
	return value
}

var eventEndings = []struct {
	words string // folded: lower case, without dots
	event Event
}{
	{"btdc", BTDC}, {"atdc", ATDC}, {"bbdc", BBDC}, {"abdc", ABDC},
	{"before tdc", BTDC}, {"after tdc", ATDC}, {"before bdc", BBDC}, {"after bdc", ABDC},
	{"before top dead centre", BTDC}, {"after top dead centre", ATDC}, {"before bottom dead centre", BBDC}, {"after bottom dead centre", ABDC},
	{"before top dead center", BTDC}, {"after top dead center", ATDC}, {"before bottom dead center", BBDC}, {"after bottom dead center", ABDC},
}

// cutEvent splits an event off the end of a unit's text. It returns the length of what stands before it, blanks trimmed.
func cutEvent(text string) (rest int, event Event) {
	if len(text) < 3 || strings.IndexByte("cCrRe.E", text[len(text)-1]) < 0 {
		return len(text), NoEvent
	}
	for _, ending := range eventEndings {
		if at, ok := endsIn(text, ending.words); ok {
			return len(trimEnd(text[:at])), ending.event
		}
	}
	return len(text), NoEvent
}

// endsIn reports whether text ends in words, whatever the case and with or without the dots of an abbreviation, and where they begin.
// A letter may not stand right before them.
func endsIn(text, words string) (at int, ok bool) {
	i := len(text)
	for j := len(words); j > 0; {
		if i == 0 {
			return 0, false
		}
		c := text[i-1]
		i--
		if c == '.' {
			continue
		}
		if c|0x20 != words[j-1] && !(c == words[j-1]) {
			return 0, false
		}
		j--
	}
	if i > 0 && isLetter(text[i-1]) {
		return 0, false
	}
	return i, true
}

func isLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
