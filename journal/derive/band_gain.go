package derive

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// bandGain works out what each stage gave in the mean over the band that the builder names, in power and in torque, and at the peak of torque. As an entry left the engine only its
// own stages are told.
func bandGain(m *Moment) {
	over, named := m.band()
	for _, s := range m.stages {
		if m.Entry != nil && s.To.Entry != m.Entry {
			continue
		}
		name := strings.TrimPrefix(s.Path, "gain.stage.")
		if named && len(s.To.Runs) > 0 && len(s.From.Runs) > 0 {
			m.meanGain(s, "gain.band."+name, "power", over, quantity.Power)
			m.meanGain(s, "torque-gain.band."+name, "torque", over, quantity.Torque)
		}
		if s.From.Torque != nil && s.To.Torque != nil {
			n := &Number{Path: "torque-gain.stage." + name, Title: strings.Replace(s.title(), "peak power", "peak torque", 1), Formula: "gain = M_after − M_before",
				Inputs: append(s.to.inputs("M_after", s.To.Torque), s.from.inputs("M_before", s.From.Torque)...), Unit: m.powerUnit(s.To.Torque)}
			n.Estimate, n.Reason = s.difference(func(of *Session) (quantity.Estimate, string) { return of.Corrected(of.Pulls.Torque) })
			n.Words = gainWords(n)
			m.add(n)
		}
	}
}

// band returns the band that the builder names.
func (m *Moment) band() (band, bool) {
	return bandOf(figureOf(m.stated("power"), "band"))
}

// figureOf returns the figure of a sheet's key; nil for none, and for one that can't be read.
func figureOf(sheet *parse.Fields, key string) *quantity.Quantity {
	v := sheet.Value(key)
	if v == nil {
		return nil
	}
	q, slip := v.Resolve(sheet.Get(key).Key.Want())
	if slip != nil {
		return nil
	}
	return &q
}

// meanGain adds what a stage gave in the mean over a band.
func (m *Moment) meanGain(s *Stage, path, what string, over band, d quantity.Dimension) {
	after, before := s.To.Peak, s.From.Peak
	if d == quantity.Torque && s.To.Torque != nil && s.From.Torque != nil {
		after, before = s.To.Torque, s.From.Torque
	}
	n := &Number{Path: path, Title: strings.Replace(s.title(), "peak power", "mean "+what+" over the band", 1), Formula: "gain = mean_after − mean_before",
		Inputs: append(s.to.curveInputs("mean_after", after), s.from.curveInputs("mean_before", before)...), Unit: m.powerUnit(after)}
	n.Estimate, n.Reason = s.difference(func(of *Session) (quantity.Estimate, string) { return of.mean(over, d, path) })
	if n.Words = gainWords(n); n.Reason == "" {
		rpm := parse.UnitSpelled("rpm")
		width := rpm.FromSI(over.to - over.from)
		step := n.Unit.Factor
		if half := n.Unit.StepFromSI(n.Estimate.Expanded()*width, 1); half > 0 {
			step *= max(1, quantity.TwoFigures(half)) // no finer than the interval leaves it
		}
		n.Words += fmt.Sprintf("; an area of %s over %s", quantity.Show(n.Estimate.Value*width, n.Unit, step).String()+"·rpm", quantity.Between(quantity.Show(over.from, rpm, rpm.Factor), quantity.Show(over.to, rpm, rpm.Factor)))
	}
	m.add(n)
}
