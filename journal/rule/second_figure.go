package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// secondFigure reports limits whose figure in another unit does not agree with the first.
func secondFigure(c *Context) {
	for _, l := range c.Journal.Limits {
		if l.Also == nil || l.Unit == nil {
			continue
		}
		main, ok := mainFigure(l)
		if !ok || main.Agrees(*l.Also) {
			continue
		}
		v := l.Fields.Value("also")
		c.report(source.Finding{Severity: source.Warning, At: v.At, Subject: l.Path,
			Message: fmt.Sprintf("%s, but the limit `%s` says %s", secondWords(*l.Also, main.Unit), l.Path, main.Shown()),
			Do:      "look the figure up again: one of the two is mistyped, or misprinted",
			Notes:   limitNote(l)}, -1)
	}
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
