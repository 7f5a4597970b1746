package derive

// cumulativeGain adds the gains of all stages up to the moment.
func cumulativeGain(m *Moment) {
	if len(m.stages) == 0 {
		return
	}
	last := m.stages[len(m.stages)-1]
	n := &Number{Path: "gain.total", Title: "gain in peak power, all stages", Formula: "gain = Σ stage gains", Estimate: last.total, Unit: m.powerUnit(last.To.Peak)}
	if last.untold != "" {
		n.Reason = "a stage can't be told: " + last.untold
	}
	if n.Earlier = len(m.stages) - len(m.gains); n.Earlier > 0 {
		n.Told = m.stages[n.Earlier-1].upTo
	}
	for _, stage := range m.gains {
		n.Inputs = append(n.Inputs, Input{Symbol: "stage", Number: stage})
	}
	n.Words = gainWords(n)
	m.add(n)
}
