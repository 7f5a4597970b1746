package render

import (
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/render/chart"
)

// limit writes what a limit holds a value to, in its own unit and in the other one.
func (p *page) limit(l *model.Limit) { p.put(p.site.limited[l]) }

// writeLimits writes what each limit holds a value to, and what its strips have in common, once for all pages.
func (s *site) writeLimits() {
	s.limitedBoth = make(map[*model.Limit]literal, len(s.journal.Limits))
	s.limited = make(map[*model.Limit]literal, len(s.journal.Limits))
	s.gauges = make(map[*model.Limit]*chart.Gauge, len(s.journal.Limits))
	for _, l := range s.journal.Limits {
		p := &page{site: s}
		p.writeLimit(l)
		s.limited[l] = literal(p.bytes)
		p = &page{site: s}
		p.inBoth(standardOf(l))
		if q, ok := interval(l, l.Worn[0], l.Worn[1]); ok {
			p.aside("service ", func() { p.bounds(q, q.Unit) })
		}
		s.limitedBoth[l] = literal(p.bytes)
		s.gauges[l] = chart.NewGauge(chart.LimitOf(l), l.Unit)
	}
}

func (p *page) writeLimit(l *model.Limit) {
	if len(l.Expect) > 0 {
		p.put("“")
		p.text(strings.Join(l.Expect, "” or “"))
		p.put("”")
		return
	}
	for _, step := range l.Steps {
		p.figure(step.Shown())
		p.put(" then ")
	}
	figures := standardOf(l)
	p.figures(figures, nil)
	if u := p.site.others[l.Unit]; u != nil && len(figures) > 0 {
		p.put(` <span class="other">(`)
		p.figures(figures, u)
		p.put(")</span>")
	}
	if q, ok := interval(l, l.Worn[0], l.Worn[1]); ok {
		p.put(`; service `)
		p.bounds(q, q.Unit)
	}
}

// figures writes figures of a limit one after the other, in a unit, or as they were written where it is nil.
func (p *page) figures(list []quantity.Quantity, u *quantity.Unit) {
	for i, q := range list {
		if i > 0 {
			p.put(", ")
		}
		if u != nil {
			p.bounds(q, u)
		} else {
			p.bounds(q, q.Unit)
		}
	}
}

// bounds writes a figure of a limit in a unit; an interval in words where it has one end alone, for those who don't write journals. In another unit a
// tolerance is a span, which is what leaves are picked by, and no end of it lies outside.
func (p *page) bounds(q quantity.Quantity, u *quantity.Unit) {
	if u != q.Unit {
		q = q.Within(u)
	}
	if q.IsOpenEnded() {
		if q.HasHigh != (q.Unit.Reciprocal != u.Reciprocal) {
			p.put("up to ")
		} else {
			p.put("from ")
		}
		q.Kind = quantity.Figure
	}
	p.figure(q.Shown())
}

// standardOf returns the figures of a limit: its nominal with an even tolerance, else the nominal and the bounds, as far as they go.
func standardOf(l *model.Limit) []quantity.Quantity {
	var list []quantity.Quantity
	if l.Nominal != nil {
		nominal := *l.Nominal
		n := nominal.SI()
		if !nominal.HasSpread && l.Low.Is && l.High.Is && !nominal.Unit.Reciprocal && quantity.Compare(l.High.SI-n, n-l.Low.SI, l.Size) == 0 {
			nominal.HasSpread, nominal.Spread = true, (l.High.SI-n)/nominal.Unit.Factor
		}
		list = append(list, nominal)
		if nominal.HasSpread {
			return list
		}
	}
	if l.Line != nil && l.Nominal == nil {
		if q, slip := l.Line.Resolve(quantity.Want{Dimensions: []quantity.Dimension{l.Dimension}, Bare: l.Unit}); slip == nil && q.Kind == quantity.Interval {
			return append(list, q)
		}
	}
	if q, ok := interval(l, l.Low, l.High); ok {
		list = append(list, q)
	}
	return list
}

// interval puts two bounds together, told by as many digits as they need.
func interval(l *model.Limit, low, high model.Bound) (quantity.Quantity, bool) {
	if !low.Is && !high.Is || l.Unit == nil {
		return quantity.Quantity{}, false
	}
	if l.Unit.Reciprocal {
		low, high = high, low
	}
	q := quantity.Quantity{Kind: quantity.Interval, Unit: l.Unit, HasLow: low.Is, HasHigh: high.Is}
	if low.Is {
		q.Low = l.Unit.FromSI(low.SI)
		q.Value = q.Low
	}
	if high.Is {
		q.High = l.Unit.FromSI(high.SI)
		q.Value = q.High
	}
	if low.Is && high.Is {
		q.Value = (q.Low + q.High) / 2
	}
	q.Event, q.Step = l.Event, l.Unit.StepFromSI(l.Step, q.Value)
	return q, true
}
