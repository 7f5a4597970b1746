package render

import (
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// beside is a figure as it stands beside others of its path: a peak of pulls as it is compared, and what to say of that.
type beside struct {
	*model.Value
	by     string // what it is compared by, as in `by SAE J1349`; "" where the journal names nothing, or the figure is of no pulls
	asRead bool   // it ought to be reckoned to that, and can't be: it stands as it was read
}

// besideOthers returns a value as it stands beside others of its path; nil stays nil. What can't be reckoned, or only by an air that is not published, stands as it was read.
func (s *site) besideOthers(v *model.Value) beside {
	session := s.sums.SessionOf(v)
	if session == nil || !session.Named {
		return beside{Value: v}
	}
	factor, ok := session.Factor()
	switch {
	case !ok || session.IsReckoned() && slices.ContainsFunc(session.Pulls.Air.Values(), func(v *model.Value) bool { return !s.ShowsValue(v) }):
		return beside{Value: v, by: session.By(), asRead: true}
	case factor == 1:
		return beside{Value: v, by: session.By()}
	}
	reckoned := *v
	reckoned.Estimate, _ = session.Corrected(v)
	unit := v.Quantity.Unit
	reckoned.Quantity = quantity.Quantity{Kind: quantity.Figure, Unit: unit, Value: unit.FromSI(reckoned.Estimate.Value), Step: v.Quantity.Step}
	return beside{Value: &reckoned, by: session.By()}
}

// bothBeside returns two values of one path as they stand beside each other: as they were read, where one of them can't be reckoned to what the other is.
func (s *site) bothBeside(first, now *model.Value) (before, after beside) {
	before, after = s.besideOthers(first), s.besideOthers(now)
	if first == nil || now == nil || !before.asRead && !after.asRead && before.by == after.by {
		return before, after
	}
	return beside{Value: first, asRead: true}, beside{Value: now, asRead: true}
}

// words says what a figure is compared by, or that it stands as it was read.
func (b beside) words() string {
	if b.asRead {
		return "as read"
	}
	return b.by
}

// reachedBy reports whether a value reaches a goal, as it stands beside the first of its path.
func (s *site) reachedBy(goal model.Goal, v, first *model.Value) (reached, ok bool) {
	before, after := s.bothBeside(first, v)
	return goal.ReachedBy(after.Value, before.Value)
}
