package model

import (
	"math"
	"slices"
	"sort"

	"example.org/locknut/journal/quantity"
)

// What was done at a valve that has shims, as far as it doesn't fit what is written: a lash that moved though no shim was written, and a shim that doesn't account for how the lash moved. Fitting or taking
// out a part, any, may move a lash without a shim; then nothing is said.

// SetAnew is a lash that was set though no shim was written with it: the one that is in is another than the last that was.
type SetAnew struct {
	Position     string // of the shim
	Lash, Before *Value // as it was set, and as it was read with the shim that was known
	Shim         *Value // that one
	until        int    // the moment at which a shim was written again
}

// isUnwritten reports whether no shim was written by a moment.
func (s *SetAnew) isUnwritten(until int) bool { return until < s.until }

// Over reports whether a shim was written since.
func (j *Journal) Over(s *SetAnew) bool { return !s.isUnwritten(j.end()) }

// sameLash is how far apart, in m, two readings of one lash may lie whatever they were taken with. Common practice, no source.
const sameLash = 0.02e-3

// LashesSetAnew returns the lashes that were set though no shim was written, in order of valve and time.
func (j *Journal) LashesSetAnew() []*SetAnew {
	var all []*SetAnew
	for _, position := range sortedKeys(j.anew) {
		all = append(all, j.anew[position]...)
	}
	return all
}

// anewAt returns the lash that was set anew by a moment, while no shim was written again; nil for none. Position is that of the shim.
func (j *Journal) anewAt(position string, order int) *SetAnew {
	list := j.anew[position]
	i := sort.Search(len(list), func(i int) bool { return list[i].Lash.Order > order })
	if i == 0 || order >= list[i-1].until {
		return nil
	}
	return list[i-1]
}

// findShimWork looks for the lashes that were set anew, for each valve of which a shim is known.
func (l *linker) findShimWork() {
	j := l.journal
	if j.Build.Fields != nil && j.Build.Fields.Table("engine").Table("adjuster").Text("kind").Text == "screw" {
		return
	}
	for _, at := range j.Positions.Below("shim") {
		if len(j.placeAt(at).values) == 0 {
			continue
		}
		for _, position := range j.Positions.Below("lash" + at[len("shim"):]) {
			lashes := j.figuresRead(position)
			for i := 1; i < len(lashes); i++ {
				if lashes[i].Origin == Set {
					l.setAnew(at, lashes[i-1], lashes[i])
				}
			}
		}
		slices.SortStableFunc(j.anew[at], func(a, b *SetAnew) int { return a.Lash.Order - b.Lash.Order }) // those of several valves that it is written for
	}
}

// figuresRead returns the figures that were read at a position and count, in order of time.
func (j *Journal) figuresRead(position string) []*Value {
	var read []*Value
	for _, v := range j.placeAt(position).values {
		if v.Counts && v.isMeasured() && v.Quantity.Unit != nil && !v.Quantity.IsOpenEnded() {
			read = append(read, v)
		}
	}
	return read
}

// setAnew notes a lash that was set, and is another than the one before, while the shim stayed what it was for all that is written.
func (l *linker) setAnew(at string, before, lash *Value) {
	j := l.journal
	moved := quantity.Combine(lash.Estimate.Value-before.Estimate.Value, quantity.Length, quantity.Term{Partial: 1, Of: lash.Estimate}, quantity.Term{Partial: -1, Of: before.Estimate})
	if quantity.Compare(math.Abs(moved.Value), max(sameLash, moved.Expanded()), lash.Estimate.Value) <= 0 {
		return
	}
	in := j.currentAt(at, lash.Order)
	if in == nil || in.Order >= lash.Order || j.isChangedBetween(before.Order, lash.Order) || j.isUnreadBetween(at, before.Order, j.end()) {
		return
	}
	if known := j.shims(at, before, lash.Order); known.Then == nil || known.Changed != nil || known.Unwritten {
		return
	}
	until := j.end() + 1
	if next := j.nextAt(at, lash.Order); next != nil {
		until = next.Order
	}
	if j.anew == nil {
		j.anew = map[string][]*SetAnew{}
	}
	j.anew[at] = append(j.anew[at], &SetAnew{Position: at, Lash: lash, Before: before, Shim: in, until: until})
}

// nextAt returns the first value that counts at a position after a moment; nil for none.
func (j *Journal) nextAt(position string, order int) *Value {
	values := j.placeAt(position).values // in order of time
	for _, v := range values[sort.Search(len(values), func(i int) bool { return values[i].Order > order }):] {
		if v.Counts {
			return v
		}
	}
	return nil
}

// isChangedBetween reports whether a part went in or came out after one moment and by another.
func (j *Journal) isChangedBetween(after, by int) bool {
	i := sort.Search(len(j.changed), func(i int) bool { return j.changed[i] > after })
	return i < len(j.changed) && j.changed[i] <= by
}

// changes lists the moments at which parts went in or came out.
func (l *linker) changes() {
	for _, c := range l.journal.Changes {
		l.journal.changed = append(l.journal.changed, l.journal.OrderOf(c))
	}
	slices.Sort(l.journal.changed)
}

// ShimSwap is a shim that was changed at a valve, between two readings of its lash.
type ShimSwap struct {
	Position     string // of the lash
	Before, Lash *Value // as it was read last with the shim that was in, and first with the one that went in
	Out, In      *Value // the shims
	Last         *Value // the last reading of the lash with the shim that went in
	Ran          bool   // by its meter, the engine was used between the two
}

// Sums returns what lash and shim were together before, and are now, in m, with what they may be off by: that is the same whatever shim is in.
func (s ShimSwap) Sums() (before, now quantity.Estimate) {
	sum := func(lash, shim *Value) quantity.Estimate {
		return quantity.Combine(lash.Estimate.Value+shim.Estimate.Value, quantity.Length, quantity.Term{Partial: 1, Of: lash.Estimate}, quantity.Term{Partial: 1, Of: shim.Estimate})
	}
	return sum(s.Before, s.Out), sum(s.Lash, s.In)
}

// ShimSwaps returns the shims that were changed between two readings of the lash at their valve, with no part fitted or taken out between the two. Shims that no engine like this has are
// left out: something else is wrong with them.
func (j *Journal) ShimSwaps() []ShimSwap {
	var swaps []ShimSwap
	for _, at := range j.Positions.Below("shim") {
		shims := j.figuresRead(at)
		if len(shims) < 2 {
			continue
		}
		for _, position := range j.Positions.Below("lash" + at[len("shim"):]) {
			swaps = append(swaps, j.swapsAt(at, position, shims)...)
		}
	}
	return swaps
}

// swapsAt returns those of one shim and one lash.
func (j *Journal) swapsAt(at, position string, shims []*Value) []ShimSwap {
	var swaps []ShimSwap
	lashes := j.figuresRead(position)
	for i := 1; i < len(shims); i++ {
		out, in := shims[i-1], shims[i]
		until := j.end()
		if i+1 < len(shims) {
			until = shims[i+1].Order - 1
		}
		with := sort.Search(len(lashes), func(k int) bool { return lashes[k].Order >= in.Order })
		if with == 0 || with == len(lashes) || lashes[with].Order > until || in.Origin == Found && isSameShim(out, in) || j.IsFarShim(out) || j.IsFarShim(in) {
			continue
		}
		before, lash := lashes[with-1], lashes[with]
		last := lashes[sort.Search(len(lashes), func(k int) bool { return lashes[k].Order > until })-1]
		if known := j.shims(at, before, in.Order-1); known.Then == nil || known.Changed != nil || known.Unwritten || j.isChangedBetween(min(before.Order, out.Order), lash.Order) {
			continue
		}
		swaps = append(swaps, ShimSwap{Position: position, Before: before, Lash: lash, Out: out, In: in, Last: last, Ran: ranBetween(before.Entry, lash.Entry)})
	}
	return swaps
}

// ranBetween reports whether the engine may have run between two entries: they are two, and no meter says that it didn't.
func ranBetween(a, b *Entry) bool {
	if a == b {
		return false
	}
	return a.MeterThen == nil || b.MeterThen == nil || quantity.Compare(a.MeterThen.SI(), b.MeterThen.SI(), 0) != 0
}
