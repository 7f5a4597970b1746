package derive

import (
	"fmt"
	"slices"
	"sort"
	"strconv"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Stage is one step of the build whose gain in power can be told: from the session before it to its own.
type Stage struct {
	From, To *model.Pulls
	In, Out  []*model.Part // that went in, and that came out, between them
	Path     string        // where its gain stands
	Reason   string        // why the two can't be compared

	gain, total quantity.Estimate // at peak power: its own, and of all stages up to it
	untold      string            // why there is no total
	change      string            // which parts changed, to tell stages alike
}

// stages finds the steps of the build between sessions that measured power, in order of time: each from one session to the next between
// which parts were changed, or from an entry's pulls before its work to those after. Where nothing was changed the later session only
// measures the same engine again, and the next step starts from it.
func stages(j *model.Journal) []*Stage {
	var all []*Stage
	var last *model.Pulls
	named := map[string]int{}
	for _, e := range j.Entries {
		for _, p := range sessions(e) {
			if last == nil {
				last = p
				continue
			}
			in, out := changedBetween(j, last.Order, p.Order)
			if len(in)+len(out) > 0 || p.State == "after" && p.Entry != last.Entry || p.State != last.State && p.Entry == last.Entry {
				stage := &Stage{From: last, To: p, In: in, Out: out, Path: stagePath(p, named), Reason: incomparable(j, last, p)}
				stage.add(all)
				all = append(all, stage)
			}
			last = p
		}
	}
	return all
}

// add works out the gain of a stage, and what it makes of those before it. A session that ends one stage and begins the next cancels out, and
// so does its scatter.
func (s *Stage) add(before []*Stage) {
	s.change = s.changed("+", " for ", partName)
	s.gain = quantity.Combine(s.To.Peak.Estimate.Value-s.From.Peak.Estimate.Value, quantity.Power,
		quantity.Term{Partial: 1, Of: s.To.Peak.Estimate}, quantity.Term{Partial: -1, Of: s.From.Peak.Estimate})
	s.total, s.untold = s.gain, s.Reason
	if len(before) == 0 {
		return
	}
	last := before[len(before)-1]
	if last.untold != "" {
		s.untold = last.untold
	}
	s.total = quantity.Combine(last.total.Value+s.gain.Value, quantity.Power, quantity.Term{Partial: 1, Of: last.total}, quantity.Term{Partial: 1, Of: s.gain})
}

// stagePath is where a stage's gain stands. Addresses that differ in a dot alone make one segment: the later one is numbered.
func stagePath(to *model.Pulls, named map[string]int) string {
	path := "gain.stage." + strings.ReplaceAll(to.Entry.Address(), ".", "-")
	if to.State == "before" {
		path += "-before"
	}
	named[path]++
	if n := named[path]; n > 1 {
		path += "-no-" + strconv.Itoa(n)
	}
	return path
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

// changedBetween returns the parts that went in, and those that came out, after one moment and before another, each by name. A part that did
// both is in neither.
func changedBetween(j *model.Journal, from, to int) (in, out []*model.Part) {
	first := sort.Search(len(j.Changes), func(i int) bool { return j.OrderOf(j.Changes[i]) > from })
	for _, c := range j.Changes[first:] {
		if j.OrderOf(c) >= to {
			break
		}
		if c.Kind == model.RemovesAbsent {
			continue
		}
		if c.Kind == model.Fits || c.Kind == model.Renews {
			in = append(in, c.Ref.Part)
		} else {
			out = append(out, c.Ref.Part)
		}
		if c.Displaced != nil {
			out = append(out, c.Displaced)
		}
	}
	return without(in, out), without(out, in)
}

// without returns the parts of a list that are not in another, each once, by name.
func without(parts, others []*model.Part) []*model.Part {
	kept := slices.DeleteFunc(slices.Clone(parts), func(p *model.Part) bool { return slices.Contains(others, p) })
	slices.SortFunc(kept, func(a, b *model.Part) int { return strings.Compare(a.Name, b.Name) })
	return slices.Compact(kept)
}

// incomparable says why the figures of two sessions can't be subtracted; "" where they can.
func incomparable(j *model.Journal, a, b *model.Pulls) string {
	standard := j.Build.Fields.Table("power").Text("correct-to").Text
	switch {
	case a.Corrected != b.Corrected:
		return fmt.Sprintf("the two sessions are not corrected alike: %s before, %s after", named(a.Corrected), named(b.Corrected))
	case standard != "" && a.Corrected != "" && a.Corrected != model.FoldWords(standard):
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

// stageGain works out what each stage gave at peak power. As an entry left the engine only the newest are told: the others stand with theirs.
func stageGain(m *Moment) {
	told := m.stages
	if m.Entry != nil {
		told = told[max(0, len(told)-newestStages):]
	}
	for _, s := range told {
		n := &Number{Stage: s, Path: s.Path, Title: s.title(), Formula: "gain = P_after − P_before", Reason: s.Reason, Estimate: s.gain, Unit: m.unitOf(s),
			Inputs: []Input{{Symbol: "P_after", Value: s.To.Peak}, {Symbol: "P_before", Value: s.From.Peak}}}
		m.gains = append(m.gains, m.add(n))
	}
}

// newestStages is how many stages are told as an entry left the engine.
const newestStages = 6

// unitOf is the unit that a stage's gain is shown in: the builder's for power, else the one that its pulls were read in.
func (m *Moment) unitOf(s *Stage) *quantity.Unit {
	if lead := m.Journal.Units.Lead[quantity.Power]; lead != nil {
		return lead
	}
	return s.To.Peak.Quantity.Unit
}
