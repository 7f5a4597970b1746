package main

import (
	"fmt"
	"strings"

	"example.org/locknut/journal"
	"example.org/locknut/journal/draft"
	"example.org/locknut/journal/parse"
)

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
	root, err := openJournal(c.In)
	if err != nil {
		return 0, err
	}
	defer root.Close() // it was only read
	day := today()
	if c.Date != "" {
		var ok bool
		if day, ok = parse.ParseDate(c.Date); !ok {
			return 0, fmt.Errorf("`%s` is no day, as in 2026-04-18", c.Date)
		}
	}
	result, err := t.compile(root.FS(), journal.Options{AsOf: day.String(), SkipHTML: true})
	if err != nil {
		return 0, err
	}
	return exitGood, t.write(root.Name(), []draft.File{draft.Entry(result, strings.Join(c.Title, " "), day)})
}
