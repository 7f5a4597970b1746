package render

import (
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/spend"
)

var planCrumb = crumb{place{page: "plan.html"}, "Plan"}

// planned returns the parts that nobody has bought or fitted, and the published entries without a day.
func (s *site) planned() (parts []*model.Part, entries []*model.Entry) {
	for _, part := range s.journal.Parts {
		if part.IsPlanned() {
			parts = append(parts, part)
		}
	}
	for _, e := range s.Entries {
		if e.Plan {
			entries = append(entries, e)
		}
	}
	return parts, entries
}

// planPage is what is to come: what it will cost and weigh, what it needs that isn't there, what will have to be read again.
func (s *site) planPage(p *page) {
	p.begin(head{title: planCrumb.title, about: "What is to come: what it will cost and weigh, what it needs, and what will have to be read again.", plate: s.plateNow()})
	parts, entries := s.planned()
	if len(entries) > 0 {
		p.section("entries", "Planned work")
		p.entryLines(entries)
		p.endSection()
	}
	if len(parts) > 0 {
		p.section("parts", "Planned parts")
		heads := []string{"Part", "In the place of", "Mass"}
		if !s.Hides("spend") {
			heads = append(heads, "Price")
		}
		p.table("Planned parts", append(heads, "Needs, and isn’t there", "To be read once it is in", "Promises")...)
		for _, part := range parts {
			p.plannedPart(part)
		}
		p.endTable()
		p.put("<dl class=\"facts\">\n")
		if len(s.spend.ToCome) > 0 {
			p.term("Cost to come", func() { p.sum(spend.Total(s.spend.ToCome)) })
		}
		if change, ok := s.massToCome(parts); ok {
			p.term("Mass to come", func() { p.figure(signed(change.Shown(), change.Value)) })
		}
		p.put("</dl>\n")
		p.endSection()
	}
	p.goals()
	p.end()
}

func (p *page) plannedPart(part *model.Part) {
	s := p.site
	out := s.inPlaceOf(part)
	cells := []func(){
		func() {
			if out != nil {
				p.to(s.partPlace(out), out.Title)
			} else {
				p.text(part.Slot)
			}
		},
		func() {
			mass, ok := massOf(part)
			if !ok {
				return
			}
			p.figure(mass.Shown())
			if before, ok := massOf(out); ok {
				p.aside("", func() { p.difference(mass.SI()-before.SI(), mass.Unit, min(mass.StepSI(), before.StepSI())) })
			}
		},
	}
	if !s.Hides("spend") {
		cells = append(cells, func() {
			if part.Price != nil {
				p.figure(part.Price.Shown())
			}
		})
	}
	cells = append(cells, func() {
		first := true
		for _, need := range part.Fields.Names("needs") {
			if s.isGiven(need.Name) {
				continue
			}
			if !first {
				p.put(", ")
			}
			first = false
			p.partName(need)
		}
	}, func() {
		for i, path := range part.Fields.Names("then") {
			if i > 0 {
				p.put(", ")
			}
			p.path(path.Name)
		}
	}, func() { p.promises(part) })
	p.row(func() { p.to(s.partPlace(part), part.Title) }, cells...)
}

// inPlaceOf returns the part that a planned one will take out, nil if its place is free or not said.
func (s *site) inPlaceOf(part *model.Part) *model.Part {
	if part.Slot == "" {
		return nil
	}
	i := slices.IndexFunc(s.journal.Fitted, func(other *model.Part) bool { return other.Slot == part.Slot })
	if i < 0 {
		return nil
	}
	return s.journal.Fitted[i]
}

// isGiven reports whether a fitted part is, or gives, what another needs.
func (s *site) isGiven(need string) bool {
	return slices.ContainsFunc(s.journal.Fitted, func(part *model.Part) bool {
		return part.Gives(need)
	})
}

// massOf returns the mass of a part, nil for none.
func massOf(part *model.Part) (quantity.Quantity, bool) {
	if part == nil || part.Fields.Value("mass") == nil {
		return quantity.Quantity{}, false
	}
	q, slip := part.Fields.Value("mass").Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Mass}})
	return q, slip == nil && q.Kind != quantity.Interval
}

// massToCome adds up by how much planned parts change the mass; false where none of them says its own and that of what it takes out.
func (s *site) massToCome(parts []*model.Part) (quantity.Quantity, bool) {
	sum, any := quantity.Quantity{Kind: quantity.Figure}, false
	for _, part := range parts {
		mass, ok := massOf(part)
		before, known := massOf(s.inPlaceOf(part))
		if !ok || !known {
			continue
		}
		if !any {
			sum.Unit, sum.Step = mass.Unit, mass.Step
		}
		any = true
		sum.Value += sum.Unit.FromSI(mass.SI() - before.SI())
	}
	return sum, any
}
