package model

import (
	"fmt"
	"math"
	"path"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Pulls are the pulls of one session: repeats in one air, before or after the fitting of their entry.
type Pulls struct {
	Entry           *Entry
	State           string // `before` or `after`
	Order           int
	At              source.Range
	Dyno            *Tool
	Gear            int // 0: not said
	GearAt          source.Range
	Where           string // `wheel` or `crank`; empty: not said
	Corrected       string // the standard by which the figures are corrected, `none` for none; empty: not said
	CorrectedUnread bool   // what is said of that can't be read
	Air             *Air   // nil: nothing is said of it
	Note            string
	Runs            []Run
	Peak            *Value // peak power, the mean of the pulls
	Torque          *Value // peak torque

	id string // what its values' identities have in the place of an origin
}

// Run is one pull, from a file, with its points in the order of the file. All figures are SI: rad/s, W, N·m.
type Run struct {
	File   *source.File
	Named  source.Range   // where the entry names the file
	Head   source.Range   // of the column of power, of torque where there is none
	Unit   *quantity.Unit // of that column
	Points []Point
	Torn   bool               // power and torque of most of its rows contradict each other, which was reported
	Lacks  quantity.Dimension // power or torque, where the file holds the other alone; Unknown: it holds both
}

// Point is one row of a pull. What the file doesn't hold is worked out from the other: P = M·ω.
type Point struct {
	Speed, Power, Torque float64
	Lambda               float64 // of a mixture that can burn; nought where the file holds none there
	Row                  int     // in the CSV
}

// Span returns the least and the greatest engine speed of the rows, in rad/s.
func (r *Run) Span() (low, high float64) {
	low = math.Inf(1)
	for _, pt := range r.Points {
		low, high = min(low, pt.Speed), max(high, pt.Speed)
	}
	return low, high
}

// IsAtWheel reports whether a figure is of pulls whose figures count at the wheel.
func (v *Value) IsAtWheel() bool { return v.pulls != nil && v.pulls.Where == "wheel" }

// WorkedOut reports whether power, or torque, is worked out from the other in one of the files at least: P = M·ω.
func (p *Pulls) WorkedOut(d quantity.Dimension) bool {
	return slices.ContainsFunc(p.Runs, func(run Run) bool { return run.Lacks == d })
}

// pulls takes in the sessions of an entry that were before, or after, its fitting.
func (l *linker) pulls(e *Entry, state string, moment int) {
	names := map[string]int{}
	for i := range e.Fields.Tables("pulls") {
		table := &e.Fields.Tables("pulls")[i]
		if table.IsBad("state") {
			continue // which side of the fitting they stand on can't be told
		}
		if s := table.Text("state").Text; s != state && !(s == "" && state == "after") {
			continue
		}
		p := &Pulls{Entry: e, State: state, Order: orderOf(e.Index, moment), At: table.At, Where: table.Text("at").Text, Corrected: table.Text("corrected").Text, CorrectedUnread: table.IsBad("corrected"), Note: table.Text("note").Text}
		if gear := table.Get("gear"); gear != nil {
			p.Gear, p.GearAt = gear.Whole, gear.At
		}
		if name := table.Name("dyno"); !name.IsZero() {
			p.Dyno = l.journal.tools[name.Name]
		}
		var powers, torques peaks
		var read []parse.Text
		for _, name := range l.notYetPulled(p, table.Texts("data")) {
			if run, ok := l.run(e, name, table.Table("columns")); ok {
				p.Runs, read = append(p.Runs, run), append(read, name)
				powers.add(run, func(pt Point) float64 { return pt.Power }, l.journal.Units.Leading(quantity.Power))
				torques.add(run, func(pt Point) float64 { return pt.Torque }, l.journal.Units.Leading(quantity.Torque))
			}
		}
		if len(table.Texts("data")) == 0 {
			powers.figures, torques.figures = l.screen(table, "peak", quantity.Power), l.screen(table, "torque", quantity.Torque)
		} else {
			l.screenBesideData(table)
		}
		id := "pulls-" + state
		if data := table.Texts("data"); len(data) > 0 {
			id += ":" + strings.TrimSuffix(path.Base(data[0].Text), path.Ext(data[0].Text))
		}
		names[id]++
		if names[id] > 1 {
			id += "~" + strconv.Itoa(names[id])
		}
		p.id = id
		p.Air = l.air(p, table)
		p.Peak = l.pulled(p, "power.peak", powers, table)
		if data := table.Get("data"); data != nil && len(table.Texts("data")) == 0 && !table.IsBad("data") {
			l.report("missing-key", source.Error, data.At, "pulls", "these pulls name no file", "name the CSV files of the pulls, as in `data = \"pull.csv\"`; of pulls without files write the `peak`, and take this out")
		}
		if table.Get("data") == nil && table.Get("peak") == nil && table.Get("torque") == nil && !table.IsBad("data", "peak", "torque") {
			l.report("missing-key", source.Error, table.At, "pulls", "these pulls hold none of `data`, `peak` and `torque`", "name the CSV files of the pulls, or write the peak that the screen showed")
		}
		p.Torque = l.pulled(p, "power.torque", torques, table)
		e.Pulls = append(e.Pulls, p)
		l.logBeside(p, table, read)
	}
}

// screen returns the figures that were read off a screen.
func (l *linker) screen(table *parse.Fields, key string, d quantity.Dimension) []quantity.Quantity {
	var figures []quantity.Quantity
	for _, v := range table.Values(key) {
		if q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{d}}); slip == nil {
			figures = append(figures, q)
		}
	}
	return figures
}

// peaks are the greatest figures of the pulls of a session.
type peaks struct {
	figures []quantity.Quantity
	speeds  float64 // at which they were made, rad/s, added up; nought of those read off a screen
}

// add takes in the greatest figure of a run, in a unit.
func (p *peaks) add(run Run, of func(Point) float64, unit *quantity.Unit) {
	best := run.Points[0]
	for _, point := range run.Points {
		if of(point) > of(best) {
			best = point
		}
	}
	p.figures = append(p.figures, quantity.Quantity{Kind: quantity.Figure, Unit: unit, Value: of(best) / unit.Factor, Step: 0.1})
	p.speeds += best.Speed
}

// pulled makes the value of a session's peaks.
func (l *linker) pulled(p *Pulls, path string, peaks peaks, table *parse.Fields) *Value {
	if len(peaks.figures) == 0 {
		return nil
	}
	v := (&Value{Path: path, Origin: FromPulls, Entry: p.Entry, Order: p.Order, Counts: true, Tool: p.Dyno, pulls: p}).placed(table.At)
	v.Written = &parse.Value{At: table.At}
	v.Quantity = peaks.figures[0]
	v.change().speed = peaks.speeds / float64(len(peaks.figures))
	if len(peaks.figures) > 1 {
		v.Repeats = peaks.figures
		if !l.mean(v) {
			return nil
		}
	}
	v.estimate()
	v.judgeIn(l.governing(path))
	l.happens(v)
	return v
}

// dataColumn is a column of a data file, with the words that its head is known by.
type dataColumn struct {
	name      string
	dimension quantity.Dimension
	heads     []string
	isNamed   bool // its unit alone doesn't tell it: much is in per cent, or in seconds
}

var pullColumns = [...]dataColumn{
	{name: "rpm", dimension: quantity.Rotation, heads: []string{"rpm", "n", "speed", "engine speed", "revs"}},
	{name: "power", dimension: quantity.Power, heads: []string{"power", "p"}},
	{name: "torque", dimension: quantity.Torque, heads: []string{"torque", "t", "m"}},
}

// maxBadRows is how many rows of a file may be bad before it counts as no pull at all. Our own choice, no source.
const maxBadRows = 25

// run reads one pull.
func (l *linker) run(e *Entry, name parse.Text, columns *parse.Fields) (Run, bool) {
	csv := l.data(name)
	if csv == nil {
		return Run{}, false
	}
	run := Run{File: csv.File, Named: name.At}
	if l.areUnitsSwapped(csv) || l.headsContradict(e, csv, columns) {
		return Run{}, false
	}
	at, units := [3]int{}, [3]*quantity.Unit{}
	for i, c := range pullColumns {
		column, good := l.column(csv, c, columns)
		if !good {
			return Run{}, false
		}
		at[i] = column
		if column >= 0 {
			units[i] = columnUnit(csv.Heads[column], c.dimension)
		}
	}
	for i := range pullColumns {
		if at[i] < 0 {
			run.Lacks = pullColumns[i].dimension
		}
	}
	if at[0] < 0 || at[1] < 0 && at[2] < 0 {
		heads := csv.Heads[0].Cell.At.To(csv.Heads[len(csv.Heads)-1].Cell.At)
		if key := e.Path + "\x00" + heads.Text() + "\x00needs"; !l.again(key, csv.File.Name, ", and so in %s more") {
			l.report("bad-csv", source.Error, heads, csv.File.Name, "a pull needs a column of engine speed and one of power or torque, with their units", "name them in the head row, as in `rpm,power [hp]`, or in `columns`")
			l.first(key, csv.File.Name)
		}
		return Run{}, false
	}
	l.secondColumns(e, csv, at, columns)
	l.unreadFigures(e, csv, at, units)
	figures := 1
	if at[1] < 0 {
		figures = 2
	}
	run.Head, run.Unit = csv.Heads[at[figures]].Cell.At, units[figures]
	bad, cells := 0, l.cells(csv)
	for r, row := range csv.Rows() {
		p, ok := cells.point(row, at, units)
		if ok {
			p.Row = r
			run.Points = append(run.Points, p)
			continue
		}
		if bad++; bad == maxBadRows && r < csv.Len()-1 {
			l.report("bad-csv", source.Error, csv.File.Whole(), csv.File.Name, fmt.Sprintf("%d rows can't be read; the rest is left unread", bad), "mend the file: this is not the data of a pull")
			return Run{}, false
		}
	}
	cells.end()
	if len(run.Points) == 0 && csv.Len() == 0 && csv.Ragged == 0 {
		l.report("bad-csv", source.Error, csv.File.Whole(), csv.File.Name, "the pull has no row that could be read", "mend its rows")
	}
	if len(run.Points) == 0 {
		return Run{}, false
	}
	rows := &pullRows{l, csv, at, name, e, &run, bad + csv.Ragged}
	rows.stray()
	if !rows.turns() || !rows.pulls() {
		return Run{}, false
	}
	rows.look()
	return run, len(run.Points) > 0
}

// point reads one row. Power or torque that the file doesn't hold is worked out from the other: P = M·ω.
func (c *cells) point(row []parse.Cell, at [3]int, units [3]*quantity.Unit) (Point, bool) {
	var si [3]float64
	for i := range at {
		if at[i] < 0 {
			continue
		}
		x, ok := c.number(row, at[i])
		if !ok {
			return Point{}, false
		}
		si[i] = units[i].SI(x)
	}
	if si[0] <= 0 {
		c.cant(row, at[0], "bad-csv", fmt.Sprintf("an engine speed of `%s` is not one of a pull", row[at[0]].Text), "take the row out, or mend it")
		return Point{}, false
	}
	switch {
	case at[1] < 0:
		si[1] = si[2] * si[0]
	case at[2] < 0:
		si[2] = si[1] / si[0]
	}
	return Point{Speed: si[0], Power: si[1], Torque: si[2]}, true
}

// column finds a column by what the entry says, by its head, or by its unit: −1 if there is none. It is not good if it is there but what
// it holds can't be told.
func (l *linker) column(csv *parse.CSV, c dataColumn, columns *parse.Fields) (at int, good bool) {
	if told := columns.Text(c.name); !told.IsZero() {
		if at = csv.Column(told.Text); at < 0 {
			l.noColumn(told, csv)
			return -1, false
		}
		return at, l.hasUnit(csv, at, c)
	}
	for _, word := range c.heads {
		at = csv.Column(word)
		if at < 0 || len(word) == 1 && columnUnit(csv.Heads[at], c.dimension) == nil || isOfAnother(csv.Heads[at].Unit, c.dimension) {
			continue // `t [s]` is time, not torque; `speed [km/h]` is the road's
		}
		return at, l.hasUnit(csv, at, c)
	}
	if c.isNamed {
		return -1, true
	}
	for _, isIn := range []func(parse.Head) bool{
		func(head parse.Head) bool { return head.Unit != "" && columnUnit(head, c.dimension) != nil },
		func(head parse.Head) bool { return head.Unit == "" && quantity.UnitOf(head.Name, c.dimension) != nil }, // `kW`, `krpm`
	} {
		if at = slices.IndexFunc(csv.Heads, isIn); at >= 0 {
			return at, l.isOnly(csv, at, c, isIn)
		}
	}
	return -1, true
}

// isOnly reports columns of which each may be the one that is looked for, and none is named so. Columns that hold the same figures, in `kW` and in `hp`, are as good as one; of an empty one
// and a full one nobody can tell.
func (l *linker) isOnly(csv *parse.CSV, at int, c dataColumn, may func(parse.Head) bool) bool {
	first := csv.Heads[at]
	for i, head := range csv.Heads {
		if i <= at || !may(head) {
			continue
		}
		if differ, compared := compare(csv, at, i, columnUnit(first, c.dimension), columnUnit(head, c.dimension)); compared && !differ {
			continue
		}
		l.report("bad-csv", source.Error, head.Cell.At, csv.File.Name, fmt.Sprintf("`%s` and `%s` are both of %s, and neither head says that it is the one", first.Cell.Text, head.Cell.Text, c.dimension),
			fmt.Sprintf("say which in `columns`: { %s = \"%s\" }", c.name, first.Cell.Text), source.Remark{At: first.Cell.At, Message: "the first one"})
		return false
	}
	return true
}

// hasUnit reports a column without a unit of what it should hold.
func (l *linker) hasUnit(csv *parse.CSV, at int, c dataColumn) bool {
	head := csv.Heads[at]
	if columnUnit(head, c.dimension) != nil {
		return true
	}
	message := fmt.Sprintf("the column `%s` has no unit", head.Cell.Text)
	if head.Unit != "" {
		message = fmt.Sprintf("`%s` is not a unit of %s", head.Unit, c.dimension)
	}
	l.report("bad-csv", source.Error, head.Cell.At, csv.File.Name, message, "write the unit in brackets after the head")
	return false
}

// columnUnit returns the unit of a dimension that a column's head tells, nil if it tells none: in brackets, or by its name where that is a unit, as `rpm x1000` is. Engine speed needs none:
// it is rpm; nor does what is a ratio.
func columnUnit(head parse.Head, d quantity.Dimension) *quantity.Unit {
	spelling := head.Unit
	if spelling == "" {
		spelling = head.Name
	}
	u := quantity.UnitOf(spelling, d)
	switch {
	case u != nil && spelling != "":
		return u
	case head.Unit == "" && d == quantity.Rotation:
		return parse.UnitSpelled("rpm")
	case head.Unit == "" && (d == quantity.Lambda || d == quantity.AirFuel):
		return quantity.UnitOf(d.SIUnit(), d)
	}
	return quantity.UnitOf("rpm "+head.Unit, d) // `rpm [x1000]`
}

// isOfAnother reports whether a head's unit is a known one of another dimension.
func isOfAnother(spelling string, d quantity.Dimension) bool {
	return spelling != "" && quantity.UnitOf(spelling, d) == nil && len(quantity.UnitsSpelled(spelling)) > 0
}
