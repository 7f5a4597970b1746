// Package chart draws the charts of the site: the limit strip, the history of a path, the steps of gain, gains over the engine speed, the curves of power; valve and port timing, lift over the
// crank, compression by cylinder, the speeds of the gears; the squares of the mixture, the course of a column of a log.
//
// Figures in SI go in, with the unit to show them in; one inline SVG comes out, appended to what the caller has. It hides scales, ticks,
// where labels go, and how many points a curve needs. The one invariant: what goes out is well-formed and tells only figures that went
// in; where there is nothing to draw, nothing goes out. A figure that is no number, or beyond ±1e300, is left out of the drawing.
//
// A chart has no colour and no id of its own: it names classes, and CSS gives the rules for them in the variables of a theme. The
// figures of a chart in a table are the caller's.
package chart

import (
	"math"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Size is the room that a chart is drawn for. Its zero value is Cell.
type Size uint8

// The sizes. All but the strip are drawn Narrow where they are asked for less. Wide and Narrow stand beside each other in a page, and CSS shows the one that fits: text of 11 px and more down to 320 px.
const (
	Cell   Size = iota // of a table: 120 × 18 px; the strip alone
	Wide               // 640 px, for screens from 40 rem and for paper
	Narrow             // 320 px, for a phone
)

// isLarge reports whether a drawing of this size stands for itself, with figures and words.
func (s Size) isLarge() bool { return s == Wide || s == Narrow }

// class is the class of a size's drawings.
func (s Size) class() markup {
	return [...]markup{"c-cell", "c-wide", "c-narrow"}[s]
}

// Bound is one figure of a limit, in SI, if it is there.
type Bound struct {
	Is bool
	SI float64
}

// Limit is what figures are held to, as a chart draws it.
type Limit struct {
	Low, High               Bound // of standard
	ServiceLow, ServiceHigh Bound // each where it stands outside standard
	Nominal                 Bound
	Step                    float64 // the finest digit of its figures, in SI; 0 for six figures
	event                   quantity.Event
}

// LimitOf takes the figures of a limit. One that can't be read, or asks for words, has none.
func LimitOf(l *model.Limit) Limit {
	if l == nil || l.Unit == nil {
		return Limit{}
	}
	of := func(b model.Bound) Bound { return Bound{b.Is, b.SI} }
	limit := Limit{Low: of(l.Low), High: of(l.High), ServiceLow: of(l.Worn[0]), ServiceHigh: of(l.Worn[1]), Step: l.Step, event: l.Event}
	if l.Nominal != nil {
		limit.Nominal = Bound{true, l.Nominal.SI()}
	}
	return limit
}

// Reading is a figure, or a bracket, as a chart draws it. Its zero value is none.
type Reading struct {
	Is        bool
	Low, High float64        // in SI: alike for a figure; of a bracket its ends, ∓Inf on the side that has none
	Expanded  float64        // the figure's expanded uncertainty in SI, k = 2; 0 if it isn't known
	Shown     quantity.Shown // as the page writes it

	of *quantity.Quantity // what to show instead, in a unit: few of a long history are
	in *quantity.Unit
}

// Read takes a quantity as it is to be shown in a unit, and its expanded uncertainty in SI.
func Read(q *quantity.Quantity, expanded float64, u *quantity.Unit) Reading {
	if q.Unit == nil || u == nil || !q.Unit.ConvertsTo(u) {
		return Reading{}
	}
	return Reading{Is: true, Low: q.LowSI(), High: q.HighSI(), Expanded: expanded, of: q, in: u}
}

// shown is the reading as the page writes it.
func (r Reading) shown() quantity.Shown {
	if r.of != nil {
		return r.of.ShownIn(r.in)
	}
	return r.Shown
}

// isDrawn reports whether a figure can be placed on a scale.
func isDrawn(x float64) bool { return math.Abs(x) <= 1e300 }

// drawn is a reading in the unit of its chart. The ends that a bracket lacks are ∓Inf.
type drawn struct {
	low, high, spread float64
}

func (d drawn) isBracket() bool { return d.low != d.high }

// middle is where a label points at: a figure itself, the middle of a bracket, or the one end that it has.
func (d drawn) middle() float64 {
	switch {
	case math.IsInf(d.low, 0):
		return d.high
	case math.IsInf(d.high, 0):
		return d.low
	}
	return d.low/2 + d.high/2
}

// drawnIn puts a reading in a unit; false where nothing of it can be drawn.
func (r Reading) drawnIn(u *quantity.Unit) (drawn, bool) {
	if !r.Is || u == nil {
		return drawn{}, false
	}
	low, high := u.FromSI(r.Low), u.FromSI(r.High)
	if u.Reciprocal && r.Low != r.High {
		low, high = openEnd(r.High, u, math.Inf(-1)), openEnd(r.Low, u, math.Inf(1))
	}
	d := drawn{low: low, high: high}
	isOpen := math.IsInf(low, -1) && isDrawn(high) || math.IsInf(high, 1) && isDrawn(low)
	if !(low <= high) || !isOpen && !(isDrawn(low) && isDrawn(high)) {
		return drawn{}, false
	}
	if spread := u.StepFromSI(r.Expanded, low); !d.isBracket() && spread > 0 && isDrawn(spread) {
		d.spread = spread
	}
	return d, true
}

// openEnd converts an end of a bracket to a reciprocal unit: the end that isn't there stays open, on the other side.
func openEnd(si float64, u *quantity.Unit, open float64) float64 {
	if math.IsInf(si, 0) {
		return open
	}
	return u.FromSI(si)
}

// bounds is a limit in the unit of its chart. What is not there is NaN.
type bounds struct {
	low, high, serviceLow, serviceHigh, nominal float64
}

func (l Limit) in(u *quantity.Unit) bounds {
	of := func(b Bound) float64 {
		if x := u.FromSI(b.SI); b.Is && isDrawn(x) {
			return x
		}
		return math.NaN()
	}
	b := bounds{of(l.Low), of(l.High), of(l.ServiceLow), of(l.ServiceHigh), of(l.Nominal)}
	if u.Reciprocal {
		b.low, b.high, b.serviceLow, b.serviceHigh = b.high, b.low, b.serviceHigh, b.serviceLow
	}
	return b
}

// figures returns the figures that are there, in no order.
func (b bounds) figures() []float64 {
	var all []float64
	for _, x := range []float64{b.low, b.high, b.serviceLow, b.serviceHigh, b.nominal} {
		if !math.IsNaN(x) {
			all = append(all, x)
		}
	}
	return all
}

// words says a limit as a sentence goes on: "standard 0.06 to 0.10 mm, service up to 0.20 mm".
func (l Limit) words(u *quantity.Unit) string {
	var parts []string
	if l.Low.Is || l.High.Is {
		parts = append(parts, "standard "+l.between(l.Low, l.High, u))
	}
	if l.ServiceLow.Is || l.ServiceHigh.Is {
		parts = append(parts, "service "+l.between(l.ServiceLow, l.ServiceHigh, u))
	}
	if l.Nominal.Is {
		parts = append(parts, "nominal "+l.show(l.Nominal, u).Printed())
	}
	return strings.Join(parts, ", ")
}

func (l Limit) between(low, high Bound, u *quantity.Unit) string {
	if u.Reciprocal {
		low, high = high, low
	}
	switch {
	case !low.Is:
		return "up to " + l.show(high, u).Printed()
	case !high.Is:
		return "from " + l.show(low, u).Printed()
	}
	return quantity.Between(l.show(low, u), l.show(high, u)).Printed()
}

func (l Limit) show(b Bound, u *quantity.Unit) quantity.Shown {
	return quantity.ShowFrom(l.event, b.SI, u, l.Step)
}
