package model

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// logColumn is one column of a log's file, with the unit of its figures; without one it isn't there.
type logColumn struct {
	at     int
	unit   *quantity.Unit
	course *Course // of one that is read at a path
}

var (
	timeColumn     = dataColumn{name: "time", dimension: quantity.Duration, heads: []string{"time", "elapsed", "t"}, isNamed: true}
	throttleColumn = dataColumn{name: "throttle", dimension: quantity.Pure, heads: []string{"throttle", "throttle position", "throttle opening", "tps"}, isNamed: true}
	lambdaColumn   = dataColumn{name: "lambda", dimension: quantity.Lambda, heads: []string{"lambda", "λ"}}
	ratioColumn    = dataColumn{name: "lambda", dimension: quantity.AirFuel, heads: []string{"afr", "a/f", "air-fuel ratio", "air/fuel ratio", "air fuel ratio"}}
)

// columns finds the columns of a file.
func (r *logReader) columns(f *logFile) bool {
	columns := r.table.Table("columns")
	find := func(into *logColumn, c dataColumn) bool {
		at, good := r.column(f.csv, c, columns)
		into.at = at
		if at >= 0 && good {
			into.unit = columnUnit(f.csv.Heads[at], c.dimension)
		}
		return good
	}
	if !find(&f.time, timeColumn) {
		return false
	}
	r.log.Timed = r.log.Timed && f.time.at >= 0
	if r.log.Mixture != nil {
		if !find(&f.speed, pullColumns[0]) || !find(&f.throttle, throttleColumn) || !r.lambda(f, columns) {
			return false
		}
		if f.speed.at < 0 || f.throttle.at < 0 || f.lambda.at < 0 {
			r.report("bad-csv", source.Error, f.csv.Heads[0].Cell.At.To(f.csv.Heads[len(f.csv.Heads)-1].Cell.At), f.csv.File.Name,
				"a log of the mixture needs columns of engine speed, throttle and lambda", "name them in the head row, as in `time [s],rpm,throttle [%],lambda`, or in `columns`")
			return false
		}
	}
	return r.courses(f)
}

// lambda finds the column of lambda, or of air-fuel ratios with what makes them lambda.
func (r *logReader) lambda(f *logFile, columns *parse.Fields) bool {
	c := lambdaColumn
	if told := columns.Text("lambda"); !told.IsZero() {
		if at := f.csv.Column(told.Text); at >= 0 && columnUnit(f.csv.Heads[at], quantity.AirFuel) != nil && f.csv.Heads[at].Unit != "" {
			c = ratioColumn
		}
	}
	at, good := r.column(f.csv, c, columns)
	if good && at < 0 {
		c = ratioColumn
		at, good = r.column(f.csv, c, columns)
	}
	if !good || at < 0 {
		f.lambda.at = -1
		return good
	}
	if r.heads.File == nil {
		r.heads = f.csv.Heads[at].Cell.At
	}
	f.lambda = logColumn{at: at, unit: columnUnit(f.csv.Heads[at], c.dimension)}
	f.scale = scale{ratio: 1, ratios: c.dimension == quantity.AirFuel}
	if f.scale.ratios {
		return r.ratios(f)
	}
	return true
}

// ratios finds out which air-fuel ratio is lambda 1.
func (r *logReader) ratios(f *logFile) bool {
	build := r.sources.Build.Fields.Table("fuelling")
	ratio, why := r.lambdaOne(r.table, build)
	switch f.scale.ratio = ratio; {
	case why != "" && r.table.Value("ratio") == nil && build.IsBad("ratio"):
		return false // that has a finding
	case why != "" && r.log.Pulls != nil && (r.journal.Target == nil || r.ratioTold):
		return false // nothing is wanted of it, or it was said of another file of the session
	case why != "":
		r.ratioTold = true
		r.report("ratio-unknown", source.Warning, f.csv.Heads[f.lambda.at].Cell.At, f.csv.File.Name, "this log is in air-fuel ratios, and "+why, "add `ratio` to the log, or to `[fuelling]` of build.toml: what the meter shows at lambda 1, often 14.7 whatever the fuel; or name the fuel")
		return false
	}
	r.log.Mixture.Ratio, r.log.Mixture.Guessed = f.scale.ratio, r.table.Value("ratio") == nil && build.Value("ratio") == nil
	return true
}

// courses finds the columns that are read at paths: those that `paths` names, and those whose heads are paths that mean something. One that can't be read takes nothing else with it.
func (r *logReader) courses(f *logFile) bool {
	lacks := false
	for _, named := range r.table.Readings("paths") {
		if f.csv.Column(named.Value.Text) < 0 {
			lacks = true // and which of the others it is nobody knows
			r.noColumn(parse.Text{Text: named.Value.Text, At: named.Value.At}, f.csv, source.Remark{At: f.name.At, Message: "the file"})
			r.unread(named.Path, r.log.Order)
		}
	}
	lost := false
	var left []parse.Head
	for at, head := range f.csv.Heads {
		if at == f.time.at || (r.log.Mixture != nil || r.log.Pulls != nil) && (at == f.speed.at || at == f.throttle.at || at == f.lambda.at) {
			continue
		}
		path := r.coursePath(f.csv, at, r.table)
		if path == "" {
			if !r.unknownColumn(f, head) {
				left = append(left, head)
			}
			continue
		}
		if !r.columnAt(f, at, path) {
			r.unread(path, r.log.Order)
			lost = true
		}
	}
	if !lacks {
		r.leftOut(f, left)
	}
	if r.log.Pulls != nil {
		return true
	}
	if r.log.Mixture == nil && len(f.courses) == 0 && !lost {
		r.report("bad-csv", source.Error, f.csv.Heads[0].Cell.At.To(f.csv.Heads[len(f.csv.Heads)-1].Cell.At), f.csv.File.Name, "no column of this log is read at a path", "head a column by its path, as in `oil.temp [°C]`, or name its head in `paths`")
	}
	return r.log.Mixture != nil || len(f.courses) > 0
}

// columnAt takes a column in that is read at a path, or reports why that can't be.
func (r *logReader) columnAt(f *logFile, at int, path string) bool {
	head := f.csv.Heads[at]
	unit := r.courseUnit(head.Unit, path)
	if unit == nil {
		message := fmt.Sprintf("the column `%s` has no unit", head.Cell.Text)
		if head.Unit != "" {
			message = fmt.Sprintf("`%s` is not a unit of what `%s` is", head.Unit, path)
		}
		r.report("bad-csv", source.Error, head.Cell.At, f.csv.File.Name, message, "write the unit in brackets after the head")
		return false
	}
	course := r.course(path, unit)
	if first := slices.IndexFunc(f.courses, func(c logColumn) bool { return c.course == course }); first >= 0 {
		r.report("bad-csv", source.Error, head.Cell.At, f.csv.File.Name, fmt.Sprintf("`%s` is read in two columns", path), "keep one of the two, or name another path in `paths`",
			source.Remark{At: f.csv.Heads[f.courses[first].at].Cell.At, Message: "the first one"})
		return false
	}
	f.courses = append(f.courses, logColumn{at: at, unit: unit, course: course})
	return true
}

// unknownColumn reports a head that looks like a path, and is none that means anything. It is false where it says nothing.
func (r *logReader) unknownColumn(f *logFile, head parse.Head) bool {
	path := parse.FoldPath(head.Name)
	if !isPath(path) {
		return false
	}
	near := source.Nearest(path, r.knownPaths())
	if r.log.Pulls != nil && near == "" {
		return false // dynos head their columns as they like
	}
	do := "if it is a path of your own, give it a limit or name it in `paths`; else take the dots out of its head"
	var fixes []source.Fix
	if near != "" {
		do = fmt.Sprintf("did you mean `%s`?", near)
		fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), head.Cell.At, strings.Replace(head.Cell.Text, head.Name, near, 1))}
	}
	r.report("unread-column", source.Warning, head.Cell.At, f.csv.File.Name, fmt.Sprintf("`%s` is no path that means anything, or that a limit holds: this column is not read", head.Name), do, source.Remark{At: f.name.At, Message: "named here"}).Fixes = fixes
	return true
}

// course returns the log's course at a path: one for all of its files.
func (r *logReader) course(path string, unit *quantity.Unit) *Course {
	for _, c := range r.log.Courses {
		if c.Path == path {
			return c
		}
	}
	c := &Course{Path: path, Unit: unit}
	r.log.Courses = append(r.log.Courses, c)
	return c
}

// coursePath returns the path that a column is read at, "" for none: the one that `paths` gives its head, else the head, where that is a path that means something or is held by a limit.
func (l *linker) coursePath(csv *parse.CSV, at int, table *parse.Fields) string {
	for _, named := range table.Readings("paths") {
		if csv.Column(named.Value.Text) == at {
			return named.Path
		}
	}
	path := parse.FoldPath(csv.Heads[at].Name)
	if !isPath(path) || parse.FindPattern(path) == nil && !slices.ContainsFunc(l.journal.Limits, func(limit *Limit) bool { return limit.governs() && parse.IsAtOrBelow(path, limit.Path) }) {
		return ""
	}
	return path
}

// isPath reports whether the head of a column could be a path of two segments or more.
func isPath(head string) bool {
	segments := strings.Split(head, ".")
	return len(segments) > 1 && !slices.Contains(segments, "") && strings.Trim(head, "abcdefghijklmnopqrstuvwxyz0123456789-.") == ""
}

// courseUnit returns the unit of a column that is read at a path, nil for one that doesn't suit it.
func (l *linker) courseUnit(spelling, path string) *quantity.Unit {
	if spelling == "" {
		return nil
	}
	pattern := parse.FindPattern(path)
	if pattern != nil && len(pattern.Dimensions) > 0 {
		for _, d := range pattern.Dimensions {
			if u := quantity.UnitOf(spelling, d); u != nil {
				return u
			}
		}
		return nil
	}
	for _, limit := range l.governing(path) {
		if limit.Dimension != quantity.Unknown {
			return quantity.UnitOf(spelling, limit.Dimension)
		}
	}
	if units := quantity.UnitsSpelled(spelling); len(units) > 0 {
		return units[0]
	}
	return nil
}

// coursePaths returns the paths at which the logs of an entry are read, before anything else is known of them.
func (l *linker) coursePaths(e *Entry) []string {
	var paths []string
	for _, origin := range append(logTables[:], FromPulls) {
		key := string(origin)
		for i := range e.Fields.Tables(key) {
			table := &e.Fields.Tables(key)[i]
			for _, named := range table.Readings("paths") {
				paths = append(paths, named.Path)
			}
			for _, name := range table.Texts("data") {
				csv := l.sources.Data[name.Text]
				if csv == nil {
					continue
				}
				for at := range csv.Heads {
					if path := l.coursePath(csv, at, table); path != "" {
						paths = append(paths, path)
					}
				}
			}
		}
		switch {
		case len(e.Fields.Tables(key)) == 0:
		case origin == FromPulls:
			paths = append(paths, "power.lambda")
		case origin == FromFuelling:
			paths = append(paths, "fuelling.lambda")
			if l.journal.Target != nil {
				paths = append(paths, "fuelling.leanest", "fuelling.richest", "fuelling.seen")
			}
		}
	}
	return paths
}
