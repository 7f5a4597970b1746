package render

import (
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/spend"
)

var planCrumb = crumb{place{page: "plan.html"}, "Plan"}

// planned returns the parts that were never fitted, bought or not, and the published entries without a day.
func (s *site) planned() (parts []*model.Part, entries []*model.Entry) {
	for _, part := range s.journal.Parts {
		if len(part.Stays) == 0 {
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
		for _, part := range parts[:min(perPage, len(parts))] {
			p.plannedPart(part)
		}
		p.endTable()
		if more := len(parts) - perPage; more > 0 {
			p.put("<p>And ")
			p.to(partsCrumb.at, counted(more, "more planned part"))
			p.put(".</p>\n")
		}
		p.put("<dl class=\"facts\">\n")
		if len(s.spend.ToCome) > 0 {
			p.term("Cost to come", func() { p.sum(spend.Total(s.spend.ToCome)) })
		}
		if change, ok := s.massToCome(parts); ok {
			p.term("Mass to come", func() { p.figure(change.Shown().Signed(change.Value)) })
		}
		p.promised(parts)
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
			switch {
			case part.Bought != nil:
				p.put("bought ")
				p.when(part.Bought)
			case part.Price != nil:
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
			p.lacking(need, []*model.Part{part})
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

// deepestNeed is how many needs of needs are told one in the other.
const deepestNeed = 4

// lacking writes what a part needs and no fitted one gives; who would give it, and what that lacks in its turn. Parts on the way there are not gone
// through again.
func (p *page) lacking(need parse.Name, way []*model.Part) {
	p.partName(need)
	open := literal(" (")
	for _, giver := range p.site.givers[need.Name] {
		if slices.Contains(way, giver) {
			continue
		}
		p.put(open)
		open = "; "
		if giver.Name != need.Name {
			p.to(p.site.partPlace(giver), giver.Title)
			p.put(" gives it, ")
		}
		p.put(standingOf(giver))
		words := literal(", and needs ")
		if len(way) == deepestNeed {
			continue
		}
		for _, deeper := range giver.Fields.Names("needs") {
			if p.site.isGiven(deeper.Name) {
				continue
			}
			p.put(words)
			words = " and "
			p.lacking(deeper, append(slices.Clone(way), giver))
		}
	}
	if open == "; " {
		p.put(")")
	}
}

// standingOf says where a part that is not in stands.
func standingOf(part *model.Part) literal {
	if part.IsPlanned() {
		return "planned"
	}
	return "on the shelf"
}

// promised writes what a goal comes to if the planned parts give what is claimed for them.
func (p *page) promised(parts []*model.Part) {
	s := p.site
	for _, goal := range s.journal.Goals {
		key, ok := map[string]string{"power.peak": "power", "power.torque": "torque"}[goal.Path]
		now := s.inForce(goal.Path)
		if !ok || !s.ShowsGoal(goal) || !isFigureIn(now, goal.Quantity.Unit) {
			continue
		}
		sum := now.Quantity
		sum.Kind, sum.HasLow, sum.HasHigh, sum.HasSpread = quantity.Interval, true, true, false
		sum.Low, sum.High = sum.Value, sum.Value
		claims := 0
		for _, part := range parts {
			q, ok := claimOf(part, key, sum.Unit)
			if !ok {
				continue
			}
			claims++
			sum.Low += sum.Unit.FromSI(q.LowSI())
			sum.High += sum.Unit.FromSI(q.HighSI())
			sum.Step = max(sum.Step, sum.Unit.FromSI(q.StepSI()))
		}
		if claims == 0 {
			continue
		}
		p.term("If their claims hold", func() {
			p.path(goal.Path)
			p.put(" ")
			p.figure(sum.Shown())
			p.put("; the goal is ")
			p.figure(goal.Quantity.Shown())
		})
	}
}

// claimOf returns what is claimed for a part, in power or torque; false where nothing is, or one end is open.
func claimOf(part *model.Part, key string, u *quantity.Unit) (quantity.Quantity, bool) {
	claim := part.Fields.Table("claim")
	if claim == nil || claim.Value(key) == nil {
		return quantity.Quantity{}, false
	}
	q, slip := claim.Value(key).Resolve(claim.Get(key).Key.Want())
	if slip != nil || q.Kind == quantity.Interval && !(q.HasLow && q.HasHigh) || !q.Unit.ConvertsTo(u) {
		return quantity.Quantity{}, false
	}
	return q, true
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
	return slices.ContainsFunc(s.givers[need], (*model.Part).IsFitted)
}

// massOf returns the mass of a part; false where it is not told, or told as an interval. A part may be nil.
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
