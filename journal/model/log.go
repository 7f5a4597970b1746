package model

import (
	"slices"
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
	Pulls   *Pulls   // that logged it beside their power; nil of one that stands for itself
	Timed   bool     // its files hold the time; else a row counts as one of something
	Span    float64  // s that it logged, or rows
	Mixture *Mixture // nil of one that holds none
	Courses []*Course

	id string // what its values' identities have in the place of an origin
}

// Course is one column of a log over its time.
type Course struct {
	Path            string
	Unit            *quantity.Unit
	Trace           calc.Trace // SI, over s or rows
	End             float64    // s or rows, of the last figure
	Least, Greatest Peak
	Worst           *Value  // the one of the two that is worse for the limits there; nil where nothing was logged
	WorstAt         float64 // s or rows, of Worst

	step float64 // SI: how fine the column is written
}

// Peak is one figure of a log (SI), when it was (s, or rows), and the cell that holds it.
type Peak struct {
	SI, Time float64
	Cell     source.Range
}

// ShowTime shows how long something of the log lasted: in seconds, or in rows where it holds no time.
func (l *Log) ShowTime(time float64) string {
	if !l.Timed || l.Pulls != nil && l.Mixture != nil {
		return quantity.Counted(int(time), "row")
	}
	return quantity.Show(time, parse.UnitSpelled("s"), 0.1).String()
}

// CourseOf returns the last log of an entry that holds a path over its time, of several beside each other the worst, and that course; nil where none does.
func (e *Entry) CourseOf(path string) (*Log, *Course) {
	for _, log := range slices.Backward(e.Logs) {
		for _, c := range log.Courses {
			if c.Path == path && c.Counts() {
				return log, c
			}
		}
	}
	return nil, nil
}

// MixturePaths are the paths that a meter is for with which the mixture of the log was read, the one at which its mean stands first.
func (l *Log) MixturePaths() []string {
	if l.Pulls != nil {
		return []string{"power.lambda", "fuelling.lambda"}
	}
	return []string{"fuelling.lambda"}
}

// Counts reports whether something was logged in a column, and no log beside this one holds worse.
func (c *Course) Counts() bool { return c.Worst != nil && !c.Worst.isLesser() }

// IsBeside reports whether two logs are of one entry and state: nothing was fitted or set between them, so that neither takes the place of the other.
func (l *Log) IsBeside(other *Log) bool { return l.Entry == other.Entry && l.State == other.State }

// stateEnd is the last moment of the state of the entry that the log was made in.
func (l *Log) stateEnd() int {
	if l.State == "before" {
		return orderOf(l.Entry.Index, momentLogsBefore)
	}
	return orderOf(l.Entry.Index, momentLogsAfter)
}

// TellsMixture reports whether the log saw a mixture burn.
func (l *Log) TellsMixture() bool { return l.Mixture != nil && l.Mixture.All.Seen > 0 }

// logTables are the origins of what logs hold: each is the name of the list of an entry whose tables are such logs.
var logTables = [...]Origin{FromFuelling, FromLogs}

// logs takes in the logs of an entry that ran before, or after, its fitting.
func (l *linker) logs(e *Entry, state string, moment int) {
	for _, origin := range logTables {
		key := string(origin)
		for i := range e.Fields.Tables(key) {
			table := &e.Fields.Tables(key)[i]
			if table.IsBad("state") {
				continue // which side of the fitting it stands on can't be told
			}
			if s := table.Text("state").Text; s != state && !(s == "" && state == "after") {
				continue
			}
			log := &Log{Entry: e, State: state, Order: orderOf(e.Index, moment), At: table.At, Note: table.Text("note").Text, Timed: true, id: key}
			if i > 0 {
				log.id += "~" + strconv.Itoa(i+1)
			}
			r := &logReader{linker: l, log: log, table: table, origin: origin}
			switch {
			case r.readLog():
				e.Logs = append(e.Logs, log)
			case !r.repeated:
				l.unreadLog(e, log.Order)
			}
		}
		if e.Fields.IsBad(key) {
			l.unreadLog(e, orderOf(e.Index, moment))
		}
	}
}

// logReader reads one log.
type logReader struct {
	*linker
	log    *Log
	table  *parse.Fields
	origin Origin

	ratioTold bool         // that the air-fuel ratios of pulls can't be read
	repeated  bool         // all its files are in already: it tells nothing, as if it weren't there
	heads     source.Range // of the mixture's column, in the first file
}

// readLog reads the files of one table. It is false where that can't be done.
func (r *logReader) readLog() bool {
	if r.origin == FromFuelling {
		r.log.Mixture = newMixture(r.journal.Target)
	}
	return !r.table.IsBad("data", "columns", "paths", "ratio") && r.read(r.files)
}

// read reads the log's files, and makes its values. It is false where that can't be done.
func (r *logReader) read(files func() bool) bool {
	if name := r.table.Name("with"); !name.IsZero() {
		r.log.Meter = r.journal.tools[name.Name]
	}
	from := len(r.findings)
	good := files()
	for i := range r.findings[from:] {
		r.findings[from+i].Entry = r.log.Entry.Path
	}
	if good {
		r.values()
	}
	return good
}

// files reads the files of the log: all heads first, so that it is known whether all of them hold the time.
func (r *logReader) files() bool {
	names := r.table.Texts("data")
	if len(names) == 0 {
		r.report("missing-key", source.Error, r.table.At, "data", "this log names no file", "name its CSV files in `data`")
		return false
	}
	fresh := r.notYetLogged(names)
	if r.repeated = len(fresh) == 0; r.repeated {
		return false
	}
	var files []*logFile
	for _, name := range fresh {
		csv := r.data(name)
		if csv == nil {
			return false
		}
		f := &logFile{name: name, csv: csv}
		if !r.columns(f) {
			return false
		}
		r.log.Files = append(r.log.Files, csv.File)
		files = append(files, f)
	}
	return r.allRows(files)
}

// allRows reads the rows of all files, one after the other.
func (r *logReader) allRows(files []*logFile) bool {
	begins := 0.0
	for _, f := range files {
		f.begins = begins
		if !r.rows(f) {
			return false
		}
		begins += f.clock.elapsed
	}
	return true
}

// unreadLog notes that something was logged that can't be read: nothing is concluded from its absence.
func (l *linker) unreadLog(e *Entry, order int) {
	l.unread("fuelling", order)
	for _, path := range l.coursePaths(e) {
		l.unread(path, order)
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
	r.beside(c.Worst)
	r.happens(c.Worst)
}

func (r *logReader) peak(c *Course, p Peak) *Value {
	return r.logged(c.Path, quantity.Quantity{Kind: quantity.Figure, Unit: c.Unit, Value: c.Unit.FromSI(p.SI), Step: c.Unit.StepFromSI(c.step, c.Unit.FromSI(p.SI))}, p.Cell, p.SI)
}

// logged makes a value of the log, from what the meter read, in SI; nought of one that no meter reads.
func (r *logReader) logged(path string, q quantity.Quantity, at source.Range, read float64) *Value {
	v := (&Value{Path: path, Origin: r.origin, Entry: r.log.Entry, Order: r.log.Order, Counts: true, Quantity: q, ways: &ways{log: r.log, read: read}}).placed(at)
	v.Written = &parse.Value{At: at}
	if meter := r.log.Meter; meter != nil && path != "fuelling.seen" && (meter.Reads(path) || path == r.log.MixturePaths()[0] && slices.ContainsFunc(r.log.MixturePaths(), meter.Reads)) {
		v.Tool = meter
	}
	v.estimate()
	return v
}

// values makes the values of the log: what it says of the mixture, and the worst of each course.
func (r *logReader) values() {
	if m := r.log.Mixture; m != nil {
		r.emptiness(m)
		r.mixtureValues(m)
	}
	for _, c := range r.log.Courses {
		if len(c.Trace.Stretches) > 0 {
			r.worst(c)
		}
	}
}
