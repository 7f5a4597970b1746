package render

import (
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
)

// measured writes what the pulls say of a part: alone, or with those that changed with it.
func (p *page) measured(part *model.Part) {
	var list []*derive.Number
	for _, n := range p.site.numbers {
		if n.Stage != nil && n.Reason == "" && slices.Contains(n.Stage.In, part) {
			list = append(list, n)
		}
	}
	if len(list) == 0 {
		return
	}
	p.term("Measured", func() {
		for i, n := range list {
			if i > 0 {
				p.put("; ")
			}
			link := p.open(p.site.numberPlace(n))
			p.number(n)
			if link {
				p.put("</a>")
			}
			p.together(part, n.Stage.In)
		}
	})
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
	var values []*model.Value
	for _, path := range partPaths(part) {
		for _, position := range p.site.journal.Positions.Below(path) {
			for _, v := range p.site.journal.History(position) {
				if v.IsReading() && p.site.ShowsValue(v) && wasIn(part, v) && !slices.Contains(values, v) {
					values = append(values, v)
				}
			}
		}
	}
	if len(values) == 0 {
		return
	}
	slices.SortFunc(values, func(a, b *model.Value) int { return b.Index - a.Index })
	p.section("meanwhile", "Read while it was in")
	p.table("Read while it was in", "When", "Where", "State", "Value", "Verdict", "Limit", "Deviation")
	for _, v := range values[:min(mostMeanwhile, len(values))] {
		p.readingRow(v)
	}
	p.endTable()
	if more := len(values) - mostMeanwhile; more > 0 {
		p.put("<p>And ")
		p.text(counted(more, "older reading"))
		p.put(", on the pages of their paths.</p>\n")
	}
	p.endSection()
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

// wasIn reports whether a part was in when a value was read: what was found in the entry that put it in was read before.
func wasIn(part *model.Part, v *model.Value) bool {
	return slices.ContainsFunc(part.Stays, func(stay model.Stay) bool {
		began := stay.From == nil || v.Entry.Index > stay.From.Index || v.Entry == stay.From && v.Origin != model.Found
		ended := stay.To != nil && (v.Entry.Index > stay.To.Index || v.Entry == stay.To && v.Origin != model.Found)
		return began && !ended
	})
}
