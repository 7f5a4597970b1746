package render

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// pullsOf is a table of pulls as an entry has it.
func pullsOf(file, state string) string {
	text := "[[pulls]]\ndata = [\"data/" + file + ".csv\"]\ncorrected = \"SAE J1349\"\n"
	if state != "" {
		text += "state = \"" + state + "\"\n"
	}
	return text
}

// entryOf is an entry of a head alone.
func entryOf(head string) string { return "```toml\n" + head + "```\n" }

// pulledAgain adds files of six more pulls that came out alike: the file of one doesn't count twice.
func pulledAgain(files map[string]string, name string) {
	for i := range 6 {
		files[fmt.Sprintf("data/%s-%d.csv", name, i+1)] = files["data/"+name+".csv"] + strings.Repeat("\n", i+1)
	}
}

func TestSessionsOfOneDayAreToldApart(t *testing.T) {
	for name, c := range map[string]struct {
		entries map[string]string
		want    []string
	}{
		"a day each": {map[string]string{
			"2026-03-08-a": entryOf(pullsOf("first", "")), "2026-03-09-b": entryOf(pullsOf("then", "before")),
		}, []string{"8 Mar", "9 Mar, before"}},
		"before and after the work": {map[string]string{
			"2026-03-08-a": entryOf(pullsOf("first", "before") + pullsOf("then", "after")),
		}, []string{"8 Mar, before", "8 Mar, after"}},
		"at other times": {map[string]string{
			"2026-03-08-a": entryOf("date = 2026-03-08T09:30\n" + pullsOf("first", "")), "2026-03-08-b": entryOf("date = 2026-03-08T14:00\n" + pullsOf("then", "before") + pullsOf("last", "after")),
		}, []string{"8 Mar, 09:30", "8 Mar, 14:00, before", "8 Mar, 14:00, after"}},
		"at the same time": {map[string]string{
			"2026-03-08-a": entryOf("date = 2026-03-08T09:30\n" + pullsOf("first", "")), "2026-03-08-b": entryOf("date = 2026-03-08T09:30\n" + pullsOf("then", "")),
		}, []string{"8 Mar, first that day", "8 Mar, second that day"}},
		"at no time, over years": {map[string]string{
			"2025-03-08-a": entryOf(pullsOf("first", "")), "2026-03-08-b": entryOf(pullsOf("first-1", "")), "2026-03-08-c": entryOf(pullsOf("then", "before") + pullsOf("last", "after")),
		}, []string{"2025-03-08", "2026-03-08, first that day", "2026-03-08, second that day", "2026-03-08, third that day"}},
		"one of them at a time": {map[string]string{
			"2026-03-08-a": entryOf(pullsOf("first", "")), "2026-03-08-b": entryOf("date = 2026-03-08T14:00\n" + pullsOf("then", "")),
		}, []string{"8 Mar, first that day", "8 Mar, second that day"}},
		"seven after one entry's work": {map[string]string{
			"2026-03-08-a": entryOf(pullsOf("first", "") + pullsOf("first-1", "") + pullsOf("first-2", "") + pullsOf("first-3", "") + pullsOf("first-4", "") + pullsOf("first-5", "") + pullsOf("first-6", "")),
		}, []string{"8 Mar, first that day", "8 Mar, second that day", "8 Mar, third that day", "8 Mar, fourth that day", "8 Mar, fifth that day", "8 Mar, sixth that day", "8 Mar, number 7 that day"}},
		"of no day, titled like a day": {map[string]string{
			"2026-03-08-a": entryOf(pullsOf("first", "")), "2026-03-08-b": entryOf(pullsOf("then", "")),
			"x": entryOf("title = \"2026-03-08, first that day\"\ndate = \"someday\"\n" + pullsOf("last", "")),
		}, []string{"2026-03-08, first that day", "2026-03-08, number 2", "2026-03-08, second that day"}},
	} {
		files := pulled()
		for name := range files {
			if strings.HasPrefix(name, "entries/") {
				delete(files, name)
			}
		}
		pulledAgain(files, "first")
		for entry, text := range c.entries {
			files["entries/"+entry+".md"] = text
		}
		sessions := newSite(compiled(t, inMemory(files))).sessions(nil)
		names := sessionNames(sessions)
		var got []string
		for _, session := range sessions {
			got = append(got, names[session].String())
		}
		slices.Sort(got)
		slices.Sort(c.want)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// What tells two sessions of a day apart stands in the drawing, in what is said of it, and in the table.
func TestThePowerPageTellsSessionsOfOneDayApart(t *testing.T) {
	files := with(pulled(), map[string]string{
		"entries/2026-03-10-quiet.md": entryOf("title = \"The quiet pipe\"\n" + pullsOf("then-1", "")),
		"entries/2026-03-12-again.md": entryOf(pullsOf("last-1", "")),
	})
	pulledAgain(files, "then")
	pulledAgain(files, "last")
	m := rendered(t, inMemory(files))
	page := strings.ReplaceAll(string(m.Page("power.html")), thinSpace, " ")
	for _, want := range []string{">10 Mar, first that day</text>", ">10 Mar, second that day</text>", "10 Mar, first that day 24.5", "10 Mar, second that day 23.0"} {
		if !strings.Contains(page, want) {
			t.Errorf("power.html lacks %q:\n%s", want, page)
		}
	}
	for _, row := range []string{"2026-03-10 The pipe first that day 24.5 hp", "2026-03-10 The quiet pipe second that day 23.0 hp"} {
		if got := words(m, "power.html"); !strings.Contains(got, row) {
			t.Errorf("power.html doesn't say %q:\n%s", row, got)
		}
	}
}
