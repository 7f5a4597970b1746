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

// Standing is how a value would stand.
type Standing struct {
	Value    *model.Value
	Before   *model.Value // what stands at its path now; nil for nothing
	Steps    string       // what is wrong with its steps; empty where nothing is
	Slip     string       // what it was probably meant to be, and what to do; empty where it looks like no slip
	Goal     *model.Goal  // at its path; nil for none
	Reached  bool         // the value reaches the goal
	IsToGoal bool         // whether it does can be told
}

// Hold returns how the value would stand on its day, or on the journal's own last one where that is later. Compile compiles a folder in the way in which
// the journal was compiled. An error says why there is no such value, or is about the world.
func (a Asked) Hold(now *journal.Result, compile func(fs.FS) (*journal.Result, error)) (*Standing, error) {
	path, err := meant(now.Journal, a.Path)
	if err != nil {
		return nil, err
	}
	if strings.ContainsFunc(a.Value+a.Temp, func(r rune) bool { return r < ' ' || r == 0x7f }) {
		return nil, errors.New("a value has no control characters in it")
	}
	day := a.Day
	if now.Journal.Today.CompareDay(day) > 0 {
		day = now.Journal.Today
	}
	entry := day.String() + "-~gauge"
	over := added{folder: now.Folder, name: "entries/" + entry + ".md", text: draft.Reading(day, path, a.Value, a.Temp)}
	result, err := compile(over)
	if err != nil {
		return nil, err
	}
	s := &Standing{Before: now.Journal.Current(path)}
	outside := ""
	for _, f := range result.Findings {
		if f.At.File == nil || f.At.File.Name != over.name {
			continue
		}
		switch f.Rule {
		case "unknown-cylinder", "worked-out-path": // no such thing is measured, and what holds for others says nothing of it
			return nil, errors.New(f.Message + ": " + advice(f))
		}
		if f.Severity != source.Error {
			continue
		}
		switch f.Rule {
		case "out-of-limits", "teeth-out", "centre-disagrees": // told by the verdict, but for what is wrong with steps
			if f.Rule == "out-of-limits" {
				outside = f.Message
			}
		case "suspected-slip":
			s.Slip = f.Do
		default:
			return nil, errors.New(f.Message + ": " + advice(f))
		}
	}
	e := result.Journal.Entry(entry)
	if e == nil || len(e.Values) == 0 {
		return nil, fmt.Errorf("`%s` is no value that `%s` can have", a.Value, path)
	}
	s.Value = e.Values[len(e.Values)-1]
	if l := s.Value.Limit; l != nil && s.Value.Verdict == model.Out {
		if fault, _ := l.StepFault(s.Value); fault != model.StepsRight {
			s.Steps = outside
		}
	}
	s.holdToGoal(now.Journal)
	return s, nil
}

// advice says what to do about what can't be read, and what may have been meant.
func advice(f source.Finding) string {
	var offers []string
	for _, fix := range f.Fixes {
		offers = append(offers, strings.TrimPrefix(fix.Title, "write "))
	}
	if len(offers) == 0 {
		return f.Do
	}
	return f.Do + ", as in " + strings.Join(offers, " or ")
}

// holdToGoal finds the goal at the value's path, and whether it is reached.
func (s *Standing) holdToGoal(now *model.Journal) {
	for i := range now.Goals {
		if goal := &now.Goals[i]; goal.Path == s.Value.Path {
			s.Goal = goal
			s.Reached, s.IsToGoal = goal.ReachedBy(s.Value, now.First(goal.Path))
		}
	}
}
