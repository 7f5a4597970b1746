package model_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/markdown"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// example reads the build that the project shows.
func example(t *testing.T) fstest.MapFS {
	t.Helper()
	root := filepath.Join("..", "..", "example-build")
	files := fstest.MapFS{}
	err := filepath.WalkDir(root, func(name string, d os.DirEntry, err error) error {
		if d != nil && d.IsDir() && d.Name() == "site" {
			return filepath.SkipDir // from a compile by hand
		}
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(name)
		below, _ := filepath.Rel(root, name)
		files[filepath.ToSlash(below)] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func compiled(t *testing.T, files fstest.MapFS, asOf string) *journal.Result {
	t.Helper()
	r, err := journal.Compile(files, journal.Options{AsOf: asOf, SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestAsOf(t *testing.T) {
	const two = `
-- 2026-01-01.md --
[found]
lash.intake = "0.13 mm"
-- 2026-01-02-a.md --
[found]
lash.intake = "0.12 mm"
-- 2026-01-02-b.md --
[found]
lash.intake = "0.11 mm"
-- plan.md --
`
	first, second, third := "2026-01-01/found/lash.intake: no limit", "2026-01-02-a/found/lash.intake: no limit", "2026-01-02-b/found/lash.intake: no limit"
	tell(t, []story{
		{name: "before everything", files: two, asOf: "2025-12-31"},
		{name: "between", files: two, asOf: "2026-01-01", values: first + ", current"},
		{name: "an entry counts itself, and not the other of its day", files: two, asOf: "2026-01-02-a", values: first + ", settled\n" + second + ", current"},
		{name: "a day counts all its entries", files: two, asOf: "2026-01-02", values: first + ", settled\n" + second + ", settled\n" + third + ", current"},
		{name: "the last entry", files: two, asOf: "2026-01-02-b", values: first + ", settled\n" + second + ", settled\n" + third + ", current"},
		{name: "a broken entry later withholds nothing now", files: two + "-- 2026-02-01.md --\nexpects = [\n-- 2025-12-30.md --\nexpects = [\"chain.slack\"]\n", asOf: "2025-12-30",
			findings: "any"},
	})
	r := compile(t, two+"-- 2026-02-01.md --\nexpects = [\n-- 2025-12-30.md --\nexpects = [\"chain.slack\"]\n", "2026-01-01")
	if got := findings(r); !strings.Contains(got, "warning not-read-again/2025-12-30/chain.slack\n") {
		t.Errorf("a broken entry that doesn't count yet hides what was not read: findings\n%s", got)
	}
	for _, text := range []string{"plan", "2026-13-01", "nothing", "2026-01-01T25"} {
		if _, err := journal.Compile(folder(two), journal.Options{AsOf: text}); err == nil {
			t.Errorf("as of %q is taken", text)
		}
	}
}

// Every value of a journal has an identity of its own: HOLDER/origin/path.
func TestIdentitiesOfValues(t *testing.T) {
	shape := regexp.MustCompile(`^(build|[0-9a-z/.-]+)/(sheet|found|set|degreeing|(fuelling|logs)(~[0-9]+)?|part:[a-z0-9-]+|pulls-(before|after)(:[a-z0-9.-]+)?(~[0-9]+)?)/[a-z0-9-]+(\.[a-z0-9-]+)*$`)
	seen := map[string]bool{}
	for _, v := range compiled(t, example(t), "").Journal.Values {
		if !shape.MatchString(v.ID()) {
			t.Errorf("the identity %q is not HOLDER/origin/path", v.ID())
		}
		if seen[v.ID()] {
			t.Errorf("two values are %q", v.ID())
		}
		seen[v.ID()] = true
		if want := v.Holder() + "/"; !strings.HasPrefix(v.ID(), want) || !strings.HasSuffix(v.ID(), "/"+v.Path) {
			t.Errorf("%q: want it to begin with %q and to end with the path %q", v.ID(), want, v.Path)
		}
	}
	if len(seen) < 50 {
		t.Errorf("the example has %d values: too few to prove anything", len(seen))
	}
}

// Where the text names one value twice, which is found, both still have an identity.
func TestIdentitiesOfValuesOfOneName(t *testing.T) {
	tell(t, []story{
		{
			name: "a setting that is also written out",
			files: `
-- tools.toml --
[w]
for = ["torque"]
length = "100 mm"
-- 2026-01-01.md --
with = ["w"]
[set]
torque.nut = { value = "10 N·m", adapter = "10 mm" }
setting.nut = "10 N·m"
`,
			values: `
				2026-01-01/set/setting.nut: no limit, settled
				2026-01-01/set/torque.nut: no limit, current
				2026-01-01/set/setting.nut~2: no limit, current
			`,
		},
		{
			name: "a grid that comes to one path twice",
			files: `
-- 2026-01-01.md --
[found]
wear = """
mm   b    a.b
x.a  1    2
x    3    4
"""
`,
			values: `
				2026-01-01/found/wear.x.a.b: no limit, settled
				2026-01-01/found/wear.x.a.a.b: no limit, current
				2026-01-01/found/wear.x.b: no limit, current
				2026-01-01/found/wear.x.a.b~2: no limit, current
			`,
			findings: "error defined-twice/2026-01-01/wear.x.a.b",
		},
	})
}

// The same files give the same journal, in whatever order they are read, and as often as they are linked.
func TestLinkingIsTheSameInAnyOrder(t *testing.T) {
	files := example(t)
	files["entries/2026-05-16-b.md"] = &fstest.MapFile{Data: []byte("```toml\n[[readings]]\ndata = \"data/springs.csv\"\n[set]\nlash.intake = \"9 kg\"\n```\n")}
	files["entries/2026-05-16-B.md"] = &fstest.MapFile{Data: []byte("```toml\nfitted = [\"cam-std\"]\n[found]\nlash.intake = \"0.30 mm\"\n```\n")}
	s := decoded(t, files)
	want := linked(s)
	if !strings.Contains(want, "same-address") || !strings.Contains(want, "wrong-dimension") {
		t.Fatalf("the journal has no findings to compare:\n%s", want)
	}
	shuffle := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		shuffle.Shuffle(len(s.Entries), func(i, j int) { s.Entries[i], s.Entries[j] = s.Entries[j], s.Entries[i] })
		differ(t, "journals", "the example, its entries shuffled", linked(s), want)
	}
}

func linked(s *model.Sources) string {
	j, found := model.Link(s, model.AsOf{})
	var bodies []*markdown.Body
	for _, e := range s.Entries {
		bodies = append(bodies, e.ReadBody(markdown.Options{SkipHTML: true}))
	}
	j.LinkBodies(s, bodies)
	source.Number(found)
	return account(j) + findings(&journal.Result{Findings: found})
}

// decoded decodes the files of a journal one by one.
func decoded(t *testing.T, files fstest.MapFS) *model.Sources {
	t.Helper()
	s := &model.Sources{Files: map[string]bool{}, Data: map[string]*parse.CSV{}}
	for name, f := range files {
		file := source.NewFile(name, string(f.Data))
		s.Files[name] = true
		switch {
		case name == "build.toml":
			s.Build, _ = parse.DecodeBuild(file, markdown.Options{SkipHTML: true})
		case name == "limits.toml":
			limits, _ := parse.DecodeLimits(file)
			s.Limits = append(s.Limits, limits)
		case name == "parts.toml":
			parts, _ := parse.DecodeParts(file)
			s.Parts = append(s.Parts, parts)
		case name == "tools.toml":
			tools, _ := parse.DecodeTools(file)
			s.Tools = append(s.Tools, tools)
		case strings.HasPrefix(name, "data/"):
			s.Data[name], _ = parse.DecodeCSV(file)
		case strings.HasPrefix(name, "entries/"):
			if e, _ := parse.DecodeEntry(file); e != nil {
				s.Entries = append(s.Entries, e)
			}
		}
	}
	return s
}

// A file that can't be read is one finding; nothing is concluded from what it would have said.
func TestABrokenFileWithholdsWhatRestsOnAbsence(t *testing.T) {
	const whole = `
-- build.toml --
fitted = ["std"]
[units]
power = "hp"
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
-- parts.toml --
[std]
[cam]
needs = ["springs"]
then = ["lash"]
[springs]
-- tools.toml --
[feeler]
for = ["lash"]
-- 2026-01-01.md --
fitted = ["cam", "springs"]
with = ["feeler"]
-- 2026-01-02.md --
~~~toml
[set]
lash.intake = "0.08 mm"
lash.exhaust = "0.12 mm"
~~~
With the [cam](part:cam), [in limits](limit:lash.intake), [read](value:2026-01-02/set/lash.intake), by [feeler](tool:feeler), [before](entry:2026-01-01).
`
	if got := findings(compile(t, whole, "")); got != "note no-limit/2026-01-02/set/lash.exhaust\n" {
		t.Fatalf("the whole journal has findings of its own:\n%s", got)
	}
	for _, broken := range []struct{ header, rule string }{
		{"-- limits.toml --\n", "error bad-toml/limits.toml/limits.toml\n"},
		{"-- parts.toml --\n", "error bad-toml/parts.toml/parts.toml\n"},
		{"-- tools.toml --\n", "error bad-toml/tools.toml/tools.toml\n"},
		{"-- 2026-01-01.md --\n", "error bad-toml/2026-01-01/entries/2026-01-01.md\n"},
		{"-- 2026-01-02.md --\n~~~toml\n", "error bad-toml/2026-01-02/entries/2026-01-02.md\n"},
	} {
		text := strings.Replace(whole, broken.header, broken.header+"= 1\n", 1)
		got := strings.Replace(findings(compile(t, text, "")), "note no-limit/2026-01-02/set/lash.exhaust\n", "", 1)
		differ(t, "findings", text, got, broken.rule)
	}
}

// A value that can't be read is one finding: what it would have met, settled or been compared with is left alone.
func TestAnUnreadableValueCausesNothing(t *testing.T) {
	const head = `
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
-- parts.toml --
[cam]
then = ["lash.intake"]
-- 2026-01-01.md --
[found]
lash.intake = "0.13 mm"
[set]
lash.intake = "0.08 mm"
`
	tell(t, []story{
		{
			name:     "a request is met",
			files:    head + "-- 2026-01-02.md --\nfitted = [\"cam\"]\n[set]\nlash.intake = \"0.08 zz\"\n",
			values:   "2026-01-01/found/lash.intake: out above by lash.intake, +0.05 mm off, settled\n2026-01-01/set/lash.intake: in by lash.intake, +0 mm off, settled, stale since cam",
			findings: "error out-of-limits/2026-01-01/found/lash.intake, settled\nerror unknown-unit/2026-01-02/lash.intake",
		},
		{
			name:     "what came before stays settled",
			files:    strings.Replace(head, `"0.08 mm"`, `"0.08 zz"`, 1),
			values:   "2026-01-01/found/lash.intake: out above by lash.intake, +0.05 mm off, current, settled",
			findings: "error out-of-limits/2026-01-01/found/lash.intake, settled\nerror unknown-unit/2026-01-01/lash.intake",
		},
	})
}

// Whichever file of the example is broken, nothing is found but in it: no reading, part, tool or link elsewhere is blamed.
func TestBreakingAFileIsFoundThereAlone(t *testing.T) {
	files := example(t)
	before := map[string]bool{}
	for _, f := range compiled(t, files, "").Findings {
		before[f.ID()] = true
	}
	for name, file := range files {
		if strings.HasPrefix(name, "data/") {
			continue
		}
		whole := file.Data
		file.Data = []byte("= 1\n" + string(whole))
		if fence := "```toml\n"; strings.HasPrefix(string(whole), fence) {
			file.Data = []byte(strings.Replace(string(whole), fence, fence+"= 1\n", 1))
		}
		there := 0
		for _, f := range compiled(t, files, "").Findings {
			switch {
			case f.State != source.Open || before[f.ID()]:
			case f.At.File.Name == name:
				there++
			default:
				t.Errorf("with %s broken, %s is found: %s", name, f.ID(), f.Message)
			}
		}
		if there != 1 {
			t.Errorf("with %s broken, %d findings stand in it, want 1", name, there)
		}
		file.Data = whole
	}
}
