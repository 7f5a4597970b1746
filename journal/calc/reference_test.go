package calc_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/journal/calc"
)

// called is a function with its arguments in a list, and how many it takes: −1 for any number.
type called struct {
	arguments int
	call      func(x []float64) (float64, error)
}

// functions are those of all families, by name. Published figures for each stand in testdata/reference.
var functions = merged(adapterFunctions, airFunctions, breathingFunctions, camFunctions, crankFunctions, driveFunctions, engineFunctions, fastenerFunctions, fuelFunctions, lashFunctions, powerFunctions, statisticsFunctions, threadFunctions, trendFunctions, wearFunctions)

func merged(families ...map[string]called) map[string]called {
	all := map[string]called{}
	for _, family := range families {
		maps.Copy(all, family)
	}
	return all
}

var adapterFunctions = map[string]called{
	"Delivered": {4, func(x []float64) (float64, error) { return calc.Delivered(x[0], x[1], x[2], x[3]) }},
	"Setting":   {4, func(x []float64) (float64, error) { return calc.Setting(x[0], x[1], x[2], x[3]) }},
}

var engineFunctions = map[string]called{
	"ClearanceVolume": {7, func(x []float64) (float64, error) {
		return calc.ClearanceVolume(x[0], x[1], x[2], x[3], x[4], x[5], x[6])
	}},
	"CompressionRatio": {2, func(x []float64) (float64, error) { return calc.CompressionRatio(x[0], x[1]) }},
	"SweptVolume":      {2, func(x []float64) (float64, error) { return calc.SweptVolume(x[0], x[1]) }},
}

var lashFunctions = map[string]called{
	"AdjusterTurn": {3, func(x []float64) (float64, error) { return calc.AdjusterTurn(x[0], x[1], x[2]) }},
	"DecidingLeaves": {5, func(x []float64) (float64, error) { // of two leaves: how thick what is picked is
		thick := 0.0
		for _, leaf := range calc.DecidingLeaves(x[3:], x[0], x[1], x[2]) {
			thick += leaf
		}
		return thick, nil
	}},
	"LashByTurn": {3, func(x []float64) (float64, error) { return calc.LashByTurn(x[0], x[1], x[2]) }},
	"LeavesWithin": {4, func(x []float64) (float64, error) { // of two leaves: how far apart those are that are picked
		goes, stops := calc.LeavesWithin(x[2:], x[0], x[1])
		return x[2+stops] - x[2+goes], nil
	}},
	"ShimSet": {5, func(x []float64) (float64, error) { // of one valve, with two sizes to be had: the one that it gets
		choices, err := calc.ShimSet([]calc.ShimmedValve{{Fitted: x[0], Lash: x[1], Low: x[2] - 0.05e-3, High: 1, Target: x[2]}}, nil, x[3:])
		if err != nil {
			return 0, err
		}
		return choices[0].Size, nil
	}},
	"ShimToFit": {3, func(x []float64) (float64, error) { return calc.ShimToFit(x[0], x[1], x[2]) }},
}

var trendFunctions = map[string]called{
	"Crossing": {2, func(x []float64) (float64, error) { // of a drift through the origin
		at, _, err := calc.Crossing(calc.Drift{Slope: x[0]}, x[1])
		return at, err
	}},
	"Trend": {4, func(x []float64) (float64, error) { // of two points: the slope
		d, err := calc.Trend([]calc.Point{{X: x[0], Y: x[1], U: 1}, {X: x[2], Y: x[3], U: 1}})
		return d.Slope, err
	}},
}

// units are those of the reference files, in SI. Inch, pound and standard gravity are exact by definition.
var units = map[string]float64{
	"": 1, "mm": 1e-3, "cm": 1e-2, "in": 0.0254, "cm3": 1e-6, "L": 1e-3, "in3": 0.0254 * 0.0254 * 0.0254, "deg": math.Pi / 180,
	"lbf·ft": 0.45359237 * 9.80665 * 0.3048, "lbf·in": 0.45359237 * 9.80665 * 0.0254,
	"m": 1, "m/s": 1, "m/s2": 1, "rpm": math.Pi / 30, "ft/min": 0.3048 / 60, "N": 1, "kN": 1e3, "lbf": 0.45359237 * 9.80665, "kgf": 9.80665, "N·m": 1, "MPa": 1e6,
	"mm2": 1e-6, "in2": 0.0254 * 0.0254, "psi": 0.45359237 * 9.80665 / (0.0254 * 0.0254), "bar": 1e5, "kPa": 1e3, "N/mm": 1e3, "lbf/in": 0.45359237 * 9.80665 / 0.0254,
	"K": 1, "Pa": 1, "hPa": 100, "kg/m3": 1, "hp": 0.45359237 * 9.80665 * 0.3048 * 550,
	"kgf/mm": 9.80665e3, "km/h": 1 / 3.6, "mph": 1609.344 / 3600, "rad/s": 1, "%": 0.01, "lb/h": 0.45359237 / 3600, "lb/hp·h": 0.45359237 / (0.45359237 * 9.80665 * 0.3048 * 550 * 3600),
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
	if f, known := functions[r.function]; !known || len(r.x) != f.arguments && f.arguments >= 0 {
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
		got, err := functions[r.function].call(r.x)
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
		if functions[name].call == nil {
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
