package derive

import (
	"strings"

	"example.org/locknut/journal/quantity"
)

// cumulativeGain adds the gains of all stages. A session that ends one stage and begins the next cancels out, and so does its scatter.
func cumulativeGain(m *Moment) {
	stages := Stages(m.Journal, m.entries())
	if len(stages) == 0 {
		return
	}
	n := &Number{Path: "gain.total", Title: "gain in peak power since the first pulls", Formula: "gain = Σ stage gains"}
	sum := 0.0
	var terms []quantity.Term
	var reasons []string
	for _, s := range stages {
		stage := m.find(s.Path())
		n.Inputs = append(n.Inputs, Input{Symbol: "stage", Number: stage})
		if stage.Reason != "" {
			reasons = append(reasons, stage.Reason)
			continue
		}
		sum += stage.Estimate.Value
		terms = append(terms, quantity.Term{Partial: 1, Of: stage.Estimate})
	}
	n.Estimate = quantity.Combine(sum, quantity.Power, terms...)
	if len(reasons) > 0 {
		n.Reason = "a stage can't be told: " + reasons[0]
	}
	m.add(n)
}

// fold folds case and runs of space.
func fold(text string) string { return strings.Join(strings.Fields(strings.ToLower(text)), " ") }
