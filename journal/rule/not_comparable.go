package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// measureAlike is what to do about sessions that can't be compared.
const measureAlike = "measure both alike: one dyno, one gear, one correction, in an air that is written down; or take the pulls that are comparable"

// notComparable reports sessions that lack what the others have, steps of the build whose pulls can't be compared with those before, and why, and sessions that stand aside from all steps. What can't be read was reported where it stands; what is of
// one session is told once, at it.
func notComparable(c *Context) {
	lacking := c.lackingSessions()
	var told []*derive.Stage
	stages := c.Sums.Stages
	for i, s := range stages {
		if s.Reason == "" || s.Unread || lacking[s.From] || lacking[s.To] {
			continue
		}
		if _, unknown := c.isGearUnknown(s.To); unknown {
			continue // that is to be mended first
		}
		if _, unknown := c.isGearUnknown(s.From); unknown {
			continue
		}
		if i > 0 && len(told) > 0 && told[len(told)-1] == stages[i-1] && c.isBetweenAlike(stages[i-1], s) {
			continue // told of the session between them
		}
		told = append(told, s)
		at, beside, note, what := s.To, s.From, "the pulls before", "what this step gave can't be told"
		if i == 0 && len(stages) > 1 && stages[1].Reason == "" && s.From.Dyno == s.To.Dyno && stages[1].From == s.To {
			at, beside, note, what = s.From, s.To, "the pulls after", "what the step after these pulls gave can't be told"
		}
		c.report(source.Finding{
			Severity: source.Warning, At: at.At, Subject: s.Path, Entry: at.Entry.Path,
			Message: fmt.Sprintf("%s: %s", what, s.Reason), Do: measureAlike,
			Notes: []source.Remark{{At: beside.At, Message: note}},
		}, at.Order)
	}
	c.tellAside(lacking, told)
}

// tellAside reports sessions that stand aside from all steps, but for those of which that was told already: what they lack, or that the ones between were measured otherwise.
func (c *Context) tellAside(lacking map[*model.Pulls]bool, told []*derive.Stage) {
	for _, a := range c.Sums.Aside {
		if a.Unread || lacking[a.Pulls] || lacking[a.Beside] || c.isBackAgain(a.Pulls, told) {
			continue
		}
		c.report(source.Finding{
			Severity: source.Note, At: a.Pulls.At, Subject: a.Pulls.Peak.Path, Entry: a.Pulls.Entry.Path,
			Message: fmt.Sprintf("this session stands aside from the steps of the build, which go past it: %s", a.Reason),
			Do:      "nothing need be done; measure both alike where a step is to begin or end here",
			Notes:   []source.Remark{{At: a.Beside.At, Message: "the pulls beside it"}},
		}, a.Pulls.Order)
	}
}

// isBetweenAlike reports whether the session that ends one stage and begins the next is the only one of the three that can't be compared.
func (c *Context) isBetweenAlike(s, next *derive.Stage) bool {
	return s.To == next.From && derive.WhyApart(c.Sums.Session(s.From), c.Sums.Session(next.To)) == ""
}

// isBackAgain reports whether a session can be compared with the one before the last step of which was told that it can't be.
func (c *Context) isBackAgain(p *model.Pulls, told []*derive.Stage) bool {
	for _, s := range slices.Backward(told) {
		if s.To.Order < p.Order {
			return derive.WhyApart(c.Sums.Session(s.From), c.Sums.Session(p)) == ""
		}
	}
	return false
}

// lackingSessions reports the sessions that lack what takes to compare them, each at what is to be written, and returns them all, those of which another finding tells as well. What most of them lack is told once.
func (c *Context) lackingSessions() map[*model.Pulls]bool {
	lacking := map[*model.Pulls]bool{}
	byReason := map[string][]*derive.Session{}
	var order []string
	all := 0
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			s := c.Sums.Session(p)
			if s == nil || p.Peak == nil || e.Plan {
				continue
			}
			all++
			if reason := s.Lacks(); reason != "" {
				lacking[p] = true
				if s.IsUnread() {
					continue
				}
				if byReason[reason] == nil {
					order = append(order, reason)
				}
				byReason[reason] = append(byReason[reason], s)
			}
		}
	}
	if all < 2 {
		return lacking
	}
	if silent := c.silentSession(); silent != nil {
		lacking[silent.Pulls] = true
		c.tellLacking(silent, "nothing says by what its figures are corrected, and all others on its dyno do", "")
	}
	for _, reason := range order {
		of := byReason[reason]
		if n := len(of) - 1; n > 0 && 2*len(of) > all {
			c.tellLacking(of[0], reason, "; so it is in "+quantity.Counted(n, "session")+" more")
			continue
		}
		for _, s := range of {
			c.tellLacking(s, reason, "")
		}
	}
	return lacking
}

// tellLacking reports one session that lacks something.
func (c *Context) tellLacking(s *derive.Session, reason, more string) {
	p := s.Pulls
	f := source.Finding{Severity: source.Warning, At: p.At, Subject: p.Peak.Path, Entry: p.Entry.Path, Message: fmt.Sprintf("these pulls can't be put beside the others: %s%s", reason, more), Do: "write down the air of the session: temperature, pressure at the place, and humidity or dew point"}
	switch {
	case s.IsSilent():
		f.Do = "write `corrected`: the standard that the dyno's sheet names, or `none`"
	case p.Air != nil:
		f.At = p.Air.At
	}
	c.report(f, p.Order)
}

// silentSession returns the one session of a dyno of which nothing says by what it is corrected, where nothing names what to compare by; nil for none, and where there are several.
func (c *Context) silentSession() *derive.Session {
	var silent *derive.Session
	carried := map[*model.Tool]int{}
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			s := c.Sums.Session(p)
			switch {
			case s == nil || p.Peak == nil || e.Plan || s.Lacks() != "" || s.IsUnread():
			case !s.IsSilent():
				carried[p.Dyno]++
			case silent != nil:
				return nil
			default:
				silent = s
			}
		}
	}
	if silent == nil || carried[silent.Pulls.Dyno] < leastDays {
		return nil
	}
	return silent
}
