package derive

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Stage is one step of the build whose gain in power can be told: from the session before it to its own.
type Stage struct {
	From, To *model.Pulls
	Parts    []*model.Part // that went in or came out between them
	Reason   string        // why the two can't be compared
}

// Path is where the stage's gain stands.
func (s *Stage) Path() string {
	path := "gain.stage." + dashed(s.To.Entry.Address())
	if s.To.State == "before" {
		path += "-before"
	}
	return path
}

// dashed makes one segment of a path out of an address.
func dashed(address string) string {
	out := []rune{}
	for _, r := range address {
		if r == '.' {
			r = '-'
		}
		out = append(out, r)
	}
	return string(out)
}

// Stages returns the steps of the build between sessions that measured power, up to a moment, in order of time: each from one session
// to the next between which parts were changed. Where none were, the later session only measures the same engine again, and the next
// step starts from it.
func Stages(j *model.Journal, entries []*model.Entry) []*Stage {
	var stages []*Stage
	var last *model.Pulls
	for _, e := range entries {
		for _, p := range sessions(e) {
			if last == nil {
				last = p
				continue
			}
			changed := changedBetween(j, last.Order, p.Order)
			if len(changed) > 0 || p.State == "after" && p.Entry != last.Entry || p.State != last.State && p.Entry == last.Entry {
				stages = append(stages, &Stage{From: last, To: p, Parts: changed, Reason: incomparable(j, last, p)})
			}
			last = p
		}
	}
	return stages
}

// sessions returns the sessions of an entry that measured power, those before its fitting first, and of several in one state the last.
func sessions(e *model.Entry) []*model.Pulls {
	var before, after *model.Pulls
	for _, p := range e.Pulls {
		switch {
		case p.Peak == nil:
		case p.State == "before":
			before = p
		default:
			after = p
		}
	}
	return slices.DeleteFunc([]*model.Pulls{before, after}, func(p *model.Pulls) bool { return p == nil })
}

// changedBetween returns the parts that went in or came out after one moment and before another.
func changedBetween(j *model.Journal, from, to int) []*model.Part {
	var parts []*model.Part
	for _, c := range j.Changes {
		if order := j.OrderOf(c); order <= from || order >= to || c.Kind == model.RemovesAbsent {
			continue
		}
		for _, part := range []*model.Part{c.Ref.Part, c.Displaced} {
			if part != nil && !slices.Contains(parts, part) {
				parts = append(parts, part)
			}
		}
	}
	return parts
}

// incomparable says why the figures of two sessions can't be subtracted; "" where they can.
func incomparable(j *model.Journal, a, b *model.Pulls) string {
	standard := j.Build.Fields.Table("power").Text("correct-to").Text
	switch {
	case a.Corrected != b.Corrected:
		return fmt.Sprintf("the two sessions are not corrected alike: %s before, %s after", named(a.Corrected), named(b.Corrected))
	case standard != "" && a.Corrected != "" && a.Corrected != fold(standard):
		return fmt.Sprintf("the figures carry %s; they are to be compared by %s", named(a.Corrected), standard)
	}
	return ""
}

func named(correction string) string {
	switch correction {
	case "":
		return "not said"
	case "none":
		return "no correction"
	}
	return strings.ToUpper(correction)
}

// title names the stage by the entry whose pulls end it.
func (s *Stage) title() string {
	title := "gain in peak power, " + s.To.Entry.Title
	if s.To.State == "before" {
		title += ", before its work"
	}
	return title
}

// stageGain works out what each stage gave at peak power.
func stageGain(m *Moment) {
	for _, s := range Stages(m.Journal, m.entries()) {
		n := &Number{Path: s.Path(), Title: s.title(), Formula: "gain = P_after − P_before", Reason: s.Reason,
			Inputs: []Input{{Symbol: "P_after", Value: s.To.Peak}, {Symbol: "P_before", Value: s.From.Peak}}}
		n.Estimate = gain(s)
		m.add(n)
	}
}

// gain subtracts the peaks of a stage's two sessions; causes that both share count once.
func gain(s *Stage) quantity.Estimate {
	return quantity.Combine(s.To.Peak.Estimate.Value-s.From.Peak.Estimate.Value, quantity.Power,
		quantity.Term{Partial: 1, Of: s.To.Peak.Estimate}, quantity.Term{Partial: -1, Of: s.From.Peak.Estimate})
}
