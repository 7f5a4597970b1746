package main

import (
	"bytes"
	"errors"
	"image"
	"image/png"
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

// A picture that only decoding shows to be broken is found by no rule, so it is said when the site is made: its head and end are whole, and a
// bit of its pixels is wrong.
func TestAPictureThatIsLeftOffIsSaid(t *testing.T) {
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 300, 200))); err != nil {
		t.Fatal(err)
	}
	picture.Bytes()[picture.Len()/2] ^= 1
	folder := t.TempDir()
	for name, content := range map[string]string{
		"build.toml": "", "photos/tank.png": picture.String(), "entries/2026-03-01.md": "```toml\n```\n\n![The tank](../photos/tank.png)\n",
	} {
		name = filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	const line = "left off the site: photos/tank.png: it is broken or cut off: png: "
	for _, args := range [][]string{{"compile", folder}, {"compile", folder}, {"compile", "-q", folder}} {
		var out, said bytes.Buffer
		code := run(args, &terminal{out: &out, err: &said})
		if want := len(args) == 2; code != exitGood || out.Len() > 0 || strings.Contains(said.String(), line) != want || strings.Count(said.String(), "left off") > 1 || !want && said.Len() > 0 {
			t.Errorf("%v ended with %d and said\n%s%s", args, code, out.String(), said.String())
		}
	}
}
