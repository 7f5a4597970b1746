package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// partGain adds the gains of the stages by the parts that changed in them: jointly where several did, since pulls can't tell them apart.
func partGain(m *Moment) {
	told := map[string]bool{}
	for _, stage := range m.gains {
		s := stage.Stage
		if len(s.In)+len(s.Out) == 0 || s.Reason != "" || told[s.change] {
			continue
		}
		told[s.change] = true
		n := &Number{Path: "gain.parts." + s.changed("-and-", "-for-", partName), Title: "gain with " + s.changed(" + ", " in place of ", partTitle),
			Formula: "gain = Σ gains of the stages in which exactly these parts changed", Unit: stage.Unit}
		sum, loose := 0.0, false
		var terms []quantity.Term
		for i, like := range m.stages {
			if like.change != s.change || like.Reason != "" {
				continue
			}
			if i < len(m.stages)-len(m.gains) {
				n.Earlier++
				n.Told = append(n.Told, like.values()...)
			}
			sum += like.gain.Value
			loose = loose || len(like.gain.Shares) == 0
			terms = append(terms, quantity.Term{Partial: 1, Of: like.gain})
		}
		for _, like := range m.gains {
			if like.Stage.change == s.change {
				n.Inputs = append(n.Inputs, Input{Symbol: "stage", Number: like})
			}
		}
		n.Estimate = calc.Covered(quantity.Combine(sum, quantity.Power, terms...))
		if loose {
			n.Estimate.Shares = nil
		}
		n.Words = gainWords(n)
		m.add(n)
	}
}

// changed says which parts a stage put in, and in place of which.
func (s *Stage) changed(and, instead string, word func(*model.Part) string) string {
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
