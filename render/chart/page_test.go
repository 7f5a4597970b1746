package chart

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/BurntSushi/toml"
)

// The pages of the charts are their tests. Under `## Examples` stand inputs, fenced as `toml`, each below a heading that names it; what a page draws from
// them is recorded beside it in testdata/KIND.NAME.svg. UPDATE=1 records it anew. What a drawing must be in any case is asserted in
// drawing_test.go, for these examples too.

var (
	titleLine   = regexp.MustCompile("^# `([a-z-]+)`: \\S.*[^.]$")
	exampleHead = regexp.MustCompile(`^### ([a-z-]+)$`)
)

// chartKind is one kind of chart: the name of its page, the sizes that it is drawn in, and what draws an example of it.
type chartKind struct {
	name  string
	sizes []Size
	draw  func(*testing.T, *example, sheet) []byte
}

var kinds = []chartKind{
	{"compression-bars", []Size{Wide, Narrow}, drawCompression},
	{"gain-curves", []Size{Wide, Narrow}, drawGainCurves},
	{"gain-steps", []Size{Wide, Narrow}, drawGains},
	{"gear-speeds", []Size{Wide, Narrow}, drawGears},
	{"history", []Size{Wide, Narrow}, drawHistory},
	{"lift-curve", []Size{Wide, Narrow}, drawLifts},
	{"limit-strip", []Size{Cell, Wide, Narrow}, drawStrip},
	{"log-course", []Size{Wide, Narrow}, drawCourse},
	{"mixture-squares", []Size{Wide, Narrow}, drawSquares},
	{"power-curves", []Size{Wide, Narrow}, drawCurves},
	{"valve-timing", []Size{Wide, Narrow}, drawTiming},
}

// example is one drawing of a page.
type example struct {
	kind       chartKind
	name, text string
	size       Size
	svg        []byte
}

func TestEveryKindHasItsPage(t *testing.T) {
	used := map[string]bool{}
	for _, kind := range kinds {
		sizes := map[Size]bool{}
		for _, x := range examples(t, kind) {
			sizes[x.size] = true
			golden := filepath.Join("testdata", kind.name+"."+x.name+".svg")
			used[golden] = true
			if os.Getenv("UPDATE") != "" {
				if err := os.WriteFile(golden, append(x.svg, '\n'), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Errorf("%s: no record of `%s`: %v", kind.name, x.name, err)
				continue
			}
			if got := string(x.svg) + "\n"; got != string(want) {
				t.Errorf("%s: `%s` is drawn otherwise than recorded\n%s", kind.name, x.name, firstDifference(got, string(want)))
			}
		}
		for _, size := range kind.sizes {
			if !sizes[size] {
				t.Errorf("the page of %s has no example of the size %s", kind.name, size.class())
			}
		}
	}
	recorded, _ := filepath.Glob("testdata/*.svg")
	for _, name := range recorded {
		if !used[name] {
			t.Errorf("%s is the record of no example", name)
		}
	}
}

func TestEveryPageHasItsKind(t *testing.T) {
	files, _ := filepath.Glob("*.md")
	for _, f := range files {
		name := strings.ReplaceAll(strings.TrimSuffix(f, ".md"), "_", "-")
		if !slices.ContainsFunc(kinds, func(k chartKind) bool { return k.name == name }) {
			t.Errorf("%s is the page of no kind", f)
		}
	}
}

func firstDifference(got, want string) string {
	i := 0
	for i < len(got) && i < len(want) && got[i] == want[i] {
		i++
	}
	from := max(0, i-60)
	return fmt.Sprintf("at byte %d\n got …%s…\nwant …%s…", i, got[from:min(len(got), i+60)], want[from:min(len(want), i+60)])
}

// examples reads the page of a kind and draws its examples.
func examples(t *testing.T, kind chartKind) []example {
	t.Helper()
	page, err := os.ReadFile(strings.ReplaceAll(kind.name, "-", "_") + ".md")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(page), "\n")
	if m := titleLine.FindStringSubmatch(lines[0]); m == nil || m[1] != kind.name {
		t.Fatalf("the page of %s begins with %q, want \"# `name`: one clause\" without a full stop", kind.name, lines[0])
	}
	var sections []string
	var all []example
	name := ""
	for i := 1; i < len(lines); i++ {
		if section, ok := strings.CutPrefix(lines[i], "## "); ok {
			sections = append(sections, section)
		}
		if m := exampleHead.FindStringSubmatch(lines[i]); m != nil {
			name = m[1]
		}
		if lines[i] != "```toml" {
			continue
		}
		from := i + 1
		for i = from; i < len(lines) && lines[i] != "```"; i++ {
		}
		all = append(all, example{kind: kind, name: name, text: strings.Join(lines[from:i], "\n")})
	}
	if got := strings.Join(sections, ", "); got != "Reading it, Examples, Known gaps" {
		t.Errorf("the page of %s has the parts: %s; want: Reading it, Examples, Known gaps", kind.name, got)
	}
	if len(all) == 0 {
		t.Errorf("the page of %s has no example", kind.name)
	}
	for i := range all {
		all[i].draw(t)
	}
	return all
}

// draw draws the example as its page asks.
func (x *example) draw(t *testing.T) {
	t.Helper()
	var s sheet
	meta, err := toml.Decode(x.text, &s)
	if err != nil {
		t.Fatalf("%s: `%s`: %v", x.kind.name, x.name, err)
	}
	if left := meta.Undecoded(); len(left) > 0 {
		t.Fatalf("%s: `%s`: nothing reads %v", x.kind.name, x.name, left)
	}
	size, ok := map[string]Size{"cell": Cell, "wide": Wide, "narrow": Narrow}[s.Size]
	if !ok {
		t.Fatalf("%s: `%s`: no size `%s`", x.kind.name, x.name, s.Size)
	}
	x.size = size
	if x.svg = x.kind.draw(t, x, s); len(x.svg) == 0 {
		t.Fatalf("%s: `%s` draws nothing", x.kind.name, x.name)
	}
}

// sheet holds the keys of all kinds of example; figures are written as a journal writes them.
type sheet struct {
	Size, About, Unit, Found, Reading, Verdict string
	sheetLimit
	Limit                []sheetLimit
	Fitted               []sheetFitted
	Baseline, Now, Total string
	Reason               string
	Stage                []sheetStage
	Speed, Power, Torque string
	Session              []sheetSession
	Wanted               []sheetWanted
	Earlier              int
	Read                 []sheetReading

	Lowest, Rule string
	Cylinder     []sheetCylinder

	Road, Redline string
	Gear          []sheetGear

	Cycle             string
	Lift              string
	CardLift          string `toml:"card-lift"`
	Overlap, Blowdown string
	Opening           []sheetOpening
	Before            string

	Speeds    []string
	Row       []sheetSquares
	Time      string
	Stretches string
	End, At   float64
}

// sheetSquares is a row of squares: "lean under load 0.922 of 0.87 in 2.8 s".
type sheetSquares struct {
	Throttle string
	Squares  []string
}

type sheetCylinder struct{ Name, Reading, Verdict, Reason string }

type sheetGear struct {
	Name, Drop string
	AtRedline  string `toml:"at-redline"`
}

// sheetOpening is one side of an engine: now or on its card, and of a lift curve what was read.
type sheetOpening struct {
	Of, State, Opens, Closes, Centre, Duration, Peak, At, Points string
}

type sheetLimit struct {
	From                     time.Time
	Low, High, Nominal, Step string
	ServiceLow               string `toml:"service-low"`
	ServiceHigh              string `toml:"service-high"`
}

type sheetReading struct {
	On                  time.Time
	Found, Set, Verdict string
	Stale               bool
}

type sheetFitted struct {
	On   time.Time
	Part string
}

type sheetStage struct {
	Parts, Gain, Reason, Curve string
	All                        bool
}

type sheetWanted struct{ From, To, Lambda, Tolerance float64 }

type sheetSession struct {
	Label, Role string
	PeakPower   string `toml:"peak-power"`
	PeakTorque  string `toml:"peak-torque"`
	Mean        string
	MeanTorque  string `toml:"mean-torque"`
	MeanLambda  string `toml:"mean-lambda"`
}
