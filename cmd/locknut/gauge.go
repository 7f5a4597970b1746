package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"time"

	"example.org/locknut/journal"
	"example.org/locknut/journal/draft"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/report"
	"example.org/locknut/journal/source"
	"example.org/locknut/themes"
)

// gaugeCommand holds one value to its limit, without writing it down.
type gaugeCommand struct {
	Path  string   `arg:"" help:"path of the value; it may be shortened while it is plain which is meant: lash.in.l"`
	Value []string `arg:"" help:"the value as an entry would have it: 0.10 mm"`
	Temp  string   `placeholder:"TEMP" help:"engine temperature, where the limit asks for one: '18 °C'"`
	In    string   `placeholder:"DIR" help:"folder of the journal; else the working folder, or the nearest above it that is one"`
}

// Help is what its help says beyond a line.
func (*gaugeCommand) Help() string {
	return "It says how the value would stand now, with the parts that are in, and exits with 1 where it would be out. Nothing is written."
}

func (c *gaugeCommand) run(t *terminal) (int, error) {
	folder, err := findJournal(c.In)
	if err != nil {
		return 0, err
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return 0, err
	}
	defer func() { _ = root.Close() }() // it was only read from
	opts := journal.Options{SkipHTML: true, Themes: themes.Names(), Listed: t.listed}
	now, err := journal.Compile(root.FS(), opts)
	if err != nil {
		return 0, err
	}
	position, err := meant(now.Journal, c.Path)
	if err != nil {
		return 0, err
	}
	value := strings.Join(c.Value, " ")
	if strings.ContainsFunc(value+c.Temp, func(r rune) bool { return r < ' ' || r == 0x7f }) {
		return 0, errors.New("a value has no control characters in it")
	}
	day := today()
	if now.Journal.Today.CompareDay(day) > 0 {
		day = now.Journal.Today
	}
	entry := day.String() + "-~gauge"
	added := added{FS: root.FS(), name: "entries/" + entry + ".md", text: draft.Reading(position, value, c.Temp)}
	result, err := journal.Compile(added, opts)
	if err != nil {
		return 0, err
	}
	for _, f := range result.Findings {
		told := f.Rule == "out-of-limits" || f.Rule == "suspected-slip" // by the verdict
		if f.At.File != nil && f.At.File.Name == added.name && f.Severity == source.Error && !told {
			return 0, fmt.Errorf("%s: %s", f.Message, f.Do)
		}
	}
	e := result.Journal.Entry(entry)
	if e == nil || len(e.Values) == 0 {
		return 0, fmt.Errorf("`%s` is no value that `%s` can have", value, position)
	}
	v := e.Values[len(e.Values)-1]
	if err := report.Gauge(t.out, v, now.Journal.Current(position), t.outStyle); err != nil {
		return 0, err
	}
	if v.Verdict == model.Out {
		return exitFound, nil
	}
	return exitGood, nil
}

// meant returns the path that a shortened one means: each of its words begins a word of the path, in order.
func meant(j *model.Journal, typed string) (string, error) {
	path := parse.FoldPath(typed)
	known := slices.Concat(j.Read(), j.Positions.Below(""))
	for _, l := range j.Limits {
		known = append(known, l.Path)
		known = append(known, j.Positions.Below(l.Path)...)
	}
	slices.Sort(known)
	known = slices.DeleteFunc(slices.Compact(known), func(s string) bool { return s == "" })
	if slices.Contains(known, path) {
		return path, nil
	}
	var fits []string
	for _, k := range known {
		if shortens(strings.Split(path, "."), strings.Split(k, ".")) {
			fits = append(fits, k)
		}
	}
	// Of `lash.intake` and what is below it the first is meant.
	least := slices.DeleteFunc(slices.Clone(fits), func(k string) bool {
		return slices.ContainsFunc(fits, func(above string) bool { return strings.HasPrefix(k, above+".") })
	})
	switch {
	case len(least) == 1:
		return least[0], nil
	case len(least) == 0:
		return path, nil // nothing is known of it: it has no limit
	}
	return "", fmt.Errorf("`%s` may mean %s", typed, strings.Join(least[:min(8, len(least))], ", "))
}

func shortens(words, segments []string) bool {
	for _, word := range words {
		i := slices.IndexFunc(segments, func(segment string) bool { return strings.HasPrefix(segment, word) })
		if i < 0 || word == "" {
			return false
		}
		segments = segments[i+1:]
	}
	return true
}

// added is a folder with one more file in it.
type added struct {
	fs.FS
	name, text string
}

// Open opens the file, or what the folder has.
func (a added) Open(name string) (fs.File, error) {
	if name == a.name {
		return &addedFile{Reader: strings.NewReader(a.text), info: addedInfo{path.Base(a.name), int64(len(a.text))}}, nil
	}
	return a.FS.Open(name)
}

// ReadDir lists a folder, the file among the others.
func (a added) ReadDir(name string) ([]fs.DirEntry, error) {
	all, err := fs.ReadDir(a.FS, name)
	switch folder := path.Dir(a.name); {
	case name == folder && (err == nil || errors.Is(err, fs.ErrNotExist)):
		all, err = append(all, fs.FileInfoToDirEntry(addedInfo{path.Base(a.name), int64(len(a.text))})), nil
	case name == path.Dir(folder) && err == nil && !slices.ContainsFunc(all, func(d fs.DirEntry) bool { return d.Name() == path.Base(folder) }):
		all = append(all, fs.FileInfoToDirEntry(addedInfo{path.Base(folder), -1}))
	}
	return all, err
}

// addedFile is the file while it is read.
type addedFile struct {
	io.Reader
	info addedInfo
}

func (f *addedFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *addedFile) Close() error               { return nil }

// addedInfo describes the file; a folder has no size.
type addedInfo struct {
	name string
	size int64
}

func (i addedInfo) Name() string       { return i.name }
func (i addedInfo) Size() int64        { return max(0, i.size) }
func (i addedInfo) ModTime() time.Time { return time.Time{} }
func (i addedInfo) IsDir() bool        { return i.size < 0 }
func (i addedInfo) Sys() any           { return nil }

func (i addedInfo) Mode() fs.FileMode {
	if i.IsDir() {
		return fs.ModeDir | 0o755
	}
	return 0o644
}
