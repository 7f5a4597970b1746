package derive

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// partGain adds the gains of the stages by the parts that changed in them: jointly where several did, since pulls can't tell them apart.
func partGain(m *Moment) {
	type group struct {
		parts  []*model.Part
		inputs []Input
	}
	var groups []*group
	for _, s := range Stages(m.Journal, m.entries()) {
		stage := m.find(s.Path())
		if len(s.Parts) == 0 || stage.Reason != "" {
			continue
		}
		parts := slices.Clone(s.Parts)
		slices.SortFunc(parts, func(a, b *model.Part) int { return strings.Compare(a.Name, b.Name) })
		i := slices.IndexFunc(groups, func(g *group) bool { return slices.Equal(g.parts, parts) })
		if i < 0 {
			groups = append(groups, &group{parts: parts})
			i = len(groups) - 1
		}
		groups[i].inputs = append(groups[i].inputs, Input{Symbol: "stage", Number: stage})
	}
	for _, g := range groups {
		var names, titles []string
		for _, part := range g.parts {
			names = append(names, part.Name)
			titles = append(titles, part.Title)
		}
		n := &Number{Path: "gain.parts." + strings.Join(names, "-and-"), Title: "gain with " + strings.Join(titles, ", "), Formula: "gain = Σ gains of the stages in which exactly these parts changed", Inputs: g.inputs}
		sum := 0.0
		var terms []quantity.Term
		for _, in := range g.inputs {
			sum += in.Number.Estimate.Value
			terms = append(terms, quantity.Term{Partial: 1, Of: in.Number.Estimate})
		}
		n.Estimate = quantity.Combine(sum, quantity.Power, terms...)
		m.add(n)
	}
}
