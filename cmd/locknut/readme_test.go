package main_test

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// fileName is a line of the README that names the file which the fence below it holds.
var fileName = regexp.MustCompile("^`([a-z0-9/.-]+)`:$")

// TestReadme does what the README says: it writes the files that it shows, runs the commands of its `console` fences in their order, and
// holds what they print against what stands below them. The fence that runs the tests is left out: this is one of them.
func TestReadme(t *testing.T) {
	work := t.TempDir()
	if err := os.CopyFS(filepath.Join(work, "example-build"), os.DirFS("../../example-build")); err != nil {
		t.Fatal(err)
	}
	locknut := filepath.Join(t.TempDir(), "locknut")
	if out, err := exec.Command("go", "build", "-o", locknut, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	ran := 0
	for _, f := range fences(string(text)) {
		switch {
		case f.language == "console":
			for _, c := range commands(f.text) {
				ran++
				runCommand(t, work, locknut, c)
			}
		case f.file != "":
			name := filepath.Join(work, filepath.FromSlash(f.file))
			if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, []byte(f.text), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	if ran < 2 {
		t.Errorf("%d commands in the README", ran)
	}
}

type fence struct{ language, file, text string }

// fences returns the fenced blocks of a Markdown text, with the file that the line above names.
func fences(text string) []fence {
	var all []fence
	var open *fence
	mark, name := "", ""
	for line := range strings.Lines(text) {
		bare := strings.TrimSpace(line)
		switch {
		case open != nil && bare == mark:
			all = append(all, *open)
			open = nil
		case open != nil:
			open.text += line
		case strings.HasPrefix(bare, "```"):
			language := strings.TrimLeft(bare, "`")
			mark = bare[:len(bare)-len(language)]
			open = &fence{language: language, file: name}
			name = ""
		case bare != "":
			name = ""
			if m := fileName.FindStringSubmatch(bare); m != nil {
				name = m[1]
			}
		}
	}
	return all
}

type command struct{ line, output string }

func commands(text string) []command {
	var all []command
	for line := range strings.Lines(text) {
		if rest, ok := strings.CutPrefix(line, "$ "); ok {
			all = append(all, command{line: strings.TrimSpace(rest)})
		} else {
			all[len(all)-1].output += line
		}
	}
	return all
}

func runCommand(t *testing.T, work, locknut string, c command) {
	t.Helper()
	words := strings.Fields(strings.Replace(c.line, "go run ./cmd/locknut", "locknut", 1))
	if words[0] != "locknut" {
		t.Fatalf("README: `%s` is not a command of this program", c.line)
	}
	run := exec.Command(locknut, words[1:]...)
	run.Dir = work
	out, err := run.CombinedOutput()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		t.Fatal(err)
	}
	if err != nil {
		t.Errorf("README: `%s` ends with %v\n%s", c.line, err, out)
	}
	if c.output != "" && string(out) != c.output {
		t.Errorf("README: `%s` prints\n%s\nthe README says\n%s", c.line, out, c.output)
	}
}
