package model

import (
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// logBeside takes in what the files of a session's pulls hold beside power and torque: the mixture, and columns at paths. It is a log at full throttle, of the rows that make the
// pulls. Names are those of the files, by run.
func (l *linker) logBeside(p *Pulls, table *parse.Fields, names []parse.Text) {
	if len(names) == 0 {
		return
	}
	log := &Log{Entry: p.Entry, State: p.State, Order: p.Order, At: p.At, Timed: true, Pulls: p, id: p.id}
	r := &logReader{linker: l, log: log, table: table, origin: FromPulls}
	if table.IsBad("columns", "paths", "ratio") {
		if slices.ContainsFunc(names, func(name parse.Text) bool { return holdsMixture(l.sources.Data[name.Text]) }) {
			l.unread("power.lambda", p.Order)
		}
		return
	}
	good := r.read(func() bool {
		var files []*logFile
		for i, name := range names {
			f := &logFile{name: name, csv: l.sources.Data[name.Text], pulled: p.Runs[i].Points}
			r.pullColumns(f)
			log.Files = append(log.Files, f.csv.File)
			files = append(files, f)
		}
		return (log.Mixture != nil || len(log.Courses) > 0) && r.allRows(files)
	})
	switch {
	case good:
		p.Entry.Logs = append(p.Entry.Logs, log)
	case log.Mixture != nil || len(log.Courses) > 0:
		for _, run := range p.Runs {
			for k := range run.Points {
				run.Points[k].Lambda = 0
			}
		}
		for _, path := range append([]string{"power.lambda"}, log.Paths()...) {
			l.unread(path, p.Order)
		}
	}
}

// holdsMixture reports whether a column of a file is headed as lambda or an air-fuel ratio.
func holdsMixture(csv *parse.CSV) bool {
	return slices.ContainsFunc(slices.Concat(lambdaColumn.heads, ratioColumn.heads), func(head string) bool { return csv.Column(head) >= 0 })
}

// Paths returns the paths of what was logged beside the mixture.
func (log *Log) Paths() (paths []string) {
	for _, c := range log.Courses {
		paths = append(paths, c.Path)
	}
	return paths
}

// pullColumns finds the columns of a pull's file that a log is made of. None of them must be there; one that can't be read takes nothing else with it.
func (r *logReader) pullColumns(f *logFile) {
	columns := r.table.Table("columns")
	f.speed.at, _ = r.column(f.csv, pullColumns[0], columns)
	f.speed.unit = columnUnit(f.csv.Heads[f.speed.at], quantity.Rotation)
	f.time, f.throttle = r.spare(f, timeColumn), r.spare(f, throttleColumn)
	r.log.Timed = r.log.Timed && f.time.unit != nil
	had := r.log.Mixture
	if had == nil {
		r.log.Mixture = newMixture(r.journal.Target)
	}
	if !r.lambda(f, columns) || f.lambda.at < 0 {
		f.lambda, r.log.Mixture = logColumn{at: -1}, had
	}
	r.courses(f)
}

// spare finds a column that a file can do without: one that `columns` names, or that is headed so, with its unit.
func (r *logReader) spare(f *logFile, c dataColumn) logColumn {
	if columns := r.table.Table("columns"); !columns.Text(c.name).IsZero() {
		if at, good := r.column(f.csv, c, columns); good {
			return logColumn{at: at, unit: columnUnit(f.csv.Heads[at], c.dimension)}
		}
		return logColumn{at: -1}
	}
	for _, word := range c.heads {
		if at := f.csv.Column(word); at >= 0 {
			if unit := columnUnit(f.csv.Heads[at], c.dimension); unit != nil {
				return logColumn{at: at, unit: unit}
			}
		}
	}
	return logColumn{at: -1}
}
