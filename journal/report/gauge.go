package report

import (
	"fmt"
	"io"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Gauge writes how one value stands: its verdict and limit, how far it is from nominal, and what stood there before. An error is the writer's.
func Gauge(w io.Writer, v, before *model.Value, style Style) error {
	text := v.Words
	if v.Quantity.Unit != nil {
		text = v.Quantity.Shown().String()
	}
	paint := map[model.Verdict]string{model.Out: style.Error, model.Worn: style.Warning, model.Undecided: style.Warning}[v.Verdict]
	verdict := v.Verdict.String()
	if v.Unjudged != model.Judged {
		verdict = "no verdict: " + v.Unjudged.String()
	} else if v.Verdict == model.NoLimit {
		verdict = "no limit"
	}
	lines := []string{fmt.Sprintf("%s  %s  %s", style.paint(style.Strong, v.Path), text, style.paint(paint, verdict))}
	if l := v.Limit; l != nil {
		line := "limit: " + l.BoundsText()
		if len(l.Expect) > 0 {
			line = "limit: " + l.Expect[0]
		}
		if l.Source != "" || l.Basis != "" {
			line += " (" + l.Basis
			if l.Basis != "" && l.Source != "" {
				line += ": "
			}
			line += l.Source + ")"
		}
		lines = append(lines, line)
		if v.Deviates && v.Quantity.Unit != nil && v.Quantity.Unit.Offset == 0 && !v.Quantity.Unit.Reciprocal {
			far := quantity.Show(math.Abs(v.Deviation), v.Quantity.Unit, min(v.Quantity.StepSI(), l.Nominal.StepSI()))
			switch {
			case v.Deviation > 0:
				lines = append(lines, "above nominal by "+far.String())
			case v.Deviation < 0:
				lines = append(lines, "below nominal by "+far.String())
			}
		}
	}
	if before != nil && before.Quantity.Unit != nil && before.Entry != nil {
		lines = append(lines, fmt.Sprintf("now: %s, %s on %s", before.Quantity.Shown(), before.Origin, before.Entry.Date))
	}
	for i, line := range lines {
		if i > 0 {
			line = "  " + line
		}
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}
