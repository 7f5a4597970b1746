package derive

import (
	"math"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Stage is one step of the build whose gain in power can be told: from the session before it to its own.
type Stage struct {
	From, To *model.Pulls
	In, Out  []*model.Part // that went in, and that came out, between them
	Path     string        // where its gain stands
	Reason   string        // why the two can't be compared
	Unread   bool          // because something of one of them can't be read, which has a finding

	from, to    *Session
	gain, total quantity.Estimate // at peak power: its own, and of all stages up to it
	untold      string            // why there is no total
	upTo        []*model.Value    // what it rests on, and all stages before it
	change      string            // which parts changed, to tell stages alike
}

// add works out the gain of a stage, and what it makes of those before it. A session that ends one stage and begins the next cancels out, and
// so does its scatter.
func (s *Stage) add(before []*Stage, from, to *Session) {
	s.change = s.changed("+", " for ", partName)
	s.from, s.to = from, to
	s.Reason = incomparable(from, to)
	s.Unread = s.Reason == "" && (from.isUnread() || to.isUnread())
	s.gain, s.Reason = s.difference(func(of *Session) (quantity.Estimate, string) { return of.Corrected(of.Pulls.Peak) })
	s.total, s.untold = s.gain, s.Reason
	if len(before) == 0 {
		s.upTo = s.values()
		return
	}
	last := before[len(before)-1]
	s.upTo = append(last.upTo, s.values()...) // one list for all stages, of which each has its part
	switch unlike := otherFigures(last.to, from); {
	case last.untold != "":
		s.untold = last.untold
	case s.untold == "" && unlike != "":
		s.untold = "its stages were not measured alike: " + unlike
	}
	s.total = calc.Covered(quantity.Combine(last.total.Value+s.gain.Value, quantity.Power, quantity.Term{Partial: 1, Of: last.total}, quantity.Term{Partial: 1, Of: s.gain}))
	if len(s.gain.Shares) == 0 || len(last.total.Shares) == 0 {
		s.total.Shares = nil
	}
}

// inputs are the two peaks, and the air where they have to be reckoned.
func (s *Stage) inputs() []Input {
	return append(s.to.inputs("P_after", s.To.Peak), s.from.inputs("P_before", s.From.Peak)...)
}

// values are those of the inputs.
func (s *Stage) values() []*model.Value {
	var list []*model.Value
	for _, in := range s.inputs() {
		list = append(list, in.Value)
	}
	return list
}

// title names the stage by the entry whose pulls end it.
func (s *Stage) title() string {
	title := "gain in peak power, " + s.To.Entry.Title
	if s.To.State == "before" {
		title += ", before its work"
	}
	return title
}

// stageGain works out what each stage gave at peak power. As an entry left the engine only the newest are told: the others stand with theirs.
func stageGain(m *Moment) {
	told := m.stages
	if m.Entry != nil {
		told = told[max(0, len(told)-newestStages):]
	}
	for _, s := range told {
		n := &Number{Stage: s, Path: s.Path, Title: s.title(), Formula: "gain = P_after − P_before", Reason: s.Reason, Estimate: s.gain, Unit: m.powerUnit(s.To.Peak), Inputs: s.inputs()}
		if s.to.IsReckoned() || s.from.IsReckoned() {
			n.Formula = "gain = α · P_after − α · P_before"
		}
		n.Words = gainWords(n)
		m.gains = append(m.gains, m.add(n))
	}
}

// gainWords says what the scatter makes of a gain: where it may lie, or that it isn't shown.
func gainWords(n *Number) string {
	half := n.Estimate.Expanded()
	switch {
	case n.Reason != "":
		return ""
	case half <= 0:
		return "of unknown scatter"
	}
	step := quantity.TwoFigures(n.Unit.StepFromSI(half, 1)) * n.Unit.Factor
	between := quantity.Between(quantity.Show(n.Estimate.Value-half, n.Unit, step), quantity.Show(n.Estimate.Value+half, n.Unit, step)).String()
	if IsShown(n.Estimate) {
		return "95 % interval " + between
	}
	return "which may be scatter: the 95 % interval, " + between + ", holds nought"
}

// IsShown reports whether a gain, or a loss, is more than the scatter: the interval of 95 % about it doesn't hold nought.
func IsShown(gain quantity.Estimate) bool {
	half := gain.Expanded()
	return half > 0 && quantity.Compare(math.Abs(gain.Value), half, 0) > 0
}

// newestStages is how many stages are told as an entry left the engine.
const newestStages = 6

// powerUnit is the unit that a figure of pulls is shown in: the builder's, else the one that the pulls were read in.
func (m *Moment) powerUnit(of *model.Value) *quantity.Unit {
	if lead := m.Journal.Units.Lead[of.Quantity.Unit.Dimension]; lead != nil {
		return lead
	}
	return of.Quantity.Unit
}
