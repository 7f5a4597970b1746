package model

import (
	"fmt"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// inTwoUnits reports bounds of a limit that are the wrong way round because they are in two units: at the one whose unit is neither that of its service bound nor the builder's, else at the low one. It
// returns false where they are in one unit, scales of temperatures among these, or would be the wrong way round in one too.
func (l *linker) inTwoUnits(limit *Limit) bool {
	low, high := l.boundAsTyped(limit, "low"), l.boundAsTyped(limit, "high")
	if low == nil || high == nil || low.Unit == high.Unit || quantity.Compare(low.Value, high.Value, 0) > 0 {
		return false
	}
	odd, other, name, otherName := low, high, "low", "high"
	if l.isMeant(low.Unit, high.Unit, limit) {
		odd, other, name, otherName = high, low, "high", "low"
	}
	meant := *odd
	meant.Unit, meant.Text = other.Unit, ""
	v := limit.Fields.Value(name)
	f := l.report("reversed-limit", source.Error, v.At, limit.Path, fmt.Sprintf("the %s bound of `%s` is written in `%s` and its %s one in `%s`: %s lies above %s", name, limit.Path, odd.Unit.Symbol, otherName, other.Unit.Symbol, low.Shown(), high.Shown()),
		fmt.Sprintf("`%s`? if so write that; if not, mend the one that is mistyped", meant.Shown()), source.Remark{At: limit.Fields.Value(otherName).At, Message: fmt.Sprintf("the %s bound", otherName)})
	f.Fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", meant.Shown()), v.Span(0, len(v.Text)), meant.Shown().String())}
	return true
}

// boundAsTyped returns a figure of a limit as it was written, nil for none.
func (l *linker) boundAsTyped(limit *Limit, name string) *quantity.Quantity {
	v := limit.Fields.Value(name)
	if v == nil {
		return nil
	}
	want := l.limitWant(limit, v)
	want.Floor, want.Most = quantity.NoFloor, 0
	q, slip := v.Resolve(want)
	if slip != nil || q.Unit == nil {
		return nil
	}
	return &q
}

// isMeant reports whether of two units the first is that of the limit's service bound, or the builder's, and not the second.
func (l *linker) isMeant(u, other *quantity.Unit, limit *Limit) bool {
	if service := l.boundAsTyped(limit, "service"); service != nil && (service.Unit == u || service.Unit == other) {
		return service.Unit == u
	}
	return l.journal.Units.Lead[limit.Dimension] == u
}
