package chart

import (
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Opening is where a valve or a port opens and closes: readings in rad of the crank, less than nought before the dead centre that they are counted from. Which
// that is stands with the field that holds the opening. A reading that was made of a quantity that is counted from the other dead centre is turned; one of a
// quantity that is counted from none can't be placed, and is left out, and so is one more than a turn away. What is not known is left as it is: not drawn.
type Opening struct {
	Opens, Closes Reading
	Centre        Reading // of the lobe, from the top dead centre of overlap; ports have none
	Duration      Reading // for how long it is open, as the page tells it
}

// LiftPoint is one reading of a degree wheel and a dial: a crank angle in rad after the top dead centre of overlap, and the lift there in m.
type LiftPoint struct{ Angle, Lift float64 }

// deadCentre is where a crank stands at the top or the bottom, in degrees after the top dead centre that a drawing counts from: multiples of 180.
type deadCentre float64

func (c deadCentre) isTop() bool { return math.Mod(float64(c), 360) == 0 }

// label is the trade's abbreviation.
func (c deadCentre) label() string {
	if c.isTop() {
		return "TDC"
	}
	return "BDC"
}

// crankEvent is a reading on the scale of the crank, in degrees. Its zero value is none.
type crankEvent struct {
	is           bool
	at, from, to float64 // from and to are the ends of what is not known of it; alike where nothing says so
	text         string
}

// event places a reading that is counted from a dead centre.
func (c deadCentre) event(r Reading, u *quantity.Unit) crankEvent {
	d, ok := r.drawnIn(degree())
	if !ok {
		return crankEvent{}
	}
	at := d.middle()
	e := crankEvent{is: true, at: at, from: at - d.spread, to: at + d.spread}
	if d.isBracket() && !math.IsInf(d.low, 0) && !math.IsInf(d.high, 0) {
		e.from, e.to = d.low, d.high
	}
	e.text = c.text(r, u)
	shift := 0.0
	if r.of != nil {
		switch event := r.of.Event; {
		case event == quantity.NoEvent:
			return crankEvent{}
		case (event == quantity.BTDC || event == quantity.ATDC) != c.isTop():
			shift = math.Copysign(180, -at)
		}
	}
	if math.Abs(at+shift) > 360 || e.to-e.from > 360 {
		return crankEvent{}
	}
	shift += float64(c)
	e.at, e.from, e.to = e.at+shift, e.from+shift, e.to+shift
	return e
}

// text is a reading as the page writes it, or if that isn't known, as the trade does: how far before or after its dead centre.
func (c deadCentre) text(r Reading, u *quantity.Unit) string {
	if s := r.shown(); s.Number != "" {
		return s.Printed()
	}
	if r.Low != r.High {
		return readingText(r, u)
	}
	q := quantity.Quantity{Kind: quantity.Figure, Unit: u, Value: u.FromSI(r.Low), Event: quantity.ABDC}
	if c.isTop() {
		q.Event = quantity.ATDC
	}
	if r.Low < 0 {
		q.Event-- // the same dead centre, before it
	}
	if q.Step = quantity.TwoFigures(u.StepFromSI(r.Expanded, q.Value)); q.Step == 0 {
		q.Step = u.StepFromSI(model.WheelStep, q.Value) // no wheel tells less than a tenth of a degree
	}
	return q.Shown().Printed()
}

func degree() *quantity.Unit { return quantity.UnitOf("°", quantity.Angle) }

// stretch is an opening on the scale of the crank.
type stretch struct {
	opens, closes, centre crankEvent
	duration              string
}

// stretch places an opening whose ends are counted from two dead centres.
func (o Opening) stretch(opens, closes deadCentre, u *quantity.Unit) stretch {
	s := stretch{opens: opens.event(o.Opens, u), closes: closes.event(o.Closes, u)}
	top := opens
	if !top.isTop() {
		top = closes
	}
	if top.isTop() {
		s.centre = top.event(o.Centre, u)
	}
	if d, ok := o.Duration.drawnIn(degree()); ok && (s.opens.is || s.closes.is) && !d.isBracket() {
		s.duration = readingText(o.Duration, u)
	}
	return s
}

// is reports whether anything of it can be drawn.
func (s stretch) is() bool { return s.opens.is || s.closes.is || s.centre.is }

// isWhole reports whether it has both its ends, in order.
func (s stretch) isWhole() bool { return s.opens.is && s.closes.is && s.opens.at < s.closes.at }

// unknownLong is how far the dots go on that stand for the rest of an opening of which but one end is known, in degrees.
const unknownLong = 40

// figures are the places that a scale must take in.
func (s stretch) figures() []float64 {
	var all []float64
	if !s.isWhole() && s.opens.is {
		all = append(all, s.opens.at+unknownLong)
	}
	if !s.isWhole() && s.closes.is {
		all = append(all, s.closes.at-unknownLong)
	}
	for _, e := range []crankEvent{s.opens, s.closes, s.centre} {
		if e.is {
			all = append(all, e.from, e.to)
		}
	}
	return all
}

// words tells the events to those who don't see them.
func (s stretch) words() string {
	text := ""
	for _, part := range []struct{ what, figure string }{{"opens", s.opens.text}, {"closes", s.closes.text}, {"lobe centre", s.centre.text}, {"open for", s.duration}} {
		if part.figure == "" {
			continue
		}
		if text != "" {
			text += ", "
		}
		text += part.what + " " + part.figure
	}
	return text
}

// eventRow writes the events of an opening along a line, in the order of the cycle, each as near to its place as the others let it. Where there is no room for all it
// goes without the name of what opens, then without the lobe's centre, then without the words.
func (p *pen) eventRow(class markup, name string, x axis, y, width float64, s stretch) {
	for _, try := range []struct {
		words [3]string
		of    []crankEvent
	}{
		{[3]string{strings.TrimSpace(name+" opens") + " ", "closes ", "centre "}, []crankEvent{s.opens, s.closes, s.centre}},
		{[3]string{"opens ", "closes ", "centre "}, []crankEvent{s.opens, s.closes, s.centre}},
		{[3]string{strings.TrimSpace(name+" opens") + " ", "closes "}, []crankEvent{s.opens, s.closes}},
		{[3]string{"opens ", "closes "}, []crankEvent{s.opens, s.closes}},
		{[3]string{}, []crankEvent{s.opens, s.closes}},
	} {
		var list []beside
		for i, e := range try.of {
			if e.is {
				text := try.words[i] + e.text
				list = append(list, beside{text: text, want: s.labelAt(x, i, boldWidth(text)), size: boldWidth(text) + 10})
			}
		}
		if room(list) > width+8 && try.words[0] != "" {
			continue
		}
		for _, l := range spread(list, -4, width+4) {
			p.label(class, middle, l.at, y, l.text)
		}
		return
	}
}

// labelAt is where the label of an event wants its middle: from its end of the bar inwards, but never past the middle of the bar, so that labels keep the order of
// the events.
func (s stretch) labelAt(x axis, i int, wide float64) float64 {
	at := x.at([...]float64{s.opens.at, s.closes.at, s.centre.at}[i])
	if i == 2 || !s.isWhole() {
		return at
	}
	mid := x.at(s.opens.at/2 + s.closes.at/2)
	if i == 0 {
		return min(at+wide/2, mid)
	}
	return max(at-wide/2, mid)
}

// crankSpan is a scale that takes in some places, and a little beyond them.
func crankSpan(places []float64, from, to float64) axis {
	lo, hi := slices.Min(places), slices.Max(places)
	edge := (hi - lo) * 0.03
	return axis{lo - edge, hi + edge, from, to}
}

// crankTicks draws the scale of the crank like the rim of a degree wheel, and returns the dead centres on it.
func (p *pen) crankTicks(x axis, y, apart float64) []deadCentre {
	var centres []deadCentre
	p.begin("c-axis")
	p.step("M", x.from, y)
	p.step("H", x.to)
	for i := math.Ceil(x.lo / apart); i*apart <= x.hi; i++ {
		at, tall := i*apart, 3.0
		switch {
		case math.Mod(at, 180) == 0:
			tall = 8
			centres = append(centres, deadCentre(at))
		case math.Mod(at, 30) == 0:
			tall = 5
		}
		p.step("M", x.at(at), y)
		p.step("V", y+tall)
	}
	p.end()
	return centres
}

// ticksApart is how far the ticks of the crank are from each other, in degrees.
func ticksApart(size Size) float64 {
	if size == Narrow {
		return 30
	}
	return 10
}
