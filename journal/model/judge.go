package model

import (
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/quantity"
)

// Verdict is how a value stands to its limit. Its zero value is no limit.
type Verdict uint8

// The verdicts, from the mildest.
const (
	NoLimit Verdict = iota // nothing bounds it
	In
	Worn      // outside standard, inside service
	Undecided // an interval, or repeats, on both sides of a bound
	Out
)

// String returns the word that is shown.
func (v Verdict) String() string {
	return [...]string{"no limit", "in", "worn", "undecided", "out"}[v]
}

// end is one end of a figure to be judged: a figure itself, or the end of an interval that the figure lies before.
type end struct {
	si   float64
	open bool // of the upper end of a bracket: the figure is less
}

// judge returns the verdict on a value, and on which side of the limit it stands where it is not in.
func (l *Limit) judge(v *Value) (Verdict, int) {
	if len(l.Expect) > 0 {
		if slices.Contains(l.Expect, spokenWords(v)) {
			return In, 0
		}
		return Out, 0
	}
	if fault, _ := l.StepFault(v); fault != StepsRight {
		return Out, 0
	}
	if !l.IsFigures() {
		return NoLimit, 0 // a mere target
	}
	ends := ends(v)
	if l.Guarded {
		ends = guarded(v, ends)
	}
	verdict, side := l.judgeEnd(ends[0])
	for _, e := range ends[1:] {
		other, otherSide := l.judgeEnd(e)
		if other != verdict || otherSide != side {
			return Undecided, 0
		}
	}
	return verdict, side
}

// guarded widens what is judged of a figure by its expanded uncertainty: a limit that asks for proof of conformity (ISO 14253-1, from
// memory) is met only by what lies inside it whole. A figure of unknown uncertainty proves nothing.
func guarded(v *Value, judged []end) []end {
	if v.Quantity.Kind == quantity.Interval {
		return judged
	}
	u := v.Estimate.Expanded()
	if u <= 0 {
		u = math.Inf(1)
	}
	return append(judged, end{si: v.Quantity.SI() - u}, end{si: v.Quantity.SI() + u})
}

// ends returns what is judged of a value: a figure; repeats and their mean; or both ends of a bracket.
func ends(v *Value) []end {
	if len(v.Repeats) > 0 {
		all := []end{{si: v.Quantity.SI()}}
		for _, q := range v.Repeats {
			all = append(all, quantityEnds(q)...)
		}
		return all
	}
	return quantityEnds(v.Quantity)
}

func quantityEnds(q quantity.Quantity) []end {
	if q.Kind != quantity.Interval {
		return []end{{si: q.SI()}}
	}
	low, high := end{si: math.Inf(-1)}, end{si: math.Inf(1)}
	if q.HasLow {
		low.si = q.LowSI()
	}
	if q.HasHigh {
		high = end{si: q.HighSI(), open: true}
	}
	return []end{low, high}
}

func (l *Limit) judgeEnd(e end) (Verdict, int) {
	side := l.sideOf(e, l.Low, l.High)
	if side == 0 {
		return In, 0
	}
	worn := l.Worn[0]
	if side > 0 {
		worn = l.Worn[1]
	}
	if worn.Is && l.sideOf(e, l.Worn[0], l.Worn[1]) != side {
		return Worn, side
	}
	return Out, side
}

// sideOf returns -1 for below the low bound, 1 for above the high one, 0 for neither. The bounds belong to the limit; an open end does
// not belong to its bracket.
func (l *Limit) sideOf(e end, low, high Bound) int {
	if low.Is {
		c := quantity.Compare(e.si, low.SI, l.Size)
		if c < 0 || c == 0 && e.open {
			return -1
		}
	}
	if high.Is && quantity.Compare(e.si, high.SI, l.Size) > 0 {
		return 1
	}
	return 0
}

// spokenWords returns a value as words to compare: what stands before a comma, folded.
func spokenWords(v *Value) string {
	text := v.Words
	if text == "" {
		text = v.Written.Text
	}
	head, _, _ := strings.Cut(text, ", ")
	return FoldWords(head)
}

// FoldWords folds case and runs of space.
func FoldWords(text string) string { return strings.Join(strings.Fields(strings.ToLower(text)), " ") }

// Judgement is what one limit says of a value.
type Judgement struct {
	Limit   *Limit
	Verdict Verdict
}

// Judged returns what each of the limits said that the value was judged by, in order of their paths: a value above several is judged by each.
func (v *Value) Judged() []Judgement {
	switch {
	case v.ways != nil && len(v.ways.judged) > 0:
		return v.ways.judged
	case v.Limit == nil || v.Unjudged != Judged:
		return nil
	}
	return []Judgement{{v.Limit, v.Verdict}}
}

// judgeAll judges a value by the limits of all its positions: the worst verdict counts, and its limit is the value's.
func (v *Value) judgeAll(limits []*Limit) {
	var judged []Judgement
	for _, limit := range limits {
		if !limit.takes(v) {
			continue
		}
		verdict, side := limit.judge(v)
		if len(limits) > 1 {
			judged = append(judged, Judgement{limit, verdict})
		}
		if v.Limit == nil || verdict > v.Verdict {
			v.Limit, v.Verdict, v.Side = limit, verdict, int8(side)
		}
	}
	if len(judged) > 1 {
		v.change().judged = judged
	}
	limit := v.Limit
	q := v.Quantity
	if limit == nil || limit.Nominal == nil || q.Unit == nil || q.Unit.Dimension != limit.Nominal.Unit.Dimension || q.IsOpenEnded() {
		return
	}
	v.Deviation, v.Deviates = v.Quantity.SI()-limit.Nominal.SI(), true
}

// takes reports whether the limit can judge the value: words by words, figures of its dimension.
func (l *Limit) takes(v *Value) bool {
	if l.Unread {
		return false
	}
	if len(l.Expect) > 0 {
		return true
	}
	if v.Words != "" || v.Quantity.Unit == nil {
		return false
	}
	d := v.Quantity.Unit.Dimension
	for _, step := range l.Steps {
		if step.Unit.Dimension == d {
			return true
		}
	}
	return d == l.Dimension
}
