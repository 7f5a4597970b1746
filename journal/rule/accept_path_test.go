package rule_test

import (
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"example.org/locknut/journal"
	"example.org/locknut/journal/rule"
	"example.org/locknut/journal/source"
)

// What the findings' JSON shows as the path of one is what `at` accepts it by, be it a path, a file or a link: every finding of every page that can be accepted is, so.
func TestEveryFindingIsAcceptedByThePathThatItShows(t *testing.T) {
	for _, r := range rule.All {
		if r.Firm {
			continue
		}
		t.Run(r.Name, func(t *testing.T) {
			t.Parallel()
			p, err := readPage(rule.Page(r.Name))
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range p.caught {
				t.Run(fmt.Sprintf("line %d", c.line), func(t *testing.T) { accepted(t, c, r.Name) })
			}
		})
	}
}

// accepted accepts the first open finding of a rule in a journal by its path.
func accepted(t *testing.T, c pageCase, name string) {
	t.Helper()
	find := func(files fstest.MapFS, holds func(source.Finding) bool) *source.Finding {
		result, err := journal.Compile(files, journal.Options{SkipHTML: true, Themes: []string{"plain", "workshop"}})
		if err != nil {
			t.Fatalf("line %d: %v", c.line, err)
		}
		i := slices.IndexFunc(result.Findings, func(f source.Finding) bool { return f.Rule == name && holds(f) })
		if i < 0 {
			return nil
		}
		return &result.Findings[i]
	}
	f := find(c.files, func(f source.Finding) bool { return f.State == source.Open })
	if f == nil || f.Subject == "" && f.Entry == "" {
		t.Errorf("line %d: no open finding that says what it is about", c.line)
		return
	}
	files := maps.Clone(c.files)
	acceptIn(files, f)
	if find(files, func(other source.Finding) bool {
		return other.State == source.Accepted && other.Subject == f.Subject && other.Entry == f.Entry
	}) == nil {
		t.Errorf("line %d: `%s` is not accepted by its path `%s`", c.line, name, f.Subject)
	}
}

// acceptIn writes the accept of a finding into its entry, or, where that has no head, into a later one of its own.
func acceptIn(files fstest.MapFS, f *source.Finding) {
	text := "[[accept]]\nfinding = \"" + f.Rule + "\"\nwhy = \"It is so.\"\n"
	if f.Subject != "" {
		text += "at = '''" + f.Subject + "'''\n"
	}
	entry := "entries/" + f.Entry + ".md"
	if f.Entry == "" || isPlan(files[entry], entry) { // of a sheet, or of a plan, which accepts nothing
		entry = newest(files)
	}
	if file := files[entry]; file != nil {
		if head, rest, ok := strings.Cut(string(file.Data), "\n```\n"); ok && strings.HasPrefix(head, "```toml") {
			files[entry] = &fstest.MapFile{Data: []byte(head + "\n" + text + "```\n" + rest)}
			return
		}
	}
	files["entries/2029-01-01-accept.md"] = &fstest.MapFile{Data: []byte("```toml\n" + text + "```\n")}
}

// newest returns the newest entry that has a date, "" for none.
func newest(files fstest.MapFS) string {
	for _, name := range slices.Backward(slices.Sorted(maps.Keys(files))) {
		if strings.HasPrefix(name, "entries/2") && strings.HasSuffix(name, ".md") {
			return name
		}
	}
	return ""
}

// isPlan reports whether an entry has no date, neither in its file's name nor in its head.
func isPlan(file *fstest.MapFile, name string) bool {
	base := path.Base(name)
	_, err := time.Parse(time.DateOnly, base[:min(len(time.DateOnly), len(base))])
	return err != nil && file != nil && !strings.Contains(string(file.Data), "\ndate = ")
}
