package rule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// outOfLimits reports values outside their limit, but those that look like a slip of the pen.
func outOfLimits(c *Context) {
	for _, v := range c.Journal.Values {
		if v.Verdict != model.Out || c.toldBy(v) != "" {
			continue
		}
		bound := passed(v)
		if worn := v.Limit.Worn[max(0, v.Side)]; v.Side != 0 && worn.Is {
			bound = worn
		}
		f := c.value(v, source.Error, outWords(v)+nearWords(v)+heldBy(v), outAdvice(v), boundNote(v.Limit, bound)...)
		if c.isLimitSuspect(v.Limit) { // that is told of the limit
			f.State, f.Do = source.Settled, "see what is said of its limit first"
		} else if swapped, ok := swappedDigits(v); ok {
			f.Do = swappedAdvice(v, swapped) + f.Do
		} else if meant := c.mistypings(v); len(meant) > 0 {
			f.Do = mistypedAdvice(v, meant)
		} else if meant, ok := c.tenfold(v); ok {
			f.Do = fmt.Sprintf("%s? %s would be inside: write that if it is what was read; if not, %s", meant.Why, meant.Shown(), f.Do)
		}
	}
	const do = "check the figures that it is worked out from, this one first"
	c.judgedNumbers(source.Error, "out", do, outNumberWords)
	c.judgedAsFound(source.Error, do, outNumberWords)
}

// outNumberWords says how far out a number is; "" for one that isn't.
func outNumberWords(n *derive.Number) string {
	if n.Verdict != model.Out {
		return ""
	}
	return fmt.Sprintf("works out at %s, which is out: %s%s", n.Shown(), boundsWords(n.Limit), nearWords(n.Judged()))
}

// swappedDigits returns what the limit of a value aims for, where that is the value with two digits swapped.
func swappedDigits(v *model.Value) (meant quantity.OtherReading, ok bool) {
	aim := v.Limit.Nominal
	if aim == nil || !v.IsReading() || v.Side == 0 || v.Setting() != nil || len(v.Repeats) > 0 || v.Quantity.Unit != aim.Unit {
		return meant, false
	}
	return quantity.TheOne(v.Quantity.OtherReadings(quantity.SwappedDigits), func(q quantity.Quantity) bool { return quantity.Compare(q.SI(), aim.SI(), 0) == 0 })
}

// swappedAdvice says what to look up where a value and what its limit aims for are one another with two digits swapped, and as what else it would be inside.
func swappedAdvice(v *model.Value, swapped quantity.OtherReading) string {
	either, neither := "", "if neither was, "
	if others := quantity.Fitting(v.Quantity.OtherReadings(slipOfPen), func(q quantity.Quantity) bool { return holdsIn(v.Limit, q) }); len(others) > 0 {
		either, neither = fmt.Sprintf("; %s would be inside too", orShown(others)), "if none of this was meant, "
	}
	return fmt.Sprintf("%s and %s are one another with two digits swapped: look up which was mistyped, the figure or the limit%s; %s", v.Quantity.Shown(), swapped.Shown(), either, neither)
}

// inputRemarks adds where the figures stand that went into a number, each once.
func inputRemarks(n *derive.Number, notes []source.Remark) []source.Remark {
	for _, in := range n.Inputs {
		if in.Number != nil {
			notes = inputRemarks(in.Number, notes)
			continue
		}
		note := source.Remark{At: in.Value.At(), Message: fmt.Sprintf("`%s`", in.Value.Path)}
		if !slices.Contains(notes, note) {
			notes = append(notes, note)
		}
	}
	return notes
}

// outWords says how far out a value is.
func outWords(v *model.Value) string {
	l := v.Limit
	if len(l.Expect) > 0 {
		return fmt.Sprintf("`%s` is `%s`; it should be %s", v.Path, spoken(v), orWords(l.Expect))
	}
	if !l.IsFigures() || v.Side == 0 {
		return stepFaultWords(v)
	}
	bound, beyond := l.High, "above"
	worn := l.Worn[1]
	if v.Side < 0 {
		bound, beyond, worn = l.Low, "below", l.Worn[0]
	}
	switch {
	case l.Event != quantity.NoEvent && v.Side < 0:
		beyond = "earlier than"
	case l.Event != quantity.NoEvent:
		beyond = "later than"
	}
	if worn.Is {
		return fmt.Sprintf("`%s` is %s: %s the service limit of %s", v.Path, shown(v), beyond, l.Show(worn))
	}
	over := math.Abs(v.Quantity.SI() - bound.SI)
	if v.Quantity.Kind == quantity.Interval || len(v.Repeats) > 0 {
		return fmt.Sprintf("`%s` is %s: %s the limit of %s", v.Path, shown(v), beyond, l.Show(bound))
	}
	by := showDifference(over, l.Unit, min(l.Step, v.Quantity.StepSI()))
	if by.IsNought() { // the digits of the bound don't tell it
		at := l.Unit.FromSI(bound.SI)
		finer := l.Unit.StepSI(quantity.TwoFigures(l.Unit.StepFromSI(over, at)), at)
		return fmt.Sprintf("`%s` is %s: %s the limit of %s by %s", v.Path, shown(v), beyond, quantity.Show(bound.SI, l.Unit, finer), showDifference(over, l.Unit, finer))
	}
	return fmt.Sprintf("`%s` is %s: %s the limit of %s by %s", v.Path, shown(v), beyond, l.Show(bound), by)
}

// stepFaultWords says which step of a value is missing, or another than the limit's.
func stepFaultWords(v *model.Value) string {
	l := v.Limit
	switch fault, at := l.StepFault(v); {
	case fault == model.StepMissing && at == len(l.Steps):
		return fmt.Sprintf("`%s` is %s: the last step, %s, is missing", v.Path, shownSteps(v), stepOf(l, at))
	case fault == model.StepMissing:
		return fmt.Sprintf("`%s` is %s: the steps from %s on are missing, %s", v.Path, shownSteps(v), stepOf(l, at), stepWords(l))
	case fault == model.StepDiffers:
		step := v.Quantity
		if earlier := v.Steps(); at < len(earlier) {
			step = earlier[at]
		}
		return fmt.Sprintf("`%s` is %s: step %d is %s, where the limit says %s", v.Path, shownSteps(v), at+1, step.Shown(), stepOf(l, at))
	case fault == model.StepCount && len(v.Steps()) > 0:
		return fmt.Sprintf("`%s` is %s, %d steps where the limit has %d: %s", v.Path, shownSteps(v), len(v.Steps())+1, len(l.Steps)+1, stepWords(l))
	}
	return fmt.Sprintf("`%s` is %s, which is out: %s", v.Path, shown(v), stepWords(l))
}

// stepOf shows a step of a limit, from 0; the last one as its bounds where it is an interval.
func stepOf(l *model.Limit, at int) string {
	if steps := l.AllSteps(); at < len(steps) {
		return steps[at].Shown().String()
	}
	return l.BoundsText()
}

// shownSteps shows every step of a value, as it was put on.
func shownSteps(v *model.Value) string {
	text := ""
	for _, step := range v.Steps() {
		text += step.Shown().String() + " then "
	}
	return text + shown(v)
}

// outAdvice says what to do about a value that is out: which way, where the path tells.
func outAdvice(v *model.Value) string {
	l := v.Limit
	switch {
	case len(l.Expect) > 0:
		return "put it right and write what it is then under `[set]`"
	case v.Origin == model.Found && v.Side != 0:
		return "put it right and write the new reading under `[set]`"
	case v.Origin == model.FromSheet || v.Origin == model.FromPart:
		return "check the figure, and the limit"
	case isOverTightened(v):
		return lookAtFastener
	}
	switch fault, _ := l.StepFault(v); fault {
	case model.StepMissing:
		return "put on what is missing, or slacken it and begin again as the maker's manual says; write every step that was done, joined by `then`"
	case model.StepDiffers, model.StepCount:
		return "write every step as it was done; if it was done so, " + lookAtFastener + ", and begin again"
	}
	return "measure again; put it right before the engine turns"
}

// mistypedAdvice says what to do about a torque that is out and may be mistyped.
func mistypedAdvice(v *model.Value, meant []quantity.OtherReading) string {
	otherwise := "put it right before the engine turns"
	if isOverTightened(v) {
		otherwise = lookAtFastener
	}
	return fmt.Sprintf("the unit, or the decimal place? %s would be inside: write that if it is what was set; if it was set as it is written, %s", orShown(meant), otherwise)
}

// orShown joins what a figure may be meant as.
func orShown(readings []quantity.OtherReading) string {
	var all []string
	for _, r := range readings {
		if text := r.Shown().String(); !slices.Contains(all, text) {
			all = append(all, text)
		}
	}
	return strings.Join(all, " or ")
}

// shown returns a value's figure as it was written, beside it what it is in the unit of its limit where that is another, and what the
// wrench was set to where an adapter made the figure.
func shown(v *model.Value) string {
	if v.Words != "" {
		return "`" + v.Words + "`"
	}
	text := v.Quantity.Shown().String()
	if l := v.Limit; l != nil && l.Unit != nil && l.Unit != v.Quantity.Unit && v.Quantity.Unit.ConvertsTo(l.Unit) {
		text += " (" + v.Quantity.ShownIn(l.Unit).String() + ")"
	}
	if v.Setting() != nil {
		way := "through the adapter"
		if v.Written.Details == nil || v.Written.Details.Adapter == nil {
			way = "above the running torque"
		}
		text += " " + way + ", from a setting of " + v.Setting().Quantity.Shown().String()
	}
	return text
}

// spoken returns a value as the builder said it.
func spoken(v *model.Value) string {
	if v.Words != "" {
		return v.Words
	}
	return v.Written.Text
}

// showDifference shows a difference in a unit; temperatures differ in kelvin.
func showDifference(si float64, u *quantity.Unit, step float64) quantity.Shown {
	if u.Offset == 0 {
		return quantity.Show(si, u, step)
	}
	x := quantity.Quantity{Kind: quantity.Figure, Unit: u, Value: si / u.Factor, Step: step / u.Factor}
	return quantity.Shown{Number: x.Shown().Number, Unit: u.Symbol}
}

// boundsWords says what a limit asks for.
func boundsWords(l *model.Limit) string {
	switch {
	case len(l.Expect) > 0:
		return orWords(l.Expect)
	case l.IsFigures():
		return "the limit is " + l.BoundsText()
	}
	return stepWords(l)
}

// stepWords says every step of a limit of several.
func stepWords(l *model.Limit) string {
	var steps []string
	for i := range len(l.Steps) + 1 {
		steps = append(steps, stepOf(l, i))
	}
	return "the limit is " + strings.Join(steps, " then ")
}

// orWords joins the words that a limit expects.
func orWords(words []string) string {
	text := ""
	for i, w := range words {
		if i > 0 {
			text += " or "
		}
		text += "`" + w + "`"
	}
	return text
}

// limitNote points at the limit's own line.
func limitNote(l *model.Limit) []source.Remark {
	if l == nil {
		return nil
	}
	return []source.Remark{{At: limitPlace(l), Message: "limit"}}
}

// limitPlace is where the limit says its figure: the bound that has a place, else its name.
func limitPlace(l *model.Limit) source.Range {
	if l.Line != nil {
		return l.PathAt.To(l.Line.At)
	}
	for _, key := range []string{"nominal", "high", "low", "expect"} {
		if f := l.Fields.Get(key); f != nil {
			return f.KeyAt.To(f.At)
		}
	}
	return l.PathAt
}

// boundNote points at a bound where the limit has a line for it, else at the limit.
func boundNote(l *model.Limit, b model.Bound) []source.Remark {
	for _, key := range []string{"low", "high", "service", "allowance"} {
		if f := l.Fields.Get(key); b.Is && f != nil && f.At == b.At {
			return []source.Remark{{At: f.KeyAt.To(f.At), Message: "limit"}}
		}
	}
	return limitNote(l)
}

// passed returns the bound of standard that a value stands beyond; none where it stands on neither side.
func passed(v *model.Value) model.Bound {
	switch {
	case v.Side < 0:
		return v.Limit.Low
	case v.Side > 0:
		return v.Limit.High
	}
	return model.Bound{}
}

// lookAtFastener is what to do about a torque above its limit: unlike a gap it can't be read again.
const lookAtFastener = "slacken the fastener, look whether it or its thread has stretched, and renew it where the maker's manual says so"

func isOverTightened(v *model.Value) bool { return v.Side > 0 && isTorque(v) }

func isTorque(v *model.Value) bool { return parse.IsAtOrBelow(v.Path, "torque") }
