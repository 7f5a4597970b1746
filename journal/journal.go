// Package journal is the front door: a folder goes in, a checked journal with its numbers and findings comes out.
//
// It hides the order of the stages: reading, decoding each file alone and in parallel, linking, working numbers out, checking. The one
// invariant: the same files give the same result, whatever the machine, the folder they stand in, and the order in which they are read.
package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/rule"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/upkeep"
)

// ErrNoJournal says that a folder is no journal: it has no `build.toml`.
var ErrNoJournal = errors.New("no journal here: the folder has no build.toml")

// Format is the version of the journal format that this package reads.
const Format = 1

// Options say how a journal is compiled.
type Options struct {
	AsOf     string                // a day (`2026-04-18`) or the path of an entry: later entries don't count
	Themes   []string              // that a site can have; none: a theme's name is not checked
	SkipHTML bool                  // check only: bodies are not rendered
	Code     *markdown.Highlighter // colours the code in bodies; nil leaves it plain
	Listed   func(files int)       // is told how many files there are, before any but the list is read; nil for nobody
}

// Result is a compiled journal.
type Result struct {
	Journal  *model.Journal
	Sums     *derive.Sums
	Numbers  []*derive.Number // as they are now
	Upkeep   []upkeep.Item    // what there is to do again, the most pressing first
	Findings []source.Finding // sorted, numbered; open, settled and accepted
	Files    []string         // below the journal, sorted
	Folder   fs.FS            // that it was read from: the pictures are still in it. One that was closed since needs another in its place
	NoSite   string           // why no site may be written; empty if it may
}

// Compile reads and checks the journal in a folder. Whatever is wrong with the builder's text is a finding; an error is about the world:
// a folder that is no journal, a file that can't be read, a format that is too new.
func Compile(folder fs.FS, opts Options) (*Result, error) {
	files, astray, err := list(folder)
	if err != nil {
		return nil, err
	}
	if opts.Listed != nil {
		opts.Listed(len(files))
	}
	sources, findings, err := read(folder, files, opts)
	if err != nil {
		return nil, err
	}
	if n, ok := sources.Build.Fields.Whole("format"); ok && n > Format {
		return nil, fmt.Errorf("build.toml has format %d; this program reads format %d: a newer one is needed", n, Format)
	}
	asOf, err := moment(opts.AsOf, sources)
	if err != nil {
		return nil, err
	}
	var bodies []*markdown.Body
	var reading sync.WaitGroup
	reading.Go(func() { bodies = readBodies(sources.Entries, opts) })
	linked, more := model.Link(sources, asOf) // goes one step at a time, so the bodies are read meanwhile
	reading.Wait()
	linked.LinkBodies(sources, bodies)
	for _, body := range bodies {
		findings = append(findings, body.Findings...)
	}
	findings = counting(findings, sources, linked)
	sums := derive.Of(linked)
	result := &Result{Journal: linked, Sums: sums, Numbers: sums.Now(), Upkeep: upkeep.Of(linked), Files: files, Folder: folder}
	result.Findings = rule.Run(sums, result.Numbers, result.Upkeep, opts.Themes, slices.Concat(strayLinks(astray), findings, more))
	source.Number(result.Findings)
	if sources.Build.Fields == nil {
		result.NoSite = "build.toml can't be read"
	}
	if sources.Build.Fields.IsBad("site") || sources.Build.Fields.Table("site").IsBad("hide") {
		result.NoSite = "what is never to be published, `hide` in build.toml, can't be read"
	}
	for _, f := range result.Findings {
		if f.Rule == "unknown-hide" {
			result.NoSite = "it isn't clear what is never to be published: " + f.Message
		}
	}
	return result, nil
}

// counting leaves out the findings of entries after the moment that counts.
func counting(findings []source.Finding, sources *model.Sources, linked *model.Journal) []source.Finding {
	late := map[string]bool{}
	for _, e := range sources.Entries {
		late[e.Path] = linked.Entry(e.Path) == nil
	}
	return slices.DeleteFunc(findings, func(f source.Finding) bool { return late[f.Entry] })
}

// moment reads the moment up to which a journal counts.
func moment(text string, sources *model.Sources) (model.AsOf, error) {
	if text == "" {
		return model.AsOf{}, nil
	}
	if day, ok := parse.ParseDate(text); ok {
		return model.AsOf{Day: day}, nil
	}
	path := strings.TrimSuffix(strings.TrimPrefix(text, "entries/"), ".md") // the file's name will do
	for _, e := range sources.Entries {
		if (e.Path == text || e.Path == path) && !e.Date.IsZero() {
			return model.AsOf{Entry: e.Path}, nil
		}
	}
	return model.AsOf{}, fmt.Errorf("`%s` is neither a day, as in 2026-04-18, nor the path of a dated entry", text)
}

// Counts are the numbers of findings. Error, Warning and Note count open ones alone.
type Counts struct {
	Error, Warning, Note, Settled, Accepted int
}

// Count counts findings.
func Count(findings []source.Finding) Counts {
	var c Counts
	for _, f := range findings {
		switch {
		case f.State == source.Settled:
			c.Settled++
		case f.State == source.Accepted:
			c.Accepted++
		case f.Severity == source.Error:
			c.Error++
		case f.Severity == source.Warning:
			c.Warning++
		case f.Severity == source.Note:
			c.Note++
		}
	}
	return c
}

// Reaches reports whether an open finding is at least as bad as a severity.
func (c Counts) Reaches(s source.Severity) bool {
	return c.Error > 0 || s <= source.Warning && c.Warning > 0 || s <= source.Note && c.Note > 0
}
