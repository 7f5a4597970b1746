package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
	"example.org/locknut/journal/source"
	"example.org/locknut/themes"
)

// checking are the options of the commands that check a journal.
type checking struct {
	FailOn string `enum:"error,warning,note,never" default:"error" placeholder:"LEVEL" help:"exit with 1 on an open finding at or above: error (the usual), warning, note, or never"`
	moment
	All   bool `help:"show settled and accepted findings too"`
	Quiet bool `short:"q" help:"say nothing but what kept the work from being done; the exit code tells the rest"`
}

// moment is the option of the commands that can take a journal as it was.
type moment struct {
	AsOf string `placeholder:"DATE" help:"leave out the entries after a day (2026-04-18), or after an entry named by its path"`
}

// code returns the exit code for the findings of a journal.
func (c *checking) code(result *journal.Result) int {
	severity := map[string]source.Severity{"error": source.Error, "warning": source.Warning, "note": source.Note}[c.FailOn]
	if severity != 0 && journal.Count(result.Findings).Reaches(severity) {
		return exitFound
	}
	return exitGood
}

// text writes the findings for a reader who stands in the working folder.
func (c *checking) text(t *terminal, folder string, result *journal.Result) error {
	if c.Quiet {
		return nil
	}
	return report.Text(t.err, result, report.TextOptions{Style: t.errStyle, All: c.All, Folder: wayTo(folder)})
}

// wayTo returns what leads from the working folder to a folder, to put before the names of its files.
func wayTo(folder string) string {
	here, err := os.Getwd()
	if err != nil {
		return filepath.ToSlash(folder) + "/"
	}
	way, err := filepath.Rel(here, folder)
	switch {
	case err != nil:
		return filepath.ToSlash(folder) + "/"
	case way == ".":
		return ""
	}
	return filepath.ToSlash(way) + "/"
}

// openJournal opens the folder of the journal, through which nothing outside it is read: the one that is named, else the working folder or the
// nearest above that is one.
func openJournal(named string) (*os.Root, error) {
	folder, err := findJournal(named)
	if err != nil {
		return nil, err
	}
	return os.OpenRoot(folder)
}

// findJournal returns the way to that folder.
func findJournal(named string) (string, error) {
	if named != "" {
		folder, err := filepath.Abs(named)
		if err != nil {
			return "", err
		}
		info, err := os.Stat(folder)
		if errors.Is(err, fs.ErrNotExist) {
			return "", fmt.Errorf("there is no folder %s", named)
		}
		if err != nil {
			return "", err
		}
		if !info.IsDir() {
			return "", fmt.Errorf("%s is a file; a journal is a folder", named)
		}
		if !isJournal(folder) {
			return "", fmt.Errorf("%s is no journal: it has no build.toml", named)
		}
		return folder, nil
	}
	here, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for folder := here; ; folder = filepath.Dir(folder) {
		if isJournal(folder) {
			return folder, nil
		}
		if folder == filepath.Dir(folder) {
			return "", errors.New("no journal here: neither this folder nor any above it has a build.toml")
		}
	}
}

func isJournal(folder string) bool {
	info, err := os.Stat(filepath.Join(folder, "build.toml"))
	return err == nil && info.Mode().IsRegular()
}

// compile reads and checks the journal in a folder.
func (t *terminal) compile(folder fs.FS, opts journal.Options) (*journal.Result, error) {
	opts.Themes, opts.Listed = themes.Names(), t.listed
	return journal.Compile(folder, opts)
}
