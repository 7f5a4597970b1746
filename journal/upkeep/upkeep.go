// Package upkeep works out what has to be done again, and when: readings that a limit asks for at intervals, parts that run for so long, work that an
// entry wants to come back to, calibrations of tools.
//
// A linked journal goes in; items come out, each with how far it is. It hides the calendar, meters that were changed, and what counts as having
// been done. The one invariant: an item that can't be reckoned says why, and is never taken for one that is not due.
package upkeep

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Kind is what asks for an item.
type Kind uint8

// The kinds of item.
const (
	Reading     Kind = iota // a limit's `every`: read it again
	Renewal                 // a part's `every`: renew it
	Later                   // an entry's `[[later]]`
	Calibration             // a tool's `calibrate-every`
)

// State is how far an item is.
type State uint8

// The states, from the least to the most pressing. Soon is the last tenth of an interval, Overdue more than a tenth beyond it: common practice, no
// source.
const (
	Fine State = iota
	Unclear
	Soon
	Due
	Overdue
)

// String says a state as the site does.
func (s State) String() string { return [...]string{"not yet", "unclear", "soon", "due", "overdue"}[s] }

// Item is something to do again.
type Item struct {
	Kind  Kind
	Title string       // in the builder's words where he has any
	Path  string       // to be read, of a Reading and of a Later that names one; several are joined by a comma
	At    source.Range // where it is asked for
	Limit *model.Limit // of a Reading
	Part  *model.Part  // of a Renewal
	Tool  *model.Tool  // of a Calibration
	Entry *model.Entry // of a Later: the one that wants it

	Since   *model.Entry // when it was done last, or began to run; nil for the beginning of the journal
	Day     parse.Date   // of that; of a tool the day of its calibration
	Never   bool         // it was never done, so it is reckoned from the beginning
	Missing []string     // positions that were never read, where some were
	Spans   []Span       // the intervals, whichever is up first
	State   State
}

// Span is one interval of an item.
type Span struct {
	Every  quantity.Quantity // as written; no unit where a day was written
	Used   float64           // of it, in its own SI; of a calendar interval days
	Whole  float64           // all of it, in the same
	Meter  quantity.Quantity // what the meter will show when it is up, of one by the meter
	On     parse.Date        // the day on which it is up, of one by the calendar
	Reason string            // why it can't be reckoned; empty if it can
}

// Left returns what is left of the interval, in the SI of Used; less than nothing once it is up.
func (s Span) Left() float64 { return s.Whole - s.Used }

// state says how far an interval is.
func (s Span) state() State {
	switch share := s.Used / s.Whole; {
	case s.Reason != "":
		return Unclear
	case share > 1.1:
		return Overdue
	case share >= 1:
		return Due
	case share >= 0.9:
		return Soon
	}
	return Fine
}

// reckoning is the moment as of which things are due.
type reckoning struct {
	*model.Journal
	clock
	today parse.Date
	now   float64            // how far the machine has run
	shown *quantity.Quantity // what its meter shows
	begun *model.Entry

	metered []*model.Entry // that count and say what the meter showed
	items   []Item
}

// Of returns what there is to do again, the most pressing first, as of the journal's day. What rests on the absence of something that can't be
// read is left out. A journal without a dated entry has nothing to do.
func Of(j *model.Journal) []Item { return of(j, func(*model.Entry) bool { return true }, j.Today) }

// OfShown is Of as some of the entries tell it: what was last done in another is left out, and neither its day nor its meter counts.
func OfShown(j *model.Journal, shows func(*model.Entry) bool) []Item {
	today := j.Asked
	for _, e := range j.Entries {
		if shows(e) && !e.Plan && e.Date.CompareDay(today) > 0 {
			today = e.Date
		}
	}
	return slices.DeleteFunc(of(j, shows, today), func(item Item) bool {
		return item.Since != nil && !shows(item.Since) || item.Part != nil && slices.ContainsFunc(item.Part.Stays, func(stay model.Stay) bool {
			return stay.From != nil && !shows(stay.From) || stay.To != nil && !shows(stay.To)
		})
	})
}

func of(j *model.Journal, shows func(*model.Entry) bool, today parse.Date) []Item {
	r := newReckoning(j, shows, today)
	if r.begun == nil || j.IsWithheld("entries") {
		return nil
	}
	r.readings()
	r.renewals()
	r.laters()
	r.calibrations()
	slices.SortStableFunc(r.items, func(a, b Item) int {
		return cmp.Or(cmp.Compare(b.State, a.State), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Path, b.Path), cmp.Compare(a.Title, b.Title))
	})
	return r.items
}

func newReckoning(j *model.Journal, shows func(*model.Entry) bool, today parse.Date) *reckoning {
	r := &reckoning{Journal: j, clock: newClock(j, shows), today: today}
	for _, e := range j.Entries {
		if shows(e) && !e.Plan && !e.Date.IsZero() {
			if r.begun == nil {
				r.begun = e
			}
			r.now = r.clock.run[e.Index]
			if e.Meter != nil {
				r.shown = e.Meter
				r.metered = append(r.metered, e)
			}
		}
	}
	return r
}

// meterAt returns what the meter shows, or showed, when the machine has run so far (SI): by the meter that it had then.
func (r *reckoning) meterAt(run float64) quantity.Quantity {
	meter := *r.shown
	for _, e := range slices.Backward(r.metered) {
		meter = *e.Meter
		meter.Value += r.unit.FromSI(run - r.clock.run[e.Index])
		if r.clock.run[e.Index] <= run {
			break
		}
	}
	return meter
}

// readings are the limits in force that say how often. Where it can't be told what is fitted, those of parts, and those that a part's could stand over, are none.
func (r *reckoning) readings() {
	if r.IsWithheld("limits") {
		return
	}
	var asking []*model.Limit
	unclear := r.IsFitUnclear()
	for _, l := range r.Limits {
		if len(l.Fields.Values("every")) == 0 || l.Part != nil && (unclear || !l.Part.IsFitted()) {
			continue
		}
		if unclear && slices.ContainsFunc(r.Limits, func(other *model.Limit) bool {
			return other.Part != nil && (parse.IsAtOrBelow(other.Path, l.Path) || parse.IsAtOrBelow(l.Path, other.Path))
		}) {
			continue
		}
		asking = append(asking, l)
	}
	for _, l := range asking {
		var positions []string
		for _, position := range r.Positions.Below(l.Path) {
			if deepest(asking, position) == l {
				positions = append(positions, position)
			}
		}
		item := Item{Kind: Reading, Title: l.Title, Path: l.Path, Limit: l, At: l.Fields.Get("every").At}
		if len(positions) == 0 || !r.lastRead(&item, positions) {
			continue
		}
		r.add(item, l.Fields.Values("every"))
	}
}

// deepest returns the limit that speaks for a position: the deepest above it, a part's over the sheet's.
func deepest(limits []*model.Limit, position string) *model.Limit {
	var best *model.Limit
	for _, l := range limits {
		if !l.IsFor(position) {
			continue
		}
		if best == nil || depth(l) > depth(best) || depth(l) == depth(best) && l.Part != nil {
			best = l
		}
	}
	return best
}

// depth says how closely a limit looks at its positions; one for every cylinder less than one for a single cylinder.
func depth(l *model.Limit) int {
	segments := 2 * strings.Count(l.Path, ".")
	if l.EachCylinder {
		return segments - 1
	}
	return segments
}

// lastRead finds when the last of some positions was read: the one that waits longest. It is false where something there can't be read.
func (r *reckoning) lastRead(item *Item, positions []string) bool {
	var oldest *model.Value
	for _, position := range positions {
		if r.IsUnread(position) {
			return false
		}
		v := r.LastMeasured(position)
		if v == nil {
			item.Missing = append(item.Missing, position)
		} else if oldest == nil || v.Order < oldest.Order {
			oldest = v
		}
	}
	if oldest == nil {
		item.Since, item.Day, item.Never, item.Missing = r.begun, r.begun.Date, true, nil
		return true
	}
	item.Since, item.Day = oldest.Entry, oldest.Entry.Date
	return true
}

// fitsUnknown reports whether an entry fits, or takes out, a part that nobody knows: it may have been meant for one that is known, or taken its place.
func (r *reckoning) fitsUnknown() bool {
	isUnknown := func(ref model.Ref) bool { return ref.Part == nil }
	return slices.ContainsFunc(r.Entries, func(e *model.Entry) bool {
		return !e.Plan && (slices.ContainsFunc(e.Fitted, isUnknown) || slices.ContainsFunc(e.Removed, isUnknown))
	})
}

// renewals are the fitted parts that may run for so long.
func (r *reckoning) renewals() {
	if r.IsWithheld("parts") || r.IsFitUnclear() || r.fitsUnknown() {
		return
	}
	for _, p := range r.Parts {
		every := p.Fields.Values("every")
		if len(every) == 0 || !p.IsFitted() {
			continue
		}
		item := Item{Kind: Renewal, Title: p.Title, Part: p, At: p.Fields.Get("every").At, Since: p.Stays[len(p.Stays)-1].From}
		if item.Day = r.begun.Date; item.Since != nil {
			item.Day = item.Since.Date
		}
		r.add(item, every)
	}
}

// laters is the work that entries want to come back to and that nobody has done.
func (r *reckoning) laters() {
	for _, e := range r.Entries {
		if e.Plan || e.Date.IsZero() {
			continue
		}
		tables := e.Fields.Tables("later")
		for i := range tables {
			table := &tables[i]
			if table.IsBad("reading", "after", "on") {
				continue
			}
			var paths []string
			open := len(table.Names("reading")) == 0
			for _, path := range table.Names("reading") {
				paths = append(paths, path.Name)
				open = open || slices.ContainsFunc(r.Positions.Below(path.Name), func(position string) bool { return !r.IsReadAfter(position, e) })
			}
			if !open {
				continue
			}
			item := Item{Kind: Later, Title: table.Text("do").Text, Path: strings.Join(paths, ", "), Entry: e, At: table.Text("do").At, Since: e, Day: e.Date}
			if day := table.Get("on"); day != nil && len(day.Dates) > 0 {
				on := day.Dates[0]
				item.Spans = append(item.Spans, Span{On: on, Used: model.DaysBetween(e.Date, r.today), Whole: max(1, model.DaysBetween(e.Date, on))})
			}
			after := table.Values("after")
			if len(after)+len(item.Spans) == 0 {
				item.Spans = append(item.Spans, Span{Reason: "neither `after` nor `on` says when"})
			}
			r.add(item, after)
		}
	}
}

// calibrations are the tools that have to be calibrated at intervals.
func (r *reckoning) calibrations() {
	for _, t := range r.Tools {
		every := t.Fields.Values("calibrate-every")
		if len(every) == 0 || t.Fields.IsBad("calibrated") {
			continue
		}
		item := Item{Kind: Calibration, Title: t.Title, Tool: t, At: t.Fields.Get("calibrate-every").At, Day: r.begun.Date, Never: true}
		if f := t.Fields.Get("calibrated"); f != nil {
			for _, day := range f.Dates {
				if day.CompareDay(r.today) <= 0 && (item.Never || day.CompareDay(item.Day) > 0) {
					item.Day, item.Never = day, false
				}
			}
		}
		r.add(item, every)
	}
}

// add reckons an item's intervals and takes it in.
func (r *reckoning) add(item Item, every []parse.Value) {
	for i := range every {
		q, slip := every[i].Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Length, quantity.Duration, quantity.Calendar}, Bare: r.Meter})
		if slip != nil || q.Value <= 0 {
			continue // a finding says so
		}
		item.Spans = append(item.Spans, r.span(item, q))
	}
	if len(item.Spans) == 0 {
		return
	}
	unclear := true
	for _, s := range item.Spans {
		if s.Reason == "" {
			unclear = false
			item.State = max(item.State, s.state())
		}
	}
	if unclear {
		item.State = Unclear
	}
	r.items = append(r.items, item)
}

// span reckons one interval from when the item was done last.
func (r *reckoning) span(item Item, q quantity.Quantity) Span {
	s := Span{Every: q, Whole: q.SI()}
	switch {
	case q.Unit.IsCalendar():
		s.On = after(item.Day, q)
	case q.Unit.Dimension != r.unit.Dimension:
		s.Reason = fmt.Sprintf("the meter counts %s", r.unit.Symbol)
		return s
	}
	if !s.On.IsZero() {
		s.Used, s.Whole = model.DaysBetween(item.Day, r.today), max(1, model.DaysBetween(item.Day, s.On))
		return s
	}
	from := r.clock.at(item.Since)
	if item.Part != nil {
		from -= r.ranBefore(item.Part)
	}
	if math.IsNaN(from) || math.IsNaN(r.now) {
		s.Reason = "no entry says what the meter showed"
		return s
	}
	s.Used = r.now - from
	s.Meter = r.meterAt(from + s.Whole)
	return s
}

// ranBefore returns how far a part had run before it went in last: what it had when it came, and its earlier stays since it was new.
func (r *reckoning) ranBefore(p *model.Part) float64 {
	ran := 0.0
	for i := len(p.Stays) - 1; i >= 0; i-- {
		stay := p.Stays[i]
		if gone := r.clock.at(stay.To) - r.clock.at(stay.From); stay.To != nil && !math.IsNaN(gone) {
			ran += gone
		}
		if stay.Renewed {
			return ran // what was there before it was another
		}
	}
	if v := p.Fields.Value("meter"); v != nil {
		if q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{r.unit.Dimension}, Bare: r.unit}); slip == nil {
			ran += q.SI()
		}
	}
	return ran
}
