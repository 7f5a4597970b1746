package derive_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
)

// The pages of the numbers are their tests. Under `## Worked example` stand journals, fenced with four back-quotes as `journal`, each
// followed by the numbers of the page's family that it must give, fenced as `numbers`: all of them, so that nothing unlisted passes.
// The figures are typed from a published source or worked out by hand; `## Source` says which, and how far it was read.
//
// A journal is its files, each below a line `-- NAME --`; one without a build.toml gets an empty one. A number is `PATH = FIGURE ± U
// UNIT`, with `, WORDS` after it where it says what to do, or `PATH: REASON` where it can't be had. Figure and uncertainty (k = 2) must
// agree to half their last digit; without `±` there must be no uncertainty at all.

func TestEveryFamilyHasItsPage(t *testing.T) {
	for _, family := range derive.All {
		t.Run(family.Name, func(t *testing.T) {
			t.Parallel()
			p, err := readPage(derive.Page(family.Name))
			if err != nil {
				t.Fatalf("page of `%s`: %v", family.Name, err)
			}
			if p.name != family.Name {
				t.Errorf("the title names `%s`, want `%s`", p.name, family.Name)
			}
			for _, x := range p.examples {
				x.check(t, p)
			}
		})
	}
}

func TestEveryPageHasItsFamily(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		name, isPage := strings.CutSuffix(f.Name(), ".md")
		name = strings.ReplaceAll(name, "_", "-")
		if isPage && !slices.ContainsFunc(derive.All, func(x derive.Family) bool { return x.Name == name }) {
			t.Errorf("%s is the page of no family", f.Name())
		}
	}
}

// A figure typed wrong in its last digit must not pass.
func TestFiguresAreHeldToTheirLastDigit(t *testing.T) {
	for _, c := range []struct {
		got  float64
		want string
		same bool
	}{
		{1089.5043, "1089.5", true}, {1089.5043, "1089.4", false}, {1089.5043, "1089.504", true}, {1089.5043, "1089.505", false}, {-0.03, "-0.03", true}, {0.03, "-0.03", false},
		{8.068583, "8.07", true}, {8.068583, "8.06", false}, {0, "0", true}, {0.6, "0", false}, {math.NaN(), "0", false},
	} {
		if got := agrees(c.got, c.want); got != c.same {
			t.Errorf("%v agrees with %s: %v, want %v", c.got, c.want, got, c.same)
		}
	}
}

// page is the page of a family, taken apart.
type page struct {
	name, text string
	examples   []example
}

// example is a journal and the numbers that it must give.
type example struct {
	line    int // of the page, at which the journal begins
	files   fstest.MapFS
	numbers []string
}

var (
	titleLine  = regexp.MustCompile("^# `([a-z0-9-]+)`: \\S.*[^.]$")
	fileLine   = regexp.MustCompile(`^-- (\S+) --$`)
	figureLine = regexp.MustCompile(`^([a-z0-9.-]+) = (-?\d+(?:\.\d+)?)(?: ± (\d+(?:\.\d+)?))? ?([^,]*)(?:, (.+))?$`)
	reasonLine = regexp.MustCompile(`^([a-z0-9.-]+): (.+)$`)
)

// readPage takes a page apart. It refuses one that lacks a part, or has another than a number's page has.
func readPage(text string) (*page, error) {
	lines := strings.Split(text, "\n")
	m := titleLine.FindStringSubmatch(lines[0])
	if m == nil {
		return nil, fmt.Errorf("the first line is %q, want \"# `name`: one clause\" without a full stop", lines[0])
	}
	p := &page{name: m[1], text: text}
	sections := []string{}
	said := map[string]bool{} // the parts that have text
	for i := 1; i < len(lines); i++ {
		section := ""
		if len(sections) > 0 {
			section = sections[len(sections)-1]
		}
		switch line := lines[i]; {
		case strings.HasPrefix(line, "## "):
			sections = append(sections, strings.TrimPrefix(line, "## "))
		case line == "````journal" && section == "Worked example":
			x, last, err := readExample(lines, i)
			if err != nil {
				return nil, err
			}
			i, p.examples = last, append(p.examples, x)
		case strings.HasPrefix(line, "```"):
			return nil, fmt.Errorf("line %d: the fence %q is out of place", i+1, line)
		case line != "":
			said[section] = true
		}
	}
	parts := strings.Join(sections, ", ")
	if parts != "Worked example, Source" && parts != "Worked example, Source, Known gaps" {
		return nil, fmt.Errorf("the parts are: %s; want: Worked example, Source, and Known gaps where there are any", parts)
	}
	if !said[""] || !said["Source"] || len(p.examples) == 0 {
		return nil, fmt.Errorf("it has a reason: %v, a source: %v, %d examples; want all", said[""], said["Source"], len(p.examples))
	}
	return p, nil
}

// readExample reads the journal whose fence opens at a line, and the numbers after it. It returns the line that closes them.
func readExample(lines []string, open int) (x example, last int, err error) {
	x = example{line: open + 1, files: fstest.MapFS{"build.toml": {}}}
	name := ""
	i := open + 1
	for ; i < len(lines) && lines[i] != "````"; i++ {
		if m := fileLine.FindStringSubmatch(lines[i]); m != nil {
			name = m[1]
			x.files[name] = &fstest.MapFile{}
			continue
		}
		if name == "" {
			return x, 0, fmt.Errorf("line %d: the journal doesn't begin with `-- NAME --`", open+1)
		}
		x.files[name].Data = append(append(x.files[name].Data, lines[i]...), '\n')
	}
	for i++; i < len(lines) && lines[i] == ""; i++ {
	}
	if i >= len(lines) || lines[i] != "```numbers" {
		return x, 0, fmt.Errorf("line %d: no numbers follow the journal", open+1)
	}
	for i++; i < len(lines) && lines[i] != "```"; i++ {
		if !figureLine.MatchString(lines[i]) && !reasonLine.MatchString(lines[i]) {
			return x, 0, fmt.Errorf("line %d: %q is not a number as pages write it", i+1, lines[i])
		}
		x.numbers = append(x.numbers, lines[i])
	}
	if len(x.numbers) == 0 || i == len(lines) {
		return x, 0, fmt.Errorf("line %d: its numbers are none, or never end", open+1)
	}
	return x, i, nil
}

// check compiles the journal and compares the numbers of the page's family with those that are listed.
func (x example) check(t *testing.T, p *page) {
	t.Helper()
	result := compile(t, x.files)
	for _, f := range result.Findings {
		if slices.Contains([]string{"out-of-limits", "senseless-figures", "no-shim", "gain-not-shown", "claim-not-met"}, f.Rule) || strings.HasPrefix(f.Rule, "shim-") || f.Rule == "implausible-number" && f.Subject == "engine.cam-sprocket" { // what a number is for, and what its page shows
			continue
		}
		line, _, _, _ := f.At.Position()
		t.Errorf("line %d: the example has something wrong with it: %s:%d: %s: %s", x.line, f.At.File.Name, line, f.Rule, f.Message)
	}
	left := slices.Clone(x.numbers)
	for _, n := range result.Numbers {
		if n.Family.Name != p.name {
			continue
		}
		if !strings.Contains(p.text, n.Formula) {
			t.Errorf("the page doesn't show the formula of %s, `%s`", n.Path, n.Formula)
		}
		i := slices.IndexFunc(left, func(line string) bool {
			return strings.HasPrefix(line, n.Path+" = ") || strings.HasPrefix(line, n.Path+": ")
		})
		if i < 0 {
			t.Errorf("line %d: %s is not listed", x.line, printed(n))
			continue
		}
		if !matches(n, left[i]) {
			t.Errorf("line %d: got %s\nwant %s", x.line, printed(n), left[i])
		}
		left = slices.Delete(left, i, i+1)
	}
	for _, line := range left {
		t.Errorf("line %d: %s is listed and was not worked out", x.line, line)
	}
}

func compile(t *testing.T, files fstest.MapFS) *journal.Result {
	t.Helper()
	result, err := journal.Compile(files, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// matches reports whether a number is what a line lists.
func matches(n *derive.Number, line string) bool {
	if n.Reason != "" {
		return line == n.Path+": "+n.Reason
	}
	m := figureLine.FindStringSubmatch(line)
	if m == nil || m[1] != n.Path || m[4] != n.Unit.Symbol || m[5] != n.Words || !agrees(n.Unit.FromSI(n.Estimate.Value), m[2]) {
		return false
	}
	if m[3] == "" {
		return n.Estimate.Expanded() == 0
	}
	return agrees(n.Estimate.Expanded()/n.Unit.Factor, m[3])
}

// agrees reports whether a figure is the one typed, to half its last digit.
func agrees(got float64, typed string) bool {
	want, err := strconv.ParseFloat(typed, 64)
	_, decimals, _ := strings.Cut(typed, ".")
	half := math.Pow(10, -float64(len(decimals))) / 2
	return err == nil && math.Abs(got-want) <= half*(1+1e-9)
}

func printed(n *derive.Number) string {
	if n.Reason != "" {
		return n.Path + ": " + n.Reason
	}
	words := ""
	if n.Words != "" {
		words = ", " + n.Words
	}
	return fmt.Sprintf("%s = %.7g ± %.4g %s%s", n.Path, n.Unit.FromSI(n.Estimate.Value), n.Estimate.Expanded()/n.Unit.Factor, n.Unit.Symbol, words)
}

// The uncertainty that is carried through by the first-order rule is held against a second method: the formulas, typed anew, at
// inputs drawn at random (the method of JCGM 101, from its definition). The seed is fixed, so the test gives the same each time.
func TestUncertaintyAgreesWithDrawingAtRandom(t *testing.T) {
	result := compile(t, fstest.MapFS{
		"build.toml": {Data: []byte(`
[engine]
cylinders = ["left", "right"]
bore = "53.0 ± 0.1 mm"
stroke = "56.4 ± 0.2 mm"
chamber = "12.6 ± 0.2 cm3"
deck = "0.4 ± 0.1 mm"
gasket = { bore = "54.0 ± 0.2 mm", thickness = "0.80 ± 0.05 mm" }
dome = "1.2 ± 0.1 cm3"
rocker-ratio = { intake = "1.22", exhaust = "1.18" }
adjuster = { kind = "screw", pitch = "0.50 ± 0.01 mm", at = "cam" }
`)},
		"limits.toml":             {Data: []byte("[lash]\nintake = \"0.08 ± 0.02 mm\"\n")},
		"entries/2026-03-01-l.md": {Data: []byte("```toml\n[set]\nlash.intake = \"0.130 ± 0.006 mm\"\n```\n")},
	})
	r := rand.New(rand.NewPCG(68, 75))
	draw := func(mean, expanded float64) float64 { return mean + r.NormFloat64()*expanded/2 }
	disc := func(diameter, height float64) float64 { return math.Pi / 4 * diameter * diameter * height }
	for _, c := range []struct {
		path string
		draw func() float64 // in SI
	}{
		{"engine.displacement", func() float64 { return 2 * disc(draw(.053, .0001), draw(.0564, .0002)) }},
		{"engine.compression-ratio", func() float64 {
			bore := draw(.053, .0001)
			swept := disc(bore, draw(.0564, .0002))
			clear := draw(12.6e-6, .2e-6) + disc(bore, draw(.0004, .0001)) + disc(draw(.054, .0002), draw(.0008, .00005)) - draw(1.2e-6, .1e-6)
			return 1 + swept/clear
		}},
		{"adjust.intake.left", func() float64 {
			return 2 * math.Pi * (draw(.00013, .000006) - .00008) / draw(.0005, .00001) / 1.22
		}},
	} {
		i := slices.IndexFunc(result.Numbers, func(n *derive.Number) bool { return n.Path == c.path })
		if i < 0 {
			t.Errorf("%s was not worked out", c.path)
			continue
		}
		const draws = 100_000
		sum, squares := 0.0, 0.0
		for range draws {
			x := c.draw()
			sum, squares = sum+x, squares+x*x
		}
		mean := sum / draws
		std := math.Sqrt((squares/draws - mean*mean) * draws / (draws - 1))
		n := result.Numbers[i]
		if math.Abs(n.Estimate.Std()/std-1) > 0.02 {
			t.Errorf("%s: standard uncertainty %.5g carried, %.5g drawn", c.path, n.Estimate.Std(), std)
		}
		if math.Abs(n.Estimate.Value-mean) > 0.05*std {
			t.Errorf("%s: %.6g worked out, %.6g drawn", c.path, n.Estimate.Value, mean)
		}
	}
}
