package derive

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Claim is what a seller promises of a part in power or torque, and what the pulls say of it.
type Claim struct {
	Part     *model.Part
	Promised quantity.Quantity
	At       source.Range // of the promise, in the part's sheet
	Met      Met
}

// Met says whether a claim is met.
type Met uint8

// What pulls can say of a claim.
const (
	Undecided Met = iota // the interval of 95 % holds the least that is claimed
	IsMet                // it lies above that
	NotMet               // it lies below that
)

// String says it in words.
func (m Met) String() string { return [...]string{"not decided", "met", "not met"}[m] }

// claims works out what parts with a claim in power or torque gave, where it was claimed: in the mean over the range of the claim, or at the peak where it names none.
func claims(m *Moment) {
	for _, part := range m.Journal.Parts {
		table := part.Fields.Table("claim")
		if table == nil {
			continue
		}
		for _, key := range []string{"power", "torque"} {
			v := table.Value(key)
			if v == nil {
				continue
			}
			q, slip := v.Resolve(table.Get(key).Key.Want())
			stage := m.stageOf(part)
			if slip != nil || stage == nil || m.Entry != nil && stage.To.Entry != m.Entry || key == "torque" && (stage.From.Torque == nil || stage.To.Torque == nil) {
				continue
			}
			m.claim(&Claim{Part: part, Promised: q, At: v.At}, stage, key, table)
		}
	}
}

// stageOf returns the first stage in which a part went in; nil for none.
func (m *Moment) stageOf(part *model.Part) *Stage { return stageOf(m.stages, part) }

// StageOf returns the first stage in which a part went in; nil for none.
func (s *Sums) StageOf(part *model.Part) *Stage { return stageOf(s.Stages, part) }

func stageOf(stages []*Stage, part *model.Part) *Stage {
	i := slices.IndexFunc(stages, func(s *Stage) bool { return slices.Contains(s.In, part) })
	if i < 0 {
		return nil
	}
	return stages[i]
}

// claim adds what a part gave beside what was claimed for it.
func (m *Moment) claim(c *Claim, s *Stage, key string, table *parse.Fields) {
	d := quantity.Power
	peak := func(of *Session) *model.Value { return of.Pulls.Peak }
	if key == "torque" {
		d, peak = quantity.Torque, func(of *Session) *model.Value { return of.Pulls.Torque }
	}
	n := &Number{Path: "claim." + key + "." + c.Part.Name, Title: "gain in " + key + " where it is claimed, " + c.Part.Title, Formula: "gain = after − before",
		Inputs: append(s.to.inputs("after", peak(s.to)), s.from.inputs("before", peak(s.from))...), Unit: m.powerUnit(peak(s.to)), Claim: c}
	n.Estimate.Dimension = d
	over, ranged, reason := claimedRange(table)
	if ranged {
		n.Inputs = append(s.to.curveInputs("after", peak(s.to)), s.from.curveInputs("before", peak(s.from))...)
	}
	switch {
	case reason != "":
		n.Reason = reason
	case len(s.In) > 1:
		n.Reason = "it went in together with others, and pulls can't tell them apart"
	case ranged:
		n.Estimate, n.Reason = s.difference(func(of *Session) (quantity.Estimate, string) { return of.mean(over, d, n.Path) })
	default:
		n.Estimate, n.Reason = s.difference(func(of *Session) (quantity.Estimate, string) { return of.Corrected(peak(of)) })
	}
	if n.Reason == "" {
		c.Met = meets(c.Promised, n.Estimate)
		n.Words = fmt.Sprintf("%s; claimed %s: %s", gainWords(n), c.Promised.Shown(), c.Met)
	}
	m.add(n)
}

// claimedRange returns the engine speeds that a claim is for; false where it names none.
func claimedRange(table *parse.Fields) (over band, ranged bool, reason string) {
	from, to := table.Value("from"), table.Value("to")
	if from == nil && to == nil {
		return band{}, false, ""
	}
	if from == nil || to == nil {
		return band{}, false, "the claim names one end of its engine speeds"
	}
	low, high := figureOf(table, "from"), figureOf(table, "to")
	if low == nil || high == nil || !(high.SI() > low.SI()) {
		return band{}, false, "the engine speeds of the claim make no range"
	}
	return band{low.SI(), high.SI()}, true, ""
}

// meets says what a gain makes of a promise: its least figure is what counts.
func meets(promised quantity.Quantity, gain quantity.Estimate) Met {
	least := promised.SI()
	switch {
	case promised.Kind == quantity.Interval && promised.HasLow:
		least = promised.LowSI()
	case promised.Kind == quantity.Interval:
		least = 0 // "up to" promises nothing
	case promised.HasSpread:
		least -= promised.SpreadSI()
	}
	half := gain.Expanded()
	switch {
	case half <= 0:
		return Undecided
	case quantity.Compare(gain.Value-half, least, 0) >= 0:
		return IsMet
	case quantity.Compare(gain.Value+half, least, 0) < 0:
		return NotMet
	}
	return Undecided
}
