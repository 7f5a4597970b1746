package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/locknut/journal/report"
)

// full is a disk with no room left.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room left") }

func TestWhatCannotBeWrittenIsSaid(t *testing.T) {
	const example = "../../example-build"
	for _, args := range [][]string{
		{"export", example}, {"export", "--format", "csv", example}, {"inspect", "--format", "json", example}, {"explain"}, {"explain", "lash"},
		{"explain", "--format", "json"}, {"--help"}, {"--version"},
	} {
		var said bytes.Buffer
		code := run(args, &terminal{out: full{}, err: &said})
		if code != exitWrong || !strings.Contains(said.String(), "no room left") {
			t.Errorf("%v: ended with %d and said %q", args, code, said.String())
		}
	}
}

func TestOnlyATerminalHasColours(t *testing.T) {
	t.Setenv("NO_COLOR", "")
	t.Setenv("TERM", "xterm")
	for _, name := range []string{os.DevNull, filepath.Join(t.TempDir(), "log")} {
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE, 0o600)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if styleOf(f) != (report.Style{}) {
			t.Errorf("%s has colours", name)
		}
	}
}

func TestTheSizeOfASite(t *testing.T) {
	for n, want := range map[int64]string{0: "0 B", 999: "999 B", 1000: "1.0 kB", 701_900: "701.9 kB", 1_000_000: "1.0 MB", 2_540_000: "2.5 MB"} {
		if got := size(n); got != want {
			t.Errorf("%d: got %s, want %s", n, got, want)
		}
	}
}
