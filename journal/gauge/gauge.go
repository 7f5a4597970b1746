// Package gauge holds one value to its limit as an entry of today would, and writes nothing.
//
// It hides that there is no such entry: a text is laid over the journal's folder and the whole is compiled again. A compiled journal and what
// somebody typed go in; the value with its verdict comes out. The one invariant: a value is judged as if it stood in the journal, by the same
// stages, and the folder is only read.
package gauge

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"example.org/locknut/journal"
	"example.org/locknut/journal/draft"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// Asked is a value that somebody asks about.
type Asked struct {
	Path  string // may be shortened while it is plain which is meant: `lash.in.l`
	Value string // as an entry would have it
	Temp  string // engine temperature, as an entry would have it; empty where nobody said
	Day   parse.Date
}

// Hold returns the value as it would stand on its day, or on the journal's own last one where that is later, and what stands at its path now,
// nil for nothing. Compile compiles a folder in the way in which the journal was compiled. An error says why there is no such value, or is about the
// world.
func (a Asked) Hold(now *journal.Result, compile func(fs.FS) (*journal.Result, error)) (v, before *model.Value, err error) {
	path, err := meant(now.Journal, a.Path)
	if err != nil {
		return nil, nil, err
	}
	if strings.ContainsFunc(a.Value+a.Temp, func(r rune) bool { return r < ' ' || r == 0x7f }) {
		return nil, nil, errors.New("a value has no control characters in it")
	}
	day := a.Day
	if now.Journal.Today.CompareDay(day) > 0 {
		day = now.Journal.Today
	}
	entry := day.String() + "-~gauge"
	over := added{folder: now.Folder, name: "entries/" + entry + ".md", text: draft.Reading(path, a.Value, a.Temp)}
	result, err := compile(over)
	if err != nil {
		return nil, nil, err
	}
	for _, f := range result.Findings {
		told := f.Rule == "out-of-limits" || f.Rule == "suspected-slip" // by the verdict
		if f.At.File != nil && f.At.File.Name == over.name && f.Severity == source.Error && !told {
			return nil, nil, fmt.Errorf("%s: %s", f.Message, f.Do)
		}
	}
	e := result.Journal.Entry(entry)
	if e == nil || len(e.Values) == 0 {
		return nil, nil, fmt.Errorf("`%s` is no value that `%s` can have", a.Value, path)
	}
	return e.Values[len(e.Values)-1], now.Journal.Current(path), nil
}
