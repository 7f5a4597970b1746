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
		stage  *Stage
		inputs []Input
	}
	var groups []*group
	for _, stage := range m.gains {
		s := stage.Stage
		if len(s.In)+len(s.Out) == 0 || stage.Reason != "" {
			continue
		}
		i := slices.IndexFunc(groups, func(g *group) bool { return slices.Equal(g.stage.In, s.In) && slices.Equal(g.stage.Out, s.Out) })
		if i < 0 {
			groups = append(groups, &group{stage: s})
			i = len(groups) - 1
		}
		groups[i].inputs = append(groups[i].inputs, Input{Symbol: "stage", Number: stage})
	}
	for _, g := range groups {
		n := &Number{Unit: g.inputs[0].Number.Unit, Path: "gain.parts." + g.stage.change("-and-", "-for-", partName), Title: "gain with " + g.stage.change(" + ", " in place of ", partTitle),
			Formula: "gain = Σ gains of the stages in which exactly these parts changed", Inputs: g.inputs}
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

// change says which parts a stage put in, and in place of which.
func (s *Stage) change(and, instead string, word func(*model.Part) string) string {
	join := func(parts []*model.Part) string {
		words := make([]string, len(parts))
		for i, p := range parts {
			words[i] = word(p)
		}
		return strings.Join(words, and)
	}
	switch {
	case len(s.Out) == 0:
		return join(s.In)
	case len(s.In) == 0:
		return strings.TrimLeft(instead, " -") + join(s.Out)
	}
	return join(s.In) + instead + join(s.Out)
}

func partName(p *model.Part) string  { return p.Name }
func partTitle(p *model.Part) string { return p.Title }
