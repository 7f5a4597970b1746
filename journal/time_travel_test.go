package journal_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
	"example.org/locknut/journal/upkeep"
)

// As of an entry, or of its day, a journal is what it would be if nothing later had been written yet: the same values and verdicts, findings,
// numbers, parts, requests and upkeep. Plans are of no day, so they stay in both: they change nothing, but what is in by then changes theirs.
func TestAsOfIsTheJournalCutOffThere(t *testing.T) {
	files := load(t, "../example-build")
	entries := compile(t, files).Journal.Entries
	compared := 0
	for _, e := range entries {
		if e.Plan {
			continue
		}
		compared++
		t.Run(e.Path, func(t *testing.T) {
			cutAt := func(later func(*model.Entry) bool) fstest.MapFS {
				cut := fstest.MapFS{}
				for name, f := range files {
					cut[name] = f
				}
				for _, other := range entries {
					if !other.Plan && later(other) {
						delete(cut, "entries/"+other.Path+".md")
					}
				}
				return cut
			}
			sameStanding(t, files, e.Path, cutAt(func(other *model.Entry) bool { return other.Index > e.Index }))
			sameStanding(t, files, e.Date.String(), cutAt(func(other *model.Entry) bool { return other.Date.CompareDay(e.Date) > 0 }))
		})
	}
	if compared < 14 {
		t.Errorf("only %d moments were compared", compared)
	}
}

// sameStanding wants a journal as of a moment to stand as one that was cut off there.
func sameStanding(t *testing.T, files fstest.MapFS, asOf string, cut fstest.MapFS) {
	t.Helper()
	r, err := journal.Compile(files, journal.Options{AsOf: asOf, SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	got, want := standing(r), standing(compile(t, cut))
	if len(want) < 20 {
		t.Fatalf("only %d lines to compare", len(want))
	}
	for _, line := range missingFrom(want, got) {
		t.Errorf("as of %s this is missing: %s", asOf, line)
	}
	for _, line := range missingFrom(got, want) {
		t.Errorf("as of %s there is also: %s", asOf, line)
	}
}

// standing says how a journal stands, a line for each value, finding, number, fitted part, request and thing to do again.
func standing(r *journal.Result) []string {
	lines := []string{"the day is " + r.Journal.Today.String()}
	line := func(parts ...any) { lines = append(lines, strings.TrimSpace(fmt.Sprintln(parts...))) }
	value := func(v *model.Value) {
		line("value", v.ID(), v.Verdict, v.Unjudged, v.Side, v.Counts, v.Current, v.Settled, limitOf(v.Limit), v.Deviation, nameOf(v.StaleBy), v.Estimate.Value, v.Estimate.Expanded())
	}
	for _, v := range r.Journal.Values {
		value(v)
	}
	for _, e := range r.Journal.Entries {
		if e.Plan {
			for _, v := range e.Values {
				value(v)
			}
		}
		for _, p := range e.FittedThen {
			line("with", e.Path, "is in", p.Name)
		}
	}
	for _, f := range r.Findings {
		// A link to an entry that has been cut off leads nowhere; as of a day it leads to one that will be.
		if f.Rule != "broken-link" || !strings.HasPrefix(f.Subject, "entry:") {
			line("finding", f.State, f.Severity, f.ID(), f.Message, f.Do, remarks(f))
		}
	}
	for _, n := range r.Numbers {
		shown, u := quantity.ShowEstimate(n.Estimate, n.Unit)
		line("number", n.ID(), shown, "±", u, n.Words, n.Reason, n.Verdict, limitOf(n.Limit), n.Deviation, n.Earlier, len(n.Inputs))
	}
	for _, s := range r.Sums.Stages {
		line("stage", s.Path, s.Reason)
	}
	for _, p := range r.Journal.Fitted {
		line("fitted", p.Name, len(p.Stays))
	}
	for _, q := range r.Journal.Requests {
		line("asked for", q.Path, q.Entry.Path, nameOf(q.Part), q.Missing)
	}
	for _, item := range r.Upkeep {
		line("upkeep", item.Kind, item.Title, item.Path, item.State, item.Day, item.Never, item.Missing, spans(item.Spans))
	}
	return lines
}

func nameOf(p *model.Part) string {
	if p == nil {
		return "-"
	}
	return p.Name
}

func limitOf(l *model.Limit) string {
	if l == nil {
		return "no limit"
	}
	return nameOf(l.Part) + ":" + l.Path
}

func remarks(f source.Finding) string {
	var b strings.Builder
	for _, note := range f.Notes {
		fmt.Fprintf(&b, "%s %s %d; ", note.Message, note.At.File.Name, note.At.Start)
	}
	return b.String()
}

func spans(all []upkeep.Span) string {
	var b strings.Builder
	for _, s := range all {
		fmt.Fprintf(&b, "%s: %g of %g, until %s or %s%s; ", s.Every.Shown(), s.Used, s.Whole, s.Meter.Shown(), s.On, s.Reason)
	}
	return b.String()
}
