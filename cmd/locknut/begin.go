package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"example.org/locknut/journal"
	"example.org/locknut/journal/draft"
	"example.org/locknut/journal/parse"
)

// beginCommand writes a journal to begin with.
type beginCommand struct {
	Dir string `arg:"" help:"folder of the journal; it is made if it isn't there"`
}

// Help is what its help says beyond a line.
func (*beginCommand) Help() string {
	return "It writes a build sheet, sheets of limits, parts and tools, and a first entry of today, which teach by their comments.\nNothing is overwritten: where one of them is there already, none is written."
}

func (c *beginCommand) run(t *terminal) (int, error) {
	return exitGood, t.write(c.Dir, draft.Journal(today()))
}

// entryCommand writes a new entry.
type entryCommand struct {
	Title []string `arg:"" help:"title of the entry"`
	In    string   `placeholder:"DIR" help:"folder of the journal; else the working folder, or the nearest above it that is one"`
	Date  string   `placeholder:"DATE" help:"its day (2026-04-18); today is the usual one"`
}

// Help is what its help says beyond a line.
func (*entryCommand) Help() string {
	return "It writes the next entry with the last meter, blanks for the readings that fitted parts ask for and that are due,\nand what planned parts will ask. A blank claims nothing until it is filled in. Nothing is overwritten."
}

func (c *entryCommand) run(t *terminal) (int, error) {
	folder, err := findJournal(c.In)
	if err != nil {
		return 0, err
	}
	day := today()
	if c.Date != "" {
		var ok bool
		if day, ok = parse.ParseDate(c.Date); !ok {
			return 0, fmt.Errorf("`%s` is no day, as in 2026-04-18", c.Date)
		}
	}
	result, err := t.compile(folder, journal.Options{AsOf: day.String(), SkipHTML: true})
	if err != nil {
		return 0, err
	}
	return exitGood, t.write(folder, []draft.File{draft.Entry(result, strings.Join(c.Title, " "), day)})
}

func today() parse.Date {
	now := time.Now()
	return parse.Date{Year: now.Year(), Month: int(now.Month()), Day: now.Day()}
}

// write writes files below a folder, none of which may be there, and says which.
func (t *terminal) write(folder string, files []draft.File) error {
	for _, f := range files {
		name := filepath.Join(folder, filepath.FromSlash(f.Name))
		if _, err := os.Lstat(name); err == nil {
			return fmt.Errorf("%s is there already: nothing was written", name)
		} else if !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	for _, f := range files {
		name := filepath.Join(folder, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			return err
		}
		if err := writeNew(name, f.Text); err != nil {
			return err
		}
		if _, err := fmt.Fprintln(t.out, filepath.ToSlash(name)); err != nil {
			return err
		}
	}
	return nil
}

// writeNew writes a file that isn't there yet, whole or not at all.
func writeNew(name, text string) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		err = errors.Join(err, os.Remove(name))
	}
	return err
}
