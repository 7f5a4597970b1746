package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

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
