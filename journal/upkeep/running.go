package upkeep

import (
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Running tells how far parts have run, as the entries that are shown tell it.
type Running struct {
	reckoning *reckoning
	shows     func(*model.Entry) bool
}

// RunningOf reads the meters of a journal once, for all parts.
func RunningOf(j *model.Journal, shows func(*model.Entry) bool) *Running {
	return &Running{newReckoning(j, shows, j.Today), shows}
}

// Of returns how far a part has run by now: while it was in, since it was new, and before it came. It is false where the meter does not tell, or one
// of the entries that moved the part isn't shown.
func (r *Running) Of(p *model.Part) (quantity.Quantity, bool) {
	if r.reckoning.begun == nil || len(p.Stays) == 0 || slices.ContainsFunc(p.Stays, r.isHidden) {
		return quantity.Quantity{}, false
	}
	ran := r.reckoning.ranBefore(p)
	if last := p.Stays[len(p.Stays)-1]; last.To == nil {
		ran += r.reckoning.now - r.reckoning.clock.at(last.From)
	}
	return r.shown(ran)
}

// During returns how far the machine ran while a part was in that one time; it is false as [Running.Of] is.
func (r *Running) During(stay model.Stay) (quantity.Quantity, bool) {
	if r.reckoning.begun == nil || r.isHidden(stay) {
		return quantity.Quantity{}, false
	}
	until := r.reckoning.now
	if stay.To != nil {
		until = r.reckoning.clock.at(stay.To)
	}
	return r.shown(until - r.reckoning.clock.at(stay.From))
}

func (r *Running) isHidden(stay model.Stay) bool {
	return stay.From != nil && !r.shows(stay.From) || stay.To != nil && !r.shows(stay.To)
}

// shown is a distance or a time in SI, as the meter shows it.
func (r *Running) shown(ran float64) (quantity.Quantity, bool) {
	if r.reckoning.shown == nil || math.IsNaN(ran) {
		return quantity.Quantity{}, false
	}
	q := *r.reckoning.shown
	q.Value = r.reckoning.unit.FromSI(ran)
	return q, true
}
