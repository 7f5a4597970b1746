package model

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Limit is what the values at and below a path are held to, or a table above limits that they inherit from.
type Limit struct {
	*parse.Limit
	File *source.File
	Part *Part // of a part's limit

	Dimension quantity.Dimension
	Unit      *quantity.Unit // that its figures are written in
	Event     quantity.Event // the dead centre that they are counted from; none for nearly all
	Nominal   *quantity.Quantity
	Low, High Bound
	Worn      [2]Bound            // service bounds, low and high, as far as they stand outside standard
	Misplaced [2]Bound            // service bounds, low and high, that don't
	Steps     []quantity.Quantity // before the last
	Expect    []string            // words that a reading must be; folded
	Also      *quantity.Quantity
	Size      float64 // of the largest figure that its bounds were made from, in SI: the scale of comparisons
	Step      float64 // the finest digit of those figures, in SI, or what tells the bounds that are worked out from them

	Basis        string
	Source       string
	Title        string
	Guarded      bool
	When         *quantity.Quantity // engine temperature
	WhenAt       source.Range
	EachCylinder bool            // it holds for the valve, or the ring, that its path ends in, of every cylinder
	ofLost       bool            // what it is the difference of can't be read
	chain        []*parse.Fields // the tables that keys are inherited from, nearest first
	figureStep   float64         // the finest digit of the figures as they were written, in SI
	refused      []string        // keys that it inherits and whose figures make no sense beside its own
}

// Bound is one bound of a limit.
type Bound struct {
	Is bool
	SI float64
	At source.Range
}

// IsFigures reports whether the limit bounds a figure.
func (l *Limit) IsFigures() bool { return l.Low.Is || l.High.Is }

// governs reports whether the table is a limit: it has a figure or words of its own.
func (l *Limit) governs() bool {
	return l.Unread || l.IsFigures() || len(l.Expect) > 0 || l.Nominal != nil
}

// Show returns a bound of the limit as the limit writes its figures.
func (l *Limit) Show(b Bound) quantity.Shown {
	return quantity.ShowFrom(l.Event, b.SI, l.Unit, l.Step)
}

// BoundsText says the bounds of a limit in figures, as a sentence goes on: "0.06 to 0.10 mm", "at most 3%"; empty for one without.
func (l *Limit) BoundsText() string {
	switch {
	case l.Low.Is && l.High.Is:
		return quantity.Between(l.Show(l.Low), l.Show(l.High)).String()
	case l.High.Is:
		return "at most " + l.Show(l.High).String()
	case l.Low.Is:
		return "at least " + l.Show(l.Low).String()
	}
	return ""
}

// Band returns the width of the limit in SI: high minus low, or the size of the only bound.
func (l *Limit) Band() float64 {
	switch {
	case l.Low.Is && l.High.Is:
		return l.High.SI - l.Low.SI
	case l.High.Is:
		return math.Abs(l.High.SI)
	case l.Low.Is:
		return math.Abs(l.Low.SI)
	}
	return 0
}

// Key returns the text of a key that limits inherit: thread, class, order and the like. One that can't be read hides those above it.
func (l *Limit) Key(name string) parse.Text {
	for _, fields := range l.chain {
		if fields.IsBad(name) {
			return parse.Text{}
		}
		if text := fields.Text(name); !text.IsZero() {
			return text
		}
	}
	return parse.Text{}
}

// Figures returns the figures of a key that limits inherit: every, engagement. Those that can't be read hide those above them.
func (l *Limit) Figures(name string) []parse.Value {
	if slices.Contains(l.refused, name) {
		return nil
	}
	for _, fields := range l.chain {
		if values := fields.Values(name); len(values) > 0 || fields.IsBad(name) {
			return values
		}
	}
	return nil
}

// IsKeyUnread reports whether a key that limits inherit stands there and can't be read.
func (l *Limit) IsKeyUnread(name string) bool {
	if slices.Contains(l.refused, name) {
		return true
	}
	for _, fields := range l.chain {
		if fields.IsBad(name) {
			return true
		}
		if fields.Get(name) != nil {
			return false
		}
	}
	return false
}

// Running returns the torque that turns the fastener before it clamps, nil where the limit says nothing of it.
func (l *Limit) Running() *quantity.Quantity {
	values := l.Figures("running-torque")
	if len(values) == 0 {
		return nil
	}
	q, slip := values[0].Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Torque}})
	if slip != nil || q.IsOpenEnded() {
		return nil
	}
	if q.Kind == quantity.Interval { // from least to most: the middle, and how far it may be off
		q = quantity.Quantity{Kind: quantity.Figure, Unit: q.Unit, Value: (q.Low + q.High) / 2, Spread: (q.High - q.Low) / 2, HasSpread: true, Step: q.Step, Text: q.Text}
	}
	return &q
}

// limitTree holds the limits of the sheets, or of one part, by path.
type limitTree struct {
	byPath  map[string]*Limit
	anyName bool // some hold for every cylinder
}

// fromPart are the keys that a part's limit takes from the sheet where its part gives none. Figures, basis, source and `also` are the
// part's own or none.
var fromPart = []string{"when", "every", "thread", "class", "into", "into-shear", "engagement", "threads", "thread-friction", "running-torque", "drive"}

// tree links the limits of the sheets, or of a part, and works their bounds out. Sheets may say a thing about one path once.
func (l *linker) tree(limits []*parse.Limit, file map[*parse.Limit]*source.File, part *Part) *limitTree {
	tree := &limitTree{byPath: map[string]*Limit{}}
	var all []*Limit
	for _, p := range limits {
		if first := tree.byPath[p.Path]; first != nil {
			l.report("defined-twice", source.Error, p.PathAt, p.Path, fmt.Sprintf("the limit `%s` is defined twice", p.Path), "keep one of the two",
				source.Remark{At: first.PathAt, Message: "the first one"})
			continue
		}
		own := *p // what can't be read is marked on the journal's own copy
		limit := &Limit{Limit: &own, File: file[p], Part: part}
		tree.byPath[p.Path] = limit
		all = append(all, limit)
	}
	slices.SortFunc(all, func(a, b *Limit) int { return comparePaths(a.Path, b.Path) })
	for _, limit := range all {
		l.inherit(limit, tree)
		l.bounds(limit)
	}
	l.journal.Limits = append(l.journal.Limits, all...)
	return tree
}

// inherit gathers the tables that the limit takes its words from: its own, those above it, and for a part's the sheet's.
func (l *linker) inherit(limit *Limit, tree *limitTree) {
	for path := limit.Path; path != ""; path = parse.Above(path) {
		if at := tree.byPath[path]; at != nil && at.Fields != nil {
			limit.chain = append(limit.chain, at.Fields)
		}
	}
	limit.authority()
	limit.Title = limit.Fields.Text("title").Text
	limit.Guarded = limit.Key("decision").Text == "guarded"
	if limit.Part != nil {
		if limit.Source == "" && limit.Fields.Text("basis").Text != "assumed" {
			limit.Source = limit.Part.Fields.Text("source").Text
		}
		for path := limit.Path; path != ""; path = parse.Above(path) {
			if at := l.journal.sheetLimits.byPath[path]; at != nil && at.Fields != nil {
				limit.chain = append(limit.chain, only(at.Fields, fromPart))
			}
		}
	}
	limit.condition()
	limit.Unread = limit.Unread || limit.IsKeyUnread("running-torque") // what it judges can't be told
}

// authority finds who says so: the nearest basis and source. A table that changes the basis does not take the source of one above it.
func (limit *Limit) authority() {
	for _, fields := range limit.chain {
		if limit.Source == "" {
			limit.Source = fields.Text("source").Text
		}
		if basis := fields.Text("basis").Text; basis != "" {
			limit.Basis = basis
			return
		}
	}
}

// condition finds the nearest condition on readings. While it can't be read the limit holds nothing to anything.
func (limit *Limit) condition() {
	for _, fields := range limit.chain {
		when := fields.Table("when")
		if fields.IsBad("when") || when.IsBad("engine-temp") {
			limit.Unread = true
			return
		}
		temp := when.Value("engine-temp")
		if temp == nil {
			continue
		}
		if q, slip := temp.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Temperature}}); slip == nil {
			limit.When, limit.WhenAt = &q, temp.At
			return
		}
	}
}

// only returns the fields of those names.
func only(fields *parse.Fields, names []string) *parse.Fields {
	kept := &parse.Fields{At: fields.At, Bad: fields.Bad}
	for _, f := range fields.List {
		if slices.Contains(names, f.Key.Name) {
			kept.List = append(kept.List, f)
		}
	}
	return kept
}

// deepest returns the deepest limit of the tree at or above a path. One for every cylinder comes after those of the cylinder itself.
func (t *limitTree) deepest(path string) *Limit {
	if len(t.byPath) == 0 {
		return nil
	}
	named := ""
	if t.anyName {
		named = cylinderless(path)
	}
	for ; path != ""; path = parse.Above(path) {
		if named != "" && path == parse.Above(named) { // above the cylinder
			if limit := t.byPath[named]; limit != nil && limit.EachCylinder && limit.governs() {
				return limit
			}
		}
		if limit := t.byPath[path]; limit != nil && limit.governs() {
			return limit
		}
	}
	return nil
}

// limitAt returns the limit in force at a position for what is fitted at a moment: that of a fitted part, the deepest and of those
// the one fitted last, else that of the sheets.
func (j *Journal) limitAt(path string, fitted []*Part) *Limit {
	if !j.partsLimit {
		return j.sheetLimits.deepest(path)
	}
	var best *Limit
	for _, part := range fitted {
		limit := part.limits.deepest(path)
		if limit != nil && (best == nil || len(limit.Path) >= len(best.Path)) {
			best = limit
		}
	}
	if best != nil {
		return best
	}
	return j.sheetLimits.deepest(path)
}

// LimitAt returns the limit in force at a position now, or as an entry ended or a plan would end; nil if there is none.
func (j *Journal) LimitAt(position string, e *Entry) *Limit {
	fitted := j.Fitted
	if e != nil {
		fitted = e.FittedThen
	}
	return j.limitAt(position, fitted)
}

// LimitBefore returns the limit in force at a position as an entry began, or is now for a plan; nil if there is none.
func (j *Journal) LimitBefore(position string, e *Entry) *Limit {
	return j.limitAt(position, j.fittedBefore(e))
}

// fittedBefore returns what was fitted as an entry began, or is now for a plan.
func (j *Journal) fittedBefore(e *Entry) []*Part {
	switch {
	case e.Plan:
		return j.Fitted
	case e.Index > 0:
		return j.Entries[e.Index-1].FittedThen
	}
	var made []*Part
	for _, part := range j.Parts {
		if part.AsMade {
			made = append(made, part)
		}
	}
	return made
}

// LimitWith returns the limit that would be in force at a position if a part went in now; nil if there would be none.
func (j *Journal) LimitWith(position string, part *Part) *Limit {
	return j.limitAt(position, fittedAfter(j.Fitted, []*Part{part}, nil))
}

// Governing returns the limits in force now at a path: one for all its positions, or several.
func (j *Journal) Governing(path string) []*Limit {
	return j.governing(path, j.Fitted)
}

func (j *Journal) governing(path string, fitted []*Part) []*Limit {
	var limits []*Limit
	for _, position := range j.Positions.Below(path) {
		if limit := j.limitAt(position, fitted); limit != nil && !slices.Contains(limits, limit) {
			limits = append(limits, limit)
		}
	}
	return limits
}
