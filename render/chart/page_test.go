package chart

import (
	"cmp"
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

// example is one drawing of a page.
type example struct {
	kind, name, text string
	size             Size
	svg              []byte
}

func TestEveryKindHasItsPage(t *testing.T) {
	if !slices.IsSortedFunc(All, func(a, b Kind) int { return cmp.Compare(a.Name, b.Name) }) {
		t.Errorf("the kinds are not sorted: %v", All)
	}
	used := map[string]bool{}
	for _, kind := range All {
		sizes := map[Size]bool{}
		for _, x := range examples(t, kind) {
			sizes[x.size] = true
			golden := filepath.Join("testdata", kind.Name+"."+x.name+".svg")
			used[golden] = true
			if os.Getenv("UPDATE") != "" {
				if err := os.WriteFile(golden, append(x.svg, '\n'), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Errorf("%s: no record of `%s`: %v", kind.Name, x.name, err)
				continue
			}
			if got := string(x.svg) + "\n"; got != string(want) {
				t.Errorf("%s: `%s` is drawn otherwise than recorded\n%s", kind.Name, x.name, firstDifference(got, string(want)))
			}
		}
		for _, size := range kind.Sizes {
			if !sizes[size] {
				t.Errorf("the page of %s has no example of the size %s", kind.Name, size.class())
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
		if !slices.ContainsFunc(All, func(k Kind) bool { return k.Name == name }) {
			t.Errorf("%s is the page of no kind", f)
		}
	}
	if Page("none-such") != "" {
		t.Error("a page that isn't there is found")
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
func examples(t *testing.T, kind Kind) []example {
	t.Helper()
	lines := strings.Split(Page(kind.Name), "\n")
	if m := titleLine.FindStringSubmatch(lines[0]); m == nil || m[1] != kind.Name {
		t.Fatalf("the page of %s begins with %q, want \"# `name`: one clause\" without a full stop", kind.Name, lines[0])
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
		all = append(all, example{kind: kind.Name, name: name, text: strings.Join(lines[from:i], "\n")})
	}
	if got := strings.Join(sections, ", "); got != "Reading it, Examples, Known gaps" {
		t.Errorf("the page of %s has the parts: %s; want: Reading it, Examples, Known gaps", kind.Name, got)
	}
	if len(all) == 0 {
		t.Errorf("the page of %s has no example", kind.Name)
	}
	for i := range all {
		all[i].draw(t)
	}
	return all
}

// draw draws the example as its page asks.
func (x *example) draw(t *testing.T) {
	t.Helper()
	draw := map[string]func(*testing.T, *example, sheet) []byte{"limit-strip": drawStrip, "history": drawHistory, "gain-steps": drawGains, "power-curves": drawCurves}[x.kind]
	if draw == nil {
		t.Fatalf("nothing reads the examples of %s", x.kind)
	}
	var s sheet
	meta, err := toml.Decode(x.text, &s)
	if err != nil {
		t.Fatalf("%s: `%s`: %v", x.kind, x.name, err)
	}
	if left := meta.Undecoded(); len(left) > 0 {
		t.Fatalf("%s: `%s`: nothing reads %v", x.kind, x.name, left)
	}
	size, ok := map[string]Size{"cell": Cell, "text": Text, "wide": Wide, "narrow": Narrow}[s.Size]
	if !ok {
		t.Fatalf("%s: `%s`: no size `%s`", x.kind, x.name, s.Size)
	}
	x.size = size
	if x.svg = draw(t, x, s); len(x.svg) == 0 {
		t.Fatalf("%s: `%s` draws nothing", x.kind, x.name)
	}
}

// sheet holds the keys of all kinds of example; figures are written as a journal writes them.
type sheet struct {
	Size, About, Unit, Meter, Found, Reading, Verdict string
	sheetLimit
	Until                time.Time
	Limit                []sheetLimit
	Fitted               []sheetFitted
	Baseline, Now, Total string
	Reason               string
	Stage                []sheetStage
	Speed, Power, Torque string
	Session              []sheetSession
	Read                 []sheetReading
}

type sheetLimit struct {
	From                     time.Time
	Low, High, Nominal, Step string
	ServiceLow               string `toml:"service-low"`
	ServiceHigh              string `toml:"service-high"`
}

type sheetReading struct {
	On                      time.Time
	At, Found, Set, Verdict string
	Stale                   bool
}

type sheetFitted struct {
	On       time.Time
	At, Part string
}

type sheetStage struct{ Parts, Gain, Reason string }

type sheetSession struct {
	Label, Role string
	PeakPower   string `toml:"peak-power"`
	PeakTorque  string `toml:"peak-torque"`
	Pulls       []string
}
