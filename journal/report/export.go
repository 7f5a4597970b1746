package report

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// ExportOptions say which values are exported.
type ExportOptions struct {
	Public bool // leave out what the journal hides, as its site does
}

// exported is one value as it is exported. What does not apply is null in JSON and an empty cell in CSV: an empty text, a figure that is NaN, line 0.
type exported struct {
	id, path, origin, entry, date string
	meter                         float64 // in the unit of the machine's meter; where the entry has none, the last one before
	written                       string  // as the builder wrote it; repeats parted by "; "
	value                         float64 // of repeats the mean, of a closed interval the middle
	unit                          string  // of value, low, high, uncertainty, nominal and deviation; empty for a plain number
	hasUnit                       bool    // it is a figure
	si                            float64 // the value in SI; before a dead centre is negative
	siUnit                        string
	low, high                     float64 // ends of an interval; an open one is none
	uncertainty                   float64 // expanded, k = 2
	nominal, deviation            float64 // of the limit, and from it
	limit                         string  // path of the limit that judges it; `part:NAME/PATH` for a part's
	verdict                       string  // none where none was given: planned, or not read as its limit asks
	current                       bool    // it is in force now
	file                          string
	line, column                  int
	method                        string   // how it was come by: the tool of a reading, the page of a worked-out number
	inputs                        []string // ids of what it was worked out from
}

// Export is what is exported of a journal, a value at a time: those of the sheet and the entries in order of time, those of plans, then the numbers
// worked out from them, as of now. A number that can't be had is no value and is left out. It may be used from several goroutines at once.
type Export struct {
	*Publication

	values  []*model.Value
	numbers []*derive.Number
}

// newExport finds out what is exported.
func newExport(result *journal.Result, opts ExportOptions) *Export {
	if opts.Public {
		return Publish(result).Export(result.Numbers)
	}
	return publication(result, nil).Export(result.Numbers)
}

// Export is what is exported of what is published, and of those numbers.
func (p *Publication) Export(numbers []*derive.Number) *Export {
	x := &Export{Publication: p}
	take := func(v *model.Value) {
		if x.ShowsValue(v) {
			x.values = append(x.values, v)
		}
	}
	for _, v := range x.journal.Values {
		take(v)
	}
	for _, e := range x.journal.Entries {
		if e.Plan {
			for _, v := range e.Values {
				take(v)
			}
		}
		for _, session := range e.Pulls {
			for _, v := range session.Air.Values() {
				take(v)
			}
		}
	}
	for _, n := range numbers {
		if n.Reason == "" && n.Unit != nil && x.ShowsNumber(n) {
			x.numbers = append(x.numbers, n)
		}
	}
	return x
}

// Len returns how many values there are.
func (x *Export) Len() int { return len(x.values) + len(x.numbers) }

var columns = []string{
	"id", "path", "origin", "entry", "date", "meter", "written", "value", "unit", "si", "si_unit", "low", "high", "uncertainty", "nominal",
	"deviation", "limit", "verdict", "current", "file", "line", "column", "method", "inputs",
}

// ExportCSV writes what [ExportJSON] does as CSV by RFC 4180, but with plain line ends: a value a row, below a row of heads. Inputs are
// parted by "; ". No cell can act as a formula in a spreadsheet.
func ExportCSV(w io.Writer, result *journal.Result, opts ExportOptions) error {
	x := newExport(result, opts)
	c := csv.NewWriter(w)
	c.Write(columns) // what fails comes with Flush
	for i := range x.Len() {
		row := x.row(i)
		cells := row.cells()
		for k := range cells {
			cells[k] = inert(cells[k])
		}
		c.Write(cells)
	}
	c.Flush()
	return c.Error()
}

func (v *exported) cells() []string {
	return []string{
		v.id, v.path, v.origin, v.entry, v.date, figureCell(v.meter), v.written, figureCell(v.value), v.unit, figureCell(v.si), v.siUnit, figureCell(v.low),
		figureCell(v.high), figureCell(v.uncertainty), figureCell(v.nominal), figureCell(v.deviation), v.limit, v.verdict, strconv.FormatBool(v.current),
		v.file, wholeCell(v.line), wholeCell(v.column), v.method, strings.Join(v.inputs, "; "),
	}
}

// appendFigure appends a number to twelve figures, which takes the binary rounding off (0.02, not 0.020000000000000004); what stands for none where it is
// no number.
func appendFigure(dst []byte, x float64, none string) []byte {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return append(dst, none...)
	}
	return strconv.AppendFloat(dst, x, 'g', 12, 64)
}

func figureCell(x float64) string { return string(appendFigure(nil, x, "")) }

func wholeCell(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// inert puts an apostrophe before a cell that a spreadsheet would take for a formula. Plain numbers stay as they are.
func inert(cell string) string {
	if cell == "" || !strings.ContainsRune("=+-@\t\r\n", rune(cell[0])) {
		return cell
	}
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return cell
	}
	return "'" + cell
}

// row is one of the values, counted from 0.
func (x *Export) row(i int) exported {
	if i < len(x.values) {
		return x.value(x.values[i])
	}
	return x.number(x.numbers[i-len(x.values)])
}

// blank is a row in which nothing applies yet.
func blank(id, path string, origin model.Origin) exported {
	none := math.NaN()
	return exported{id: id, path: path, origin: string(origin), meter: none, value: none, si: none, low: none, high: none, uncertainty: none, nominal: none, deviation: none}
}

func (x *Export) value(v *model.Value) exported {
	row := blank(v.ID(), v.Path, v.Origin)
	row.written, row.current = written(v), v.Current
	x.place(&row, v.Entry, v.At())
	if v.Tool != nil && !x.Hides("tools") {
		row.method = v.Tool.Name
	}
	if v.Setting() != nil {
		row.inputs = []string{v.Setting().ID()}
	}
	if v.Words == "" && v.Quantity.Unit != nil {
		row.figures(v)
	}
	if v.Unjudged == model.Judged && !(v.Entry != nil && v.Entry.Plan) {
		row.verdict = v.Verdict.String()
	}
	row.limit = limitOf(v.Limit)
	return row
}

func (x *Export) place(row *exported, e *model.Entry, at source.Range) {
	if !x.Hides("places") {
		if !at.IsZero() {
			row.file = at.File.Name
			if !at.IsWhole() {
				row.line, row.column, _, _ = at.Position()
			}
		}
	}
	if e == nil {
		return
	}
	row.entry = e.Path
	if row.date = e.Date.String(); e.Date.Time != "" {
		row.date += "T" + e.Date.Time
	}
	if meter := x.MeterThen(e); meter != nil {
		shown, _ := meter.In(x.journal.Meter)
		row.meter = shown.Value
	}
}

// written returns a value as the builder wrote it.
func written(v *model.Value) string {
	if v.Written == nil {
		return ""
	}
	var texts []string
	for _, f := range v.Written.Figures() {
		texts = append(texts, f.Text)
	}
	return strings.Join(texts, "; ")
}

// figures puts in what a value measures. Figures counted from a dead centre count to the side that was written, which the unit then names.
func (row *exported) figures(v *model.Value) {
	q := v.Quantity
	sign := 1.0
	row.unit, row.hasUnit, row.siUnit = q.Unit.Symbol, true, siSymbol(q.Unit)
	if q.Event != quantity.NoEvent {
		row.unit += " " + q.Event.String()
		if q.Event.IsBefore() {
			sign = -1
		}
	}
	closed := !q.IsOpenEnded()
	if closed {
		row.value, row.si = sign*q.Value, q.SI()
	}
	if q.Kind == quantity.Interval {
		if q.HasLow {
			row.low = sign * q.Low
		}
		if q.HasHigh {
			row.high = sign * q.High
		}
		if sign < 0 {
			row.low, row.high = row.high, row.low
		}
	}
	if expanded := v.Estimate.Expanded(); expanded > 0 {
		row.uncertainty = q.Unit.StepFromSI(expanded, q.Value)
	}
	if v.Deviates && closed {
		nominal := q.Unit.FromSI(v.Limit.Nominal.SI())
		row.nominal, row.deviation = sign*nominal, sign*(q.Value-nominal)
	}
}

func limitOf(l *model.Limit) string {
	switch {
	case l == nil:
		return ""
	case l.Part != nil:
		return "part:" + l.Part.Name + "/" + l.Path
	}
	return l.Path
}

func (x *Export) number(n *derive.Number) exported {
	value := n.Unit.FromSI(n.Estimate.Value)
	row := blank(n.ID(), n.Path, model.FromWorked)
	row.value, row.unit, row.hasUnit, row.si, row.siUnit = value, n.Unit.Symbol, true, n.Estimate.Value, siSymbol(n.Unit)
	row.limit, row.verdict, row.current, row.method = limitOf(n.Limit), n.Verdict.String(), true, n.Family.Name
	x.place(&row, n.Entry, source.Range{})
	if expanded := n.Estimate.Expanded(); expanded > 0 {
		row.uncertainty = n.Unit.StepFromSI(expanded, value)
	}
	if n.Deviates {
		row.nominal = n.Unit.FromSI(n.Limit.Nominal.SI())
		row.deviation = value - row.nominal
	}
	if before := n.Event.IsBefore(); n.Event != quantity.NoEvent {
		row.unit += " " + n.Event.String()
		if before { // counts to the side that the unit names, as a reading's does
			row.value, row.nominal, row.deviation = -row.value, -row.nominal, -row.deviation
		}
	}
	for _, in := range n.Inputs {
		row.inputs = append(row.inputs, inputID(in))
	}
	return row
}

func inputID(in derive.Input) string {
	switch {
	case in.Number != nil:
		return in.Number.ID()
	case in.Curves != nil:
		return in.Curves.CurvesID()
	}
	return in.Value.ID()
}

// siSymbol returns the symbol of the unit that the SI values of a unit are in: `m` for `mm`. Money is in its own currency.
func siSymbol(u *quantity.Unit) string {
	if u.Dimension == quantity.Money {
		return u.Currency
	}
	return u.Dimension.SIUnit()
}
