package derive

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

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

// stages finds the steps of the build between sessions that measured power, in order of time: each from one session to the next between
// which parts were changed, or from an entry's pulls before its work to those after. Where nothing was changed the later session only
// measures the same engine again, and the next step starts from it.
func stages(j *model.Journal, sessions map[*model.Pulls]*Session) []*Stage {
	var all []*Stage
	var last *model.Pulls
	for _, e := range j.Entries {
		for _, p := range measured(e) {
			if last == nil {
				last = p
				continue
			}
			in, out := changedBetween(j, last.Order, p.Order)
			if len(in)+len(out) > 0 || p.State == "after" && p.Entry != last.Entry || p.State != last.State && p.Entry == last.Entry {
				stage := &Stage{From: last, To: p, In: in, Out: out, Path: "gain.stage." + sessions[p].name}
				stage.add(all, sessions[last], sessions[p])
				all = append(all, stage)
			}
			last = p
		}
	}
	return all
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
	if last.untold != "" {
		s.untold = last.untold
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

// measured returns the sessions of an entry that measured power, those before its fitting first, and of several in one state the last.
func measured(e *model.Entry) []*model.Pulls {
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

// incomparable says why the figures of two sessions can't be subtracted; "" where they can. What only one of them says is not held against the other.
func incomparable(a, b *Session) string {
	p, q := a.Pulls, b.Pulls
	switch {
	case a.unknown == "" && b.unknown == "" && (a.silent != b.silent || !alike(a.To, b.To)):
		return fmt.Sprintf("the two sessions are not corrected alike: %s before, %s after; `correct-to` in `[power]` names one for both", carriedWords(a), carriedWords(b))
	case p.Dyno != nil && q.Dyno != nil && p.Dyno != q.Dyno:
		return "the two sessions were on two dynos"
	case p.Where != "" && q.Where != "" && p.Where != q.Where:
		return fmt.Sprintf("the figures of one session count at the %s, those of the other at the %s", p.Where, q.Where)
	case p.Gear != 0 && q.Gear != 0 && p.Gear != q.Gear:
		return fmt.Sprintf("the two sessions were pulled in two gears: %d before, %d after", p.Gear, q.Gear)
	}
	return ""
}

func carriedWords(s *Session) string {
	switch {
	case s.silent:
		return "not said"
	case s.Carried == calc.Uncorrected:
		return "no correction"
	}
	return s.Carried.String()
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
