package derive

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
)

// Aside is a session that no stage begins or ends with, because it can't be compared with those beside it, between which nothing was changed.
type Aside struct {
	Pulls, Beside *model.Pulls
	Reason        string
	Unread        bool // because something of it can't be read, which has a finding
}

// stages finds the steps of the build between sessions that measured power, in order of time: each from one session to the next between
// which parts were changed, or from an entry's pulls before its work to those after. Where nothing was changed the later session only
// measures the same engine again, and the next step starts from it. Of sessions between which nothing was changed a stage takes two that can be compared, where there are such: of those before it the latest, of
// those after it the first. What is left over, and can't be compared, stands aside.
func stages(j *model.Journal, sessions map[*model.Pulls]*Session) (all []*Stage, aside []Aside) {
	var before, now []*model.Pulls // of one state of the engine each
	counts := map[*model.Pulls]bool{}
	end := func() {
		if len(before) == 0 || len(now) == 0 {
			return
		}
		from, to := comparablePair(before, now, sessions)
		counts[from], counts[to] = true, true
		stage := &Stage{From: from, To: to, Path: "gain.stage." + sessions[to].name}
		stage.In, stage.Out = j.ChangedBetween(from.Order, to.Order)
		stage.add(all, sessions[from], sessions[to])
		all = append(all, stage)
	}
	leave := func() {
		for _, p := range before {
			if a := leftOver(p, before, counts, sessions); a != nil {
				aside = append(aside, *a)
			}
		}
	}
	for _, e := range j.Entries {
		for _, p := range measured(e) {
			if len(now) > 0 && !isSameEngine(j, now, p, sessions) {
				end()
				leave()
				before, now = now, nil
			}
			now = append(now, p)
		}
	}
	end()
	leave()
	before = now
	leave()
	return all, aside
}

// leftOver returns why a session of one state of the engine is in no stage, which one beside it is that it can't be compared with; nil for one that merely measured the same again.
func leftOver(p *model.Pulls, state []*model.Pulls, counts map[*model.Pulls]bool, sessions map[*model.Pulls]*Session) *Aside {
	if counts[p] {
		return nil
	}
	for _, beside := range state {
		if !counts[beside] {
			continue
		}
		first, second := sessions[beside], sessions[p]
		if beside.Order > p.Order {
			first, second = second, first
		}
		if reason := WhyApart(first, second); reason != "" {
			return &Aside{p, beside, reason, sessions[beside].isUnread() || sessions[p].isUnread()}
		}
		return nil
	}
	return nil
}

// isSameEngine reports whether a session measured the engine of those before it again: nothing was changed between them. Pulls after the work of another entry end a stage by themselves, but for those that can't be
// compared and of an entry that neither fitted nor set anything: another dyno that was tried once is no step of the build.
func isSameEngine(j *model.Journal, earlier []*model.Pulls, p *model.Pulls, sessions map[*model.Pulls]*Session) bool {
	last := earlier[len(earlier)-1]
	in, out := j.ChangedBetween(last.Order, p.Order)
	switch {
	case len(in)+len(out) > 0, p.State != last.State && p.Entry == last.Entry:
		return false
	case p.State != "after" || p.Entry == last.Entry:
		return true
	}
	for _, e := range j.Entries[last.Entry.Index+1 : p.Entry.Index+1] {
		if len(e.Set) > 0 && !e.Plan {
			return false
		}
	}
	return !slices.ContainsFunc(earlier, func(q *model.Pulls) bool { return WhyApart(sessions[q], sessions[p]) == "" })
}

// comparablePair returns two sessions before and after a change that can be compared, the latest before it and the first after it; where there are none the two beside it.
func comparablePair(before, after []*model.Pulls, sessions map[*model.Pulls]*Session) (from, to *model.Pulls) {
	for _, to := range after {
		for _, from := range slices.Backward(before) {
			if WhyApart(sessions[from], sessions[to]) == "" {
				return from, to
			}
		}
	}
	return before[len(before)-1], after[0]
}

// WhyApart says why two sessions can't be compared, be it for what one of them lacks; "" where they can.
func WhyApart(a, b *Session) string {
	if reason := incomparable(a, b); reason != "" {
		return reason
	}
	for _, s := range []*Session{a, b} {
		if reason := s.lacks(); reason != "" {
			return reason
		}
	}
	return ""
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

// incomparable says why the figures of two sessions can't be subtracted; "" where they can. What only one of them says is not held against the other.
func incomparable(a, b *Session) string {
	p, q := a.Pulls, b.Pulls
	switch reason := otherFigures(a, b); {
	case reason != "":
		return reason
	case p.Dyno != nil && q.Dyno != nil && p.Dyno != q.Dyno:
		return "the two sessions were on two dynos"
	case p.Gear != 0 && q.Gear != 0 && p.Gear != q.Gear:
		return fmt.Sprintf("the two sessions were pulled in two gears: %d before, %d after", p.Gear, q.Gear)
	}
	return ""
}

// otherFigures says why the figures of two sessions are not of one kind, though each may be told beside its like; "" where they are.
func otherFigures(a, b *Session) string {
	p, q := a.Pulls, b.Pulls
	switch {
	case a.unknown == "" && b.unknown == "" && (a.silent != b.silent || !alike(a.To, b.To)):
		return fmt.Sprintf("the two sessions are not corrected alike: %s before, %s after; `correct-to` in `[power]` names one for both", carriedWords(a), carriedWords(b))
	case p.Where != "" && q.Where != "" && p.Where != q.Where:
		return fmt.Sprintf("the figures of one session count at the %s, those of the other at the %s", p.Where, q.Where)
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
