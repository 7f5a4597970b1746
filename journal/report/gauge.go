package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/gauge"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Gauge writes how one value would stand: its verdict, each limit that it is held to, how far it is from nominal and from its goal, and what stood there
// before. An error is the writer's.
func Gauge(w io.Writer, s *gauge.Standing, style Style) error {
	v := s.Value
	text := v.Words
	if v.Quantity.Unit != nil {
		text = stepsBefore(v.Steps()) + v.Quantity.Shown().String()
	}
	verdict := v.Verdict.String()
	if v.Unjudged != model.Judged {
		verdict = "no verdict: " + v.Unjudged.String()
	}
	lines := []string{fmt.Sprintf("%s  %s  %s", style.paint(style.Strong, v.Path), text, style.paint(style.verdict(v.Verdict), verdict))}
	if s.Steps != "" {
		lines = append(lines, s.Steps)
	}
	if s.Slip != "" {
		lines = append(lines, "far outside: "+s.Slip)
	}
	lines = append(lines, limitLines(v, style)...)
	if line := goalLine(s); line != "" {
		lines = append(lines, line)
	}
	if before := s.Before; before != nil && before.Quantity.Unit != nil && before.Entry != nil {
		lines = append(lines, fmt.Sprintf("now: %s, %s on %s", before.Quantity.Shown(), before.Origin, before.Entry.Date))
	}
	_, err := fmt.Fprintln(w, strings.Join(lines, "\n  "))
	return err
}

// stepsBefore writes the steps before a last one.
func stepsBefore(steps []quantity.Quantity) string {
	text := ""
	for _, step := range steps {
		text += step.Shown().String() + " then "
	}
	return text
}

// verdict is what a verdict is painted in.
func (s Style) verdict(v model.Verdict) string {
	switch v {
	case model.Out:
		return s.Error
	case model.Worn, model.Undecided:
		return s.Warning
	}
	return ""
}

// limitLines tells the limits that a value is held to, and how far it is from nominal: the one at or above its path; or each of those below that judge
// it, with what it says.
func limitLines(v *model.Value, style Style) []string {
	if v.Limit == nil {
		return nil
	}
	judged := v.Judged()
	if len(judged) < 2 && !strings.HasPrefix(v.Limit.Path, v.Path+".") {
		lines := []string{"limit: " + limitWords(v.Limit)}
		if v.Deviates {
			lines = append(lines, beside(v.Quantity, v.Limit.Nominal, "nominal"))
		}
		return slices.DeleteFunc(lines, func(line string) bool { return line == "" })
	}
	if len(judged) == 0 {
		return []string{fmt.Sprintf("limit at %s: %s", v.Limit.Path, limitWords(v.Limit))}
	}
	var lines []string
	for _, j := range judged {
		line := fmt.Sprintf("limit at %s: %s: %s", j.Limit.Path, limitWords(j.Limit), style.paint(style.verdict(j.Verdict), j.Verdict.String()))
		if off := beside(v.Quantity, j.Limit.Nominal, "nominal"); off != "" {
			line += ", " + off
		}
		lines = append(lines, line)
	}
	return lines
}

// limitWords says what a limit asks for, and who says so.
func limitWords(l *model.Limit) string {
	line := l.BoundsText()
	if line == "" && l.Nominal != nil {
		line = l.Nominal.Shown().String() + " without a tolerance"
	}
	line = stepsBefore(l.Steps) + line
	for i, bound := range l.Worn {
		if bound.Is {
			line += ", worn " + []string{"down", "up"}[i] + " to " + l.Show(bound).String()
		}
	}
	if len(l.Expect) > 0 {
		line = strings.Join(l.Expect, " or ")
	}
	switch {
	case l.Source != "" && l.Basis != "":
		return fmt.Sprintf("%s (%s: %s)", line, l.Basis, l.Source)
	case l.Source != "" || l.Basis != "":
		return line + " (" + l.Basis + l.Source + ")"
	}
	return line
}

// goalLine says whether the value reaches the goal at its path, and how far it is from it; "" where there is no goal.
func goalLine(s *gauge.Standing) string {
	if s.Goal == nil {
		return ""
	}
	goal := s.Goal.Quantity
	line := "goal: " + goal.Shown().String()
	switch {
	case s.IsToGoal && s.Reached:
		line += ", reached"
	case s.IsToGoal:
		line += ", not reached"
	}
	if far := beside(s.Value.Quantity, &goal, "it"); far != "" && goal.Kind != quantity.Interval {
		line += ": " + far
	}
	return line
}

// beside says how far a figure, or the middle of a bracket, is above or below another, which has a name; "" where it is neither, where it is open at one
// end, or where the two have no difference in its unit.
func beside(q quantity.Quantity, other *quantity.Quantity, name string) string {
	if other == nil || q.IsOpenEnded() || q.Unit == nil || q.Unit.Offset != 0 || q.Unit.Reciprocal || !q.Unit.ConvertsTo(other.Unit) {
		return ""
	}
	far := quantity.Show(math.Abs(q.SI()-other.SI()), q.Unit, min(q.StepSI(), other.StepSI()))
	if !strings.ContainsAny(far.Number, "123456789") {
		return "" // not by any digit that is told
	}
	switch quantity.Compare(q.SI(), other.SI(), 0) {
	case 1:
		return fmt.Sprintf("above %s by %s", name, far)
	case -1:
		return fmt.Sprintf("below %s by %s", name, far)
	}
	return ""
}
