package derive

import "example.org/locknut/journal/quantity"

// cumulativeGain adds the gains of all stages. A session that ends one stage and begins the next cancels out, and so does its scatter.
func cumulativeGain(m *Moment) {
	if len(m.gains) == 0 {
		return
	}
	last := m.gains[len(m.gains)-1]
	n := &Number{Unit: last.Unit, Path: "gain.total", Title: "gain in peak power since the first pulls", Formula: "gain = Σ stage gains"}
	sum := 0.0
	var terms []quantity.Term
	var reasons []string
	for _, stage := range m.gains {
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
