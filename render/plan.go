package render

import (
	"slices"
	"strconv"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
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
			p.to(partsCrumb.at, quantity.Counted(more, "more planned part"))
			p.put(".</p>\n")
		}
		p.put("<dl class=\"facts\">\n")
		p.costToCome("Cost to come")
		p.massToCome(parts)
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
		told := map[*model.Part]bool{part: true}
		first := true
		for _, need := range part.Fields.Names("needs") {
			if s.isGiven(need.Name) {
				continue
			}
			if !first {
				p.put(", ")
			}
			first = false
			p.lacking(need, told, 1)
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

const (
	deepestNeed = 4  // how many needs of needs are told one in the other
	mostGivers  = 8  // how many of the parts that would give one thing are named
	mostTold    = 40 // how many parts a row names before it goes no deeper
)

// lacking writes what a part needs and no fitted one gives; who would give it, and what that lacks in its turn. What was told of a part in this row is not told
// again: parts may need each other, and many may give one thing.
func (p *page) lacking(need parse.Name, told map[*model.Part]bool, depth int) {
	p.partName(need)
	var givers []*model.Part
	for _, standing := range []bool{false, true} { // what lies on the shelf comes before what is planned
		for _, giver := range p.site.givers[need.Name] {
			if giver.IsPlanned() == standing && !told[giver] {
				givers = append(givers, giver)
			}
		}
	}
	if len(givers) == 0 {
		return
	}
	for _, giver := range givers {
		told[giver] = true
	}
	named := givers[:min(mostGivers, len(givers))]
	for i, giver := range named {
		if i == 0 {
			p.put(" (")
		} else {
			p.put("; ")
		}
		if giver.Name != need.Name {
			p.to(p.site.partPlace(giver), giver.Title)
			p.put(" gives it, ")
		}
		p.put(standingOf(giver))
		p.lackingOf(giver, told, depth)
	}
	if more := len(givers) - len(named); more > 0 {
		p.put("; and ")
		p.text(strconv.Itoa(more) + " more")
	}
	p.put(")")
}

// lackingOf writes what a part lacks that would give something, or beyond some depth, that it lacks something.
func (p *page) lackingOf(giver *model.Part, told map[*model.Part]bool, depth int) {
	words := literal(", and needs ")
	for _, need := range giver.Fields.Names("needs") {
		if p.site.isGiven(need.Name) {
			continue
		}
		if depth == deepestNeed || len(told) > mostTold {
			p.put(", and needs more")
			return
		}
		p.put(words)
		words = " and "
		p.lacking(need, told, depth+1)
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
		sum.HasSpread = false
		r := reachOf(parts, func(part *model.Part) (low, high float64, ok bool) {
			q, ok := claimOf(part, key, sum.Unit)
			if !ok {
				return 0, 0, false
			}
			sum.Step = min(sum.Step, sum.Unit.FromSI(q.StepSI())) // `1 hp` beside `1.5..2.5 hp` is not meant to the nearest whole
			return sum.Unit.FromSI(q.LowSI()), sum.Unit.FromSI(q.HighSI()), true
		})
		if r.parts == 0 {
			continue
		}
		p.term("If their claims hold", func() {
			p.path(goal.Path)
			p.put(" ")
			p.figure(r.beside(sum).Shown())
			p.chosen(r)
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
	if slip != nil || q.IsOpenEnded() || !q.Unit.ConvertsTo(u) {
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
