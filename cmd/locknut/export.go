package main

import (
	"fmt"

	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
)

// exportCommand writes the values of a journal.
type exportCommand struct {
	Dir    string `arg:"" optional:"" help:"folder of the journal"`
	Format string `enum:"json,csv" default:"json" placeholder:"FORMAT" help:"json (the usual) or csv, to standard output"`
	Public bool   `help:"leave out what the journal hides, as its site does"`
	moment
}

// Help is what its help says beyond a line.
func (*exportCommand) Help() string { return whichFolder }

func (c *exportCommand) run(t *terminal) (int, error) {
	root, err := openJournal(c.Dir)
	if err != nil {
		return 0, err
	}
	defer root.Close() // it was only read
	result, err := t.compile(root.FS(), journal.Options{AsOf: c.AsOf, SkipHTML: true})
	if err != nil {
		return 0, err
	}
	if c.Public && result.NoSite != "" {
		return 0, fmt.Errorf("nothing can be published: %s", result.NoSite)
	}
	if line := report.Lacking(result); line != "" {
		fmt.Fprintln(t.err, "locknut: "+line)
	}
	write := report.ExportJSON
	if c.Format == "csv" {
		write = report.ExportCSV
	}
	return exitGood, write(t.out, result, report.ExportOptions{Public: c.Public})
}
