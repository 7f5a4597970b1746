package main

import (
	"fmt"
	"path/filepath"

	"example.org/locknut/journal"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/report"
	"example.org/locknut/render"
	"example.org/locknut/render/disk"
)

// compileCommand writes the site of a journal.
type compileCommand struct {
	Dir string `arg:"" optional:"" help:"folder of the journal"`
	Out string `placeholder:"FOLDER" help:"write the site there; the folder 'site' in the journal is the usual place"`
	checking
}

// Help is what its help says beyond a line.
func (*compileCommand) Help() string {
	return whichFolder + "\n\nThe site is written whole, or not at all: on any failure the old one stays as it was. Findings never stop it."
}

func (c *compileCommand) run(t *terminal) (int, error) {
	root, err := openJournal(c.Dir)
	if err != nil {
		return 0, err
	}
	defer root.Close() // it was only read
	folder := root.Name()
	target := filepath.Join(folder, "site")
	if c.Out != "" {
		if target, err = filepath.Abs(c.Out); err != nil {
			return 0, err
		}
	}
	result, err := t.compile(root.FS(), journal.Options{AsOf: c.AsOf, Code: &markdown.Highlighter{}})
	if err != nil {
		return 0, err
	}
	if result.NoSite != "" {
		err := c.text(t, folder, result)
		fmt.Fprintf(t.err, "locknut: no site was written, and one that was there stays: %s\n", result.NoSite)
		return exitFound, err
	}
	var left []render.LeftOff
	site, err := disk.Write(target, folder, func(sink render.Sink) (err error) {
		left, err = render.Site(result, sink)
		return err
	})
	if err != nil {
		return 0, err
	}
	if err := c.text(t, folder, result); err != nil {
		return 0, err
	}
	if !c.Quiet {
		sayWritten(t, result, target, site, left)
	}
	return c.code(result), nil
}

// sayWritten says what was written, and what the site goes without.
func sayWritten(t *terminal, result *journal.Result, target string, site disk.Summary, left []render.LeftOff) {
	for _, l := range left {
		fmt.Fprintf(t.err, "left off the site: %s\n", l)
	}
	if unclear := report.Unclear(result); unclear != "" {
		fmt.Fprintf(t.err, "left off the site: %s\n", unclear)
	}
	fmt.Fprintf(t.err, "site written: %s %d files, %s\n", wayTo(target), site.Pages, size(site.Bytes))
	if url := result.Journal.Build.Fields.Get("url"); url == nil && !result.Journal.Build.Fields.IsBad("url") {
		fmt.Fprintln(t.err, "no url in build.toml: no feed, no sitemap, no canonical links, no 404 page")
	}
	if site.Left != "" {
		fmt.Fprintf(t.err, "the old site could not be taken away; the next run does it: %s\n", wayTo(site.Left))
	}
}

// size shows a number of bytes in kB or MB of a thousand.
func size(n int64) string {
	switch {
	case n < 1000:
		return fmt.Sprintf("%d B", n)
	case n < 1_000_000:
		return fmt.Sprintf("%.1f kB", float64(n)/1e3)
	}
	return fmt.Sprintf("%.1f MB", float64(n)/1e6)
}
