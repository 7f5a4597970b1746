package draft_test

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"unicode"

	"example.org/locknut/journal"
	"example.org/locknut/journal/draft"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

var day = parse.Date{Year: 2026, Month: 7, Day: 1}

// folder makes a journal's folder of texts by name.
func folder(texts map[string]string) fstest.MapFS {
	files := fstest.MapFS{"build.toml": {}}
	for name, text := range texts {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

func compile(t testing.TB, files fstest.MapFS) *journal.Result {
	t.Helper()
	r, err := journal.Compile(files, journal.Options{SkipHTML: true, AsOf: day.String()})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// with returns the journal with a file more.
func with(t testing.TB, files fstest.MapFS, f draft.File) *journal.Result {
	t.Helper()
	if files[f.Name] != nil {
		t.Fatalf("%s is there already", f.Name)
	}
	more := maps.Clone(files)
	more[f.Name] = &fstest.MapFile{Data: []byte(f.Text)}
	return compile(t, more)
}

// shed is a journal that asks for everything that an entry has blanks for: a fitted part, an expectation, what is due, a planned part; at paths that
// TOML takes bare and at one that it doesn't.
func shed() fstest.MapFS {
	return folder(map[string]string{
		"build.toml": "fitted = [\"chain\"]\n[machine]\nmeter = \"km\"\n[engine]\ncylinders = [\"left\", \"right\"]\n",
		"limits.toml": `
[lash]
when = { engine-temp = "..35 °C" }
intake = "0.08 ± 0.02 mm"
exhaust = "0.12 ± 0.02 mm"
[timing.marks]
expect = ["aligned", "half a tooth on"]
[oil]
change = { nominal = "1.4 L", tolerance = "0.1 L", every = "1 month" }
["kühler".level]
nominal = "30 mm"
every = ["1 month"]
[clearance.piston]
of = ["bore", "piston"]
high = "0.06 mm"
[chain.slack]
low = "20 mm"
high = "30 mm"
`,
		"parts.toml": `
[chain]
every = "3 months"
[cam-hill]
then = ["lash", "timing.marks", "clearance.piston"]
[sprocket-43]
then = ["chain.slack", "torque.sprocket"]
[tyre-soft]
`,
		"tools.toml": "[feeler]\nfor = [\"lash\"]\nleaves = [\"0.08 mm\", \"0.10 mm\"]\n[jug]\nfor = [\"oil\"]\ncalibrate-every = \"1 month\"\n",
		"entries/2026-03-01-start.md": `~~~toml
meter = 18240
engine-temp = "15 °C"
[found]
lash.intake = "0.08 mm"
bore = "53.010 mm"
piston = "52.970 mm"
oil.change = "1.4 L"
"kühler".level = "30 mm"
[[later]]
do = "Chain again"
reading = "chain.slack"
after = "2 weeks"
~~~
`,
		"entries/2026-05-01-cam.md": "~~~toml\nfitted = [\"cam-hill\"]\nexpects = [\"torque.cam-cover\", \"bore\"]\nmeter = 18300\n~~~\n",
	})
}

// worst returns the findings above a note, by their identities.
func worst(findings []source.Finding) map[string]bool {
	ids := map[string]bool{}
	for _, f := range findings {
		if f.Severity > source.Note && f.State == source.Open {
			ids[f.ID()] = true
		}
	}
	return ids
}

// asks tells what a journal knows and what it asks for: every value with its verdict, and every position that a part or an entry wants read.
func asks(r *journal.Result) (values, requests []string) {
	for _, v := range r.Journal.Values {
		stale := ""
		if v.StaleBy != nil {
			stale = v.StaleBy.Name
		}
		values = append(values, fmt.Sprintln(v.ID(), v.Verdict, v.Current, v.Settled, stale))
	}
	for _, q := range r.Journal.Requests {
		for _, position := range q.Missing {
			requests = append(requests, q.Entry.Path+" "+position)
		}
	}
	slices.Sort(requests)
	return values, requests
}

// A blank claims nothing: beside what the journal said before there is only a note for each, and what is asked for is asked for still.
func TestBlanksClaimNothing(t *testing.T) {
	files := shed()
	before := compile(t, files)
	f := draft.Entry(before, "Lash again", day)
	if f.Name != "entries/2026-07-01-lash-again.md" {
		t.Errorf("it is called %s", f.Name)
	}
	after := with(t, files, f)
	had := worst(before.Findings)
	blanks := 0
	for _, found := range after.Findings {
		switch {
		case found.Rule == "empty-value" && found.Severity == source.Note:
			blanks++
		case found.Severity > source.Note && !had[found.ID()]:
			t.Errorf("the draft is found to be wrong: %s: %s", found.ID(), found.Message)
		}
	}
	if want := strings.Count(f.Text, ` = ""`); blanks != want || want < 10 {
		t.Errorf("%d blanks are noted, %d are there:\n%s", blanks, want, f.Text)
	}
	oldValues, oldRequests := asks(before)
	newValues, newRequests := asks(after)
	if !slices.Equal(oldValues, newValues) || len(oldValues) < 5 {
		t.Errorf("values\n%s\nbecame\n%s", strings.Join(oldValues, "\n"), strings.Join(newValues, "\n"))
	}
	if !slices.Equal(oldRequests, newRequests) || len(oldRequests) < 8 {
		t.Errorf("requests\n%s\nbecame\n%s", strings.Join(oldRequests, "\n"), strings.Join(newRequests, "\n"))
	}
	if e := after.Journal.Entry("2026-07-01-lash-again"); e == nil || len(e.Values) > 0 || e.Meter != nil || len(e.Fitted) > 0 || e.Title != "Lash again" {
		t.Errorf("the entry claims something: %+v", e)
	}
}

// What an entry has blanks for, by hand: each position once, with its reason and its limit, and as comments what planned parts will ask.
func TestWhatAnEntryAsksFor(t *testing.T) {
	f := draft.Entry(compile(t, shed()), "Lash again", day)
	head, body, _ := strings.Cut(strings.TrimPrefix(f.Text, "```toml\n"), "```\n")
	found, set, _ := strings.Cut(head, "[set]\n")
	found, comments := cutTable(found, "[found]\n")
	want := map[string][]string{
		"above the tables": {"# meter = 18300  # the last one, of 2026-05-01", `# with = ["feeler", "jug"]`, "# overdue: renew chain", "# overdue: calibrate jug"},
		"set": {
			`lash.intake.left = ""  # since cam-hill went in; limit: 0.06 to 0.10 mm, engine at up to 35 °C`,
			`lash.intake.right = ""  # since cam-hill went in; limit: 0.06 to 0.10 mm, engine at up to 35 °C`,
			`lash.exhaust.left = ""  # since cam-hill went in; limit: 0.10 to 0.14 mm, engine at up to 35 °C`,
			`lash.exhaust.right = ""  # since cam-hill went in; limit: 0.10 to 0.14 mm, engine at up to 35 °C`,
			`oil.change = ""  # overdue; limit: 1.3 to 1.5 L`,
			`timing.marks = ""  # since cam-hill went in; limit: aligned or half a tooth on`,
			`bore.left = ""  # since cam-hill went in`,
			`bore.right = ""  # since cam-hill went in`,
			`piston = ""  # since cam-hill went in`,
			`torque.cam-cover = ""  # an entry expects it`,
			"# Planned parts. To fit one, take it up into `fitted`, above the first table:",
			`# fitted = ["sprocket-43"]`,
			`#   then read chain.slack: limit: 20 to 30 mm`,
			`#   then read torque.sprocket`,
			`# fitted = ["tyre-soft"]`,
		},
		"found": {
			`"kühler".level = ""  # overdue; nominal: 30 mm`,
			`chain.slack = ""  # overdue; limit: 20 to 30 mm`,
		},
	}
	for name, text := range map[string]string{"above the tables": comments, "set": set, "found": found} {
		got, want := lines(text), slices.Clone(want[name])
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s:\n%s\nwant\n%s", name, strings.Join(got, "\n"), strings.Join(want, "\n"))
		}
	}
	if strings.TrimSpace(body) != "# Lash again" {
		t.Errorf("the body is %q", body)
	}
}

// cutTable parts a text at a table's header and returns what follows it, and what stands above.
func cutTable(text, header string) (below, above string) {
	above, below, _ = strings.Cut(text, header)
	return below, above
}

func lines(text string) []string {
	return slices.DeleteFunc(strings.Split(text, "\n"), func(line string) bool { return line == "" })
}

// Filled in, an entry of the draft meets what was asked for.
func TestAFilledDraftMeetsWhatWasAsked(t *testing.T) {
	files := shed()
	f := draft.Entry(compile(t, files), "Filled", day)
	values := map[string]string{"lash.intake": "0.08 mm", "lash.exhaust": "0.12 mm", "timing": "aligned", "bore": "53.01 mm", "piston": "52.97 mm", "torque": "10 N·m", "oil": "1.4 L", `"kühler"`: "30 mm", "chain": "25 mm"}
	f.Text = strings.Replace(f.Text, "```toml\n", "```toml\nengine-temp = \"18 °C\"\n", 1)
	for path, value := range values {
		var filled strings.Builder
		for line := range strings.Lines(f.Text) {
			if strings.HasPrefix(line, path+".") || strings.HasPrefix(line, path+" ") {
				line = strings.Replace(line, `""`, `"`+value+`"`, 1)
			}
			filled.WriteString(line)
		}
		f.Text = filled.String()
	}
	after := with(t, files, f)
	if _, requests := asks(after); len(requests) > 0 || strings.Contains(f.Text, `""`) {
		t.Errorf("%q is asked for still, by\n%s", requests, f.Text)
	}
	for _, found := range after.Findings {
		if found.At.File.Name == f.Name && found.Severity > source.Note {
			t.Errorf("%s: %s", found.ID(), found.Message)
		}
	}
}

// A journal that has yet to begin compiles without a finding, and its sheets hold nothing yet.
func TestAFreshJournalIsClean(t *testing.T) {
	files := fstest.MapFS{}
	for _, f := range draft.Journal(day) {
		if files[f.Name] != nil {
			t.Errorf("%s is there twice", f.Name)
		}
		files[f.Name] = &fstest.MapFile{Data: []byte(f.Text)}
	}
	r := compile(t, files)
	for _, f := range r.Findings {
		t.Errorf("%s: %s", f.ID(), f.Message)
	}
	j := r.Journal
	if len(j.Entries) != 1 || j.Entries[0].Date.String() != day.String() || len(j.Values) > 0 || len(j.Limits)+len(j.Parts)+len(j.Tools) > 0 {
		t.Errorf("it claims something: %d entries, %d values, %d limits, %d parts, %d tools", len(j.Entries), len(j.Values), len(j.Limits), len(j.Parts), len(j.Tools))
	}
	after := with(t, files, draft.Entry(r, "The second", day))
	if len(after.Findings) > 0 || len(after.Journal.Entries) != 2 {
		t.Errorf("its second entry: %v", after.Findings)
	}
}

// tomlLine is a line of TOML, a key with its value or a table's header.
var tomlLine = regexp.MustCompile(`^([a-z.-]+ = |\[)`)

// What the comments of a fresh journal show is right: with their marks taken off they compile as well.
func TestTheCommentsOfAFreshJournalAreRight(t *testing.T) {
	files := fstest.MapFS{}
	for _, f := range draft.Journal(day) {
		var shown strings.Builder
		head, body, isEntry := strings.Cut(f.Text, "\n```\n")
		for line := range strings.Lines(head) {
			code, is := strings.CutPrefix(line, "# ")
			if is && tomlLine.MatchString(code) {
				line = code
			}
			shown.WriteString(line)
		}
		text := shown.String()
		if isEntry {
			text += "\n```\n" + body
		}
		files[f.Name] = &fstest.MapFile{Data: []byte(text)}
	}
	r := compile(t, files)
	for _, f := range r.Findings {
		if f.Severity == source.Error {
			t.Errorf("%s: %s", f.ID(), f.Message)
		}
	}
	j := r.Journal
	if len(j.Values) < 2 || len(j.Limits) < 4 || len(j.Parts) != 1 || len(j.Tools) != 2 {
		t.Errorf("they show little: %d values, %d limits, %d parts, %d tools", len(j.Values), len(j.Limits), len(j.Parts), len(j.Tools))
	}
}

// titles are such as people type, and such as they don't.
var titles = []string{
	"Lash again", "  two \n lines\t", "", "   ", "50 % throttle", "%d %s", "# Head", "Cam #", "Cam ##", "a # b", "<b>bold</b>", "</script>", "<!-- x -->", "[cam](part:nothing)", "[?](value:no.thing)",
	"![p](photos/none.jpg)", "- [ ] a step", "*stars* and _scores_", "a_b_c", "`code`", "```", "~~gone~~", "~~~", "AT&T &amp; co", "\\", "\\*", "back\\", "quo\"te 'n such", "1. first", "> quoted",
	"[^1] note", "+++", "---", "www.example.org and https://example.org/a_b", "me@example.org", "mailto:me@example.org", "www.dep@www.dep\u0a69", "ftp://x", "HTTP://X and WWW.Y", "kühler, ölwechsel", "Bremsbeläge", "カム交換", "🏍", "e\u0301", "\ufdda", "a\u0000b", "a\u200bb", "\u202eevil", "bad \xff byte", "../../up", "a/b", "con",
	"http://x.y/(z)", "| a | b |", "a\\\nb", "$x$", ":smile:", "==mark==", "{#id}", "Cam {.class}", strings.Repeat("long ", 100), strings.Repeat("ü", 300),
}

// checkTitle wants the entry of a title to be one file of a plain name, clean, and called what was typed.
func checkTitle(t *testing.T, files fstest.MapFS, now *journal.Result, title string) {
	t.Helper()
	f := draft.Entry(now, title, day)
	name, below := strings.CutPrefix(f.Name, "entries/"+day.String()+"-")
	name, named := strings.CutSuffix(name, ".md")
	if !below || !named || name == "" || len(f.Name) > 200 || strings.ContainsFunc(name, func(r rune) bool { return r != '-' && !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		t.Errorf("%q is called %q", title, f.Name)
	}
	after := with(t, files, f)
	e := after.Journal.Entry(strings.TrimSuffix(strings.TrimPrefix(f.Name, "entries/"), ".md"))
	if e == nil {
		t.Fatalf("%q: there is no such entry in %s", title, f.Name)
	}
	had := worst(now.Findings)
	for id := range worst(after.Findings) {
		if !had[id] {
			t.Errorf("%q: %s in\n%s", title, id, f.Text)
		}
	}
	if want := printed(title); e.Title != want && want != "" {
		t.Errorf("%q is titled %q, want %q, by\n%s", title, e.Title, want, f.Text)
	}
	if len(e.Links) > 0 || len(e.Body.Findings) > 0 || len(e.Body.Tasks) > 0 {
		t.Errorf("%q links or asks: %+v, %+v", title, e.Links, e.Body.Tasks)
	}
}

// printed is a title on one line, without what can't be printed.
func printed(title string) string {
	text := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && !unicode.IsSpace(r) || unicode.Is(unicode.Noncharacter_Code_Point, r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(title, " "))
	return strings.Join(strings.Fields(text), " ")
}

func TestTitlesStandAsTheyWereTyped(t *testing.T) {
	files := folder(nil)
	now := compile(t, files)
	for _, title := range titles {
		checkTitle(t, files, now, title)
	}
}

func FuzzTitle(f *testing.F) {
	for _, title := range titles {
		f.Add(title)
	}
	files := folder(nil)
	now := compile(f, files)
	f.Fuzz(func(t *testing.T, title string) { checkTitle(t, files, now, title) })
}

// Paths and texts are written as TOML reads them, whatever they hold.
func TestAReadingIsReadBack(t *testing.T) {
	for _, c := range []struct{ path, value, temp string }{
		{"lash.intake.left", "0.08 mm", "18 °C"},
		{"kühler.stand", "30 mm", ""},
		{"oil.change", `0.9 L, "black" \ grey`, ""},
		{"timing.marks", `half a tooth 'on' \t`, ""},
		{"torque.m6", "10 N·m", "18 °C"},
	} {
		files := folder(map[string]string{"entries/2026-07-01.md": draft.Reading(day, c.path, c.value, c.temp)})
		r := compile(t, files)
		var v *model.Value
		if len(r.Journal.Values) == 1 {
			v = r.Journal.Values[0]
		}
		if v == nil || v.Path != c.path || v.Written.Text != c.value || (v.Temp != nil) != (c.temp != "") || len(worst(r.Findings)) > 0 {
			t.Errorf("%+v is read as %+v, with %v, from\n%s", c, v, r.Findings, files["entries/2026-06-01.md"].Data)
		}
	}
}

// A plan tells what it fits and reads, by the limits that will hold then; a reading that stands out has a blank.
func TestAnEntryTellsThePlans(t *testing.T) {
	files := fstest.MapFS{
		"build.toml":              {Data: []byte("fitted = [\"cam-std\"]\n")},
		"limits.toml":             {Data: []byte("[lash]\nintake = \"0.08 ± 0.02 mm\"\nexhaust = \"0.12 ± 0.02 mm\"\n[torque.head-bolt]\nnominal = \"20 N·m then 35 N·m\"\ntolerance = \"2 N·m\"\n")},
		"parts.toml":              {Data: []byte("[cam-std]\nslot = \"camshaft\"\n[cam-hill]\nslot = \"camshaft\"\nthen = [\"lash\"]\n[cam-hill.limits.lash]\nintake = \"0.10 ± 0.02 mm\"\nexhaust = \"0.15 ± 0.02 mm\"\n")},
		"entries/2026-03-01-a.md": {Data: []byte("```toml\n[found]\nlash.intake = \"0.20 mm\"\n```\n")},
		"entries/cam.md":          {Data: []byte("```toml\ntitle = \"The hill cam\"\nfitted = [\"cam-hill\"]\nexpects = [\"torque.head-bolt\"]\n```\n")},
	}
	text := draft.Entry(compile(t, files), "Cam", day).Text
	for _, want := range []string{
		"lash.intake = \"\"  # it stands out; limit: 0.06 to 0.10 mm\n", "# Planned: The hill cam\n# fitted = [\"cam-hill\"]\n",
		"#   then read lash.exhaust: limit: 0.13 to 0.17 mm\n#   then read lash.intake: limit: 0.08 to 0.12 mm\n#   read torque.head-bolt: limit: 20 N·m then 33 to 37 N·m\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("it doesn't say %q:\n%s", want, text)
		}
	}
}

// What a log reads has no blank: nobody writes it down. The entry says how it is logged.
func TestEntryAsksForALog(t *testing.T) {
	files := folder(map[string]string{
		"parts.toml":               "[jets]\nthen = [\"fuelling\", \"jet.main\"]\n",
		"entries/2026-06-01-in.md": "```toml\nfitted = [\"jets\"]\n```\n",
	})
	f := draft.Entry(compile(t, files), "Ride", day)
	if !strings.Contains(f.Text, "# The mixture is to be logged: since jets went in.\n# [[fuelling]]\n") || strings.Contains(f.Text, "fuelling = ") || !strings.Contains(f.Text, "jet.main = \"\"") {
		t.Errorf("the entry is\n%s", f.Text)
	}
	asked := strings.NewReplacer("# [[fuelling]]", "[[fuelling]]", "# data = ", "data = ").Replace(f.Text)
	files["data/ride.csv"] = &fstest.MapFile{Data: []byte("time [s],rpm,throttle [%],lambda\n0,4000,30,1\n1,4000,30,1\n")}
	for _, finding := range with(t, files, draft.File{Name: f.Name, Text: asked}).Findings {
		if finding.Severity == source.Error || strings.Contains(finding.Message, "fuelling") {
			t.Errorf("filled in it has %s: %s", finding.ID(), finding.Message)
		}
	}
}
