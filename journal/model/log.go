package model

import (
	"strconv"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Log is what was logged while the engine ran, before or after the fitting of its entry: of the mixture, of temperatures, pressures and the like. Of its rows only what is told of them is
// kept.
type Log struct {
	Entry   *Entry
	State   string // `before` or `after`
	Order   int
	At      source.Range
	Files   []*source.File
	Meter   *Tool
	Note    string
	Timed   bool     // its files hold the time; else a row counts as one of something
	Span    float64  // s that it saw the engine run, or rows
	Mixture *Mixture // nil of one that holds none
	Courses []*Course

	id string // what its values' identities have in the place of an origin
}

// Course is one column of a log over its time.
type Course struct {
	Path            string
	Unit            *quantity.Unit
	Step            float64    // in the unit: how fine the column is written
	Trace           calc.Trace // SI, over s or rows
	End             float64    // s or rows, of the last figure
	Least, Greatest Peak
	WorstAt         float64 // s or rows, of Worst
	Worst           *Value  // the one of the two that is worse for the limits there; nil where nothing was logged
}

// Peak is one figure of a log (SI), when it was (s, or rows), and the cell that holds it.
type Peak struct {
	SI, Time float64
	Cell     source.Range
}

// ShowTime shows how long something of the log lasted: in seconds, or in rows where it holds no time.
func (l *Log) ShowTime(time float64) string {
	if !l.Timed {
		return strconv.Itoa(int(time)) + " rows"
	}
	return quantity.Show(time, parse.UnitSpelled("s"), 0.1).String()
}

// logTables are the lists of an entry whose tables are logs.
var logTables = [...]string{"fuelling", "logs"}

// logs takes in the logs of an entry that ran before, or after, its fitting.
func (l *linker) logs(e *Entry, state string, moment int) {
	for _, key := range logTables {
		origin := FromFuelling
		if key == "logs" {
			origin = FromLogs
		}
		for i := range e.Fields.Tables(key) {
			table := &e.Fields.Tables(key)[i]
			if table.IsBad("state") {
				continue // which side of the fitting it stands on can't be told
			}
			if s := table.Text("state").Text; s != state && !(s == "" && state == "after") {
				continue
			}
			id := string(origin)
			if i > 0 {
				id += "~" + strconv.Itoa(i+1)
			}
			if log := l.log(e, table, origin, orderOf(e.Index, moment), id); log != nil {
				log.State = state
				e.Logs = append(e.Logs, log)
			}
		}
		if e.Fields.IsBad(key) {
			l.unreadLog(e, nil, orderOf(e.Index, moment))
		}
	}
}

// logReader reads one log.
type logReader struct {
	*linker
	log    *Log
	table  *parse.Fields
	origin Origin
	clock  clock
	bad    int
}

// log reads the files of one table; nil for one of which nothing can be read.
func (l *linker) log(e *Entry, table *parse.Fields, origin Origin, order int, id string) *Log {
	log := &Log{id: id, Entry: e, Order: order, At: table.At, Note: table.Text("note").Text, Timed: true}
	if name := table.Name("with"); !name.IsZero() {
		log.Meter = l.journal.tools[name.Name]
	}
	r := &logReader{linker: l, log: log, table: table, origin: origin}
	if origin == FromFuelling {
		log.Mixture = newMixture(l.journal.Target)
	}
	names, from := table.Texts("data"), len(l.findings)
	good := !table.IsBad("data", "columns", "paths", "ratio") && len(names) > 0
	for _, name := range names {
		good = good && r.file(name)
	}
	for i := range l.findings[from:] {
		l.findings[from+i].Entry = e.Path
	}
	if !good {
		l.unreadLog(e, log, order)
		return nil
	}
	r.values()
	return log
}

// unreadLog notes that something was logged that can't be read: nothing is concluded from its absence.
func (l *linker) unreadLog(e *Entry, log *Log, order int) {
	l.unread("fuelling", order)
	if log != nil {
		for _, path := range l.coursePaths(e) {
			l.unread(path, order)
		}
	}
}

// worst makes the value of a course: of its least and its greatest figure the one that is worse for the limits there; alike, the one on the side that has a bound.
func (r *logReader) worst(c *Course) {
	limits := r.governing(c.Path)
	greatest, least := r.peak(c, c.Greatest), r.peak(c, c.Least)
	greatest.judgeIn(limits)
	least.judgeIn(limits)
	c.Worst, c.WorstAt = greatest, c.Greatest.Time
	if l := least.Limit; least.Verdict > greatest.Verdict || least.Verdict == greatest.Verdict && l != nil && l.Low.Is && !l.High.Is {
		c.Worst, c.WorstAt = least, c.Least.Time
	}
	r.happens(c.Worst)
}

func (r *logReader) peak(c *Course, p Peak) *Value {
	return r.logged(c.Path, quantity.Quantity{Kind: quantity.Figure, Unit: c.Unit, Value: c.Unit.FromSI(p.SI), Step: c.Step}, p.Cell)
}

// logged makes a value of the log.
func (r *logReader) logged(path string, q quantity.Quantity, at source.Range) *Value {
	v := (&Value{Path: path, Origin: r.origin, Entry: r.log.Entry, Order: r.log.Order, Counts: true, Quantity: q, ways: &ways{log: r.log}}).placed(at)
	v.Written = &parse.Value{At: at}
	if meter := r.log.Meter; meter != nil && meter.Reads(path) {
		v.Tool = meter
	}
	v.estimate()
	return v
}

// values makes the values of the log: what it says of the mixture, and the worst of each course.
func (r *logReader) values() {
	if m := r.log.Mixture; m != nil {
		r.mixtureValues(m)
	}
	for _, c := range r.log.Courses {
		if len(c.Trace.Stretches) > 0 {
			r.worst(c)
		}
	}
}
