package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// secondFigure reports limits whose figure in another unit does not agree with the first.
func secondFigure(c *Context) { c.tellCauses() }

// disagreeing finds them. Where what is out of such a limit is all as the second figure says, it is the first that is wrong; else nothing says which.
func (c *Context) disagreeing() []*cause {
	var found []*cause
	for _, l := range c.Journal.Limits {
		main, differs := differs(l)
		if !differs || c.isLimitUnsure(l) {
			continue
		}
		v := l.Fields.Value("also")
		k := &cause{report: report{source.Finding{Severity: source.Warning, At: v.At, Subject: l.Path,
			Message: fmt.Sprintf("%s, but the limit `%s` says %s", secondWords(*l.Also, main.Unit), l.Path, main.Shown()),
			Do:      "look the figure up again: one of the two is mistyped, or misprinted",
			Notes:   limitNote(l)}, -1}}
		isAsSecond := func(v *model.Value) bool { return v.Quantity.Unit != nil && v.Quantity.Agrees(*l.Also) }
		if c.isOutUnder(l, isAsSecond) && !c.isOutUnder(l, func(v *model.Value) bool { return !isAsSecond(v) }) {
			k.limits = []*model.Limit{l}
		} else {
			k.unsure = []*model.Limit{l}
		}
		found = append(found, k)
	}
	return found
}

// differs returns the figure of a limit that its second one doesn't agree with; false where there is none, or they agree.
func differs(l *model.Limit) (main quantity.Quantity, differs bool) {
	if l.Also == nil || l.Unit == nil {
		return main, false
	}
	main, ok := mainFigure(l)
	return main, ok && !main.Agrees(*l.Also)
}

// secondWords says what the second figure is in the unit of the first.
func secondWords(also quantity.Quantity, in *quantity.Unit) string {
	if also.Unit == in {
		return fmt.Sprintf("`also` says %s in the same unit", also.Shown())
	}
	return fmt.Sprintf("%s is %s", also.Shown(), also.ShownIn(in))
}

// mainFigure returns what `also` repeats: nominal, or the only bound.
func mainFigure(l *model.Limit) (quantity.Quantity, bool) {
	if l.Nominal != nil {
		return *l.Nominal, true
	}
	b := l.High
	if !b.Is {
		b = l.Low
	}
	if !b.Is || l.Low.Is && l.High.Is {
		return quantity.Quantity{}, false
	}
	q := quantity.Quantity{Kind: quantity.Figure, Unit: l.Unit, Value: l.Unit.FromSI(b.SI), Step: l.Unit.StepFromSI(l.Step, l.Unit.FromSI(b.SI))}
	return q, true
}
