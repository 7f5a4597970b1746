package report_test

import (
	"bytes"
	"strings"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/report"
	"example.org/locknut/journal/source"
)

// at returns the place of the only occurrence of a text in a file.
func at(t *testing.T, f *source.File, text string) source.Range {
	t.Helper()
	if n := strings.Count(f.Text, text); n != 1 {
		t.Fatalf("%q stands %d times in the file", text, n)
	}
	start := strings.Index(f.Text, text)
	return f.At(start, start+len(text))
}

func textOf(t *testing.T, opts report.TextOptions, withheld []string, findings ...source.Finding) string {
	t.Helper()
	var out bytes.Buffer
	result := &journal.Result{Journal: &model.Journal{Withheld: withheld}, Findings: findings}
	if err := report.Text(&out, result, opts); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// Where the caret and the tildes stand, cell by cell. Columns count characters from 1, a tab is one: the form `file:line:column: severity:
// message` is that of the GNU coding standards, "Formatting Error Messages" (from memory). Which characters take two cells of a terminal
// and which none is Unicode's UAX #11 and its general categories (from memory).
func TestThePlaceIsUnderlined(t *testing.T) {
	for _, c := range []struct {
		name, text, place string
		want              []string // place, line, underline
	}{
		{"a value", "lash = \"0.13 mm\"\n", `"0.13 mm"`, []string{
			"e.md:1:8:",
			`  lash = "0.13 mm"`,
			`         ^~~~~~~~~`}},
		{"the second line", "one\ntwo = 2\n", "2", []string{
			"e.md:2:7:",
			"  two = 2",
			"        ^"}},
		{"after a micro sign, which is two bytes and one cell", "µ = \"3 µm\"\n", `"3 µm"`, []string{
			"e.md:1:5:",
			"  µ = \"3 µm\"",
			"      ^~~~~~"}},
		{"after tabs, which stay tabs", "\tlash\t= 3\n", "3", []string{
			"e.md:1:9:",
			"  \tlash\t= 3",
			"  \t    \t  ^"}},
		{"a tab inside the place", "lash = 3\tmm\n", "3\tmm", []string{
			"e.md:1:8:",
			"  lash = 3\tmm",
			"         ^\t~~"}},
		{"a line that ends in CR LF", "a = 1\r\nb = 22\r\n", "22", []string{
			"e.md:2:5:",
			"  b = 22",
			"      ^~"}},
		{"a file that begins with a byte order mark", "\uFEFFa = 1\n", "1", []string{
			"e.md:1:5:",
			"  a = 1",
			"      ^"}},
		{"several lines: underlined on the first, to its end", "bore = \"\"\"\nmm 1\n2 3\"\"\"\n", "\"\"\"\nmm 1\n2 3\"\"\"", []string{
			"e.md:1:8:",
			`  bore = """`,
			"         ^~~"}},
		{"several lines that end in CR LF", "bore = \"\"\"\r\nmm\"\"\"\r\n", "\"\"\"\r\nmm\"\"\"", []string{
			"e.md:1:8:",
			`  bore = """`,
			"         ^~~"}},
		{"wide characters take two cells", "気筒 = 1\n", "1", []string{
			"e.md:1:6:",
			"  気筒 = 1",
			"         ^"}},
		{"a wide place", "a 気筒 b\n", "気筒", []string{
			"e.md:1:3:",
			"  a 気筒 b",
			"    ^~~~"}},
		{"a combining accent takes none", "e\u0301a = 1\n", "1", []string{
			"e.md:1:7:",
			"  e\u0301a = 1",
			"       ^"}},
		{"an escape character can't reach the terminal", "a = \x1b[2J1\n", "1", []string{
			"e.md:1:9:",
			"  a = �[2J1",
			"          ^"}},
		{"nor a mark that turns the writing round", "a = \u202e9\n", "9", []string{
			"e.md:1:6:",
			"  a = �9",
			"       ^"}},
		{"a line end alone: the caret stands behind the line", "a = 1\nb\n", "\nb", []string{
			"e.md:1:6:",
			"  a = 1",
			"       ^"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := source.NewFile("e.md", c.text)
			got := textOf(t, report.TextOptions{}, nil, source.Finding{Rule: "rule", Severity: source.Error, At: at(t, f, c.place), Message: "message"})
			lines := strings.Split(got, "\n")
			want := append([]string{c.want[0] + " error: rule: message"}, c.want[1:]...)
			for i, w := range want {
				if lines[i] != w {
					t.Errorf("in %q\n got %q\nwant %q", c.text, lines[i], w)
				}
			}
		})
	}
}

func TestALongLineIsCutRoundThePlace(t *testing.T) {
	f := source.NewFile("e.md", strings.Repeat("x", 100_000)+"HERE"+strings.Repeat("y", 100_000))
	lines := strings.Split(textOf(t, report.TextOptions{}, nil, source.Finding{Rule: "rule", Severity: source.Note, At: at(t, f, "HERE"), Message: "m"}), "\n")
	if want := "e.md:1:100001: note: rule: m"; lines[0] != want {
		t.Errorf("got %q, want %q", lines[0], want)
	}
	if want := "  …" + strings.Repeat("x", 40) + "HERE" + strings.Repeat("y", 116) + "…"; lines[1] != want {
		t.Errorf("got  %q\nwant %q", lines[1], want)
	}
	if want := strings.Repeat(" ", 43) + "^~~~"; lines[2] != want {
		t.Errorf("got  %q\nwant %q", lines[2], want)
	}
}

func TestAFindingWithAllThatBelongsToIt(t *testing.T) {
	limits := source.NewFile("limits.toml", "[lash]\nintake = \"0.08 ± 0.02 mm\"   # the label, not the book\ncolour = \"#1\" # x\n")
	entry := source.NewFile("entries/2026-03-01.md", "```toml\n[set]\nlash.intake = \"0.13 mm\"\n```\n")
	got := textOf(t, report.TextOptions{Folder: "../curlew/"}, nil,
		source.Finding{
			Rule: "out-of-limits", Severity: source.Error, At: at(t, entry, `"0.13 mm"`), Message: "too wide", Do: "close the gap",
			Notes: []source.Remark{
				{At: at(t, limits, "0.08 ± 0.02 mm"), Message: "limit"},
				{At: at(t, limits, `"#1"`), Message: "limit"},
				{At: at(t, limits, "lash"), Message: "the first one"},
				{At: limits.Whole(), Message: "limit"},
			},
		},
		source.Finding{Rule: "empty-file", Severity: source.Warning, At: entry.Whole(), Message: "a finding about a whole\nfile"})
	want := `../curlew/entries/2026-03-01.md:3:15: error: out-of-limits: too wide
  lash.intake = "0.13 mm"
                ^~~~~~~~~
  limit: ../curlew/limits.toml:2:11: ` + "`intake = \"0.08 ± 0.02 mm\"`" + `
  limit: ../curlew/limits.toml:3:10: ` + "`colour = \"#1\"`" + `
  note: ../curlew/limits.toml:1:2: the first one
  limit: ../curlew/limits.toml
  do: close the gap

../curlew/entries/2026-03-01.md: warning: empty-file: a finding about a whole file

1 error, 1 warning open
` + "`locknut explain NAME` says more, by the name that stands after error, warning or note\n"
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

// A builder may mend by the findings alone: what is meant is shown wherever the advice leaves it out.
func TestTheMeantTextIsShown(t *testing.T) {
	f := source.NewFile("e.md", "a = 480 lb-in\n")
	place := at(t, f, "480 lb-in")
	for _, c := range []struct {
		name, do string
		fixes    []source.Fix
		want     string // after the underlined line
	}{
		{"no advice", "", []source.Fix{source.Replace("write `480 lbf·in`", place, "480 lbf·in")}, "  mend: write `480 lbf·in`\n"},
		{"advice in general", "write torques by force", []source.Fix{source.Replace("write `480 lbf·in`", place, "480 lbf·in")}, "  do: write torques by force\n  mend: write `480 lbf·in`\n"},
		{"advice that says it", "did you mean `48 N·m`?", []source.Fix{source.Replace("write `48 N·m`", place, `"48 N·m"`)}, "  do: did you mean `48 N·m`?\n"},
		{"advice with the whole path", "write `torque.bolt`, or accept it", []source.Fix{source.Replace("write `bolt`", place, "bolt")}, "  do: write `torque.bolt`, or accept it\n"},
		{"advice for one of two", "write `1 mm`", []source.Fix{source.Replace("write `1 mm`", place, "1 mm"), source.Replace("write `1 in`", place, "1 in")}, "  do: write `1 mm`\n  mend: write `1 in`\n"},
		{"two", "say which", []source.Fix{source.Replace("write `1 mm`", place, "1 mm"), source.Replace("write `1 in`", place, "1 in")}, "  do: say which\n  mend: write `1 mm` or `1 in`\n"},
		{"a title without the text", "put it in quotes, as in `\"0.08 mm\"`", []source.Fix{source.Replace("put it in quotes", place, `"1 mm"`)}, "  do: put it in quotes, as in `\"0.08 mm\"`\n  mend: put it in quotes: `\"1 mm\"`\n"},
		{"a deletion", "once will do", []source.Fix{source.Replace("take it out", place, "")}, "  do: once will do\n  mend: take it out\n"},
		{"a move", "keys come first", []source.Fix{{Title: "move it above the first table", Edits: []source.Edit{{File: f, Text: "a = 1\n"}, {File: f, Start: 0, End: 13}}}}, "  do: keys come first\n  mend: move it above the first table\n"},
	} {
		got := textOf(t, report.TextOptions{}, nil, source.Finding{Rule: "r", Severity: source.Error, At: place, Message: "m", Do: c.do, Fixes: c.fixes})
		want := "e.md:1:5: error: r: m\n  a = 480 lb-in\n      ^~~~~~~~~\n" + c.want + "\n1 error open\n"
		if !strings.HasPrefix(got, want) {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, want)
		}
	}
}

func TestSettledAndAcceptedAreCountedAndShownOnlyWhenAsked(t *testing.T) {
	f := source.NewFile("e.md", "a = 1\n")
	findings := []source.Finding{
		{Rule: "worn", Severity: source.Warning, At: at(t, f, "a"), Message: "old", State: source.Settled},
		{Rule: "assumed-limit", Severity: source.Note, At: at(t, f, "1"), Message: "known", State: source.Accepted},
	}
	if got, want := textOf(t, report.TextOptions{}, nil, findings...), "nothing open; 1 settled, 1 accepted\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	got := textOf(t, report.TextOptions{All: true}, nil, findings...)
	for _, want := range []string{"e.md:1:1: warning, settled: worn: old\n", "e.md:1:5: note, accepted: assumed-limit: known\n"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
}

func TestWhatIsWithheldIsSaidInOneLine(t *testing.T) {
	for _, c := range []struct {
		kinds []string
		want  string
	}{
		{[]string{"limits"}, "not all limits can be read, so nothing is concluded from what they lack\n"},
		{[]string{"limits", "parts", "entries"}, "not all limits, parts and entries can be read, so nothing is concluded from what they lack\n"},
	} {
		if got := textOf(t, report.TextOptions{}, c.kinds); got != c.want+"no findings\n" {
			t.Errorf("%v: got %q", c.kinds, got)
		}
	}
}

func TestTheSummaryCounts(t *testing.T) {
	for _, c := range []struct {
		counts journal.Counts
		want   string
	}{
		{journal.Counts{}, "no findings"},
		{journal.Counts{Error: 3, Warning: 2, Note: 5, Settled: 6, Accepted: 1}, "3 errors, 2 warnings, 5 notes open; 6 settled, 1 accepted"},
		{journal.Counts{Error: 1, Note: 1}, "1 error, 1 note open"},
		{journal.Counts{Warning: 1, Settled: 1}, "1 warning open; 1 settled"},
		{journal.Counts{Accepted: 2}, "nothing open; 2 accepted"},
	} {
		if got := report.Summary(c.counts); got != c.want {
			t.Errorf("%+v: got %q, want %q", c.counts, got, c.want)
		}
	}
}

// The codes are those of ECMA-48, "Select graphic rendition" (from memory): 31 red, 1 bold, 0 off.
func TestColoursStandRoundWhatTheySetApart(t *testing.T) {
	f := source.NewFile("e.md", "a = 1\n")
	got := textOf(t, report.TextOptions{Style: report.Colours}, nil, source.Finding{Rule: "out", Severity: source.Error, At: at(t, f, "1"), Message: "m"})
	want := "\x1b[1me.md:1:5:\x1b[0m \x1b[31merror:\x1b[0m \x1b[1mout\x1b[0m: m\n  a = 1\n      \x1b[31m^\x1b[0m\n"
	if !strings.HasPrefix(got, want) {
		t.Errorf("got %q\nwant %q", got, want)
	}
}
