package journal_test

import (
	"fmt"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
)

// TestMistakes compiles the journals of mistakes and holds every finding, by rule and place, against the list beside them.
func TestMistakes(t *testing.T) {
	const root = "../testdata/mistakes"
	var got []string
	for _, folder := range journalsBelow(t, root) {
		r, err := journal.Compile(os.DirFS(path.Join(root, folder)), journal.Options{})
		if folder == "format-newer" {
			if err == nil || !strings.Contains(err.Error(), "format 99") {
				t.Errorf("format-newer: error %v; want one that names format 99", err)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.Findings {
			got = append(got, expectLine(folder, f))
		}
	}
	slices.Sort(got)
	var want []string
	for line := range strings.Lines(readFile(t, root+"/expect.txt")) {
		if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
			want = append(want, line)
		}
	}
	slices.Sort(want)
	for _, line := range missingFrom(want, got) {
		t.Errorf("not found:   %s", line)
	}
	for _, line := range missingFrom(got, want) {
		t.Errorf("unexpected:  %s", line)
	}
}

// expectLine writes a finding as expect.txt does.
func expectLine(folder string, f source.Finding) string {
	line, _, _, _ := f.At.Position()
	state := ""
	if f.State != source.Open {
		state = " " + f.State.String()
	}
	text := fmt.Sprintf("%s:%d: %s%s: %s: %s", path.Join(folder, f.At.File.Name), line, f.Severity, state, f.Rule, strings.ReplaceAll(f.At.Text(), "\n", "¶"))
	return strings.TrimSpace(text)
}

// journalsBelow returns the folders below a root that hold a build.toml, the root as ".".
func journalsBelow(t *testing.T, root string) []string {
	t.Helper()
	var folders []string
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		if path.Base(name) == "build.toml" {
			folders = append(folders, path.Dir(name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return folders
}

func missingFrom(want, got []string) []string {
	var missing []string
	left := slices.Clone(got)
	for _, line := range want {
		i := slices.Index(left, line)
		if i < 0 {
			missing = append(missing, line)
			continue
		}
		left = slices.Delete(left, i, i+1)
	}
	return missing
}

func readFile(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
