package render

import (
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/quantity"
)

// numbersPage lists every number that was worked out, by family.
func (s *site) numbersPage(p *page) {
	p.begin(head{title: "Numbers", about: "Every number that was worked out from the readings, with its formula and its uncertainty.", plate: s.plateNow()})
	if len(s.numbers) == 0 {
		p.put("<p>Nothing can be worked out yet.</p>\n")
	} else {
		p.put("<p>Worked out from what stands in the journal now. What stands after ± is the expanded uncertainty, k = 2.</p>\n")
	}
	for i := range derive.All {
		family := derive.All[i].Name
		list := s.inFamily(family)
		if len(list) == 0 {
			continue
		}
		p.section(family, familyTitle(family))
		p.table(familyTitle(family), append([]string{"Number", "Figure"}, s.limitHeads(list)...)...)
		for _, n := range list {
			p.put(`<tr><th scope="row">`)
			p.to(s.numberPlace(n), n.Title)
			p.put("</th><td>")
			p.numberWords(n)
			p.put("</td>")
			p.numberCells(n, list)
			p.put("</tr>\n")
		}
		p.endTable()
		p.endSection()
	}
	p.end()
}

func (s *site) inFamily(family string) []*derive.Number {
	var list []*derive.Number
	for _, n := range s.numbers {
		if n.Family.Name == family {
			list = append(list, n)
		}
	}
	return list
}

// familyTitle is what a family of numbers is called: the words of its name.
func familyTitle(family string) string {
	words := strings.ReplaceAll(family, "-", " ")
	return strings.ToUpper(words[:1]) + words[1:]
}

// familyPage shows the numbers of a family, each with what went into it, and how they are worked out.
func (s *site) familyPage(p *page, family string) {
	p.begin(head{title: familyTitle(family), about: "How " + strings.ReplaceAll(family, "-", " ") + " is worked out here, and from what.", crumbs: []crumb{numbersCrumb}, plate: s.plateStill()})
	for _, n := range s.inFamily(family) {
		p.put("<section class=\"number\"")
		p.id(anchor(n.ID()))
		p.put(">\n")
		p.element("h2", n.Title)
		p.put("\n<dl class=\"facts\">\n")
		p.term("Figure", func() { p.numberWords(n) })
		if n.Reason == "" {
			p.term("Uncertainty", func() { p.uncertainty(n) })
		}
		p.term("Path", func() { p.pathTo(s.pathPlace(n.Path), n.Path) })
		p.term("Formula", func() { p.element("code", n.Formula) })
		if len(n.Inputs) > 0 {
			p.term("From", func() { p.inputs(n.Inputs) })
		}
		if n.Limit != nil && s.ShowsLimit(n.Limit) {
			p.term("Limit", func() { p.to(s.limitPlace(n.Limit), n.Limit.Path); p.put(" "); p.limit(n.Limit) })
			p.term("Verdict", func() { p.verdict(n.Verdict, n.Limit) })
		}
		if n.Deviates && n.Limit != nil && n.Limit.Nominal != nil {
			p.term("Deviation", func() { p.difference(n.Deviation, n.Unit, n.Step()); p.share(n.Deviation, n.Limit) })
		}
		p.put("</dl>\n</section>\n")
	}
	if text := derive.Page(family); text != "" {
		p.section("method", "How it is worked out")
		p.manual(text)
		p.endSection()
	}
	p.end()
}

func (p *page) uncertainty(n *derive.Number) {
	if n.Estimate.Expanded() <= 0 {
		p.put("not known: none of its inputs has one")
		return
	}
	_, u := quantity.ShowEstimate(n.Estimate, n.Unit)
	p.put("± ")
	p.figure(u)
	p.put(" (expanded, k = 2)")
}
