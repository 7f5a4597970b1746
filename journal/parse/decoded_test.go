package parse

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// This file decodes texts for the tests and prints what was decoded and found.

// decoded is what one file gave.
type decoded struct {
	file     *source.File
	fields   *Fields // of the build sheet, the entry, or the first limit, part or tool that has keys
	limits   []*Limit
	parts    []*Part
	tools    []*Tool
	entry    *Entry
	readings []Reading // of an entry: found, then set; of a CSV file its rows
	csv      *CSV
	findings []source.Finding
}

// decode decodes a text as the file of that name is.
func decode(name, text string) decoded {
	d := decoded{file: source.NewFile(name, text)}
	switch {
	case name == "build.toml":
		var build *Build
		build, d.findings = DecodeBuild(d.file, markdown.Options{})
		d.fields = build.Fields
	case name == "limits.toml":
		var file *LimitFile
		file, d.findings = DecodeLimits(d.file)
		d.limits = file.Limits
		for _, l := range slices.Backward(d.limits) {
			if l.Fields != nil {
				d.fields = l.Fields
			}
		}
	case name == "parts.toml":
		var file *PartFile
		file, d.findings = DecodeParts(d.file)
		if d.parts = file.Parts; len(d.parts) > 0 {
			d.fields = d.parts[0].Fields
		}
	case name == "tools.toml":
		var file *ToolFile
		file, d.findings = DecodeTools(d.file)
		if d.tools = file.Tools; len(d.tools) > 0 {
			d.fields = d.tools[0].Fields
		}
	case strings.HasSuffix(name, ".csv"):
		if d.csv, d.findings = DecodeCSV(d.file); d.csv != nil {
			var more []source.Finding
			d.readings, more = d.csv.Readings()
			d.findings = append(d.findings, more...)
		}
	default:
		d.entry, d.findings = DecodeEntry(d.file)
		if d.entry != nil {
			d.findings = append(d.findings, d.entry.ReadBody(markdown.Options{}).Findings...)
			d.fields = d.entry.Fields
			d.readings = append(d.entry.Found[:len(d.entry.Found):len(d.entry.Found)], d.entry.Set...)
		}
	}
	return d
}

const entryName = "entries/2026-04-18-cam.md"

// headed returns an entry with that head.
func headed(head string) string { return "```toml\n" + head + "\n```\n\nText.\n" }

// decodeHead decodes an entry with that head.
func decodeHead(head string) decoded { return decode(entryName, headed(head)) }

// found prints findings in the order of their places, each as `rule: underlined text`.
func found(findings []source.Finding) string {
	source.Number(findings)
	var lines []string
	for _, f := range findings {
		text := f.At.Text()
		if f.At.IsWhole() {
			text = "(whole file)"
		}
		lines = append(lines, f.Rule+": "+strings.NewReplacer("\n", "⏎", "\r", "␍").Replace(text))
	}
	return strings.Join(lines, "\n")
}

// placed prints findings like found, each with the line and column of its place before it.
func placed(findings []source.Finding) string {
	var lines []string
	for _, f := range findings {
		line, column, _, _ := f.At.Position()
		lines = append(lines, fmt.Sprintf("%d:%d %s", line, column, found([]source.Finding{f})))
	}
	return strings.Join(lines, "\n")
}

// said prints the messages of findings and what they advise.
func said(findings []source.Finding) string {
	var lines []string
	for _, f := range findings {
		lines = append(lines, f.Message+" → "+f.Do)
	}
	return strings.Join(lines, "\n")
}

func wantNothingFound(t *testing.T, d decoded) {
	t.Helper()
	if len(d.findings) > 0 {
		t.Errorf("in\n%s\nfound\n%s\n%s\nwant nothing", d.file.Text, placed(d.findings), said(d.findings))
	}
}

func wantFound(t *testing.T, d decoded, want string) {
	t.Helper()
	if got := found(d.findings); got != want {
		t.Errorf("in\n%s\nfound\n%s\nwant\n%s\n(said: %s)", d.file.Text, got, want, said(d.findings))
	}
}

// shownReadings prints readings in the order of the text: `state path = figures in SI`.
func shownReadings(readings []Reading) string {
	var lines []string
	for _, r := range readings {
		line := r.State.String() + " " + r.Path + " = " + shownValue(r.Value, quantity.Want{})
		if r.Unread {
			line = r.State.String() + " " + r.Path + " unread"
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "\n")
}

// shownValue prints a value: figures in SI with their dimension, words in quotes.
func shownValue(v Value, want quantity.Want) string {
	text := shownFigure(v, want)
	if len(v.Repeats) > 0 {
		var all []string
		for _, r := range v.Repeats {
			all = append(all, shownFigure(r, want))
		}
		text = "[" + strings.Join(all, "; ") + "]"
	}
	if d := v.Details; d != nil {
		text += " {" + strings.Join(shownDetails(d), ", ") + "}"
	}
	return text
}

func shownDetails(d *Details) []string {
	var all []string
	for _, text := range []struct {
		name string
		text Text
	}{{"was", d.Was}, {"note", d.Note}} {
		if !text.text.IsZero() {
			all = append(all, text.name+" "+strconv.Quote(text.text.Text))
		}
	}
	if !d.With.IsZero() {
		all = append(all, "with "+d.With.Name)
	}
	for _, figure := range []struct {
		name  string
		value *Value
		want  quantity.Want
	}{{"engine-temp", d.EngineTemp, quantity.Want{Dimensions: dims(quantity.Temperature)}}, {"adapter", d.Adapter, quantity.Want{}}, {"adapter-angle", d.AdapterAngle, quantity.Want{}}} {
		if figure.value != nil {
			all = append(all, figure.name+" "+shownValue(*figure.value, figure.want))
		}
	}
	return all
}

func shownFigure(v Value, want quantity.Want) string {
	switch v.Kind {
	case quantity.Blank:
		return "blank"
	case quantity.Words:
		return strconv.Quote(v.Written().Words)
	}
	q, slip := v.Resolve(want)
	if slip != nil {
		return "slip " + slip.Kind
	}
	text := fmt.Sprintf("%.6g", q.SI())
	if q.Kind == quantity.Interval {
		text = fmt.Sprintf("%.6g..%.6g", q.LowSI(), q.HighSI())
	}
	if q.HasSpread {
		text += fmt.Sprintf("±%.6g", q.SpreadSI())
	}
	if q.Event != quantity.NoEvent {
		text += " " + q.Event.String()
	}
	if text += " " + q.Unit.Dimension.String(); q.Unit.Currency != "" {
		text += " " + q.Unit.Currency
	}
	if q.Words != "" {
		text += " " + strconv.Quote(q.Words)
	}
	if n := len(v.Written().Steps); n > 0 {
		text = fmt.Sprintf("%d steps, last %s", n, text)
	}
	return text
}

// shownField prints what a key holds.
func shownField(f *Field) string {
	var all []string
	for _, text := range f.Texts {
		all = append(all, strconv.Quote(text.Text))
	}
	for _, name := range f.Names {
		all = append(all, name.Name)
	}
	want := f.Key.Want()
	switch f.Key.Unit {
	case "meter":
		want.Bare = UnitSpelled("km")
	case "money":
		want.Bare, want.Money = UnitSpelled("GBP"), "GBP"
	}
	for _, v := range f.Figures {
		all = append(all, shownValue(v, want))
	}
	for _, date := range f.Dates {
		all = append(all, strings.TrimSuffix(date.String()+" "+date.Time, " "))
	}
	if f.Key.Kind == KindWhole || f.Key.Kind == KindCylinders {
		all = append(all, strconv.Itoa(f.Whole))
	}
	if f.Table != nil {
		all = append(all, shownFields(f.Table))
	}
	for i := range f.Tables {
		all = append(all, shownFields(&f.Tables[i]))
	}
	if len(f.Readings) > 0 {
		all = append(all, shownReadings(f.Readings))
	}
	for _, l := range f.Limits {
		all = append(all, shownLimit(l))
	}
	for _, u := range f.Units {
		all = append(all, shownUnits(u))
	}
	if n := len(f.Sizes); n > 0 {
		all = append(all, fmt.Sprintf("%d sizes, %.6g to %.6g", n, f.Sizes[0], f.Sizes[n-1]))
	}
	if f.Grid != nil {
		all = append(all, shownGrid(f.Grid))
	}
	return strings.Join(all, ", ")
}

func shownFields(t *Fields) string {
	var all []string
	for _, f := range t.List {
		all = append(all, f.Key.Name+" "+shownField(f))
	}
	return "{" + strings.Join(all, ", ") + "}"
}

func shownLimit(l *Limit) string {
	switch {
	case l.Unread:
		return l.Path + " unread"
	case l.Line != nil:
		return l.Path + " = " + shownValue(*l.Line, quantity.Want{})
	}
	return l.Path + " " + shownFields(l.Fields)
}

func shownLimits(limits []*Limit) string {
	var all []string
	for _, l := range limits {
		all = append(all, shownLimit(l))
	}
	return strings.Join(all, "\n")
}

func shownUnits(u UnitChoice) string {
	text := u.Dimension.String() + ":"
	for _, unit := range u.Units {
		text += " " + unit.Symbol
	}
	if u.Currency != "" {
		text += " " + u.Currency
	}
	return text
}

func shownGrid(g *Grid) string {
	rows := []string{g.Corner.Text}
	for _, column := range g.Columns {
		rows[0] += " " + column.Text
	}
	for i, head := range g.Rows {
		row := head.Text
		for _, cell := range g.Cells[i] {
			row += " " + cell.Text
		}
		rows = append(rows, row)
	}
	return strings.Join(rows, " / ")
}
