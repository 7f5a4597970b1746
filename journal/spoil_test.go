package journal_test

import (
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
)

// values finds the values of a TOML text: quoted strings, and bare numbers, dates and booleans after an equals sign.
var values = regexp.MustCompile(`"[^"\n]*"|(?:=\s*|[\[,]\s*)([0-9][0-9.\-:T]*)`)

// TestSpoiltValues puts something in the place of each value of the example in turn that can't be read there, and wants exactly one new
// finding, at it: what can't be read is absent, never zero, and nothing follows from its absence.
func TestSpoiltValues(t *testing.T) {
	folder := load(t, "../example-build")
	base := ids(compile(t, folder).Findings)
	places := 0
	defer func() {
		if places < 300 {
			t.Errorf("%d values were spoilt; the example has more than 300", places)
		}
	}()
	for name := range folder {
		if path.Ext(name) != ".toml" && path.Ext(name) != ".md" {
			continue
		}
		text := string(folder[name].Data)
		for _, at := range valuePlaces(name, text) {
			places++
			spoilt := text[:at[0]] + "false" + text[at[1]:]
			folder[name] = &fstest.MapFile{Data: []byte(spoilt)}
			r := compile(t, folder)
			var fresh []source.Finding
			for _, f := range r.Findings {
				if !base[f.ID()] {
					fresh = append(fresh, f)
				}
			}
			where := name + ": " + strings.TrimSpace(lineAt(text, at[0])) + " with false for " + text[at[0]:at[1]]
			switch {
			case len(fresh) == 0:
				t.Errorf("%s: nothing is found", where)
			case len(fresh) > 1:
				t.Errorf("%s: %d findings", where, len(fresh))
				for _, f := range fresh {
					line, column, _, _ := f.At.Position()
					t.Errorf("    %s:%d:%d: %s: %s", f.At.File.Name, line, column, f.Rule, f.Message)
				}
			case fresh[0].At.Text() != "false" || fresh[0].At.Start != at[0] || fresh[0].At.File.Name != name:
				t.Errorf("%s: %s is found at %q in %s", where, fresh[0].Rule, fresh[0].At.Text(), fresh[0].At.File.Name)
			}
		}
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
}

// valuePlaces returns where the values of a sheet, or of the head of an entry, stand. Those in comments and grids are left out.
func valuePlaces(name, text string) [][2]int {
	end := len(text)
	if path.Ext(name) == ".md" {
		end = strings.Index(text[3:], "```") + 3
	}
	var places [][2]int
	grid := false
	for start := 0; start < end; {
		line := text[start:end]
		if i := strings.IndexByte(line, '\n'); i >= 0 {
			line = line[:i]
		}
		code := line
		if i := strings.Index(code, "# "); i >= 0 && strings.Count(code[:i], `"`)%2 == 0 {
			code = code[:i]
		}
		if strings.Count(code, `"""`) == 1 {
			grid = !grid
			code = ""
		}
		if !grid && strings.Contains(code, "=") || strings.HasPrefix(strings.TrimSpace(code), `"`) && !grid {
			for _, m := range values.FindAllStringSubmatchIndex(code, -1) {
				place := [2]int{start + m[0], start + m[1]}
				if m[2] >= 0 {
					place = [2]int{start + m[2], start + m[3]}
				}
				places = append(places, place)
			}
		}
		start += len(line) + 1
	}
	return places
}

func lineAt(text string, offset int) string {
	start := strings.LastIndexByte(text[:offset], '\n') + 1
	line, _, _ := strings.Cut(text[start:], "\n")
	return line
}

func ids(findings []source.Finding) map[string]bool {
	set := map[string]bool{}
	for _, f := range findings {
		set[f.ID()] = true
	}
	return set
}

func compile(t *testing.T, folder fs.FS) *journal.Result {
	t.Helper()
	r, err := journal.Compile(folder, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// load reads a folder into memory.
func load(t *testing.T, root string) fstest.MapFS {
	t.Helper()
	folder := fstest.MapFS{}
	disk := os.DirFS(root)
	err := fs.WalkDir(disk, ".", func(name string, d fs.DirEntry, err error) error {
		if name == "site" {
			return fs.SkipDir // from a compile by hand
		}
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(disk, name)
		folder[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return folder
}
