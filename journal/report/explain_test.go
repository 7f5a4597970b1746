package report_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/report"
	"example.org/locknut/journal/rule"
)

// named lists what a manual holds, each with its kind.
func named(m report.Manual) map[string]bool {
	all := map[string]bool{}
	for _, p := range m.Rules {
		all["rule "+p.Name] = true
	}
	for _, p := range m.Numbers {
		all["number "+p.Name] = true
	}
	for _, k := range m.Keys {
		all["key "+k.File+" "+k.Name] = true
	}
	for _, p := range m.Paths {
		all["path "+p.Path] = true
	}
	for _, u := range m.Units {
		all["unit "+u.Symbol] = true
	}
	return all
}

func TestWhatANameFinds(t *testing.T) {
	everything := report.Everything()
	for _, c := range []struct {
		name string
		want []string // all of these
		only bool     // and nothing else
		near string
	}{
		{"out-of-limits", []string{"rule out-of-limits"}, true, ""},
		{"Out of limits", []string{"rule out-of-limits"}, true, ""},
		{"displacement", []string{"number displacement", "path engine.displacement", "path displacement.…"}, true, ""},
		{"meter", []string{"unit m", "key build.toml machine.meter", "key parts.toml meter", "key entry meter"}, true, ""},
		{"hours", []string{"unit h", "key entry hours"}, true, ""},
		{"range", []string{"key tools.toml range"}, true, ""},
		{"of", []string{"key limits.toml of", "key entry degreeing.of"}, true, ""},
		{"every", []string{"key limits.toml every", "key parts.toml every"}, true, ""},
		{"bore", []string{"key build.toml engine.bore", "key build.toml engine.gasket.bore", "path bore.CYL.…"}, true, ""},
		{"engine.bore", []string{"key build.toml engine.bore"}, true, ""},
		{"engine.cam_sprocket", []string{"key build.toml engine.cam-sprocket"}, true, ""},
		{"build.toml.engine.bore", []string{"key build.toml engine.bore"}, true, ""},
		{"lash.intake.left", []string{"path lash.(intake|exhaust).CYL.NAME"}, true, ""},
		{"lash.inlet", []string{"path lash.(intake|exhaust).CYL.NAME"}, true, ""},
		{"bore.left.top.x", []string{"path bore.CYL.…"}, true, ""},
		{"lbf·ft", []string{"unit lbf·ft", "unit ft·lbf"}, true, ""},
		{"thou", []string{"unit thou"}, true, ""},
		{"lash", []string{"path lash.(intake|exhaust).CYL.NAME", "path deviation.…", "number lash-deviation", "key build.toml engine.adjuster"}, false, ""},
		{"gasket", []string{"key build.toml engine.gasket", "key build.toml engine.gasket.bore"}, false, ""},
		{"torque", []string{"path torque.NAME", "unit N·m"}, false, ""},
		{"spring rate", []string{"unit N/mm"}, false, ""},
		{"tools.toml", []string{"key tools.toml leaves", "key tools.toml calibrate-every"}, false, ""},
		{"out-of-limit", nil, true, "out-of-limits"},
		{"enigne.bore", nil, true, "engine.bore"},
		{"troque", nil, true, "torque"},
		{"xyzzyplugh", nil, true, ""},
		{"no such thing at all", nil, true, ""},
	} {
		found, near := everything.Find(c.name)
		got := named(found)
		for _, want := range c.want {
			if !got[want] {
				t.Errorf("%q doesn't find %s among %v", c.name, want, got)
			}
		}
		if c.only && len(got) != len(c.want) {
			t.Errorf("%q finds %v, want only %v", c.name, got, c.want)
		}
		if near != c.near {
			t.Errorf("%q: near %q, want %q", c.name, near, c.near)
		}
	}
}

func TestAKindFindsAllOfIt(t *testing.T) {
	everything := report.Everything()
	for _, c := range []struct {
		name string
		want int
	}{{"rules", len(rule.All)}, {"numbers", len(derive.All)}, {"units", len(quantity.Units())}, {"keys", len(everything.Keys)}, {"path", len(everything.Paths)}} {
		found, _ := everything.Find(c.name)
		if got := len(named(found)); got > c.want || len(found.Rules)+len(found.Numbers)+len(found.Keys)+len(found.Paths)+len(found.Units) != c.want {
			t.Errorf("%q finds %d, want %d", c.name, got, c.want)
		}
	}
}

func TestEveryNameFindsItself(t *testing.T) {
	everything := report.Everything()
	for want := range named(everything) {
		kind, name, _ := strings.Cut(want, " ")
		if kind == "key" {
			name = strings.ReplaceAll(name, " ", ".")
		}
		if kind == "unit" && name == "" {
			continue // the plain number is called nothing
		}
		if found, _ := everything.Find(name); !named(found)[want] {
			t.Errorf("%q doesn't find %s", name, want)
		}
	}
}

func TestEverythingHasWords(t *testing.T) {
	everything := report.Everything()
	for _, k := range everything.Keys {
		if k.Doc == "" {
			t.Errorf("the key %s of %s has no words", k.Name, k.File)
		}
	}
	for _, p := range everything.Paths {
		if p.Doc == "" {
			t.Errorf("the path %s has no words", p.Path)
		}
	}
	for _, u := range everything.Units {
		if u.Name == "" || u.Source == "" {
			t.Errorf("the unit %q has no name or no source", u.Symbol)
		}
	}
}

func TestAPageOnATerminal(t *testing.T) {
	page := "# `out`: a value outside\n\nIt is **wrong** to run on, see [the limit](limit:lash) and [the web](https://example.org/).\nThe line goes on here and is set to the measure of the page, wherever it was broken in the file.\n\n" +
		"## Flagged\n\n```toml limits.toml\n[lash]\n# kept\n\nintake = \"0.08 mm\"\n```\n\n````journal\n-- build.toml --\n```toml\n````\n```findings\n```\n\n- one `item with blanks` that is long enough to be set on a second line of its own, moved in\n2. two\n\n| a | b |\n|---|---|\n"
	rule := report.NewPage("out", "# `out`: a value outside", func(string) string { return page })
	rule.Firm = true
	m := report.Manual{Rules: []report.Page{rule}, Whole: true}
	var out bytes.Buffer
	if err := m.Text(&out, report.Style{}); err != nil {
		t.Fatal(err)
	}
	want := `out: a value outside

It is wrong to run on, see the limit and the web <https://example.org/>. The line goes
on here and is set to the measure of the page, wherever it was broken in the file.

Flagged

  toml limits.toml
    [lash]
    # kept

    intake = "0.08 mm"

  with the files
    -- build.toml --
    ` + "```toml" + `
  there is found
    nothing

- one ` + "`item with blanks`" + ` that is long enough to be set on a second line of its own,
  moved in
2. two

  | a | b |
  |---|---|

This finding can't be accepted: mend the text.
`
	if got := out.String(); got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

func TestTheManualAsJSON(t *testing.T) {
	var out bytes.Buffer
	if err := report.Everything().JSON(&out); err != nil {
		t.Fatal(err)
	}
	var read struct {
		Schema  int
		Rules   []struct{ Name, Page string }
		Numbers []struct{ Name, Page string }
		Keys    []struct{ File, Name, Kind, Doc string }
		Paths   []struct{ Path string }
		Units   []struct {
			Symbol, Dimension string
			Factor            float64
		}
	}
	if err := json.Unmarshal(out.Bytes(), &read); err != nil {
		t.Fatal(err)
	}
	if read.Schema != 1 || len(read.Rules) != len(rule.All) || len(read.Numbers) != len(derive.All) || len(read.Units) != len(quantity.Units()) || len(read.Keys) == 0 || len(read.Paths) == 0 {
		t.Errorf("schema %d, %d rules, %d numbers, %d keys, %d paths, %d units", read.Schema, len(read.Rules), len(read.Numbers), len(read.Keys), len(read.Paths), len(read.Units))
	}
	for _, u := range read.Units {
		if u.Symbol == "thou" && u.Factor != 0.0000254 { // 1 in = 25.4 mm exactly (NIST SP 811 B.8, read in a reproduction)
			t.Errorf("a thou is %g m", u.Factor)
		}
	}
	if found, _ := report.Everything().Find("no such thing"); true {
		out.Reset()
		if err := found.JSON(&out); err != nil {
			t.Fatal(err)
		}
		if want := "{\"schema\":1,\n\"rules\":[],\n\"numbers\":[],\n\"keys\":[],\n\"paths\":[],\n\"units\":[]}\n"; out.String() != want {
			t.Errorf("got %q, want %q", out.String(), want)
		}
	}
}

// What no number is worked out from says nothing of numbers, though some are from what stands beside it.
func TestWhatGoesIntoNoNumber(t *testing.T) {
	for path, goes := range map[string]bool{"power.peak": true, "power.lambda": false, "fuelling.lambda": false, "fuelling.seen": false, "oil.temp": false} {
		found, _ := report.Everything().Find(path)
		var out bytes.Buffer
		if err := found.Text(&out, report.Style{}); err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(out.String(), "goes into"); got != goes || !strings.HasPrefix(out.String(), path+":") {
			t.Errorf("%s goes into a number: %v, want %v:\n%s", path, got, goes, out.String())
		}
	}
}
