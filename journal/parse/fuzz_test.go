package parse

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/locknut/journal/source"
)

// Whatever is typed, decoding ends without a panic, and what it says of the text lies in the text.

// FuzzEntry decodes any text as an entry, and as the head of one.
func FuzzEntry(f *testing.F) {
	for _, text := range exampleFiles(f, "entries", ".md") {
		f.Add(text)
		_, head, _ := strings.Cut(text, "```toml\n")
		head, _, _ = strings.Cut(head, "```")
		f.Add(head)
	}
	f.Add(wholeFiles[entryName])
	f.Add("+++\n[set]\nx = \"1,5 mm\"\n+++\n")
	f.Add("date = 18/04/2026\n[set]\nbore = \"\"\"\nmm x\n1 ~5\n\"\"\"\nfitted = \"a b\"\n")
	f.Add("[set]\nx = [\"1 mm\", \"2,5 mm\"]\ny = { value = \"\\u0038,5 µm\", Value = 1 }\nz.found = 1")
	f.Fuzz(func(t *testing.T, text string) {
		for _, whole := range []string{text, headed(text)} {
			d := decode(entryName, whole)
			checkPlaces(t, d)
			if d.entry != nil && (d.entry.BodyFrom < 0 || d.entry.BodyFrom > len(whole)) {
				t.Errorf("the body begins at %d of %d bytes", d.entry.BodyFrom, len(whole))
			}
		}
	})
}

// FuzzSheet decodes any text as each of the sheets.
func FuzzSheet(f *testing.F) {
	for _, text := range exampleFiles(f, "", ".toml") {
		f.Add(text)
	}
	for name, text := range wholeFiles {
		if strings.HasSuffix(name, ".toml") {
			f.Add(text)
		}
	}
	f.Add("[units]\nmoney = []\nvolume = [\"gal\", \"£\"]\n[engine]\ncylinders = []\nadjuster = { kind = \"shim\", sizes = \"1..2 mm by inf\" }")
	f.Add("[x]\norder = \"2 1 2\"\ntolerence = \"1 mm\"\nwhen = { engine-temp = \"..35 °C\" }\nof = [\"a b\", \"c\"]")
	f.Fuzz(func(t *testing.T, text string) {
		for _, name := range []string{"build.toml", "limits.toml", "parts.toml", "tools.toml"} {
			checkPlaces(t, decode(name, text))
		}
	})
}

// FuzzCSV decodes any text as a CSV file, its cells as values, and its rows as readings.
func FuzzCSV(f *testing.F) {
	for _, text := range exampleFiles(f, "data", ".csv") {
		f.Add(text)
	}
	f.Add("path;found [mm];set\n-;-;mm\n\"x\";0,08;\"0,9 L, \"\"black\"\"\"\n")
	f.Add("\uFEFFpath,set,with,engine-temp,note\r\nx,.08 mm,a,1 °C,\"n\r\n\"\r\ny\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		d := decode("data/x.csv", text)
		checkPlaces(t, d)
		if d.csv == nil {
			return
		}
		for _, row := range d.csv.Rows() {
			if len(row) != len(d.csv.Heads) {
				t.Fatalf("a row has %d cells below %d heads", len(row), len(d.csv.Heads))
			}
			for _, cell := range row {
				value, slip := d.csv.Value(cell)
				checkRange(t, "cell", d.file, cell.At)
				if slip != nil {
					checkFinding(t, d.file, value.Finding(slip, "x"))
				}
			}
		}
	})
}

// exampleFiles returns the texts of the example's files of that sort.
func exampleFiles(f *testing.F, folder, extension string) []string {
	files, err := filepath.Glob(filepath.Join("..", "..", "example-build", folder, "*"+extension))
	if err != nil || len(files) == 0 {
		f.Fatalf("no files in %s of the example: %v", folder, err)
	}
	var texts []string
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		texts = append(texts, string(text))
	}
	return texts
}

func checkPlaces(t *testing.T, d decoded) {
	for _, finding := range d.findings {
		checkFinding(t, d.file, finding)
	}
	for _, r := range d.readings {
		checkRange(t, "path of reading "+r.Path, d.file, r.PathAt)
		if !r.Unread {
			checkRange(t, "value of reading "+r.Path, d.file, r.Value.At)
		}
		if r.Path == "" || strings.Contains(r.Path, "..") || strings.HasPrefix(r.Path, ".") || strings.HasSuffix(r.Path, ".") {
			t.Errorf("a reading stands at `%s`", r.Path)
		}
	}
	for _, l := range d.limits {
		checkRange(t, "path of limit "+l.Path, d.file, l.PathAt)
	}
}

func checkFinding(t *testing.T, file *source.File, f source.Finding) {
	checkRange(t, f.Rule, file, f.At)
	if f.Rule == "" || f.Severity < source.Note || f.Severity > source.Error || f.Message == "" {
		t.Errorf("finding without rule, severity or message: %+v", f)
	}
	if strings.ContainsAny(f.Rule, " _") {
		t.Errorf("rule `%s` is not a name", f.Rule)
	}
	for _, note := range f.Notes {
		checkRange(t, "note of "+f.Rule, file, note.At)
	}
	for _, fix := range f.Fixes {
		if len(fix.Edits) == 0 || fix.Title == "" {
			t.Errorf("a fix of %s has no edit or title", f.Rule)
		}
		for _, e := range fix.Edits {
			if e.File != file || e.Start < 0 || e.End < e.Start || e.End > len(file.Text) || !onCharacters(file.Text, e.Start, e.End) {
				t.Errorf("fix %q of %s edits %d to %d of %d bytes", fix.Title, f.Rule, e.Start, e.End, len(file.Text))
			}
		}
	}
}

// checkRange checks that a range is a whole file, or lies in it on characters and is not empty.
func checkRange(t *testing.T, what string, file *source.File, r source.Range) {
	if r.File != file {
		t.Errorf("%s: in no file, or another", what)
		return
	}
	if r.IsWhole() {
		return
	}
	if r.Start < 0 || r.Start >= r.End || r.End > len(file.Text) || !onCharacters(file.Text, r.Start, r.End) {
		t.Errorf("%s: from %d to %d of %d bytes", what, r.Start, r.End, len(file.Text))
	}
}

func onCharacters(text string, start, end int) bool {
	return (start == len(text) || utf8.RuneStart(text[start]) || start == 0) && (end == len(text) || utf8.RuneStart(text[end]))
}
