package model

import (
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// The moments of an entry, in order. What holds from the start has order 0.
const (
	momentPullsBefore = iota
	momentLogsBefore
	momentFound
	momentRemoved
	momentFitted
	momentSet
	momentDegreed
	momentPullsAfter
	momentLogsAfter
	moments
)

// orderOf returns the place in time of a moment of the entry that stands at an index.
func orderOf(index, moment int) int { return (index+1)*moments + moment }

// end is a moment after everything that happened.
func (j *Journal) end() int { return orderOf(len(j.Entries), moments) }

// EndOf returns the moment at which an entry ends; of one [Journal.AsFound], that at which it had read what it found.
func (j *Journal) EndOf(e *Entry) int {
	if e.before {
		return orderOf(e.Index, momentFound)
	}
	return orderOf(e.Index, momentLogsAfter)
}

// happening is what happens at a position at a moment.
type happening struct {
	order int
	kind  happeningKind
	value *Value
	part  *Part
}

type happeningKind uint8

const (
	isRead    happeningKind = iota // a reading, or the sheet's word: value
	goesStale                      // by part
	isBrought                      // a fitted part brings value
	isTaken                        // the part that brought value is taken out
)

// play lets everything happen in its order.
func (l *linker) play() {
	j := l.journal
	told := 0
	for _, e := range j.Entries {
		told += len(e.Found) + len(e.Set)
	}
	j.Values = make([]*Value, 0, told+64)
	for _, v := range l.sheetValues() {
		l.value(v)
	}
	l.asMade()
	l.fitUnclear = l.startUnclear()
	var meter *quantity.Quantity
	for _, e := range j.Entries {
		clear(l.told)
		l.undated(e)
		if e.Plan {
			l.plan(e)
			continue
		}
		l.fitUnclear = l.fitUnclear || l.leavesUnclear(e)
		if e.Meter == nil {
			e.MeterThen = meter
		} else {
			e.MeterThen, meter = e.Meter, e.Meter
		}
		e.Values = make([]*Value, 0, len(e.Found)+len(e.Set))
		l.bought(e)
		l.pulls(e, "before", momentPullsBefore)
		l.logs(e, "before", momentLogsBefore)
		l.readings(e, e.Found, Found, momentFound)
		l.remove(e)
		l.fitAll(e)
		l.expects(e)
		l.readings(e, e.Set, Set, momentSet)
		l.degreed(e)
		l.pulls(e, "after", momentPullsAfter)
		l.logs(e, "after", momentLogsAfter)
		l.accepts(e)
		e.FittedThen = slices.Clip(j.Fitted)
	}
}

// undated takes in what an entry measured of which nobody knows what it was, or when: it may be the last word.
func (l *linker) undated(e *Entry) {
	if !e.Date.IsZero() || e.Fields != nil {
		return
	}
	for _, r := range slices.Concat(e.Found, e.Set) {
		l.unread(r.Path, l.journal.end())
	}
}

func (l *linker) happen(position string, h happening) {
	p := l.journal.placeOf(position)
	p.track = append(p.track, h)
}

func (l *linker) expects(e *Entry) {
	for _, path := range e.Fields.Names("expects") {
		l.journal.Requests = append(l.journal.Requests, &Request{Path: path.Name, At: path.At, From: path.At, Entry: e, Order: orderOf(e.Index, momentPullsBefore)})
	}
}

func (l *linker) accepts(e *Entry) {
	for _, table := range e.Fields.Tables("accept") {
		finding := table.Name("finding")
		if finding.IsZero() || table.Text("why").IsZero() || table.IsBad("at") {
			continue
		}
		l.journal.Accepts = append(l.journal.Accepts, &Accept{Entry: e, Finding: finding, Path: table.Name("at").Name, PathAt: table.Name("at").At, Why: table.Text("why").Text, At: finding.At})
	}
}

// plan takes in an entry without a date: its values stand in it, and change nothing.
func (l *linker) plan(e *Entry) {
	for i, list := range [][]parse.Reading{e.Found, e.Set} {
		origin := []Origin{Found, Set}[i]
		for i := range list {
			if list[i].Unread {
				continue // a plan measures nothing, so nothing is lost with it
			}
			v := l.read(e, &list[i], origin, momentFound)
			if v == nil || !l.figures(v, l.governing(v.Path)) {
				continue
			}
			v.Unjudged, v.Counts = Planned, false
			l.distinct(v)
			e.Values = append(e.Values, v)
		}
	}
	slices.SortStableFunc(e.Values, func(a, b *Value) int { return int(a.pathAt[0] - b.pathAt[0]) })
	e.FittedThen = fittedAfter(l.journal.Fitted, partsOf(e.Fitted), partsOf(e.Removed))
}

// partsOf returns the parts that there are of those that an entry names.
func partsOf(refs []Ref) []*Part {
	var parts []*Part
	for _, ref := range refs {
		if ref.Part != nil {
			parts = append(parts, ref.Part)
		}
	}
	return parts
}

// fittedAfter returns what would be in if some parts went in now and others came out.
func fittedAfter(fitted, in, out []*Part) []*Part {
	after := slices.DeleteFunc(slices.Clone(fitted), func(p *Part) bool { return slices.Contains(out, p) })
	for _, part := range in {
		after = slices.DeleteFunc(after, func(p *Part) bool { return p == part || p.Slot != "" && p.Slot == part.Slot })
		after = append(after, part)
	}
	return slices.Clip(after)
}

// readings takes in the readings of one state of an entry.
func (l *linker) readings(e *Entry, list []parse.Reading, origin Origin, moment int) {
	for i := range list {
		v := l.read(e, &list[i], origin, moment)
		if v == nil {
			continue
		}
		if v.adapter() != nil || l.runs(v) != nil {
			l.adapted(v)
			continue
		}
		l.value(v)
	}
}

// happens puts a value into the history of its positions.
func (l *linker) happens(v *Value) {
	l.distinct(v)
	spot := l.spotOf(v.Path)
	v.spot = spot
	kind := isRead
	if v.Origin == FromPart {
		kind = isBrought
	}
	for _, p := range spot.places {
		p.values = append(p.values, v)
		if v.Counts {
			p.track = append(p.track, happening{order: v.Order, kind: kind, value: v, part: v.Part})
		}
	}
	v.Index = len(l.journal.Values)
	l.journal.Values = append(l.journal.Values, v)
	if v.Entry != nil {
		v.Entry.Values = append(v.Entry.Values, v)
	}
}
