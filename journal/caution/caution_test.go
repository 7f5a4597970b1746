package caution_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/caution"
	"example.org/locknut/journal/model"
)

// entry compiles a journal with one entry, and the parts that a test moves.
func entry(t *testing.T, head string) *model.Entry {
	t.Helper()
	result, err := journal.Compile(fstest.MapFS{
		"build.toml":   {Data: []byte("")},
		"parts.toml":   {Data: []byte("[pipe]\nslot = \"exhaust\"\n[jets]\nslot = \"main-jets\"\n[springs]\nslot = \"valve-springs\"\n[shoes]\nslot = \"rear-brake\"\n[seat]\nslot = \"seat\"\n")},
		"entries/a.md": {Data: []byte("```toml\n" + head + "\n```\n\nWords.\n")},
	}, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	return result.Journal.Entries[0]
}

func names(set caution.Set) []string {
	var names []string
	for c := range set.Each {
		names = append(names, c.Name)
	}
	return names
}

func TestWorkIsToldApart(t *testing.T) {
	for _, c := range []struct {
		head  string
		paths []string
		want  []string
	}{
		{"", nil, nil},
		{`fitted = ["seat"]`, nil, nil},
		{"", []string{"lash.intake.left"}, []string{"starts-by-itself"}},
		{"", []string{"leak.left"}, []string{"starts-by-itself", "compressed-air", "hot-parts"}},
		{"", []string{"torque.head-bolt"}, []string{"tightening"}},
		{"", []string{"torque.axle-nut"}, []string{"stands", "tightening", "first-ride"}},
		{"", []string{"jet.main"}, []string{"fuel", "compressed-air", "emission-and-noise-law"}},
		{`fitted = ["pipe"]`, nil, []string{"hot-parts", "emission-and-noise-law"}},
		{`removed = ["jets"]`, nil, []string{"fuel", "emission-and-noise-law"}},
		{`fitted = ["springs"]`, nil, []string{"starts-by-itself", "springs"}},
		{`fitted = ["shoes"]`, nil, []string{"stands", "brakes", "first-ride"}},
		{`pulls = [{ peak = "20 hp" }]`, nil, []string{"exhaust-gas", "dyno", "turning-parts", "hot-parts"}},
		{`fuelling = [{ data = "data/log.csv" }]`, nil, []string{"exhaust-gas"}},
		{`engine-temp = "80 °C"`, nil, []string{"hot-parts"}},
		{`engine-temp = "20 °C"`, nil, nil},
		{"", []string{"chainsaw.bar", "campsite"}, nil}, // a word that only begins alike
	} {
		if got := names(caution.Of(entry(t, c.head), c.paths)); !slices.Equal(got, c.want) {
			t.Errorf("%s %v: %v, want %v", c.head, c.paths, got, c.want)
		}
	}
}

// The slot of a part tells the work by whole words; one that only begins alike, or whose other words make another thing of it, tells none.
func TestSlotsAreToldApart(t *testing.T) {
	for slot, want := range map[string][]string{
		"tap":           {"fuel"},
		"fuel-taps":     {"fuel"},
		"tappets":       {"starts-by-itself"},
		"tank":          {"fuel"},
		"oil-tank":      nil,
		"tank-pad":      nil,
		"header-tank":   nil,
		"jets":          {"fuel", "emission-and-noise-law"},
		"oil-jets":      nil,
		"jetboil":       nil,
		"carbs":         {"fuel", "emission-and-noise-law"},
		"carburettors":  {"fuel", "emission-and-noise-law"},
		"carbon-brush":  nil,
		"injector":      {"fuel", "emission-and-noise-law"},
		"pipe":          {"hot-parts", "emission-and-noise-law"},
		"exhaust-pipes": {"hot-parts", "emission-and-noise-law"},
		"oil-pipe":      {"hot-parts"},
		"fuel-pipe":     {"fuel"},
		"brake-pipe":    {"stands", "brakes", "first-ride"},
		"exhaust-valve": {"starts-by-itself", "springs"},
		"air-filter":    {"emission-and-noise-law"},
		"oil-filter":    nil,
		"fuel-filter":   {"fuel"},

		"valve-springs":         {"starts-by-itself", "springs"},
		"springs":               {"starts-by-itself", "springs"},
		"fork-springs":          {"stands", "springs", "first-ride"},
		"clutch-springs":        {"springs"},
		"exhaust-valve-springs": {"starts-by-itself", "springs"},
		"springer":              nil,
		"tyre-valve":            {"stands", "first-ride"},
		"float-valve":           nil,
		"valve-cover":           {"starts-by-itself"},
		"camshaft":              {"starts-by-itself", "turning-parts", "first-ride", "emission-and-noise-law"},
		"intake-cam":            {"starts-by-itself", "turning-parts", "first-ride", "emission-and-noise-law"},
		"cam-chain":             {"starts-by-itself", "turning-parts", "first-ride"},
		"cam-cover":             {"starts-by-itself", "turning-parts", "first-ride"},
		"camera-mount":          nil,
		"brake-cam":             {"stands", "brakes", "first-ride"},

		"chain":          {"stands", "turning-parts", "first-ride"},
		"rear-sprocket":  {"stands", "turning-parts", "first-ride"},
		"crank-sprocket": {"turning-parts", "first-ride"},
		"chainsaw":       nil,
		"wheel-bearings": {"stands", "first-ride"},
		"wheelbarrow":    nil,
		"clutch-fork":    {"springs"},
		"rear-shoes":     {"stands", "brakes", "first-ride"},
		"front-pads":     {"stands", "brakes", "first-ride"},
		"seat-pad":       nil,
		"padlock":        nil,
		"brake-light":    nil,
		"pistons":        {"springs", "first-ride"},
		"head-gaskets":   {"first-ride"},
		"head-bolts":     nil,
		"gasket-head":    nil,
		"cylinder-head":  {"first-ride"},
		"maps":           {"emission-and-noise-law"},
		"map-holder":     nil,
		"maple-trim":     nil,
		"axles":          {"stands"},
		"shock":          {"stands", "springs"},
		"shock-absorber": {"stands", "springs"},
		"headers":        {"hot-parts", "emission-and-noise-law"},
	} {
		result, err := journal.Compile(fstest.MapFS{
			"build.toml":   {Data: []byte("")},
			"parts.toml":   {Data: []byte("[it]\nslot = \"" + slot + "\"\n")},
			"entries/a.md": {Data: []byte("```toml\ndate = 2026-03-01\nfitted = [\"it\"]\n```\n")},
		}, journal.Options{SkipHTML: true})
		if err != nil {
			t.Fatal(err)
		}
		if got := names(caution.Of(result.Journal.Entries[0], nil)); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", slot, got, want)
		}
	}
}

// Every caution says who says so, and none gives the advice of old manuals about solvents.
func TestCautionsAreWhole(t *testing.T) {
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, c := range caution.All {
		if !kebab.MatchString(c.Name) || seen[c.Name] || c.Title == "" || !strings.HasSuffix(c.Text, ".") || c.Source == "" {
			t.Errorf("%+v", c)
		}
		seen[c.Name] = true
		for _, solvent := range []string{"solvent", "chlor", "thinner", "benz", "petrol bath", "wash it in"} {
			if strings.Contains(strings.ToLower(c.Text), solvent) {
				t.Errorf("%s advises about %q", c.Name, solvent)
			}
		}
	}
}

// The only figure of pressure is that of the rule that is named beside it: 30 psi is 207 kPa (29 CFR 1910.242(b); the pound and the inch by
// definition).
func TestPressureOfCompressedAir(t *testing.T) {
	kPa := 30 * 0.45359237 * 9.80665 / (0.0254 * 0.0254) / 1000
	if kPa < 206.5 || kPa >= 207.5 {
		t.Fatalf("30 psi are %v kPa", kPa)
	}
	for _, c := range caution.All {
		if c.Name == "compressed-air" && (!strings.Contains(c.Text, "30 psi (207 kPa)") || !strings.Contains(c.Source, "1910.242(b)")) {
			t.Errorf("%+v", c)
		}
	}
}
