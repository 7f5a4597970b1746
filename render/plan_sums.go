package render

import (
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/spend"
)

// reach is what planned parts come to. Those for one place are alternatives, of which one goes in: so it has two ends.
type reach struct {
	least, most float64
	parts       int  // that say something
	isChoice    bool // two of them are for one place
}

// reachOf adds up what parts say, place by place: of those for one place the least and the most.
func reachOf(parts []*model.Part, of func(*model.Part) (low, high float64, ok bool)) reach {
	type ends struct{ low, high float64 }
	var r reach
	var places []ends
	at := map[string]int{}
	for _, part := range parts {
		low, high, ok := of(part)
		if !ok {
			continue
		}
		r.parts++
		if i, again := at[part.Slot]; again && part.Slot != "" {
			r.isChoice = true
			places[i] = ends{min(low, places[i].low), max(high, places[i].high)}
			continue
		}
		at[part.Slot] = len(places)
		places = append(places, ends{low, high})
	}
	for _, e := range places {
		r.least, r.most = r.least+e.low, r.most+e.high
	}
	return r
}

// beside adds it to a figure in its unit: a figure still where both ends are alike.
func (r reach) beside(q quantity.Quantity) quantity.Quantity {
	low, high := q.Value+r.least, q.Value+r.most
	if quantity.Compare(low, high, 0) == 0 {
		q.Kind, q.Value = quantity.Figure, low
		return q
	}
	q.Kind, q.HasLow, q.HasHigh = quantity.Interval, true, true
	q.Low, q.High, q.Value = low, high, low+(high-low)/2
	return q
}

// chosen says that alternatives were not added to each other.
func (p *page) chosen(r reach) {
	if r.isChoice {
		p.put(", with one part in each place")
	}
}

// costToCome writes what planned parts and plans will cost, each currency for itself.
func (p *page) costToCome(label string) {
	lines := p.site.spend.ToCome
	if len(lines) == 0 {
		return
	}
	var parts []*model.Part
	of := map[*model.Part][]spend.Line{} // nil: what is spent whichever part goes in
	for _, l := range lines {
		part := l.Part
		if part != nil && !part.IsPlanned() {
			part = nil
		}
		if part != nil && of[part] == nil {
			parts = append(parts, part)
		}
		of[part] = append(of[part], l)
	}
	sum := spend.Total(lines)
	var r reach
	for i, q := range sum {
		in := func(lines []spend.Line) float64 {
			price := 0.0
			for _, l := range lines {
				if l.Price.Unit == q.Unit {
					price += l.Price.Value
				}
			}
			return price
		}
		r = reachOf(parts, func(part *model.Part) (low, high float64, ok bool) { return in(of[part]), in(of[part]), true })
		q.Value = in(of[nil])
		sum[i] = r.beside(q)
	}
	p.term(label, func() {
		p.sum(sum)
		p.chosen(r)
	})
}

// massToCome writes by how much planned parts change the mass, if any of them says its own and that of what it takes out.
func (p *page) massToCome(parts []*model.Part) {
	var sum quantity.Quantity
	r := reachOf(parts, func(part *model.Part) (low, high float64, ok bool) {
		mass, ok := massOf(part)
		before, known := massOf(p.site.inPlaceOf(part))
		if !ok || !known {
			return 0, 0, false
		}
		if sum.Unit == nil {
			sum.Unit, sum.Step = mass.Unit, mass.Step
		}
		change := sum.Unit.FromSI(mass.SI() - before.SI())
		return change, change, true
	})
	if r.parts == 0 {
		return
	}
	p.term("Mass to come", func() {
		change := r.beside(sum)
		shown := change.Shown()
		if change.Kind == quantity.Figure {
			shown = shown.Signed(change.Value)
		}
		p.figure(shown)
		p.chosen(r)
	})
}
