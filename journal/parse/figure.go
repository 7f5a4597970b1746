package parse

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

func (d *decoder) figure(f *Field, n *node) bool {
	value, ok := d.value(n, f.Key.Name)
	if !ok {
		return false
	}
	if value.IsBlank() {
		d.report("empty-value", source.Note, n.place(), f.Key.Name, fmt.Sprintf("`%s` is empty", f.Key.Name), "fill it in or take the line out")
		return false
	}
	if f.Key.Unit != "meter" && f.Key.Unit != "money" && !d.checkFigure(&value, f.Key) {
		return false
	}
	f.Figures = append(f.Figures, value)
	return true
}

// Want returns what a figure of the key must be.
func (k *Key) Want() quantity.Want {
	want := quantity.Want{Dimensions: k.Dimensions, Floor: k.Floor, Least: k.Least, Most: k.Most, Ratio: k.Kind == KindRatio || k.Kind == KindRatios}
	if want.Ratio {
		want.Dimensions, want.Bare = dims(quantity.Pure), quantity.One()
	} else if k.Unit != "" {
		want.Bare = UnitSpelled(k.Unit)
	}
	return want
}

// UnitSpelled returns the first unit that a spelling may mean, the plain number for none, nil for an unknown one.
func UnitSpelled(spelling string) *quantity.Unit {
	if spelling == "" {
		return quantity.One()
	}
	if units := quantity.UnitsSpelled(spelling); len(units) > 0 {
		return units[0]
	}
	return nil
}

// checkFigure reports a figure that is not what its key wants.
func (d *decoder) checkFigure(v *Value, key *Key) bool {
	if len(key.Dimensions) == 0 && key.Kind != KindRatio && key.Kind != KindRatios {
		// A limit's or a tool's own figure: its path decides the rest, in the model.
		return (!key.bounds() || d.checkBound(v, key.Name)) && (limitKeys.child(key.Name) != key || d.checkAnother(v, key.Name))
	}
	if v.Kind == quantity.Words {
		d.report("bad-quantity", source.Error, v.At, key.Name, fmt.Sprintf("`%s` is not a quantity; `%s` wants one", v.Text, key.Name), key.figureAdvice())
		return false
	}
	q, slip := v.Resolve(key.Want())
	if slip == nil && key.Calendar && !q.Unit.IsCalendar() {
		slip = &quantity.Slip{Kind: "wrong-dimension", End: len(v.Text), Message: fmt.Sprintf("`%s` is time in use, which nobody counts here: `%s` goes by the calendar", v.Text, key.Name),
			Do: "write it in days, weeks, months or years"}
	}
	if slip != nil {
		d.slip(v, slip, key.Name)
		return false
	}
	return true
}

// figureAdvice says what a key holds, and what a figure of it looks like.
func (k *Key) figureAdvice() string {
	if len(k.Dimensions) != 1 {
		return k.Doc
	}
	return fmt.Sprintf("write a figure, as in `\"%s\"`: %s", quantity.Sample(k.Dimensions[0]), k.Doc)
}

// bounds reports whether what the key holds may be an interval that something is held to.
func (k *Key) bounds() bool { return k.Name == "nominal" || k.Name == "service" || k.Name == "range" }

// checkBound reports a bound in words where an interval is due: it would be words that a reading must be, or bound nothing.
func (d *decoder) checkBound(v *Value, subject string) bool {
	slip := quantity.Bound(v.Text)
	if slip != nil {
		d.slip(v, slip, subject)
	}
	return slip == nil
}

// checkAnother reports a figure of a limit with another one in the words behind it, which would hold nothing to anything.
func (d *decoder) checkAnother(v *Value, subject string) bool {
	slip := quantity.Another(v.Text)
	if slip != nil {
		d.slip(v, slip, subject)
	}
	return slip == nil
}

func (d *decoder) slip(v *Value, slip *quantity.Slip, subject string) {
	finding := v.Finding(slip, subject)
	finding.Entry = d.entry
	d.findings = append(d.findings, finding)
}

// slipRule returns the rule that a slip in a figure falls under: those that people often make have one each.
func slipRule(kind string) string {
	switch kind {
	case "about", "bound-sign", "bound-words":
		return "rough-figure"
	case "no-unit":
		return "missing-unit"
	case "reversed":
		return "reversed-interval"
	case "stray-quotes", "inch-mark-doubled":
		return "inch-mark"
	case "ambiguous-unit", "curly-quotes", "decimal-comma", "leading-dot", "money-unclear", "no-side", "range-dash", "thousands", "two-units", "unknown-unit", "wrong-dimension":
		return kind
	}
	return "bad-quantity"
}

// Finding makes the finding of a slip in the value's text.
func (v *Value) Finding(slip *quantity.Slip, subject string) source.Finding {
	finding := source.Finding{Rule: slipRule(slip.Kind), Severity: source.Error, At: v.Span(slip.Start, slip.End), Subject: subject, Message: slip.Message, Do: slip.Do}
	for _, offer := range slip.Offers {
		if fix, ok := v.offer(offer); ok {
			finding.Fixes = append(finding.Fixes, fix)
		}
	}
	return finding
}

// offer returns the fix that puts a text in the value's place, or false where that text can't stand there: a cell of a grid holds
// no blanks.
func (v *Value) offer(text string) (source.Fix, bool) {
	title := fmt.Sprintf("write `%s`", text)
	switch {
	case v.home == inCSV:
		return source.Replace(title, v.At, csvCell(text)), true
	case v.home == inNumber || len(v.Repeats) > 0:
		return source.Replace(fmt.Sprintf("write `\"%s\"`", text), v.At, strconv.Quote(text)), true
	case v.home == inGrid && strings.ContainsFunc(text, unicode.IsSpace):
		return source.Fix{}, false
	}
	return source.Replace(title, v.Span(0, len(v.Text)), escapedIn(v.At, text)), true
}

// escapedIn returns a text as it stands between the quotes of a string. A cell of a grid stands in none of its own.
func escapedIn(quoted source.Range, text string) string {
	if strings.HasPrefix(quoted.Text(), "'") {
		return text
	}
	return strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text)
}

// runsOverLines reports whether a string has several lines: then it is a grid, where a value is due.
func (n *node) runsOverLines() bool {
	return n.isString() && strings.Contains(strings.TrimSpace(n.text), "\n")
}

// value decodes a scalar as a value: a string, or a number as it was typed.
func (d *decoder) value(n *node, subject string) (Value, bool) {
	v := Value{At: n.at, Text: n.text}
	switch n.kind {
	case nodeString, nodeMultiline:
		if n.runsOverLines() {
			break
		}
		v.stand(n, 0)
		written, slip := quantity.Parse(n.text)
		v.Kind = written.Kind
		if slip != nil {
			d.slip(&v, slip, subject)
			return v, false
		}
		return v, true
	case nodeInteger, nodeFloat:
		if !isPlainNumber(n.text) {
			d.report("bad-number", source.Error, n.at, subject, fmt.Sprintf("`%s` is not a figure that can be measured", n.text), "write a decimal number with its unit")
			return v, false
		}
		v.home, v.Kind = inNumber, quantity.Bare(n.text).Kind
		return v, true
	case nodeBad, nodeMissing:
		return v, false
	}
	holds := n.kind.words()
	if n.isString() {
		holds = "a text of several lines"
	}
	d.report("wrong-kind", source.Error, n.place(), subject, fmt.Sprintf("`%s` holds %s; it wants a quantity in quotes", subject, holds), "write it as `\"0.08 mm\"`")
	return v, false
}

func isPlainNumber(text string) bool {
	for _, r := range text {
		if !(r >= '0' && r <= '9' || strings.ContainsRune("+-._eE", r)) {
			return false
		}
	}
	return text != ""
}
