package model

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// logWords are what heads of logs have for the segments of paths: common practice, no source.
var logWords = map[string][]string{"egt": {"exhaust", "temp"}, "cht": {"head", "temp"}, "temperature": {"temp"}, "tmp": {"temp"}, "press": {"pressure"}, "water": {"coolant"}}

// loggedWord are the last segments of what is logged in a unit of one kind.
var loggedWord = map[quantity.Dimension]string{quantity.Temperature: "temp", quantity.Pressure: "pressure"}

// leftOut notes, once for all files of such heads, the columns of a `[[logs]]` that are read at no path though they have a unit of temperature or pressure, or a head that is nearly that of a path: such a log is nothing but its
// columns; and one of seconds where none is the time. Of pulls and logs of the mixture only what is read elsewhere is told. Of what else loggers write down, as the speed on the road, nothing is told.
func (r *logReader) leftOut(f *logFile, heads []parse.Head) {
	if r.origin != FromLogs {
		for _, head := range heads {
			r.namedElsewhere(f, head)
		}
		return
	}
	if len(f.courses) == 0 {
		return // that has a finding
	}
	var told []string
	var first parse.Head
	near, key := "", "paths"
	for _, head := range heads {
		path, logged := r.pathOf(head)
		isTime := f.time.at < 0 && head.Unit != "" && columnUnit(head, quantity.Duration) != nil
		if path == "" && !logged && !isTime {
			continue
		}
		if told = append(told, "`"+head.Cell.Text+"`"); len(told) > 1 {
			continue
		}
		if first, near = head, path; isTime {
			near, key = timeColumn.name, "columns"
		}
	}
	if len(told) == 0 {
		return
	}
	all := strings.Join(told, "\x00") + "\x00left out"
	if r.again(all, f.csv.File.Name, ", and so in %s more") {
		return
	}
	do, verb := fmt.Sprintf("give its head a path: in the file, or in `paths`, as in { own.path = \"%s\" }", first.Name), "is"
	if near != "" {
		do = fmt.Sprintf("did you mean `%s`? write it in the file, or in `%s`: { %s = \"%s\" }", near, key, near, first.Name)
	}
	if len(told) > 1 {
		verb = "are"
	}
	r.report("unread-column", source.Note, first.Cell.At, f.csv.File.Name, fmt.Sprintf("%s %s not read: no path stands there", strings.Join(told, ", "), verb), do, source.Remark{At: f.name.At, Message: "named here"})
	r.first(all, f.csv.File.Name)
}

// pathOf returns the path that the head of a column nearly is, "" for none, and whether its unit is of what logs are kept for.
func (r *logReader) pathOf(head parse.Head) (path string, logged bool) {
	words := headWords(head.Name)
	var dimension quantity.Dimension
	for d, word := range loggedWord {
		if quantity.UnitOf(head.Unit, d) != nil && head.Unit != "" {
			words, dimension, logged = append(words, word), d, true
		}
	}
	isOf := func(path string) bool {
		return !slices.ContainsFunc(strings.Split(path, "."), func(segment string) bool { return !slices.Contains(words, segment) })
	}
	for _, known := range r.loggable(dimension) {
		if isOf(known) && r.courseUnit(head.Unit, known) != nil {
			return known, true
		}
	}
	return "", logged
}

// headWords takes the words of a head apart, as paths have them.
func headWords(head string) (words []string) {
	for _, word := range strings.FieldsFunc(parse.Fold(head), func(r rune) bool { return strings.ContainsRune(" -./", r) }) {
		if other := logWords[word]; other != nil {
			words = append(words, other...)
			continue
		}
		words = append(words, word)
	}
	return words
}

// loggable returns the paths that a column may be read at: those of the path table and of limits, what stands below a word of the table in a unit of one kind, and the two that exhausts and heads are watched by.
func (r *logReader) loggable(d quantity.Dimension) []string {
	known := r.knownPaths()
	if last := loggedWord[d]; last != "" {
		for _, p := range parse.Paths {
			if above, free := strings.CutSuffix(p.Path, ".…"); free && len(p.Dimensions) == 0 && !strings.ContainsAny(above, "(…") {
				known = append(known, above+"."+last)
			}
		}
	}
	if d == quantity.Temperature {
		known = append(known, "exhaust.temp", "head.temp")
	}
	return known
}

// knownPaths are the paths of the path table that hold no free name, and those of limits.
func (r *logReader) knownPaths() []string {
	var known []string
	for _, p := range parse.Paths {
		if !strings.ContainsAny(p.Path, "(…") {
			known = append(known, p.Path)
		}
	}
	for _, limit := range r.journal.Limits {
		if limit.governs() {
			known = append(known, limit.Path)
		}
	}
	return known
}

// namedElsewhere notes a column of pulls, or of a log of the mixture, that is left out here, and that `paths` of another list gives a path: once for all files of an entry.
func (r *logReader) namedElsewhere(f *logFile, head parse.Head) {
	for _, named := range r.namedColumns() {
		if !names(named, head) || r.courseUnit(head.Unit, named.Path) == nil {
			continue
		}
		if r.isReadBeside(f, head) {
			return
		}
		key := r.log.Entry.Path + "\x00" + head.Cell.Text + "\x00elsewhere"
		if !r.again(key, f.csv.File.Name, ", and so in %s more") {
			r.report("unread-column", source.Note, head.Cell.At, f.csv.File.Name, fmt.Sprintf("`%s` is not read here, and is read at `%s` elsewhere", head.Cell.Text, named.Path),
				fmt.Sprintf("name it here too: paths = { %s = \"%s\" }", named.Path, head.Name), source.Remark{At: f.name.At, Message: "named here"}, source.Remark{At: named.Value.At, Message: "read there"})
			r.first(key, f.csv.File.Name)
		}
		return
	}
}

// names reports whether a path of `paths` is that of a column.
func names(named parse.Reading, head parse.Head) bool {
	return strings.EqualFold(named.Value.Text, head.Cell.Text) || strings.EqualFold(named.Value.Text, head.Name)
}

// isReadBeside reports whether another list of the entry reads the file and names the column: a log with two meters is written so.
func (r *logReader) isReadBeside(f *logFile, head parse.Head) bool {
	for _, key := range append(logTables[:], FromPulls) {
		for _, table := range r.log.Entry.Fields.Tables(string(key)) {
			if slices.ContainsFunc(table.Texts("data"), func(name parse.Text) bool { return name.Text == f.name.Text }) && slices.ContainsFunc(table.Readings("paths"), func(named parse.Reading) bool { return names(named, head) }) {
				return true
			}
		}
	}
	return false
}

// namedColumns are all columns that `paths` of any list names, in the order of the entries; they are gathered once.
func (l *linker) namedColumns() []parse.Reading {
	if l.named != nil {
		return l.named
	}
	l.named = []parse.Reading{}
	for _, e := range l.journal.Entries {
		for _, origin := range append(logTables[:], FromPulls) {
			for i := range e.Fields.Tables(string(origin)) {
				l.named = append(l.named, e.Fields.Tables(string(origin))[i].Readings("paths")...)
			}
		}
	}
	return l.named
}
