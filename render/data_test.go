package render

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"example.org/locknut/journal/report"
)

// The files of values, one after the other, hold what the public export does, value by value.
func TestTheSiteCarriesItsExport(t *testing.T) {
	files := map[string]string{"build.toml": "[site]\nhide = [\"private\", \"tools\"]\n", "tools.toml": "[gauge]\nfor = [\"w\"]\n",
		"entries/2026-03-02-secret.md": "```toml\ntags = [\"private\"]\n[set]\nsecret = \"1 mm\"\n```\n"}
	var readings strings.Builder
	for i := range perFile + 10 {
		fmt.Fprintf(&readings, "w%d,%d.5 mm,gauge\n", i, i)
	}
	files["data/w.csv"] = "path,set,with\n" + readings.String()
	files["entries/2026-03-01-w.md"] = "```toml\n[[readings]]\ndata = \"data/w.csv\"\n```\n"
	result := compiled(t, inMemory(files))
	var m Memory
	if _, err := Site(result, &m); err != nil {
		t.Fatal(err)
	}
	var whole bytes.Buffer
	if err := report.ExportJSON(&whole, result, report.ExportOptions{Public: true}); err != nil {
		t.Fatal(err)
	}
	type piece struct {
		Schema int
		Next   string
		Values []json.RawMessage
	}
	read := func(text []byte) (p piece) {
		t.Helper()
		if err := json.Unmarshal(text, &p); err != nil || p.Schema != report.Schema {
			t.Fatalf("%v: %.200s", err, text)
		}
		return p
	}
	want := read(whole.Bytes())
	var got []json.RawMessage
	pieces := 0
	for name := dataName; name != ""; pieces++ {
		p := read(m.Page(name))
		got, name = append(got, p.Values...), p.Next
	}
	if pieces != 2 || len(got) != len(want.Values) || len(got) != perFile+10 {
		t.Fatalf("%d pieces with %d values, want 2 with %d", pieces, len(got), len(want.Values))
	}
	for i := range got {
		if !bytes.Equal(got[i], want.Values[i]) {
			t.Fatalf("%s, want %s", got[i], want.Values[i])
		}
	}
	for _, secret := range []string{"secret", "gauge"} {
		if strings.Contains(whole.String(), secret) {
			t.Errorf("it tells %q", secret)
		}
	}
}
