package model

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// gather finds the positions and the limits that are held by differences, and reads the CSV files that hold readings.
func (l *linker) gather() {
	j := l.journal
	paths := map[string]bool{}
	for _, limit := range j.Limits {
		if len(limit.Of()) == 2 {
			j.differences = append(j.differences, limit)
		}
	}
	for _, part := range j.Parts {
		for _, r := range part.Brings {
			paths[r.Path] = true
		}
		for _, path := range part.Fields.Names("then") {
			paths[path.Name] = true
		}
	}
	for _, e := range j.Entries {
		l.readingFiles(e)
		if e.Plan {
			continue
		}
		for _, path := range e.Fields.Names("expects") {
			paths[path.Name] = true
		}
		for _, path := range slices.Concat(degreedPaths(e), l.coursePaths(e)) {
			paths[path] = true
		}
		for _, list := range [][]parse.Reading{e.Found, e.Set} {
			for _, r := range list {
				paths[r.Path] = true
			}
		}
	}
	for _, v := range l.sheetValues() {
		paths[v.Path] = true
	}
	l.eachCylinder()
	l.limited(paths)
	l.lostDifferences()
}

// limited makes the positions of all that is named and of what limits hold. What a limit for every cylinder is called stands for those of each.
func (l *linker) limited(paths map[string]bool) {
	j := l.journal
	each := map[string][]string{}
	for _, limit := range j.Limits {
		switch {
		case !limit.governs():
		case limit.EachCylinder:
			each[limit.Path] = j.spelledOut(limit)
			for _, path := range each[limit.Path] {
				paths[path] = true
			}
		default:
			paths[limit.Path] = true
		}
	}
	for path := range each {
		delete(paths, path) // whatever asks for it asks for each
	}
	j.Positions = newPositions(paths, j.Cylinders)
	j.Positions.each = each
}

// readingFiles adds the readings of an entry's CSV files to those in its text.
func (l *linker) readingFiles(e *Entry) {
	for _, table := range e.Fields.Tables("readings") {
		file := l.data(table.Text("data"))
		if file == nil {
			continue
		}
		readings, findings := file.Readings()
		for _, f := range findings {
			f.Entry = e.Path
			l.findings = append(l.findings, f)
		}
		for _, r := range readings {
			into := &e.Found
			if r.State == parse.InSet {
				into = &e.Set
			}
			if first := readingAt(*into, r.Path); first != nil {
				l.report("defined-twice", source.Error, r.PathAt, r.Path, fmt.Sprintf("`%s` is read twice in this entry", r.Path), "keep one of the two", source.Remark{At: first.PathAt, Message: "the first one"}).Entry = e.Path
				continue
			}
			if other := readingAcross(*into, r.Path); other != nil {
				l.report("value-and-deeper", source.Error, r.PathAt, r.Path, fmt.Sprintf("`%s` and `%s` both hold a value, one below the other: which of them speaks for it can't be told", other.Path, r.Path), "write each position out",
					source.Remark{At: other.PathAt, Message: "the other one"}).Entry = e.Path
			}
			*into = append(*into, r)
		}
	}
}

func readingAt(readings []parse.Reading, path string) *parse.Reading {
	for i := range readings {
		if readings[i].Path == path {
			return &readings[i]
		}
	}
	return nil
}

// readingAcross returns a reading of which one stands above the other.
func readingAcross(readings []parse.Reading, path string) *parse.Reading {
	for i := range readings {
		if other := readings[i].Path; parse.IsAtOrBelow(path, other) || parse.IsAtOrBelow(other, path) {
			return &readings[i]
		}
	}
	return nil
}

// data returns the CSV file that a text names, and reports one that isn't there.
func (l *linker) data(name parse.Text) *parse.CSV {
	if name.IsZero() {
		return nil
	}
	file, there := l.sources.Data[name.Text]
	if slashed := forwardSlashes(name.At.Text()); !there && slashed != "" {
		l.report("backslash", source.Error, name.At, name.Text, "a backslash in a path is an escape, and only one kind of computer reads it", "write `/` between folders").Fixes = []source.Fix{source.Replace("write "+slashed, name.At, slashed)}
		return nil
	}
	if !there {
		near := source.Nearest(name.Text, sortedKeys(l.sources.Data))
		do := "files stand in `data/` and are named from the journal's folder: `data/p7.csv`"
		var fixes []source.Fix
		if near != "" {
			do, fixes = fmt.Sprintf("did you mean `%s`?", near), []source.Fix{source.Replace(fmt.Sprintf("write `%s`", near), name.At, `"`+near+`"`)}
		}
		l.report("missing-file", source.Error, name.At, name.Text, fmt.Sprintf("there is no file `%s`", name.Text), do).Fixes = fixes
	}
	return file
}

// forwardSlashes returns a quoted path with `/` for `\`, "" where it has none.
func forwardSlashes(quoted string) string {
	if !strings.Contains(quoted, `\`) {
		return ""
	}
	return strings.ReplaceAll(strings.ReplaceAll(quoted, `\\`, "/"), `\`, "/")
}

// sheetValues returns the values of the build sheet, at their paths.
func (l *linker) sheetValues() []*Value {
	var values []*Value
	for _, name := range []string{"engine", "drive"} {
		if sheet := l.sources.Build.Fields; sheet == nil || sheet.IsBad(name) {
			l.sheetUnread(name)
		}
		l.sheetTable(name, l.sources.Build.Fields.Table(name), &values)
	}
	return values
}

// sheetUnread notes that what the sheet has at and below a path can't be read.
func (l *linker) sheetUnread(top string) {
	l.journal.anyUnread = true
	l.journal.placeOf(top).unread = []int{0}
}

func (l *linker) sheetTable(prefix string, fields *parse.Fields, values *[]*Value) {
	if fields == nil {
		return
	}
	for _, name := range fields.Bad {
		l.sheetUnread(prefix + "." + name)
	}
	for _, f := range fields.List {
		path := prefix + "." + f.Key.Name
		if f.Table != nil {
			l.sheetTable(path, f.Table, values)
			continue
		}
		if f.Key.Kind == parse.KindRatios {
			for i := range f.Figures {
				v := &Value{Path: path + "." + strconv.Itoa(i+1), Origin: FromSheet, Written: &f.Figures[i], Counts: true}
				*values = append(*values, v.placed(f.KeyAt))
			}
			continue
		}
		if _, ok := parse.SheetPaths()[path]; !ok || len(f.Figures) != 1 {
			continue
		}
		v := (&Value{Path: path, Origin: FromSheet, Written: &f.Figures[0], Counts: true}).placed(f.KeyAt)
		*values = append(*values, v)
	}
}
