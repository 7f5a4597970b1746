package journal

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"path"
	"slices"
	"strings"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parallel"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
	"example.org/locknut/render/photo"
)

// SiteMark is the file that marks a folder as a site that this program wrote. Such a folder is never read as journal text.
const SiteMark = ".locknut"

// list returns the names of all files below a journal, sorted, but for those of a site and those that begin with a dot. Links that lead out
// of the journal, or to no file, come apart: they are never read.
func list(folder fs.FS) (names, astray []string, err error) {
	if info, err := fs.Stat(folder, "build.toml"); errors.Is(err, fs.ErrNotExist) || err == nil && !info.Mode().IsRegular() {
		return nil, nil, ErrNoJournal
	}
	err = fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		base := path.Base(name)
		if d.IsDir() {
			if name != "." && (name == "site" || strings.HasPrefix(base, ".")) {
				return fs.SkipDir
			}
			if _, err := fs.Stat(folder, path.Join(name, SiteMark)); err == nil && name != "." {
				return fs.SkipDir
			}
			return nil
		}
		if strings.HasPrefix(base, ".") {
			return nil
		}
		regular := d.Type().IsRegular()
		if d.Type()&fs.ModeSymlink != 0 {
			info, err := fs.Stat(folder, name)
			regular = err == nil && info.Mode().IsRegular()
			if !regular {
				astray = append(astray, name)
			}
		}
		if regular {
			names = append(names, name)
		}
		return nil
	})
	if err != nil {
		return nil, nil, fmt.Errorf("list the journal: %w", err)
	}
	slices.Sort(names)
	slices.Sort(astray)
	return names, astray, nil
}

// strayLinks reports the links that are never read.
func strayLinks(astray []string) []source.Finding {
	var findings []source.Finding
	for _, name := range astray {
		findings = append(findings, source.Finding{Rule: "stray-link", Severity: source.Warning, At: source.NewFile(name, "").Whole(), Subject: name,
			Message: "this is a link that leads out of the journal, or to no file: it isn't read", Do: "put the file itself into the journal"})
	}
	return findings
}

// sheetsNamed returns the files of a kind: `X.toml` and `X/*.toml`.
func sheetsNamed(files []string, kind string) []string {
	var names []string
	for _, name := range files {
		if name == kind+".toml" || path.Dir(name) == kind && path.Ext(name) == ".toml" {
			names = append(names, name)
		}
	}
	return names
}

// read reads and decodes the files of a journal, each alone, but for the bodies of entries.
func read(folder fs.FS, files []string, opts Options) (*model.Sources, []source.Finding, error) {
	r := &reader{folder: folder}
	s := &model.Sources{Files: map[string]bool{}, Data: map[string]*parse.CSV{}}
	for _, name := range files {
		s.Files[name] = true
	}
	build, findings, err := r.build(opts)
	if err != nil {
		return nil, nil, err
	}
	s.Build = build
	r.findings = append(r.findings, findings)
	s.Limits = decodeAll(r, sheetsNamed(files, "limits"), parse.MaxSheet, parse.DecodeLimits)
	s.Parts = decodeAll(r, sheetsNamed(files, "parts"), parse.MaxSheet, parse.DecodeParts)
	s.Tools = decodeAll(r, sheetsNamed(files, "tools"), parse.MaxSheet, parse.DecodeTools)
	var entries []string
	for _, name := range files {
		if strings.HasPrefix(name, "entries/") && path.Ext(name) == ".md" {
			entries = append(entries, name)
		}
	}
	all := decodeAll(r, entries, parse.MaxEntry, parse.DecodeEntry)
	s.Entries = slices.DeleteFunc(all, func(e *parse.Entry) bool { return e == nil })
	names := dataNames(s)
	for i, csv := range decodeAll(r, names, parse.MaxCSV, parse.DecodeCSV) {
		s.Data[names[i]] = csv
	}
	s.Photos = r.photos(files)
	s.Theme = r.theme(files)
	if r.err != nil {
		return nil, nil, r.err
	}
	return s, slices.Concat(r.findings...), nil
}

// dataNames returns the names of the CSV files that entries name and that are there, sorted.
func dataNames(s *model.Sources) []string {
	seen := map[string]bool{}
	for _, e := range s.Entries {
		for _, key := range parse.DataTables {
			for _, table := range e.Fields.Tables(key) {
				for _, name := range table.Texts("data") {
					if s.Files[name.Text] {
						seen[name.Text] = true
					}
				}
			}
		}
	}
	names := make([]string, 0, len(seen))
	for name := range seen {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// reader reads files through the folder and keeps what it finds, by the order of the files.
type reader struct {
	folder   fs.FS
	findings [][]source.Finding

	err error // the first one, in the order of the files
}

func (r *reader) build(opts Options) (*parse.Build, []source.Finding, error) {
	file, err := r.file("build.toml", parse.MaxSheet, &bytes.Buffer{})
	if err != nil {
		return nil, nil, err
	}
	build, findings := parse.DecodeBuild(file, markdown.Options{SkipHTML: opts.SkipHTML, Code: opts.Code})
	return build, findings, nil
}

// file reads one file through a buffer that it may use again, of a text that is too big only as much as shows that it is.
func (r *reader) file(name string, limit int, scratch *bytes.Buffer) (_ *source.File, err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("read %s: %w", name, err)
		}
	}()
	f, err := r.folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if info.Size() > int64(limit) {
		tooBig := source.NewFile(name, "")
		tooBig.Size = info.Size()
		return tooBig, nil
	}
	scratch.Reset()
	scratch.Grow(int(info.Size()) + bytes.MinRead) // so that the end is seen without growing
	if _, err := scratch.ReadFrom(f); err != nil {
		return nil, err
	}
	return source.NewFile(name, scratch.String()), nil
}

// decodeAll reads and decodes files in parallel; results and findings keep the order of the names.
func decodeAll[T any](r *reader, names []string, limit int, decode func(*source.File) (T, []source.Finding)) []T {
	results := make([]T, len(names))
	findings := make([][]source.Finding, len(names))
	failures := make([]error, len(names))
	parallel.Share(len(names), func(tasks iter.Seq[int]) {
		var scratch bytes.Buffer
		for i := range tasks {
			file, err := r.file(names[i], limit, &scratch)
			if err != nil {
				failures[i] = err
				continue
			}
			results[i], findings[i] = decode(file)
		}
	})
	for _, err := range failures {
		if err != nil {
			r.fail(err)
		}
	}
	r.findings = append(r.findings, findings...)
	return results
}

// readBodies reads the bodies of entries in parallel.
func readBodies(entries []*parse.Entry, opts Options) []*markdown.Body {
	bodies := make([]*markdown.Body, len(entries))
	parallel.Each(len(entries), func(i int) {
		bodies[i] = entries[i].ReadBody(markdown.Options{SkipHTML: opts.SkipHTML, Code: opts.Code})
	})
	return bodies
}

// photos looks at the pictures: whether each is one that can be read, as far as its head and its end show.
func (r *reader) photos(files []string) []model.Photo {
	var photos []model.Photo
	for _, name := range files {
		if !strings.HasPrefix(name, "photos/") {
			continue
		}
		picture := model.Photo{File: source.NewFile(name, "")}
		f, err := r.folder.Open(name)
		if err != nil {
			r.fail(fmt.Errorf("read %s: %w", name, err))
			return nil
		}
		var disk *fs.PathError
		if err := photo.Look(f); errors.As(err, &disk) {
			r.fail(fmt.Errorf("read %s: %w", name, err))
		} else if err != nil {
			picture.Reason = err.Error()
		}
		if err := f.Close(); err != nil {
			r.fail(fmt.Errorf("read %s: %w", name, err))
		}
		photos = append(photos, picture)
	}
	return photos
}

func (r *reader) fail(err error) {
	if r.err == nil {
		r.err = err
	}
}
