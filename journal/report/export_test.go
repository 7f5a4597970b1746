package report_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
)

// folder makes a journal of files.
func folder(files map[string]string) fstest.MapFS {
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

var bench = map[string]string{
	"build.toml": `title = "Bench"
[site]
hide = ["tools", "private"]
[engine]
bore = "53.0 mm"
stroke = "56.4 mm"
[drive]
final = "41/15"
`,
	"limits.toml": `[lash]
intake = "0.08 ± 0.02 mm"
`,
	"parts.toml": `[cam]
[cam.brings.cam.intake]
opens = "14° BTDC"
[cam.limits.lash]
exhaust = "0.12 ± 0.02 mm"
`,
	"tools.toml": `[feeler]
for = ["lash"]
uncertainty = "0.01 mm"
`,
	"entries/2026-03-01-a.md": "```toml\nmeter = 18240\nfitted = [\"cam\"]\nwith = [\"feeler\"]\n[found]\nlash.intake = \"0.13 mm\"\nlash.exhaust = \"0.10..0.13 mm\"\ntorque.nut = [\"9 N·m\", \"11 N·m\"]\n" +
		"[set]\nlash.intake = \"0.09 mm\"\nplay.rod = \"..0.4 mm\"\noil.level = \"-5 °C, no joke\"\noil.colour = \"=1+1\"\n```\n",
	"entries/2026-03-02T-b.md": "```toml\ndate = 2026-03-02T19:30\nmeter = 18300\ntags = [\"private\"]\n[set]\nengine.stroke = \"56.5 mm\"\nplay.axle = \"0.2 mm\"\n```\n",
	"entries/2026-03-03-c.md":  "```toml\n[set]\nplay.wheel = \"1 mm\"\n```\n",
	"entries/plan.md":          "```toml\n[set]\nplay.plan = \"1 mm\"\n```\n",
}

type exportedValue struct {
	ID          string   `json:"id"`
	Path        string   `json:"path"`
	Origin      string   `json:"origin"`
	Entry       *string  `json:"entry"`
	Date        *string  `json:"date"`
	Meter       *float64 `json:"meter"`
	Written     *string  `json:"written"`
	Value       *float64 `json:"value"`
	Unit        *string  `json:"unit"`
	SI          *float64 `json:"si"`
	SIUnit      *string  `json:"si_unit"`
	Low         *float64 `json:"low"`
	High        *float64 `json:"high"`
	Uncertainty *float64 `json:"uncertainty"`
	Nominal     *float64 `json:"nominal"`
	Deviation   *float64 `json:"deviation"`
	Limit       *string  `json:"limit"`
	Verdict     *string  `json:"verdict"`
	Current     *bool    `json:"current"`
	File        *string  `json:"file"`
	Line        *int     `json:"line"`
	Column      *int     `json:"column"`
	Method      *string  `json:"method"`
	Inputs      []string `json:"inputs"`
}

func exportOf(t *testing.T, files map[string]string, opts report.ExportOptions) map[string]exportedValue {
	t.Helper()
	result, err := journal.Compile(folder(files), journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := report.ExportJSON(&out, result, opts); err != nil {
		t.Fatal(err)
	}
	var read struct {
		Schema int
		Values []exportedValue
	}
	d := json.NewDecoder(&out)
	d.DisallowUnknownFields()
	if err := d.Decode(&read); err != nil {
		t.Fatal(err)
	}
	byID := map[string]exportedValue{}
	for _, v := range read.Values {
		if _, twice := byID[v.ID]; twice {
			t.Errorf("the id %s stands twice", v.ID)
		}
		byID[v.ID] = v
	}
	return byID
}

// show returns a value as words, for comparing.
func show[T any](v *T) string {
	if v == nil {
		return "null"
	}
	text, _ := json.Marshal(*v)
	return string(text)
}

func TestEveryFieldOfAValue(t *testing.T) {
	values := exportOf(t, bench, report.ExportOptions{})
	const a = "2026-03-01-a"
	for _, c := range []struct {
		id   string
		want string // value unit si si_unit | low high | uncertainty | nominal deviation | limit verdict | current | method
	}{
		{"build/sheet/engine.bore", `53 "mm" 0.053 "m" | null null | null | null null | null "no limit" | true | null`},
		{"build/sheet/drive.final", `2.73333333333 "" 2.73333333333 "1" | null null | null | null null | null "no limit" | true | null`},
		{a + "/found/lash.intake", `0.13 "mm" 0.00013 "m" | null null | 0.01 | 0.08 0.05 | "lash.intake" "out" | false | "feeler"`},
		{a + "/set/lash.intake", `0.09 "mm" 0.00009 "m" | null null | 0.01 | 0.08 0.01 | "lash.intake" "in" | true | "feeler"`},
		{a + "/set/play.rod", `null "mm" null "m" | null 0.4 | null | null null | null "no limit" | true | null`},
		{a + "/part:cam/cam.intake.opens", `14 "° BTDC" -0.244346095279 "rad" | null null | null | null null | null "no limit" | true | null`},
		{a + "/set/oil.colour", `null null null null | null null | null | null null | null "no limit" | true | null`},
		{"plan/set/play.plan", `1 "mm" 0.001 "m" | null null | null | null null | null null | false | null`},
	} {
		v, there := values[c.id]
		if !there {
			t.Errorf("there is no %s among %v", c.id, slices.Sorted(maps.Keys(values)))
			continue
		}
		got := strings.Join([]string{show(v.Value), show(v.Unit), show(v.SI), show(v.SIUnit), "|", show(v.Low), show(v.High), "|", show(v.Uncertainty), "|", show(v.Nominal), show(v.Deviation), "|",
			show(v.Limit), show(v.Verdict), "|", show(v.Current), "|", show(v.Method)}, " ")
		if got != c.want {
			t.Errorf("%s\n got %s\nwant %s", c.id, got, c.want)
		}
	}
	v := values[a+"/found/lash.intake"]
	if got, want := strings.Join([]string{show(&v.Path), show(&v.Origin), show(v.Entry), show(v.Date), show(v.Meter), show(v.Written), show(v.File), show(v.Line), show(v.Column)}, " "),
		`"lash.intake" "found" "2026-03-01-a" "2026-03-01" 18240 "0.13 mm" "entries/2026-03-01-a.md" 6 15`; got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
	if b := values["2026-03-02T-b/set/play.axle"]; show(b.Date) != `"2026-03-02T19:30"` {
		t.Errorf("the time of day is missing: %s", show(b.Date))
	}
}

// The standard uncertainty of the mean of 9 and 11 is s/√n = √2/√2 = 1 (GUM 4.2.3); a bracket's is its width over √12 (GUM 4.3.7: a
// rectangular distribution); expanded is twice that. All recomputed from the definitions.
func TestRepeatsAndBrackets(t *testing.T) {
	values := exportOf(t, bench, report.ExportOptions{})
	nut := values["2026-03-01-a/found/torque.nut"]
	if show(nut.Value) != "10" || show(nut.Written) != `"9 N·m; 11 N·m"` || nut.Uncertainty == nil || math.Abs(*nut.Uncertainty-2) > 1e-9 {
		t.Errorf("the mean of 9 and 11 N·m: value %s, written %s, uncertainty %s", show(nut.Value), show(nut.Written), show(nut.Uncertainty))
	}
	exhaust := values["2026-03-01-a/found/lash.exhaust"]
	if show(exhaust.Low) != "0.1" || show(exhaust.High) != "0.13" || show(exhaust.Value) != "0.115" {
		t.Errorf("0.10..0.13 mm: low %s, high %s, value %s", show(exhaust.Low), show(exhaust.High), show(exhaust.Value))
	}
}

// The swept volume of one cylinder is π/4 · 53² · 56.5 = 124 649.364 mm³ (recomputed from the definition).
func TestWorkedOutNumbersAreThereOnce(t *testing.T) {
	values := exportOf(t, bench, report.ExportOptions{})
	v, there := values["build/worked/engine.displacement"]
	if !there {
		t.Fatal("no displacement")
	}
	if v.Value == nil || math.Abs(*v.Value-124.649364) > 1e-6 || show(v.Unit) != `"cm³"` || v.Origin != "worked" || show(v.Method) != `"displacement"` {
		t.Errorf("got %s %s, origin %s, method %s", show(v.Value), show(v.Unit), v.Origin, show(v.Method))
	}
	if want := []string{"build/sheet/engine.bore", "2026-03-02T-b/set/engine.stroke"}; !slices.Equal(v.Inputs, want) {
		t.Errorf("inputs: got %v, want %v", v.Inputs, want)
	}
	for _, in := range v.Inputs {
		if _, there := values[in]; !there {
			t.Errorf("the input %s is not among the values", in)
		}
	}
	for id := range values {
		if strings.HasPrefix(id, "build/worked/engine.compression-ratio") {
			t.Error("a compression ratio without a chamber volume")
		}
	}
}

func TestPublicLeavesOutWhatIsHidden(t *testing.T) {
	values := exportOf(t, bench, report.ExportOptions{Public: true})
	for _, gone := range []string{"2026-03-02T-b/set/play.axle", "2026-03-02T-b/set/engine.stroke"} {
		if _, there := values[gone]; there {
			t.Errorf("%s comes from an entry whose tag is hidden", gone)
		}
	}
	if _, there := values["build/worked/engine.displacement"]; there {
		t.Error("a number worked out from a hidden reading tells it")
	}
	for id, v := range values {
		if v.Method != nil && v.Origin != "worked" {
			t.Errorf("%s names the tool %s, and tools are hidden", id, *v.Method)
		}
	}
	if got := show(values["2026-03-03-c/set/play.wheel"].Meter); got != "18240" {
		t.Errorf("the meter is %s: that of the hidden entry tells when it was", got)
	}
	if _, there := values["2026-03-01-a/set/lash.intake"]; !there {
		t.Error("what is not hidden is missing")
	}
}

// CSV is read back by Go's own reader of RFC 4180. Which first characters make a spreadsheet take a cell for a formula is common practice,
// no source: = + - @, tab and carriage return.
func TestCSVHoldsTheSameAndNoFormula(t *testing.T) {
	result, err := journal.Compile(folder(bench), journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := report.ExportCSV(&out, result, report.ExportOptions{}); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&out).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	heads := "id,path,origin,entry,date,meter,written,value,unit,si,si_unit,low,high,uncertainty,nominal,deviation,limit,verdict,current,file,line,column,method,inputs"
	if got := strings.Join(rows[0], ","); got != heads {
		t.Errorf("heads\n got %s\nwant %s", got, heads)
	}
	if values := exportOf(t, bench, report.ExportOptions{}); len(rows)-1 != len(values) {
		t.Errorf("%d rows for %d values", len(rows)-1, len(values))
	}
	written := map[string]string{}
	for _, row := range rows[1:] {
		written[row[1]] = row[6]
		if row[1] == "cam.intake.opens" && row[9] != "-0.244346095279" {
			t.Errorf("a negative number is no formula: got %q", row[9])
		}
	}
	if got := written["oil.colour"]; got != "'=1+1" {
		t.Errorf("a text that begins with = : got %q", got)
	}
}
