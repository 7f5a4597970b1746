package report

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
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

// exported is one value as it is exported. What does not apply is nil: null in JSON, an empty cell in CSV.
type exported struct {
	ID          string   `json:"id"`
	Path        string   `json:"path"`
	Origin      string   `json:"origin"`
	Entry       *string  `json:"entry"`
	Date        *string  `json:"date"`
	Meter       *float64 `json:"meter"`       // in the unit of the machine's meter; where the entry has none, the last one before
	Written     *string  `json:"written"`     // as the builder wrote it; repeats parted by "; "
	Value       *float64 `json:"value"`       // of repeats the mean, of a closed interval the middle
	Unit        *string  `json:"unit"`        // of value, low, high, uncertainty, nominal and deviation; "" for a plain number
	SI          *float64 `json:"si"`          // the value in SI; before a dead centre is negative
	SIUnit      *string  `json:"si_unit"`     //
	Low         *float64 `json:"low"`         // ends of an interval; an open one is null
	High        *float64 `json:"high"`        //
	Uncertainty *float64 `json:"uncertainty"` // expanded, k = 2
	Nominal     *float64 `json:"nominal"`     // of the limit
	Deviation   *float64 `json:"deviation"`   // from nominal
	Limit       *string  `json:"limit"`       // path of the limit that judges it; `part:NAME/PATH` for a part's
	Verdict     *string  `json:"verdict"`     // null where none was given: planned, or not read as its limit asks
	Current     bool     `json:"current"`     // it is in force now
	File        *string  `json:"file"`        //
	Line        *int     `json:"line"`        //
	Column      *int     `json:"column"`      //
	Method      *string  `json:"method"`      // how it was come by: the tool of a reading, the page of a worked-out number
	Inputs      []string `json:"inputs"`      // ids of what it was worked out from
}

// ExportJSON writes every value of a journal as one object of JSON, a value a line: those of the sheet and the entries in order of time,
// those of plans, then the numbers worked out from them, as of now. A number that can't be had is no value and is left out.
func ExportJSON(w io.Writer, result *journal.Result, opts ExportOptions) error {
	var out bytes.Buffer
	fmt.Fprintf(&out, "{\"schema\":%d,\"values\":", Schema)
	if err := writeList(&out, export(result, opts)); err != nil {
		return err
	}
	out.WriteString("}\n")
	_, err := w.Write(out.Bytes())
	return err
}

var columns = []string{
	"id", "path", "origin", "entry", "date", "meter", "written", "value", "unit", "si", "si_unit", "low", "high", "uncertainty", "nominal",
	"deviation", "limit", "verdict", "current", "file", "line", "column", "method", "inputs",
}

// ExportCSV writes what [ExportJSON] does as CSV by RFC 4180, but with plain line ends: a value a row, below a row of heads. Inputs are
// parted by "; ". No cell can act as a formula in a spreadsheet.
func ExportCSV(w io.Writer, result *journal.Result, opts ExportOptions) error {
	var out bytes.Buffer
	c := csv.NewWriter(&out)
	c.Write(columns) // into memory: the error comes with Flush
	for _, v := range export(result, opts) {
		row := v.cells()
		for i := range row {
			row[i] = inert(row[i])
		}
		c.Write(row)
	}
	c.Flush()
	if err := c.Error(); err != nil {
		return err
	}
	_, err := w.Write(out.Bytes())
	return err
}

func (v *exported) cells() []string {
	return []string{
		v.ID, v.Path, v.Origin, textCell(v.Entry), textCell(v.Date), figureCell(v.Meter), textCell(v.Written), figureCell(v.Value), textCell(v.Unit),
		figureCell(v.SI), textCell(v.SIUnit), figureCell(v.Low), figureCell(v.High), figureCell(v.Uncertainty), figureCell(v.Nominal),
		figureCell(v.Deviation), textCell(v.Limit), textCell(v.Verdict), strconv.FormatBool(v.Current), textCell(v.File), wholeCell(v.Line),
		wholeCell(v.Column), textCell(v.Method), strings.Join(v.Inputs, "; "),
	}
}

func textCell(text *string) string {
	if text == nil {
		return ""
	}
	return *text
}

func figureCell(x *float64) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'g', -1, 64)
}

func wholeCell(n *int) string {
	if n == nil {
		return ""
	}
	return strconv.Itoa(*n)
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

// exporting gathers the values of a journal.
type exporting struct {
	*Publication

	values []exported
}

func export(result *journal.Result, opts ExportOptions) []exported {
	x := &exporting{Publication: publication(result, nil)}
	if opts.Public {
		x.Publication = Publish(result)
	}
	for _, v := range x.journal.Values {
		x.value(v)
	}
	for _, e := range x.journal.Entries {
		if !e.Plan {
			continue
		}
		for _, v := range e.Values {
			x.value(v)
		}
	}
	for _, n := range result.Numbers {
		x.number(n)
	}
	return x.values
}

func (x *exporting) value(v *model.Value) {
	if !x.ShowsValue(v) {
		return
	}
	row := exported{ID: v.ID(), Path: v.Path, Origin: string(v.Origin), Written: orNull(written(v)), Current: v.Current, Inputs: []string{}}
	x.place(&row, v.Entry, v.At())
	if v.Tool != nil && !x.Hides("tools") {
		row.Method = &v.Tool.Name
	}
	if v.Setting() != nil {
		row.Inputs = append(row.Inputs, v.Setting().ID())
	}
	if v.Words == "" && v.Quantity.Unit != nil {
		row.figures(v)
	}
	if v.Unjudged == model.Judged && !(v.Entry != nil && v.Entry.Plan) {
		row.Verdict = orNull(v.Verdict.String())
	}
	row.Limit = limitOf(v.Limit)
	x.values = append(x.values, row)
}

func (x *exporting) place(row *exported, e *model.Entry, at source.Range) {
	if !x.Hides("places") {
		place := placeJSON(at)
		row.File, row.Line, row.Column = place.File, place.Line, place.Column
	}
	if e == nil {
		return
	}
	row.Entry = &e.Path
	date := e.Date.String()
	if e.Date.Time != "" {
		date += "T" + e.Date.Time
	}
	row.Date = orNull(date)
	if meter := x.MeterThen(e); meter != nil {
		shown, _ := meter.In(x.journal.Meter)
		row.Meter = figure(shown.Value)
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
	unit, sign := q.Unit.Symbol, 1.0
	if q.Event != quantity.NoEvent {
		unit += " " + q.Event.String()
		if q.Event == quantity.BTDC || q.Event == quantity.BBDC {
			sign = -1
		}
	}
	row.Unit, row.SIUnit = &unit, orNull(siSymbol(q.Unit))
	if q.Kind != quantity.Interval || q.HasLow && q.HasHigh {
		row.Value, row.SI = figure(sign*q.Value), figure(q.SI())
	}
	if q.Kind == quantity.Interval {
		low, high := end(q.HasLow, sign*q.Low), end(q.HasHigh, sign*q.High)
		if sign < 0 {
			low, high = high, low
		}
		row.Low, row.High = low, high
	}
	if expanded := v.Estimate.Expanded(); expanded > 0 {
		row.Uncertainty = figure(q.Unit.StepFromSI(expanded, q.Value))
	}
	if v.Deviates && row.Value != nil {
		nominal := q.Unit.FromSI(v.Limit.Nominal.SI())
		row.Nominal, row.Deviation = figure(sign*nominal), figure(sign*(q.Value-nominal))
	}
}

func end(there bool, x float64) *float64 {
	if !there {
		return nil
	}
	return figure(x)
}

func limitOf(l *model.Limit) *string {
	if l == nil {
		return nil
	}
	path := l.Path
	if l.Part != nil {
		path = "part:" + l.Part.Name + "/" + path
	}
	return &path
}

func (x *exporting) number(n *derive.Number) {
	if n.Reason != "" || n.Unit == nil || !x.ShowsNumber(n) {
		return
	}
	value := n.Unit.FromSI(n.Estimate.Value)
	row := exported{
		ID: n.ID(), Path: n.Path, Origin: string(model.FromWorked), Value: figure(value), Unit: &n.Unit.Symbol, SI: figure(n.Estimate.Value),
		SIUnit: orNull(siSymbol(n.Unit)), Limit: limitOf(n.Limit), Verdict: orNull(n.Verdict.String()), Current: true, Method: orNull(n.Family.Name), Inputs: []string{},
	}
	x.place(&row, n.Entry, source.Range{})
	if expanded := n.Estimate.Expanded(); expanded > 0 {
		row.Uncertainty = figure(n.Unit.StepFromSI(expanded, value))
	}
	if n.Deviates {
		nominal := n.Unit.FromSI(n.Limit.Nominal.SI())
		row.Nominal, row.Deviation = figure(nominal), figure(value-nominal)
	}
	for _, in := range n.Inputs {
		row.Inputs = append(row.Inputs, inputID(in))
	}
	x.values = append(x.values, row)
}

func inputID(in derive.Input) string {
	if in.Number != nil {
		return in.Number.ID()
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
