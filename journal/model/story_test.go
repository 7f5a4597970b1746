package model_test

import (
	"fmt"
	"path"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// story is a small journal with what it must come to: every value in order of time, and every finding by its identity. Both are written
// by hand from the rules of the journal format; nothing unlisted passes.
type story struct {
	name     string
	files    string // see folder
	asOf     string
	values   string // see account
	findings string // see findings; "any" where the story is not about them
}

func tell(t *testing.T, stories []story) {
	t.Helper()
	for _, s := range stories {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			r := compile(t, s.files, s.asOf)
			differ(t, "values", s.files, account(r.Journal), s.values)
			if s.findings != "any" {
				differ(t, "findings", s.files, findings(r), s.findings)
			}
		})
	}
}

// differ fails with a line for each difference.
func differ(t *testing.T, what, input, got, want string) {
	t.Helper()
	g, w := lines(got), lines(want)
	if strings.Join(g, "\n") == strings.Join(w, "\n") {
		return
	}
	var diff strings.Builder
	i, j := 0, 0
	for i < len(g) || j < len(w) {
		switch {
		case i < len(g) && j < len(w) && g[i] == w[j]:
			fmt.Fprintf(&diff, "    %s\n", g[i])
			i, j = i+1, j+1
		case i < len(g) && !contains(w[j:], g[i]):
			fmt.Fprintf(&diff, "got %s\n", g[i])
			i++
		case j < len(w):
			fmt.Fprintf(&diff, "want %s\n", w[j])
			j++
		default:
			fmt.Fprintf(&diff, "got %s\n", g[i])
			i++
		}
	}
	t.Errorf("%s differ:\n%sin the journal\n%s", what, diff.String(), input)
}

func contains(all []string, line string) bool {
	for _, l := range all {
		if l == line {
			return true
		}
	}
	return false
}

// lines returns the lines of a text without blank ones and without their indents.
func lines(text string) []string {
	var kept []string
	for _, l := range strings.Split(text, "\n") {
		if l = strings.TrimSpace(l); l != "" {
			kept = append(kept, l)
		}
	}
	return kept
}

// folder makes a journal's folder of files that stand below `-- NAME --` lines. A name in `.md` stands below `entries/`, and its text is
// the head alone unless it holds a fence. A journal without a `build.toml` gets an empty one.
func folder(files string) fstest.MapFS {
	made := fstest.MapFS{"build.toml": {}}
	for _, file := range strings.Split("\n"+files, "\n-- ")[1:] {
		name, text, _ := strings.Cut(file+"\n", " --\n")
		text = strings.TrimSuffix(text, "\n") + "\n"
		if path.Ext(name) == ".md" {
			name = "entries/" + name
			if !strings.Contains(text, "~~~") {
				text = "~~~toml\n" + text + "~~~\n"
			}
		}
		made[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return made
}

func compile(t testing.TB, files, asOf string) *journal.Result {
	t.Helper()
	r, err := journal.Compile(folder(files), journal.Options{AsOf: asOf, SkipHTML: true})
	if err != nil {
		t.Fatalf("compile: %v, in the journal\n%s", err, files)
	}
	return r
}

// account gives a line for each value, in order of time, then for those of plans: its identity, its verdict with side and limit (`PART:`
// before a part's), its deviation, and whether it is current, settled or stale.
func account(j *model.Journal) string {
	var b strings.Builder
	for _, v := range j.Values {
		fmt.Fprintln(&b, told(v))
	}
	for _, e := range j.Entries {
		for _, v := range e.Values {
			if e.Plan {
				fmt.Fprintln(&b, told(v))
			}
		}
	}
	return b.String()
}

func told(v *model.Value) string {
	text := v.ID() + ": " + v.Verdict.String()
	if v.Unjudged != model.Judged {
		text = v.ID() + ": unjudged (" + v.Unjudged.String() + ")"
	}
	switch {
	case v.Side < 0:
		text += " below"
	case v.Side > 0:
		text += " above"
	}
	if v.Limit != nil {
		text += " by "
		if v.Limit.Part != nil {
			text += v.Limit.Part.Name + ":"
		}
		text += v.Limit.Path
	}
	if v.Deviates {
		u, off := v.Quantity.Unit, v.Deviation
		if quantity.Compare(v.Quantity.SI()-off, v.Quantity.SI(), 0) == 0 {
			off = 0
		}
		text += fmt.Sprintf(", %+.4g %s off", u.StepFromSI(off, v.Quantity.Value), u.Symbol)
	}
	if v.Current {
		text += ", current"
	}
	if v.Settled {
		text += ", settled"
	}
	if v.StaleBy != nil {
		text += ", stale since " + v.StaleBy.Name
	}
	return text
}

// findings gives a line for each finding: its identity, its severity, and its state where it is not open.
func findings(r *journal.Result) string {
	var b strings.Builder
	for _, f := range r.Findings {
		fmt.Fprintf(&b, "%s %s", f.Severity, f.ID())
		if state := f.State.String(); state != "open" {
			fmt.Fprintf(&b, ", %s", state)
		}
		fmt.Fprintln(&b)
	}
	return b.String()
}
