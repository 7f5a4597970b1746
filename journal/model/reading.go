package model

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// read makes the value of a reading; nil where nothing was measured, or nothing that can be read.
func (l *linker) read(e *Entry, r *parse.Reading, origin Origin, moment int) *Value {
	if r.Unread {
		l.unread(r.Path, orderOf(e.Index, moment))
		return nil
	}
	if r.Value.IsBlank() {
		return nil
	}
	if len(l.slab) == 0 {
		l.slab = make([]Value, 64)
	}
	v := &l.slab[0]
	l.slab = l.slab[1:]
	*v = Value{Path: r.Path, Origin: origin, Entry: e, Order: orderOf(e.Index, moment), Written: &r.Value, Counts: !e.Plan}
	v.placed(r.PathAt)
	v.Temp = e.EngineTemp
	var with parse.Name
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
	} else if !l.journal.isToolUnknown(e) {
		v.Tool = e.onlyTool(v.Path)
	}
	return v
}

// AreToolsUnclear reports whether it can't be told which tools an entry used, what they are for, or how far they reach, because that can't be read.
func (j *Journal) AreToolsUnclear(e *Entry) bool {
	return j.IsWithheld("tools") || e.Fields.IsBad("with") || slices.ContainsFunc(e.With, func(r Ref) bool { return r.Tool == nil || r.Tool.Fields.IsBad("for", "range") })
}

// IsToolNamed reports whether the builder named the value's tool beside it.
func (v *Value) IsToolNamed() bool {
	d := v.Written.Details
	return d != nil && !d.With.IsZero()
}

// Tools returns those of an entry's tools that are for a path, each once.
func (e *Entry) Tools(path string) []*Tool {
	var tools []*Tool
	for _, ref := range e.With {
		if ref.Tool != nil && ref.Tool.Reads(path) && !slices.Contains(tools, ref.Tool) {
			tools = append(tools, ref.Tool)
		}
	}
	return tools
}

// onlyTool returns the one of an entry's tools that is for a path; nil where none is, or several are.
func (e *Entry) onlyTool(path string) *Tool {
	var tool *Tool
	for _, ref := range e.With {
		if ref.Tool == nil || !ref.Tool.Reads(path) {
			continue
		}
		if tool != nil && tool != ref.Tool {
			return nil
		}
		tool = ref.Tool
	}
	return tool
}

// chooseTool takes, of several tools of the entry that are for the path, the only one whose range holds the figure.
func (l *linker) chooseTool(v *Value) {
	if v.Tool != nil || v.Entry == nil || len(v.Entry.With) < 2 || v.Quantity.Unit == nil || l.journal.AreToolsUnclear(v.Entry) {
		return
	}
	if v.IsToolNamed() {
		return // and unknown
	}
	var fits *Tool
	for _, tool := range v.Entry.Tools(v.Path) {
		if tool.Range == nil || !tool.Holds(v.Quantity) {
			continue
		}
		if fits != nil {
			return
		}
		fits = tool
	}
	v.Tool = fits
}

// Holds reports whether the tool's range, where it has one, holds a figure, or all of a bracket.
func (t *Tool) Holds(q quantity.Quantity) bool {
	r := t.Range
	if r == nil || q.Unit == nil || r.Unit.Dimension != q.Unit.Dimension {
		return true
	}
	above := !r.HasLow || quantity.Compare(q.LowSI(), r.LowSI(), 0) >= 0
	below := !r.HasHigh || quantity.Compare(q.HighSI(), r.HighSI(), 0) <= 0
	return above && below
}

// value resolves a value, judges it by the limits of its moment, and lets it happen at its positions.
func (l *linker) value(v *Value) {
	limits := l.governing(v.Path)
	if !l.figures(v, limits) {
		l.unread(v.Path, v.Order)
		return
	}
	l.chooseTool(v)
	if l.isUnclear(v, limits) {
		v.Unjudged, v.Counts = Unclear, false
		l.unread(v.Path, v.Order)
	}
	v.estimate()
	v.judgeIn(limits)
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
	if !l.fitUnclear {
		return false
	}
	return l.journal.IsWithheld("parts") || slices.ContainsFunc(l.journal.Parts, func(p *Part) bool { return p.limits.deepest(v.Path) != nil })
}

// startUnclear reports whether it can't be told what the machine came with, or what takes whose place.
func (l *linker) startUnclear() bool {
	j := l.journal
	return j.Build.Fields == nil || j.Build.Fields.IsBad("fitted") || slices.ContainsFunc(j.Build.Fields.Names("fitted"), l.isUnknownPart) ||
		slices.ContainsFunc(j.Parts, func(p *Part) bool { return p.Fields.IsBad("slot") })
}

// leavesUnclear reports whether it can't be told what is in once an entry has done its work.
func (l *linker) leavesUnclear(e *Entry) bool {
	return e.Fields == nil || e.Fields.IsBad("fitted", "removed") || slices.ContainsFunc(e.Fields.Names("fitted"), l.isUnknownPart)
}

// isUnknownPart reports whether a name may be that of a part in a file that can't be read.
func (l *linker) isUnknownPart(name parse.Name) bool {
	return l.journal.IsWithheld("parts") && l.journal.parts[name.Name] == nil
}

// teller is what tells a path's values in one entry apart: where in it they stand.
type teller struct {
	origin Origin
	part   *Part
	pulls  *Pulls
	log    *Log
	path   string
}

// distinct tells a value from another that is told in the same place: the text that makes two values of one name is reported elsewhere.
func (l *linker) distinct(v *Value) {
	v.twin = 1
	where := teller{v.Origin, v.Part, v.pulls, v.log(), v.Path}
	if last := l.told[where]; last != nil {
		v.twin = last.twin + 1
	}
	l.told[where] = v
	if v.Origin == Set {
		v.FoundAs = l.told[teller{origin: Found, path: v.Path}]
	}
}

// figures resolves the figures of a value, and reports what can't be.
func (l *linker) figures(v *Value, limits []*Limit) bool {
	if v.Written.IsWords() {
		return l.words(v, limits)
	}
	repeats := len(v.Written.Repeats) > 0
	pattern := l.spotOf(v.Path).pattern
	if pattern != nil && pattern.Words || len(limits) > 0 && len(limits[0].Expect) > 0 {
		v.Words = v.Written.Text
		if repeats {
			l.report("bad-quantity", source.Error, v.At(), v.Path, fmt.Sprintf("`%s` holds %d figures; it wants words", v.Path, len(v.Written.Repeats)), "write what it is, in words")
		}
		return !repeats
	}
	for _, f := range v.Written.Figures() {
		if f.Kind == quantity.Steps {
			if repeats {
				l.report("bad-quantity", source.Error, f.At, v.Path, fmt.Sprintf("`%s` is several steps; a list holds repeats of one measurement", f.Text), "write the last step alone, or the steps without the list")
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
			l.report("wrong-dimension", source.Error, v.At(), v.Path, fmt.Sprintf("the repeats at `%s` are of two dimensions: %s and %s", v.Path, first.Unit.Dimension, q.Unit.Dimension), "a list holds repeats of one measurement")
			return false
		}
		in, ok := q.In(first.Unit)
		if !ok {
			l.report("wrong-dimension", source.Error, v.At(), v.Path, fmt.Sprintf("the repeats at `%s` can't be brought to one unit", v.Path), "write them in one unit")
			return false
		}
		if q.IsOpenEnded() {
			l.report("bad-quantity", source.Error, v.At(), v.Path, fmt.Sprintf("`%s` has no other end, so the repeats at `%s` have no mean", q.Text, v.Path), "write both ends, or the reading that decides alone")
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
	says, pattern := written.Written(), l.spotOf(v.Path).pattern
	want := l.journal.wantAt(pattern, limit, says.Units)
	q, slip := written.ResolveWritten(&says, want)
	for i := 1; i < len(limits) && slip != nil && slip.Kind == "wrong-dimension"; i++ {
		if other, is := written.ResolveWritten(&says, l.journal.wantAt(pattern, limits[i], says.Units)); is == nil {
			return other, true
		}
	}
	if slip == nil && (len(want.Dimensions) == 0 || slices.Contains(want.Dimensions, q.Unit.Dimension)) {
		return q, l.fitsLimit(v, written, q, limits)
	}
	if slip == nil {
		slip = &quantity.Slip{Kind: "wrong-dimension", End: len(written.Text), Message: fmt.Sprintf("the column is in %s, a unit of %s", q.Unit.Symbol, q.Unit.Dimension), Do: "write the unit in the cell, or in the column's head"}
	}
	free := pattern == nil || len(pattern.Dimensions) == 0
	if free && slip.Kind == "wrong-dimension" && limit != nil && limit.Path != v.Path {
		if q, other := written.ResolveWritten(&says, l.journal.wantAt(pattern, nil, says.Units)); other == nil {
			v.Unjudged = OtherDimension
			return q, true
		}
	}
	finding := l.unreadable(v, written, slip)
	if slip.Kind == "wrong-dimension" && limit != nil {
		finding.Notes = append(finding.Notes, source.Remark{At: limit.PathAt, Message: "limit"})
	}
	return q, false
}

// fitsLimit reports whether a figure measures what one of its limits is for. At the limit's own path another dimension is an error; below
// it the limit does not hold for the figure.
func (l *linker) fitsLimit(v *Value, written *parse.Value, q quantity.Quantity, limits []*Limit) bool {
	own := slices.IndexFunc(limits, func(limit *Limit) bool { return limit.Path == v.Path })
	if len(limits) == 0 || slices.ContainsFunc(limits, func(limit *Limit) bool { return limit.measures(q.Unit.Dimension) }) {
		return true
	}
	if own < 0 {
		v.Unjudged = OtherDimension
		return true
	}
	finding := l.unreadable(v, written, &quantity.Slip{Kind: "wrong-dimension", End: len(written.Text),
		Message: fmt.Sprintf("`%s` is a figure of %s; the limit here is for %s", written.Text, q.Unit.Dimension, limits[own].Dimension), Do: "mend its unit, or the limit"})
	finding.Notes = append(finding.Notes, source.Remark{At: limits[own].PathAt, Message: "limit"})
	return false
}

// measures reports whether the limit is for figures of a dimension. One that can't be read, or bounds no figure, refuses none.
func (l *Limit) measures(d quantity.Dimension) bool {
	if l.Unread || l.Dimension == quantity.Unknown || l.Dimension == d {
		return true
	}
	return slices.ContainsFunc(l.Steps, func(step quantity.Quantity) bool { return step.Unit.Dimension == d })
}

// unreadable reports a figure of a value that can't be read.
func (l *linker) unreadable(v *Value, written *parse.Value, slip *quantity.Slip) *source.Finding {
	finding := written.Finding(slip, v.Path)
	finding.Origin = string(v.Origin)
	if v.Entry != nil {
		finding.Entry = v.Entry.Path
	}
	return l.add(finding)
}

// stepped takes a reading written step by step.
func (l *linker) stepped(v *Value, written *parse.Value) bool {
	steps := v.change()
	for _, step := range written.Written().Steps {
		q, slip := step.Resolve(l.journal.want(v.Path, nil, step.Units))
		if slip != nil {
			l.unreadable(v, written, slip)
			return false
		}
		v.Quantity = q
		steps.steps = append(steps.steps, q)
	}
	steps.steps = steps.steps[:len(steps.steps)-1]
	return true
}

// words takes a value that is words: where the limit has figures it says that nothing was measured.
func (l *linker) words(v *Value, limits []*Limit) bool {
	v.Words = v.Written.Text
	pattern := l.spotOf(v.Path).pattern
	switch {
	case slices.ContainsFunc(limits, (*Limit).IsFigures):
		v.Counts, v.Unjudged = false, NoFigure
	case pattern != nil && len(pattern.Dimensions) > 0 && !v.isWordsByDetail() && !pattern.TyreCode:
		v.Counts, v.Unjudged = false, NoFigure
	}
	return true
}

// isWordsByDetail reports whether the value was written as `words`, and so means to be some.
func (v *Value) isWordsByDetail() bool { return v.Written.Details != nil && v.Written.Details.Words }

// judgeIn judges the value, unless it was taken in a state in which its limit does not count.
func (v *Value) judgeIn(limits []*Limit) {
	if v.Unjudged != Judged || v.Entry != nil && v.Entry.Plan {
		return
	}
	for _, limit := range limits {
		if limit.When == nil || !v.IsReading() || !limit.takes(v) {
			continue
		}
		switch {
		case v.Temp == nil:
			v.Limit, v.Unjudged, v.Counts = limit, ConditionUnwritten, false
			return
		case !holds(*limit.When, *v.Temp):
			v.Limit, v.Unjudged, v.Counts = limit, ConditionUnmet, false
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

// Judge judges a worked-out value by the limits in force now, or as an entry ended. It happens nowhere.
func (j *Journal) Judge(v *Value, e *Entry) {
	fitted := j.Fitted
	if e != nil {
		fitted = e.FittedThen
	}
	v.judgeAll(j.governing(v.Path, fitted))
}
