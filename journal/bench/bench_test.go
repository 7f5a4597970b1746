package bench_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/bench"
	"example.org/locknut/journal/model"
)

var sheets = map[string]string{
	"build.toml": `fitted = ["cam-std"]
[engine]
cylinders = ["left", "right"]
rocker-ratio = { intake = 1.25 }
adjuster = { kind = "screw", pitch = "0.5 mm", at = "cam" }
`,
	"limits.toml": `[lash]
intake = "0.08 ± 0.02 mm"
exhaust = "0.12 ± 0.02 mm"
[timing]
marks = "aligned"
[torque.head-bolt]
nominal = "20 N·m then 35 N·m"
tolerance = "2 N·m"
drive = "12 mm hex"
order = "2 1 3"
[torque.stub]
nominal = "4 N·m"
tolerance = "1 N·m"
drive = "12 mm hex"
`,
	"parts.toml": `[cam-std]
slot = "camshaft"
[cam-hill]
slot = "camshaft"
then = ["lash", "timing.marks"]
[cam-hill.limits.lash]
intake = "0.10 ± 0.02 mm"
[cam-hill.limits.timing]
marks = "one tooth late"
`,
	"tools.toml": `[feeler]
for = ["lash"]
leaves = ["0.05 mm", "0.08 mm", "0.10 mm", "0.13 mm"]
[large]
for = ["torque"]
range = "20..100 N·m"
[middle]
for = ["torque"]
range = "10..40 N·m"
`,
	"entries/2026-01-01-look.md": "```toml\n[found]\nlash.intake = \"0.08 mm\"\n```\n",
	"entries/2026-02-01-cam.md":  "```toml\nfitted = [\"cam-hill\"]\n[found]\nlash.intake.left = \"0.09 mm\"\n[set]\nlash.intake = \"0.10 mm\"\ntorque.head-bolt = \"35 N·m\"\ntorque.stub = \"4 N·m\"\n```\n",
	"entries/2026-03-01-back.md": "```toml\nfitted = [\"cam-std\"]\n[set]\nlash = \"0.10 mm\"\n```\n",
	"entries/plan.md":            "```toml\nfitted = [\"cam-hill\"]\nexpects = [\"bore\"]\n```\n",
}

func compile(t *testing.T) *model.Journal {
	t.Helper()
	files := fstest.MapFS{}
	for name, text := range sheets {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	result, err := journal.Compile(files, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	return result.Journal
}

// all publishes everything.
var all = bench.View{Value: func(*model.Value) bool { return true }, Limit: func(*model.Limit) bool { return true }, Path: func(string) bool { return true }}

// tell writes a job as the tests want it.
func tell(job *bench.Job) string {
	text := job.Path
	if job.Limit != nil {
		text += " " + job.Limit.BoundsText() + strings.Join(job.Limit.Expect, "/")
	}
	if job.Before != nil {
		text += " before " + job.Before.BoundsText() + strings.Join(job.Before.Expect, "/")
	}
	for _, spot := range job.Spots {
		text += "; " + spot.Name
		if spot.Last != nil {
			text += "=" + spot.Last.Written.Text
		}
	}
	return text
}

func told(jobs []*bench.Job) []string {
	var list []string
	for _, job := range jobs {
		list = append(list, tell(job))
	}
	return list
}

// A card is of the moment of its entry: its limits, what it found by the limits before, and what was read before it.
func TestCardsAreOfTheirMoment(t *testing.T) {
	j := compile(t)
	for _, c := range []struct {
		entry                      string
		readings, fasteners, marks []string
	}{
		{"2026-01-01-look", []string{"lash.intake 0.06 to 0.10 mm; left; right"}, nil, nil},
		{"2026-02-01-cam", []string{"lash.intake 0.08 to 0.12 mm before 0.06 to 0.10 mm; left=0.08 mm; right=0.08 mm", "lash.exhaust 0.10 to 0.14 mm; left; right"},
			[]string{"torque.head-bolt 33 to 37 N·m; ", "torque.stub 3 to 5 N·m; "}, []string{"timing.marks one tooth late before aligned; "}},
		{"2026-03-01-back", []string{"lash.exhaust 0.10 to 0.14 mm; left; right", "lash.intake 0.06 to 0.10 mm before 0.08 to 0.12 mm; left=0.10 mm; right=0.10 mm"}, nil, nil},
		{"plan", []string{"bore.left; ", "bore.right; ", "lash.exhaust 0.10 to 0.14 mm; left=0.10 mm; right=0.10 mm", "lash.intake 0.08 to 0.12 mm before 0.06 to 0.10 mm; left=0.10 mm; right=0.10 mm"},
			nil, []string{"timing.marks one tooth late before aligned; "}},
	} {
		card := bench.Of(j, j.Entry(c.entry), all)
		if got := [3][]string{told(card.Readings), told(card.Fasteners), told(card.Marks)}; fmt.Sprint(got) != fmt.Sprint([3][]string{c.readings, c.fasteners, c.marks}) {
			t.Errorf("%s:\n%q\nwant\n%q", c.entry, got, [3][]string{c.readings, c.fasteners, c.marks})
		}
	}
}

// What is not published is not what was read last.
func TestLastIsPublished(t *testing.T) {
	j := compile(t)
	view := all
	view.Value = func(v *model.Value) bool { return v.Entry == nil || v.Entry.Path == "2026-01-01-look" }
	if got := told(bench.Of(j, j.Entry("plan"), view).Readings); !slices.Contains(got, "lash.intake 0.08 to 0.12 mm before 0.06 to 0.10 mm; left=0.08 mm; right=0.08 mm") {
		t.Errorf("%q", got)
	}
	view = all
	view.Path = func(path string) bool { return path != "lash.intake.left" }
	view.Limit = func(l *model.Limit) bool { return l.Path != "lash.exhaust" }
	for _, text := range told(bench.Of(j, j.Entry("plan"), view).Readings) {
		if strings.Contains(text, "left=") || strings.Contains(text, "exhaust") {
			t.Errorf("it tells %q", text)
		}
	}
}

func TestToolsLeavesAndTurns(t *testing.T) {
	j := compile(t)
	card := bench.Of(j, j.Entry("2026-02-01-cam"), all)
	intake, exhaust, bolt, stub := card.Readings[0], card.Readings[1], card.Fasteners[0], card.Fasteners[1]
	if intake.Goes.Text != "0.08 mm" || intake.Stops.Text != "0.10 mm" || exhaust.Goes.Text != "0.10 mm" || exhaust.Stops.Text != "0.13 mm" {
		t.Errorf("leaves %v %v, %v %v", intake.Goes, intake.Stops, exhaust.Goes, exhaust.Stops)
	}
	// At the cam's end a quarter of 0.5 mm counts 1.25 times; the exhaust's ratio is not written.
	if math.Abs(intake.Turn.Quarter-0.00015625) > 1e-12 || exhaust.Turn == nil || exhaust.Turn.Quarter != 0 {
		t.Errorf("turns %+v, %+v", intake.Turn, exhaust.Turn)
	}
	if len(bolt.Tools) != 2 || bolt.Short || bolt.Picked || !slices.Equal(bolt.Order, []string{"2", "1", "3"}) {
		t.Errorf("bolts: %+v", bolt)
	}
	if !stub.Short || stub.Picked || len(stub.Order) != 0 {
		t.Errorf("4 N·m is out of reach of both: %+v", stub)
	}
	if !slices.Equal(card.Drives, []string{"12 mm hex"}) {
		t.Errorf("drives %q", card.Drives)
	}
	var names []string
	for _, tool := range card.Tools() {
		names = append(names, tool.Name)
	}
	if !slices.Equal(names, []string{"large", "middle", "feeler"}) {
		t.Errorf("tools %q", names)
	}
}

// What a limit for every cylinder is for stands side by side, each by the name of its cylinder.
func TestARingOfEveryCylinderIsOneJob(t *testing.T) {
	result, err := journal.Compile(fstest.MapFS{
		"build.toml":      {Data: []byte("[engine]\ncylinders = [\"left\", \"right\"]\n")},
		"limits.toml":     {Data: []byte("[gap.ring]\ntop = \"0.25 ± 0.05 mm\"\n")},
		"entries/plan.md": {Data: []byte("```toml\nexpects = [\"gap.ring.top\"]\n```\n")},
	}, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	card := bench.Of(result.Journal, result.Journal.Entry("plan"), all)
	if got := told(card.Readings); fmt.Sprint(got) != "[gap.ring.top 0.20 to 0.30 mm; left; right]" {
		t.Errorf("%q", got)
	}
}
