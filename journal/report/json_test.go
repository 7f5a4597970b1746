package report_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/report"
	"example.org/locknut/journal/source"
)

func TestFindingsAsJSON(t *testing.T) {
	limits := source.NewFile("limits.toml", "[lash]\nintake = \"0.08 mm\"\n")
	entry := source.NewFile("entries/a.md", "µ <b> = 0,08\n")
	findings := []source.Finding{
		{
			Rule: "decimal-comma", Severity: source.Error, At: at(t, entry, "0,08"), Message: "`0,08` & more", Do: "write `0.08`",
			Fixes:   []source.Fix{source.Replace("write `0.08`", at(t, entry, "0,08"), "0.08"), {Title: "add a unit", Edits: []source.Edit{{File: entry, Start: 13, End: 13, Text: " mm"}}}},
			Notes:   []source.Remark{{At: at(t, limits, "intake"), Message: "limit"}, {At: limits.Whole(), Message: "the file"}},
			Subject: "lash.intake", Origin: "found", Entry: "a",
		},
		{Rule: "empty-file", Severity: source.Note, At: entry.Whole(), Message: "m", State: source.Accepted},
		{Rule: "worn", Severity: source.Warning, At: limits.At(1, 5), Message: "m", State: source.Settled},
	}
	var out bytes.Buffer
	if err := report.JSON(&out, &journal.Result{Journal: &model.Journal{}, Findings: findings}); err != nil {
		t.Fatal(err)
	}
	want := `{"schema":1,"findings":[
{"id":"decimal-comma/a/found/lash.intake","rule":"decimal-comma","severity":"error","state":"open","path":"lash.intake","entry":"a","file":"entries/a.md","line":1,"column":9,"end_line":1,"end_column":13,"message":"` + "`0,08` & more" + `","do":"write ` + "`0.08`" + `","fixes":[{"title":"write ` + "`0.08`" + `","edits":[{"file":"entries/a.md","line":1,"column":9,"end_line":1,"end_column":13,"text":"0.08"}]},{"title":"add a unit","edits":[{"file":"entries/a.md","line":1,"column":13,"end_line":1,"end_column":13,"text":" mm"}]}],"notes":[{"file":"limits.toml","line":2,"column":1,"message":"limit"},{"file":"limits.toml","line":null,"column":null,"message":"the file"}]},
{"id":"empty-file/entries/a.md","rule":"empty-file","severity":"note","state":"accepted","path":null,"entry":null,"file":"entries/a.md","line":null,"column":null,"end_line":null,"end_column":null,"message":"m","do":null,"fixes":[],"notes":[]},
{"id":"worn/limits.toml","rule":"worn","severity":"warning","state":"settled","path":null,"entry":null,"file":"limits.toml","line":1,"column":2,"end_line":1,"end_column":6,"message":"m","do":null,"fixes":[],"notes":[]}
],"counts":{"error":1,"warning":0,"note":0,"settled":1,"accepted":1}}
`
	if got := out.String(); got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	if !json.Valid(out.Bytes()) {
		t.Error("it is not JSON by RFC 8259, as Go's own package reads it")
	}
}

func TestNoFindingsAreAnEmptyList(t *testing.T) {
	var out bytes.Buffer
	if err := report.JSON(&out, &journal.Result{Journal: &model.Journal{}}); err != nil {
		t.Fatal(err)
	}
	if want := `{"schema":1,"findings":[],"counts":{"error":0,"warning":0,"note":0,"settled":0,"accepted":0}}` + "\n"; out.String() != want {
		t.Errorf("got %q, want %q", out.String(), want)
	}
}
