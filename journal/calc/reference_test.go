package calc_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/journal/calc"
)

// The functions, by name, with their arguments in a list. Published figures for each stand in testdata/reference.
var functions = map[string]func(x []float64) (float64, error){
	"AdjusterTurn": func(x []float64) (float64, error) { return calc.AdjusterTurn(x[0], x[1], x[2]) },
	"Crossing": func(x []float64) (float64, error) { // of a drift through the origin
		at, _, err := calc.Crossing(calc.Drift{Slope: x[0]}, x[1])
		return at, err
	},
	"ClearanceVolume": func(x []float64) (float64, error) {
		return calc.ClearanceVolume(x[0], x[1], x[2], x[3], x[4], x[5], x[6])
	},
	"CompressionRatio": func(x []float64) (float64, error) { return calc.CompressionRatio(x[0], x[1]) },
	"DecidingLeaves": func(x []float64) (float64, error) { // of two leaves: how thick what is picked is
		thick := 0.0
		for _, leaf := range calc.DecidingLeaves(x[3:], x[0], x[1], x[2]) {
			thick += leaf
		}
		return thick, nil
	},
	"Delivered":  func(x []float64) (float64, error) { return calc.Delivered(x[0], x[1], x[2], x[3]) },
	"LashByTurn": func(x []float64) (float64, error) { return calc.LashByTurn(x[0], x[1], x[2]) },
	"LeavesWithin": func(x []float64) (float64, error) { // of two leaves: how far apart those are that are picked
		goes, stops := calc.LeavesWithin(x[2:], x[0], x[1])
		return x[2+stops] - x[2+goes], nil
	},
	"Setting":   func(x []float64) (float64, error) { return calc.Setting(x[0], x[1], x[2], x[3]) },
	"ShimToFit": func(x []float64) (float64, error) { return calc.ShimToFit(x[0], x[1], x[2]) },
	"Trend": func(x []float64) (float64, error) { // of two points: the slope
		d, err := calc.Trend([]calc.Point{{X: x[0], Y: x[1], U: 1}, {X: x[2], Y: x[3], U: 1}})
		return d.Slope, err
	},
	"SweptVolume": func(x []float64) (float64, error) { return calc.SweptVolume(x[0], x[1]) },
}

// arguments is how many each takes.
var arguments = map[string]int{"AdjusterTurn": 3, "ClearanceVolume": 7, "CompressionRatio": 2, "Crossing": 2, "DecidingLeaves": 5, "Delivered": 4, "LashByTurn": 3, "LeavesWithin": 4, "Setting": 4, "ShimToFit": 3, "SweptVolume": 2, "Trend": 4}

// units are those of the reference files, in SI. Inch, pound and standard gravity are exact by definition.
var units = map[string]float64{
	"": 1, "mm": 1e-3, "cm": 1e-2, "in": 0.0254, "cm3": 1e-6, "L": 1e-3, "in3": 0.0254 * 0.0254 * 0.0254, "deg": math.Pi / 180,
	"lbf·ft": 0.45359237 * 9.80665 * 0.3048, "lbf·in": 0.45359237 * 9.80665 * 0.0254,
}

var statuses = []string{"read in the source", "read in a reproduction", "recomputed from the definition", "from memory", "common practice, no source"}

// row is one published or recomputed figure.
type row struct {
	place    string // file:line
	function string
	x        []float64 // SI
	want     float64   // SI
	within   float64   // SI
	text     string
}

// rows reads the reference files.
func rows(t *testing.T) []row {
	t.Helper()
	files, err := filepath.Glob("../../testdata/reference/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("reference files: %v, %v", files, err)
	}
	var all []row
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(text), "\n") {
			if line == "" || line[0] == '#' {
				continue
			}
			all = append(all, readRow(t, filepath.Base(name)+":"+strconv.Itoa(i+1), line))
		}
	}
	return all
}

func readRow(t *testing.T, place, line string) row {
	t.Helper()
	cells := strings.Split(line, "|")
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	if len(cells) != 6 || cells[4] == "" || !slices.Contains(statuses, cells[5]) {
		t.Fatalf("%s: %q has %d cells, want function, arguments, result, to within, source, and one of %q", place, line, len(cells), statuses)
	}
	r := row{place: place, function: cells[0], want: figure(t, place, cells[2]), within: figure(t, place, cells[3]), text: line}
	for _, x := range strings.Split(cells[1], ";") {
		r.x = append(r.x, figure(t, place, strings.TrimSpace(x)))
	}
	if functions[r.function] == nil || len(r.x) != arguments[r.function] {
		t.Fatalf("%s: %q is no function of %d arguments", place, r.function, len(r.x))
	}
	return r
}

// figure reads a number with its unit.
func figure(t *testing.T, place, text string) float64 {
	t.Helper()
	number, unit, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(number, 64)
	factor, known := units[unit]
	if err != nil || !known {
		t.Fatalf("%s: %q is no figure: %v", place, text, err)
	}
	return x * factor
}

func TestAgainstReferenceValues(t *testing.T) {
	for _, r := range rows(t) {
		got, err := functions[r.function](r.x)
		if err != nil {
			t.Errorf("%s: %v\nin %s", r.place, err, r.text)
			continue
		}
		if !(math.Abs(got-r.want) <= r.within+1e-12*math.Abs(r.want)) {
			t.Errorf("%s: got %v, want %v to within %v (SI)\nin %s", r.place, got, r.want, r.within, r.text)
		}
	}
}

// Every exported function has a row, or a test named after it that holds it against a second, independent method.
func TestEveryFunctionIsHeldAgainstSomething(t *testing.T) {
	has := map[string]bool{}
	for _, r := range rows(t) {
		has[r.function] = true
	}
	declared := declarations(t, func(name string) bool { return !strings.HasSuffix(name, "_test.go") })
	tests := declarations(t, func(name string) bool { return strings.HasSuffix(name, "_test.go") })
	if len(declared) == 0 {
		t.Fatal("no function was found in the package")
	}
	for _, name := range declared {
		if !has[name] && !slices.Contains(tests, "Test"+name+"AgainstASecondMethod") {
			t.Errorf("%s has neither a row in testdata/reference nor a test Test%sAgainstASecondMethod", name, name)
		}
		if functions[name] == nil {
			t.Errorf("%s is not in the list of functions that reference rows can name", name)
		}
	}
}

// declarations returns the names of the exported functions, methods left out, in the package's files of those names.
func declarations(t *testing.T, wanted func(file string) bool) []string {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, name := range files {
		if !wanted(name) {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.IsExported() {
				names = append(names, f.Name.Name)
			}
		}
	}
	return names
}
