package model

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// The moments of an entry, in order. What holds from the start has order 0.
const (
	momentPullsBefore = iota
	momentFound
	momentRemoved
	momentFitted
	momentSet
	momentPullsAfter
	moments
)

// orderOf returns the place in time of a moment of the entry that stands at an index.
func orderOf(index, moment int) int { return (index+1)*moments + moment }

// end is a moment after everything that happened.
func (j *Journal) end() int { return orderOf(len(j.Entries), moments) }

// EndOf returns the moment at which an entry ends.
func (j *Journal) EndOf(e *Entry) int { return orderOf(e.Index, momentPullsAfter) }

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

// Change is a part that goes in or comes out in an entry.
type Change struct {
	Entry     *Entry
	Ref       Ref
	Kind      ChangeKind
	Displaced *Part // what the fitting took out of the slot
	Other     *Part // fitted into the same slot by the same entry
}

// ChangeKind says what happened to a part, and whether that can be.
type ChangeKind uint8

// The kinds of change.
const (
	Fits            ChangeKind = iota + 1
	Renews                     // fitted though it was in: a new one of its kind
	Removes                    //
	RemovesUnlisted            // never fitted or bought: the machine came with it, but no list says so
	RemovesAbsent              // not in
)

// gather finds the positions and reads the CSV files that hold readings.
func (l *linker) gather() {
	j := l.journal
	paths := map[string]bool{}
	for _, limit := range j.Limits {
		if limit.governs() {
			paths[limit.Path] = true
		}
	}
	for _, part := range j.Parts {
		for _, r := range part.Brings {
			paths[r.Path] = true
		}
		for _, path := range part.Fields.Names("then") {
			paths[path.Name] = true
		}
	}
	for _, e := range j.Entries {
		l.readingFiles(e)
		if e.Plan {
			continue
		}
		for _, path := range e.Fields.Names("expects") {
			paths[path.Name] = true
		}
		for _, list := range [][]parse.Reading{e.Found, e.Set} {
			for _, r := range list {
				paths[r.Path] = true
			}
		}
	}
	for _, v := range l.sheetValues() {
		paths[v.Path] = true
	}
	j.Positions = newPositions(paths, j.Cylinders)
}

// readingFiles adds the readings of an entry's CSV files to those in its text.
func (l *linker) readingFiles(e *Entry) {
	for _, table := range e.Fields.Tables("readings") {
		file := l.data(table.Text("data"))
		if file == nil {
			continue
		}
		readings, findings := file.Readings()
		for _, f := range findings {
			f.Entry = e.Path
			l.findings = append(l.findings, f)
		}
		for _, r := range readings {
			into := &e.Found
			if r.State == "set" {
				into = &e.Set
			}
			if first := readingAt(*into, r.Path); first != nil {
				l.report("defined-twice", source.Error, r.PathAt, r.Path, fmt.Sprintf("`%s` is read twice in this entry", r.Path), "keep one of the two", source.Remark{At: first.PathAt, Message: "the first one"})
				l.findings[len(l.findings)-1].Entry = e.Path
				continue
			}
			if other := readingAcross(*into, r.Path); other != nil {
				l.report("value-and-deeper", source.Error, r.PathAt, r.Path, fmt.Sprintf("`%s` and `%s` both hold a value, one below the other: which of them speaks for it can't be told", other.Path, r.Path), "write each position out",
					source.Remark{At: other.PathAt, Message: "the other one"})
				l.findings[len(l.findings)-1].Entry = e.Path
			}
			*into = append(*into, r)
		}
	}
}

func readingAt(readings []parse.Reading, path string) *parse.Reading {
	for i := range readings {
		if readings[i].Path == path {
			return &readings[i]
		}
	}
	return nil
}

// readingAcross returns a reading of which one stands above the other.
func readingAcross(readings []parse.Reading, path string) *parse.Reading {
	for i := range readings {
		if other := readings[i].Path; isAtOrBelow(path, other) || isAtOrBelow(other, path) {
			return &readings[i]
		}
	}
	return nil
}

// data returns the CSV file that a text names, and reports one that isn't there.
func (l *linker) data(name parse.Text) *parse.CSV {
	if name.IsZero() {
		return nil
	}
	file, there := l.sources.Data[name.Text]
	if slashed := forwardSlashes(name.At.Text()); !there && slashed != "" {
		l.report("backslash", source.Error, name.At, name.Text, "a backslash in a path is an escape, and only one kind of computer reads it", "write `/` between folders")
		l.findings[len(l.findings)-1].Fixes = []source.Fix{source.Replace("write "+slashed, name.At, slashed)}
		return nil
	}
	if !there {
		near := source.Nearest(name.Text, sortedKeys(l.sources.Data))
		do := "files stand in `data/` and are named from the journal's folder: `data/p7.csv`"
		var fixes []source.Fix
		if near != "" {
			do, fixes = fmt.Sprintf("did you mean `%s`?", near), []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), name.At, `"`+near+`"`)}
		}
		l.report("missing-file", source.Error, name.At, name.Text, fmt.Sprintf("there is no file `%s`", name.Text), do)
		l.findings[len(l.findings)-1].Fixes = fixes
	}
	return file
}

// forwardSlashes returns a quoted path with `/` for `\`, "" where it has none.
func forwardSlashes(quoted string) string {
	if !strings.Contains(quoted, `\`) {
		return ""
	}
	return strings.ReplaceAll(strings.ReplaceAll(quoted, `\\`, "/"), `\`, "/")
}

// play lets everything happen in its order.
func (l *linker) play() {
	j := l.journal
	for _, v := range l.sheetValues() {
		l.value(v, nil)
	}
	l.asMade()
	var meter *quantity.Quantity
	for _, e := range j.Entries {
		if e.Plan {
			l.plan(e)
			continue
		}
		if e.Meter == nil {
			e.MeterThen = meter
		} else {
			e.MeterThen, meter = e.Meter, e.Meter
		}
		l.bought(e)
		l.pulls(e, "before", momentPullsBefore)
		l.readings(e, e.Found, Found, momentFound)
		l.remove(e)
		l.fitAll(e)
		l.expects(e)
		l.readings(e, e.Set, Set, momentSet)
		l.pulls(e, "after", momentPullsAfter)
		l.accepts(e)
		e.FittedThen = slices.Clone(j.Fitted)
	}
}

// asMade fits what the machine came with. A slot holds one part, and a part is in once.
func (l *linker) asMade() {
	bySlot := map[string]*Part{}
	for _, name := range l.sources.Build.Fields.Names("fitted") {
		part := l.journal.parts[name.Name]
		if part == nil || l.isListedTwice(name, part.AsMade) {
			continue
		}
		if other := bySlot[part.Slot]; other != nil && part.Slot != "" {
			l.report("slot-twice", source.Error, name.At, part.Name, fmt.Sprintf("`%s` and `%s` go into one slot, `%s`", other.Name, part.Name, part.Slot), "a slot holds one part: leave out the one that the machine did not come with")
			continue
		}
		bySlot[part.Slot] = part
		part.AsMade = true
		l.fit(part, nil, 0)
	}
}

// isListedTwice reports a part that one list of parts fitted names again.
func (l *linker) isListedTwice(name parse.Name, again bool) bool {
	if again {
		l.report("defined-twice", source.Error, name.At, name.Name, fmt.Sprintf("`%s` is listed twice", name.Typed), "list each part once")
	}
	return again
}

// sheetValues returns the values of the build sheet, at their paths.
func (l *linker) sheetValues() []*Value {
	var values []*Value
	for _, name := range []string{"engine", "drive"} {
		l.sheetTable(name, l.sources.Build.Fields.Table(name), &values)
	}
	return values
}

func (l *linker) sheetTable(prefix string, fields *parse.Fields, values *[]*Value) {
	if fields == nil {
		return
	}
	for _, name := range fields.Bad {
		l.journal.unread[prefix+"."+name] = []int{0}
	}
	for _, f := range fields.List {
		path := prefix + "." + f.Key.Name
		if f.Table != nil {
			l.sheetTable(path, f.Table, values)
			continue
		}
		if _, ok := parse.SheetPaths()[path]; !ok || len(f.Figures) != 1 {
			continue
		}
		v := &Value{Path: path, Spelled: path, Origin: FromSheet, Written: &f.Figures[0], At: f.Figures[0].At, PathAt: f.KeyAt, Counts: true}
		v.ID = "build/sheet/" + path
		*values = append(*values, v)
	}
}

func (l *linker) bought(e *Entry) {
	for _, ref := range e.Bought {
		if ref.Part != nil && ref.Part.Bought == nil {
			ref.Part.Bought = e
		}
	}
}

func (l *linker) remove(e *Entry) {
	order := orderOf(e.Index, momentRemoved)
	for _, ref := range e.Removed {
		part := ref.Part
		if part == nil {
			continue
		}
		change := Change{Entry: e, Ref: ref, Kind: Removes}
		switch {
		case part.IsFitted():
			l.takeOut(part, e, order)
		case l.cameAlong(part, e):
			change.Kind = RemovesUnlisted
			part.Stays = append(part.Stays, Stay{To: e})
		default:
			change.Kind = RemovesAbsent
		}
		l.journal.Changes = append(l.journal.Changes, change)
	}
}

// cameAlong reports whether a part that was never fitted or bought may have been in from the start: its slot is free, and the entry that
// takes it out does not fit it.
func (l *linker) cameAlong(part *Part, e *Entry) bool {
	if len(part.Stays) > 0 || part.Bought != nil || slices.ContainsFunc(e.Fitted, func(r Ref) bool { return r.Part == part }) {
		return false
	}
	return part.Slot == "" || !slices.ContainsFunc(l.journal.Parts, func(p *Part) bool { return p.Slot == part.Slot && len(p.Stays) > 0 })
}

func (l *linker) fitAll(e *Entry) {
	order := orderOf(e.Index, momentFitted)
	bySlot, fitted := map[string]*Part{}, map[*Part]bool{}
	for _, ref := range e.Fitted {
		part := ref.Part
		if part == nil || l.isListedTwice(ref.Name, fitted[part]) {
			continue
		}
		fitted[part] = true
		change := Change{Entry: e, Ref: ref, Kind: Fits}
		if part.IsFitted() {
			change.Kind = Renews
			l.takeOut(part, e, order)
		}
		if part.Slot != "" {
			change.Other = bySlot[part.Slot]
			bySlot[part.Slot] = part
			for _, other := range slices.Clone(l.journal.Fitted) {
				if other.Slot == part.Slot {
					change.Displaced = other
					l.takeOut(other, e, order)
				}
			}
		}
		l.fit(part, e, order)
		l.journal.Changes = append(l.journal.Changes, change)
	}
}

// fit puts a part in: what it brings holds from now on, and what must be read again is stale.
func (l *linker) fit(part *Part, e *Entry, order int) {
	j := l.journal
	part.Stays = append(part.Stays, Stay{From: e})
	j.Fitted = append(j.Fitted, part)
	if e != nil {
		for _, path := range part.Fields.Names("then") {
			for _, position := range j.Positions.Below(path.Name) {
				l.happen(position, happening{order: order, kind: goesStale, part: part})
			}
			j.Requests = append(j.Requests, &Request{Path: path.Name, At: refAt(e, part), From: path.At, Entry: e, Part: part, Order: order})
		}
	}
	for i := range part.Brings {
		r := &part.Brings[i]
		if r.Unread {
			l.unread(r.Path, order)
			continue
		}
		if r.Value.IsBlank() {
			continue
		}
		v := &Value{Path: r.Path, Spelled: r.Spelled, Origin: FromPart, Entry: e, Part: part, Order: order, Written: &r.Value, At: r.Value.At, PathAt: r.PathAt, Counts: true}
		v.ID = v.Holder() + "/part:" + part.Name + "/" + r.Path
		l.value(v, j.Fitted)
	}
}

func refAt(e *Entry, part *Part) source.Range {
	for _, ref := range e.Fitted {
		if ref.Part == part {
			return ref.At
		}
	}
	return e.Fence
}

func (l *linker) takeOut(part *Part, e *Entry, order int) {
	j := l.journal
	part.Stays[len(part.Stays)-1].To = e
	j.Fitted = slices.DeleteFunc(slices.Clone(j.Fitted), func(p *Part) bool { return p == part })
	for _, r := range part.Brings {
		for _, position := range j.Positions.Below(r.Path) {
			for _, h := range l.tracks[position] {
				if h.kind == isBrought && h.part == part {
					l.happen(position, happening{order: order, kind: isTaken, value: h.value, part: part})
				}
			}
		}
	}
	j.Requests = slices.DeleteFunc(j.Requests, func(r *Request) bool { return r.Part == part })
}

func (l *linker) happen(position string, h happening) {
	l.tracks[position] = append(l.tracks[position], h)
}

func (l *linker) expects(e *Entry) {
	for _, path := range e.Fields.Names("expects") {
		l.journal.Requests = append(l.journal.Requests, &Request{Path: path.Name, At: path.At, From: path.At, Entry: e, Order: orderOf(e.Index, momentPullsBefore)})
	}
}

func (l *linker) accepts(e *Entry) {
	for _, table := range e.Fields.Tables("accept") {
		finding := table.Name("finding")
		if finding.IsZero() || table.IsBad("at", "finding", "why") {
			continue
		}
		l.journal.Accepts = append(l.journal.Accepts, &Accept{Entry: e, Finding: finding, Path: table.Name("at").Name, Why: table.Text("why").Text, At: finding.At})
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
			if v == nil || !l.figures(v, l.journal.governing(v.Path, l.journal.Fitted)) {
				continue
			}
			v.Unjudged, v.Counts = "planned", false
			v.ID = l.distinct(v.ID)
			e.Values = append(e.Values, v)
		}
	}
	slices.SortStableFunc(e.Values, func(a, b *Value) int { return a.PathAt.Start - b.PathAt.Start })
	e.FittedThen = slices.Clone(l.journal.Fitted)
}

// readings takes in the readings of one state of an entry.
func (l *linker) readings(e *Entry, list []parse.Reading, origin Origin, moment int) {
	for i := range list {
		v := l.read(e, &list[i], origin, moment)
		if v == nil {
			continue
		}
		if v.Written.Details != nil && v.Written.Details.Adapter != nil {
			l.adapted(v)
			continue
		}
		l.value(v, l.journal.Fitted)
	}
}

// read makes the value of a reading; nil where nothing was measured, or nothing that can be read.
func (l *linker) read(e *Entry, r *parse.Reading, origin Origin, moment int) *Value {
	if r.Unread {
		l.unread(r.Path, orderOf(e.Index, moment))
		return nil
	}
	if r.Value.IsBlank() {
		return nil
	}
	v := &Value{Path: r.Path, Spelled: r.Spelled, Origin: origin, Entry: e, Order: orderOf(e.Index, moment), Written: &r.Value, At: r.Value.At, PathAt: r.PathAt, Counts: !e.Plan}
	v.ID = e.Path + "/" + string(origin) + "/" + r.Path
	v.Temp = e.EngineTemp
	with := r.With
	if details := r.Value.Details; details != nil {
		with = details.With
		if details.EngineTemp != nil {
			if q, slip := details.EngineTemp.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Temperature}}); slip == nil {
				v.Temp = &q
			}
		}
	}
	if !with.IsZero() {
		v.Tool = l.journal.tools[with.Name]
	} else {
		v.Tool = e.toolFor(v.Path)
	}
	return v
}

// unread notes that something was measured at a path that can't be read: nothing is concluded from its absence.
func (l *linker) unread(path string, order int) {
	for _, position := range l.journal.Positions.Below(path) {
		l.journal.unread[position] = append(l.journal.unread[position], order)
	}
}

// IsUnread reports whether something that can't be read was measured at a path.
func (j *Journal) IsUnread(path string) bool {
	return slices.ContainsFunc(j.Positions.Below(path), func(position string) bool { return j.isUnread(position, 0) })
}

// isUnread reports whether something that can't be read was measured at a position at a moment, or later.
func (j *Journal) isUnread(position string, order int) bool {
	return j.isUnreadBetween(position, order, j.end())
}

// isUnreadBetween reports whether something that can't be read was measured at a position between two moments, or at one of them.
func (j *Journal) isUnreadBetween(position string, from, to int) bool {
	return slices.ContainsFunc(j.unread[position], func(order int) bool { return from <= order && order <= to })
}

// toolFor returns the one of an entry's tools that is for a path; nil where none is, or several are.
func (e *Entry) toolFor(path string) *Tool {
	var tool *Tool
	for _, ref := range e.With {
		if ref.Tool == nil || !ref.Tool.reads(path) {
			continue
		}
		if tool != nil && tool != ref.Tool {
			return nil
		}
		tool = ref.Tool
	}
	return tool
}

// value resolves a value, judges it by the limits of its moment, and lets it happen at its positions.
func (l *linker) value(v *Value, fitted []*Part) {
	limits := l.journal.governing(v.Path, fitted)
	if !l.figures(v, limits) {
		l.unread(v.Path, v.Order)
		return
	}
	if l.isUnclear(v, limits) {
		v.Unjudged, v.Counts = "unclear", false
		l.unread(v.Path, v.Order)
	}
	v.judgeIn(limits)
	v.estimate()
	l.happens(v)
}

// isUnclear reports whether it can't be told what holds for a value, because something that decides it can't be read: the temperature
// that its limit asks for, or which parts, with limits of their own there, are in.
func (l *linker) isUnclear(v *Value, limits []*Limit) bool {
	if v.Entry == nil {
		return false
	}
	if v.Temp == nil && v.Entry.Fields.IsBad("engine-temp") && slices.ContainsFunc(limits, func(limit *Limit) bool { return limit.When != nil }) {
		return true
	}
	limited := l.journal.IsWithheld("parts") || slices.ContainsFunc(l.journal.Parts, func(p *Part) bool { return p.limits.deepest(v.Path) != nil })
	return limited && l.isFitUnclear(v.Entry)
}

// isFitUnclear reports whether it can't be told what is in at an entry.
func (l *linker) isFitUnclear(e *Entry) bool {
	j := l.journal
	if j.Build.Fields == nil || j.Build.Fields.IsBad("fitted") || slices.ContainsFunc(j.Parts, func(p *Part) bool { return p.Fields.IsBad("slot") }) {
		return true
	}
	isUnknown := func(name parse.Name) bool { return j.IsWithheld("parts") && j.parts[name.Name] == nil }
	return slices.ContainsFunc(j.Build.Fields.Names("fitted"), isUnknown) || slices.ContainsFunc(j.Entries[:e.Index+1], func(e *Entry) bool {
		return e.Fields == nil || e.Fields.IsBad("fitted", "removed") || slices.ContainsFunc(e.Fields.Names("fitted"), isUnknown)
	})
}

// happens puts a value into the history of its positions.
func (l *linker) happens(v *Value) {
	v.ID = l.distinct(v.ID)
	v.Positions = l.journal.Positions.Below(v.Path)
	kind := isRead
	if v.Origin == FromPart {
		kind = isBrought
	}
	for _, position := range v.Positions {
		l.journal.history[position] = append(l.journal.history[position], v)
		if v.Counts {
			l.happen(position, happening{order: v.Order, kind: kind, value: v, part: v.Part})
		}
	}
	l.journal.Values = append(l.journal.Values, v)
	if v.Entry != nil {
		v.Entry.Values = append(v.Entry.Values, v)
	}
}

// distinct numbers an identity that another value has already: the text that makes two values of one name is reported elsewhere.
func (l *linker) distinct(id string) string {
	l.ids[id]++
	if n := l.ids[id]; n > 1 {
		return l.distinct(id + "~" + strconv.Itoa(n))
	}
	return id
}

// figures resolves the figures of a value, and reports what can't be.
func (l *linker) figures(v *Value, limits []*Limit) bool {
	if v.Written.IsWords() {
		return l.words(v, limits)
	}
	repeats := len(v.Written.Repeats) > 0
	pattern := parse.FindPattern(v.Path)
	if pattern != nil && pattern.Words || len(limits) > 0 && len(limits[0].Expect) > 0 {
		v.Words = v.Written.Written.Text
		if repeats {
			l.report("bad-quantity", source.Error, v.At, v.Path, fmt.Sprintf("`%s` holds %d figures; it wants words", v.Path, len(v.Written.Repeats)), "write what it is, in words")
		}
		return !repeats
	}
	for _, f := range v.Written.Figures() {
		if f.Written.Kind == quantity.Steps {
			if repeats {
				l.report("bad-quantity", source.Error, f.At, v.Path, fmt.Sprintf("`%s` is several steps; a list holds repeats of one measurement", f.Written.Text), "write the last step alone, or the steps without the list")
				return false
			}
			return l.stepped(v, &f)
		}
		q, ok := l.figure(v, &f, limits)
		if !ok {
			return false
		}
		v.Quantity = q
		if repeats {
			v.Repeats = append(v.Repeats, q)
		}
	}
	return !repeats || l.mean(v)
}

// mean puts the mean of the repeats in the place of the value. What they may all be off by together, their widest spread, it keeps.
func (l *linker) mean(v *Value) bool {
	sum, widest, first := 0.0, 0.0, v.Repeats[0]
	step := first.StepSI()
	for _, q := range v.Repeats {
		if q.Unit.Dimension != first.Unit.Dimension {
			l.report("wrong-dimension", source.Error, v.At, v.Path, fmt.Sprintf("the repeats at `%s` are of two dimensions: %s and %s", v.Path, first.Unit.Dimension, q.Unit.Dimension), "a list holds repeats of one measurement")
			return false
		}
		in, ok := q.In(first.Unit)
		if !ok {
			l.report("wrong-dimension", source.Error, v.At, v.Path, fmt.Sprintf("the repeats at `%s` can't be brought to one unit", v.Path), "write them in one unit")
			return false
		}
		if q.Kind == quantity.Interval && !(q.HasLow && q.HasHigh) {
			l.report("bad-quantity", source.Error, v.At, v.Path, fmt.Sprintf("`%s` has no other end, so the repeats at `%s` have no mean", q.Text, v.Path), "write both ends, or the reading that decides alone")
			return false
		}
		sum += in.Value
		step = min(step, q.StepSI())
		if q.HasSpread {
			widest = max(widest, q.SpreadSI())
		}
	}
	mean := first
	mean.Kind, mean.Value, mean.HasLow, mean.HasHigh = quantity.Figure, sum/float64(len(v.Repeats)), false, false
	mean.HasSpread, mean.Spread = widest > 0, first.Unit.StepFromSI(widest, mean.Value)
	mean.Step = first.Step * step / first.StepSI() / 10
	v.Quantity = mean
	return true
}

// figure resolves one figure: the path decides what it measures, else its limit, of several the first that it fits. On a free path below
// a limit of another dimension it is read for what it says.
func (l *linker) figure(v *Value, written *parse.Value, limits []*Limit) (quantity.Quantity, bool) {
	var limit *Limit
	if len(limits) > 0 {
		limit = limits[0]
	}
	want := l.journal.want(v.Path, limit, written.Written)
	q, slip := written.Resolve(want)
	for i := 1; i < len(limits) && slip != nil && slip.Kind == "wrong-dimension"; i++ {
		if other, is := written.Resolve(l.journal.want(v.Path, limits[i], written.Written)); is == nil {
			return other, true
		}
	}
	if slip == nil && (len(want.Dimensions) == 0 || slices.Contains(want.Dimensions, q.Unit.Dimension)) {
		return q, true
	}
	if slip == nil {
		slip = &quantity.Slip{Kind: "wrong-dimension", End: len(written.Written.Text), Message: fmt.Sprintf("the column is in %s, a unit of %s", q.Unit.Symbol, q.Unit.Dimension), Do: "write the unit in the cell, or in the column's head"}
	}
	pattern := parse.FindPattern(v.Path)
	free := pattern == nil || len(pattern.Dimensions) == 0
	if free && slip.Kind == "wrong-dimension" && limit != nil && limit.Path != v.Path {
		if q, other := written.Resolve(l.journal.want(v.Path, nil, written.Written)); other == nil {
			v.Unjudged = "other dimension"
			return q, true
		}
	}
	l.unreadable(v, written, slip)
	if slip.Kind == "wrong-dimension" && limit != nil {
		last := &l.findings[len(l.findings)-1]
		last.Notes = append(last.Notes, source.Remark{At: limit.PathAt, Message: "limit"})
	}
	return q, false
}

// unreadable reports a figure of a value that can't be read.
func (l *linker) unreadable(v *Value, written *parse.Value, slip *quantity.Slip) {
	finding := written.Finding(slip, v.Path)
	finding.Origin = string(v.Origin)
	if v.Entry != nil {
		finding.Entry = v.Entry.Path
	}
	l.findings = append(l.findings, finding)
}

// stepped takes a reading written step by step.
func (l *linker) stepped(v *Value, written *parse.Value) bool {
	for _, step := range written.Written.Steps {
		q, slip := step.Resolve(l.journal.want(v.Path, nil, step))
		if slip != nil {
			l.unreadable(v, written, slip)
			return false
		}
		v.Quantity = q
		v.Steps = append(v.Steps, q)
	}
	v.Steps = v.Steps[:len(v.Steps)-1]
	return true
}

// words takes a value that is words: where the limit has figures it says that nothing was measured.
func (l *linker) words(v *Value, limits []*Limit) bool {
	v.Words = v.Written.Written.Text
	pattern := parse.FindPattern(v.Path)
	switch {
	case slices.ContainsFunc(limits, (*Limit).IsFigures):
		v.Counts, v.Unjudged = false, "words"
	case pattern != nil && len(pattern.Dimensions) > 0 && !v.isWordsByDetail():
		v.Counts, v.Unjudged = false, "words"
	}
	return true
}

func (v *Value) isWordsByDetail() bool { return v.Written.Details != nil }

// judgeIn judges the value, unless it was taken in a state in which its limit does not count.
func (v *Value) judgeIn(limits []*Limit) {
	if v.Unjudged != "" || v.Entry != nil && v.Entry.Plan {
		return
	}
	for _, limit := range limits {
		if limit.When == nil || !v.IsReading() || !limit.takes(v) {
			continue
		}
		switch {
		case v.Temp == nil:
			v.Limit, v.Unjudged, v.Counts = limit, "condition not written", false
			return
		case !holds(*limit.When, *v.Temp):
			v.Limit, v.Unjudged, v.Counts = limit, "condition not met", false
			return
		}
	}
	v.judgeAll(limits)
}

// holds reports whether a figure lies in an interval, its ends included.
func holds(interval, q quantity.Quantity) bool {
	if interval.Kind != quantity.Interval {
		return quantity.Compare(q.SI(), interval.SI(), 0) == 0
	}
	return !(interval.HasLow && quantity.Compare(q.SI(), interval.LowSI(), 0) < 0 || interval.HasHigh && quantity.Compare(q.SI(), interval.HighSI(), 0) > 0)
}

// currentAt returns the value in force at a position at a moment; nil if there is none.
func (j *Journal) currentAt(position string, order int) *Value {
	v, _ := j.newest(position, order)
	return v
}

// newest returns the value in force at a position at a moment. Where only stale readings stand there it returns none, and the part
// whose fitting made them so.
func (j *Journal) newest(position string, order int) (v *Value, staleBy *Part) {
	track := j.tracks[position]
	taken := map[*Value]bool{}
	stale := false
	for i := len(track) - 1; i >= 0; i-- {
		h := track[i]
		if h.order > order {
			continue
		}
		switch h.kind {
		case isRead:
			if !stale || h.value.Origin == FromSheet {
				return h.value, nil
			}
		case goesStale:
			stale = true
			if staleBy == nil {
				staleBy = h.part
			}
		case isTaken: // what was read while the part was in was read of it
			taken[h.value], stale = true, true
			if staleBy == nil {
				staleBy = h.part
			}
		case isBrought:
			if !taken[h.value] {
				return h.value, nil
			}
		}
	}
	return nil, staleBy
}

// At returns the value in force at a path when an entry ended, nil where there is none or its positions differ.
func (j *Journal) At(path string, e *Entry) *Value {
	return j.at(path, j.EndOf(e))
}

func (j *Journal) at(path string, order int) *Value {
	var value *Value
	for i, position := range j.Positions.Below(path) {
		v := j.currentAt(position, order)
		if v == nil || i > 0 && v != value {
			return nil
		}
		value = v
	}
	return value
}

// settle finds out which values are current, which are settled by newer ones, and which requests are open.
func (l *linker) settle() {
	j := l.journal
	end := j.end()
	for _, position := range sortedKeys(j.history) {
		current, staleBy := j.newest(position, end)
		if current != nil {
			current.Current = true
		}
		if last := j.lastMeasured(position); last != nil && staleBy != nil {
			last.StaleBy = staleBy
		}
	}
	for _, v := range j.Values {
		over := v.Origin == FromPart && v.isTakenOut(j)
		v.Settled = over || !slices.ContainsFunc(v.Positions, func(position string) bool { return !j.isReadAfter(position, v) })
	}
	for _, r := range j.Requests {
		for _, position := range j.Positions.Below(r.Path) {
			if !j.readSince(position, r.Order) {
				r.Missing = append(r.Missing, position)
			}
		}
	}
	j.Requests = slices.DeleteFunc(j.Requests, func(r *Request) bool { return len(r.Missing) == 0 })
}

// lastMeasured returns the newest reading that counts at a position, nil if there is none.
func (j *Journal) lastMeasured(position string) *Value {
	history := j.history[position]
	for i := len(history) - 1; i >= 0; i-- {
		if v := history[i]; v.Counts && v.isMeasured() {
			return v
		}
	}
	return nil
}

// isTakenOut reports whether the part that brought the value has come out since.
func (v *Value) isTakenOut(j *Journal) bool {
	return slices.ContainsFunc(j.tracks[v.Positions[0]], func(h happening) bool { return h.kind == isTaken && h.value == v })
}

// isReadAfter reports whether a reading that counts stands after v at a position.
func (j *Journal) isReadAfter(position string, v *Value) bool {
	if j.isUnread(position, v.Order+1) {
		return true
	}
	history := j.history[position]
	for i := len(history) - 1; i >= 0 && history[i] != v; i-- {
		if history[i].Counts && history[i].isMeasured() {
			return true
		}
	}
	return false
}

func (j *Journal) readSince(position string, order int) bool {
	if j.isUnread(position, order) {
		return true
	}
	history := j.history[position]
	for i := len(history) - 1; i >= 0; i-- {
		if v := history[i]; v.Counts && v.isMeasured() && v.Order >= order {
			return true
		}
	}
	return false
}

// Read returns the paths that were read or brought, or stand in the sheet, each once, in order.
func (j *Journal) Read() []string {
	seen := map[string]bool{}
	for _, v := range j.Values {
		seen[v.Path] = true
	}
	paths := sortedKeys(seen)
	return paths
}

// OrderOf returns the moment of a change.
func (j *Journal) OrderOf(c Change) int {
	if c.Kind == Fits || c.Kind == Renews {
		return orderOf(c.Entry.Index, momentFitted)
	}
	return orderOf(c.Entry.Index, momentRemoved)
}

// Judge judges a worked-out value by the limits in force now, or as an entry ended. It happens nowhere.
func (j *Journal) Judge(v *Value, e *Entry) {
	fitted := j.Fitted
	if e != nil {
		fitted = e.FittedThen
	}
	v.judgeAll(j.governing(v.Path, fitted))
}
