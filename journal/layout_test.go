package journal_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

const module = "example.org/locknut/"

// row is a line of the package table: a package, and what it may import, in back-quotes.
var row = regexp.MustCompile("^\\| `([a-z/]+)` \\| .* \\| (.*) \\|$")

// TestPackageTable holds the imports of every file against the package table of DEVELOPERS.md.
func TestPackageTable(t *testing.T) {
	allowed := map[string][]string{}
	for line := range strings.Lines(readFile(t, "../DEVELOPERS.md")) {
		if m := row.FindStringSubmatch(strings.TrimSpace(line)); m != nil {
			allowed[m[1]] = strings.Fields(strings.ReplaceAll(m[2], "`", ""))
		}
	}
	if len(allowed) < 10 {
		t.Fatalf("the package table has %d rows", len(allowed))
	}
	seen := map[string]bool{}
	for name, imports := range ourImports(t) {
		pkg := path.Dir(name)
		seen[pkg] = true
		may, listed := allowed[pkg]
		if !listed {
			t.Errorf("%s: package %s is not in the package table", name, pkg)
			continue
		}
		for _, imported := range imports {
			if !slices.Contains(may, imported) && !slices.Contains(may, "any") {
				t.Errorf("%s imports %s, which the package table does not allow for %s", name, imported, pkg)
			}
		}
	}
	for pkg := range allowed {
		if !seen[pkg] {
			t.Errorf("the package table has %s, which there is not", pkg)
		}
	}
}

// ourImports returns which packages of this module each file imports; tests and nested modules are left out.
func ourImports(t *testing.T) map[string][]string {
	t.Helper()
	files := map[string][]string{}
	root := os.DirFS("..")
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && name != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return fs.SkipDir
		}
		if d.IsDir() || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		text, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.ImportsOnly)
		if err != nil {
			return err
		}
		files[name] = nil
		for _, spec := range file.Imports {
			if strings.HasSuffix(spec.Path.Value, `/chroma/v2/lexers"`) {
				t.Errorf("%s imports chroma's lexers, which cost every command 10 ms: they are packed in journal/markdown", name)
			}
			if imported, ours := strings.CutPrefix(strings.Trim(spec.Path.Value, `"`), module); ours {
				files[name] = append(files[name], imported)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
