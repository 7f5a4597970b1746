package render

import (
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// measured writes what the pulls say of a part: alone, or with those that changed with it.
func (p *page) measured(part *model.Part) {
	list := p.site.measuredOf(part)
	if len(list) == 0 {
		return
	}
	p.term("Measured", func() {
		for i, n := range list {
			if i > 0 {
				p.put("; ")
			}
			if n.Claim != nil {
				p.to(p.site.numberPlace(n), claimTitle(n))
				p.put(": ")
				p.numberWords(n)
				continue
			}
			link := p.open(p.site.numberPlace(n))
			p.number(n)
			if link {
				p.put("</a>")
			}
			p.put(" at the peak")
			p.alongSpeed(n)
			p.together(part, n.Stage.In)
		}
	})
}

// alongSpeed writes the least that a stage gave over the engine speed, which may be a loss, and the most: the figure at the peak says neither.
func (p *page) alongSpeed(n *derive.Number) {
	over := derive.GainOver([]*derive.Stage{n.Stage})
	if over.Reason != "" {
		return
	}
	rpm := parse.UnitSpelled("rpm")
	least, most := over.Extremes()
	words := literal(", from ")
	for _, at := range []float64{least, most} {
		p.put(words)
		words = " to "
		p.gainAt(gainOver{GainCurve: over}, at, n.Unit)
		p.put(" at ")
		p.figure(quantity.Show(at, rpm, rpm.SI(10)))
	}
}

// measuredOf returns what the pulls say of a part: the gains at the peak of the stages that it went in with, and what it gave where it is claimed.
func (s *site) measuredOf(part *model.Part) []*derive.Number {
	var list, claims []*derive.Number
	for _, n := range s.numbers {
		switch {
		case n.Stage != nil && n.Reason == "" && slices.Contains(n.Stage.In, part):
			list = append(list, n)
		case n.Claim != nil && n.Claim.Part == part:
			claims = append(claims, n)
		}
	}
	return append(list, claims...)
}

func claimTitle(n *derive.Number) string {
	if n.Estimate.Dimension == quantity.Torque {
		return "torque, where it is claimed"
	}
	return "power, where it is claimed"
}

// claimedAndMeasured writes a part's claims, and what the pulls say of them and of it, into a cell. Of a part without a claim, what it gave alone.
func (p *page) claimedAndMeasured(part *model.Part) {
	p.promises(part)
	claimed := part.Fields.Table("claim") != nil
	for _, n := range p.site.measuredOf(part) {
		switch {
		case !claimed && len(n.Stage.In) > 1:
		case n.Claim != nil && n.Reason != "":
			p.aside("", func() { p.numberWords(n) })
		case n.Claim != nil:
			p.aside("gave ", func() { p.number(n); p.text(": " + n.Claim.Met.String()) })
		default:
			p.aside("", func() {
				p.put("gave ")
				p.number(n)
				p.put(" at the peak")
				if others := len(n.Stage.In) - 1; others > 0 {
					p.text(", with " + quantity.Counted(others, "other part"))
				}
			})
		}
	}
}

// together names the parts that went in with another between the same pulls, which can't tell them apart.
func (p *page) together(part *model.Part, in []*model.Part) {
	words := literal(" together with ")
	for _, other := range in {
		if other == part {
			continue
		}
		p.put(words)
		words = ", "
		p.to(p.site.partPlace(other), other.Title)
	}
}

// mostMeanwhile is how many of the readings that were taken while a part was in stand on its page, the newest; their paths have all.
const mostMeanwhile = 40

// readMeanwhile writes what was read, while a part was in, of all that the part has to do with: what it asks for, limits or brings.
func (p *page) readMeanwhile(part *model.Part) {
	newest, older := p.site.meanwhile(part)
	if len(newest) == 0 {
		return
	}
	p.section("meanwhile", "Read while it was in")
	p.table("Read while it was in", "When", "Where", "State", "Value", "Verdict", "Limit", "Deviation")
	for _, v := range newest {
		p.readingRow(v)
	}
	p.endTable()
	if older > 0 {
		p.put("<p>And ")
		p.text(quantity.Counted(older, "older reading"))
		p.put(", on the pages of their paths.</p>\n")
	}
	p.endSection()
}

// meanwhile returns the newest published readings that were taken while a part was in, the newest first, and how many older ones there are. A reading at
// several of the part's paths, or of their positions, is one.
func (s *site) meanwhile(part *model.Part) (newest []*model.Value, older int) {
	stays, paths := s.shownStays(part), partPaths(part)
	if len(stays) == 0 || len(paths) == 0 {
		return nil, 0
	}
	taken := make([]bool, len(s.journal.Values))
	for _, path := range paths {
		for _, position := range s.journal.Positions.Below(path) {
			for _, v := range s.journal.History(position) {
				taken[v.Index] = taken[v.Index] || v.IsReading() && wasIn(stays, v) && s.ShowsValue(v)
			}
		}
	}
	for i, is := range slices.Backward(taken) {
		switch {
		case !is:
		case len(newest) < mostMeanwhile:
			newest = append(newest, s.journal.Values[i])
		default:
			older++
		}
	}
	return newest, older
}

// readingRow writes the row of a reading in a table of several entries'.
func (p *page) readingRow(v *model.Value) {
	p.put(`<tr><th scope="row">`)
	link := p.openReading(v)
	if v.Entry.Date.IsZero() {
		p.text(v.Entry.Title)
	} else {
		p.day(v.Entry)
	}
	if link {
		p.put("</a>")
	}
	p.put("</th><td>")
	p.path(v.Path)
	p.put("</td>")
	p.reading(v)
	p.put("</tr>\n")
}

// partPaths are the paths that a part has to do with.
func partPaths(part *model.Part) []string {
	var paths []string
	for _, name := range part.Fields.Names("then") {
		paths = append(paths, name.Name)
	}
	for _, l := range part.Limits {
		if isLimit(l) {
			paths = append(paths, l.Path)
		}
	}
	for i := range part.Brings {
		paths = append(paths, part.Brings[i].Path)
	}
	slices.Sort(paths)
	return slices.Compact(paths)
}

// shownStays returns the times that a part was in of which both ends may be told: what was read meanwhile would tell when it was.
func (s *site) shownStays(part *model.Part) []model.Stay {
	var stays []model.Stay
	for _, stay := range part.Stays {
		if (stay.From == nil || s.ShowsEntry(stay.From)) && (stay.To == nil || s.ShowsEntry(stay.To)) {
			stays = append(stays, stay)
		}
	}
	return stays
}

// wasIn reports whether a part was in when a value was read: what was found in the entry that put it in was read before.
func wasIn(stays []model.Stay, v *model.Value) bool {
	return slices.ContainsFunc(stays, func(stay model.Stay) bool {
		began := stay.From == nil || v.Entry.Index > stay.From.Index || v.Entry == stay.From && v.Origin != model.Found
		ended := stay.To != nil && (v.Entry.Index > stay.To.Index || v.Entry == stay.To && v.Origin != model.Found)
		return began && !ended
	})
}
