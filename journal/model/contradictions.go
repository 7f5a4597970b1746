package model

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// contradicts reports figures of a limit that each can be, and that can't all be meant.
func (l *linker) contradicts(limit *Limit) {
	if limit.Unread {
		return
	}
	l.nominalOutside(limit)
	l.boundBelowFloor(limit)
	l.runningAbove(limit)
}

// nominalOutside reports a figure to aim for that the limit's own bounds would refuse.
func (l *linker) nominalOutside(limit *Limit) {
	n := limit.Nominal
	if n == nil || limit.Fields == nil {
		return
	}
	bound, which := limit.Low, "below its low"
	switch {
	case limit.Low.Is && quantity.Compare(n.SI(), limit.Low.SI, limit.Size) < 0:
	case limit.High.Is && quantity.Compare(n.SI(), limit.High.SI, limit.Size) > 0:
		bound, which = limit.High, "above its high"
	default:
		return
	}
	l.report("nominal-outside", source.Error, limit.Fields.Value("nominal").At, limit.Path, fmt.Sprintf("the nominal %s of `%s` lies %s bound of %s", n.Shown(), limit.Path, which, limit.Show(bound)),
		"mend the one that is mistyped: what is aimed at must be in", source.Remark{At: bound.At, Message: "the bound"})
}

// boundBelowFloor reports a tolerance that takes the low bound below what a figure there can be.
func (l *linker) boundBelowFloor(limit *Limit) {
	pattern := parse.FindPattern(limit.Path)
	if pattern == nil || pattern.Floor == quantity.NoFloor || !limit.Low.Is || quantity.Compare(limit.Low.SI, 0, limit.Size) >= 0 {
		return
	}
	l.report("bad-quantity", source.Error, limit.Low.At, limit.Path, fmt.Sprintf("the low bound of `%s` comes out at %s, below nought", limit.Path, limit.Show(limit.Low)), "check the tolerance: a decimal place, or its unit")
}

// runningAbove reports a running torque that is more than the torque that the fastener is tightened to: once, though several limits inherit it.
func (l *linker) runningAbove(limit *Limit) {
	running := limit.Running()
	if running == nil || !parse.IsAtOrBelow(limit.Path, "torque") {
		return
	}
	torque, ok := limit.tightened()
	if !ok || quantity.Compare(running.SI(), torque.SI(), 0) <= 0 {
		return
	}
	at := limit.Figures("running-torque")[0].At
	limit.refused, limit.Unread = append(limit.refused, "running-torque"), true
	if slices.ContainsFunc(l.findings, func(f source.Finding) bool { return f.Rule == "running-above-torque" && f.At == at }) {
		return
	}
	l.report("running-above-torque", source.Error, at, limit.Path, fmt.Sprintf("a running torque of %s is more than the %s that `%s` is tightened to", running.Shown(), torque.Shown(), limit.Path),
		"look both up again: a digit, or a unit", source.Remark{At: limit.PathAt, Message: "limit"})
}

// tightened returns the torque that a fastener is tightened to: the nominal, or the last torque of its steps, else the high bound, or the low one; false
// where the limit names none.
func (limit *Limit) tightened() (quantity.Quantity, bool) {
	for _, q := range slices.Backward(limit.AllSteps()) {
		if q.Unit.Dimension == quantity.Torque {
			return q, true
		}
	}
	if limit.Dimension != quantity.Torque {
		return quantity.Quantity{}, false
	}
	if limit.Nominal != nil {
		return *limit.Nominal, true
	}
	b := limit.High
	if !b.Is {
		b = limit.Low
	}
	value := limit.Unit.FromSI(b.SI)
	return quantity.Quantity{Kind: quantity.Figure, Unit: limit.Unit, Value: value, Step: limit.Unit.StepFromSI(limit.Step, value)}, b.Is
}
