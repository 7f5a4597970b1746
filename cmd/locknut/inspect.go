package main

import (
	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
)

// inspectCommand checks a journal.
type inspectCommand struct {
	Dir    string `arg:"" optional:"" help:"folder of the journal"`
	Format string `enum:"text,json" default:"text" placeholder:"FORMAT" help:"text (the usual): to standard error, for reading; json: all findings to standard output"`
	checking
}

// Help is what its help says beyond a line.
func (*inspectCommand) Help() string { return whichFolder }

const whichFolder = "DIR is the folder of the journal, which holds its build.toml. Without it the journal is the working folder,\nor the nearest above it that is one."

func (c *inspectCommand) run(t *terminal) (int, error) {
	root, err := openJournal(c.Dir)
	if err != nil {
		return 0, err
	}
	defer root.Close() // it was only read
	result, err := t.compile(root.FS(), journal.Options{AsOf: c.AsOf, SkipHTML: true})
	if err != nil {
		return 0, err
	}
	if c.Format == "json" {
		err = report.JSON(t.out, result)
	} else {
		err = c.text(t, root.Name(), result)
	}
	return c.code(result), err
}
