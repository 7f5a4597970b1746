package render

import (
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"slices"
	"strings"
	"testing"
)

// searchable is something that can be found, as the script reads it.
type searchable struct{ kind, address, title, more string }

// indexOf reads the index as the script does: a list as JSON behind a name.
func indexOf(t *testing.T, m *Memory) []searchable {
	t.Helper()
	text, ok := strings.CutPrefix(string(m.Page("search-index.js")), "const searchIndex = ")
	text, closed := strings.CutSuffix(text, ";\n")
	var raw [][4]json.RawMessage
	if err := json.Unmarshal([]byte(text), &raw); err != nil || !ok || !closed {
		t.Fatalf("the index: %v\n%.200s", err, m.Page("search-index.js"))
	}
	var groups []searchGroup
	for _, r := range raw {
		var g searchGroup
		for i, into := range []any{&g.kind, &g.before, &g.after, &g.items} {
			if err := json.Unmarshal(r[i], into); err != nil {
				t.Fatal(err)
			}
		}
		groups = append(groups, g)
	}
	var all []searchable
	for _, g := range groups {
		for _, item := range g.items {
			name := item[0].(string)
			title, isText := item[1].(string)
			if !isText {
				if item[1] != 0.0 {
					t.Errorf("%v has no title", item)
				}
				if title, _ = url.PathUnescape(name); title == "" {
					t.Errorf("%v has no name", item)
				}
			}
			one := searchable{kind: g.kind, address: g.before + name + g.after, title: title}
			if len(item) > 2 {
				one.more = item[2].(string)
			}
			all = append(all, one)
		}
	}
	return all
}

func TestWhatCanBeFound(t *testing.T) {
	m := rendered(t, inMemory(with(shed(), map[string]string{
		"entries/größe & co.md": "```toml\ntitle = \"Größe\"\ndate = 2026-03-03\n```\n",
		"limits.toml":           shed()["limits.toml"] + "[float]\ntitle = \"Float height\"\nlow = \"20 mm\"\nhigh = \"21 mm\"\n",
	})))
	got := indexOf(t, m)
	for _, want := range []searchable{
		{"path", "paths/lash.intake.left.html", "lash.intake.left", ""},
		{"path", "paths/float.html", "float", "Float height"},
		{"part", "parts/cam.html", "Hill cam", ""},
		{"tool", "tools/quillgauge.html", "Quill gauge", ""},
		{"entry", "entries/2026-03-02-two.html", "The second day", ""},
		{"entry", "entries/gr%C3%B6%C3%9Fe-&-co.html", "Größe", "2026-03-03"},
		{"plan", "entries/later.html", "A plan", ""},
		{"finding", "warnings.html#worn/2026-03-01-one/set/chain.slack", "chain.slack is 45 mm: above standard (40 mm), inside service (50 mm)", "worn: chain.slack"},
	} {
		if !slices.Contains(got, want) {
			t.Errorf("%+v can't be found in\n%+v", want, got)
		}
	}
	pages := allRead(t, m)
	for _, s := range got {
		u, err := url.Parse(s.address)
		if err != nil {
			t.Fatal(err)
		}
		if r := pages[u.Path]; r == nil || u.Fragment != "" && !slices.Contains(r.ids, u.Fragment) {
			t.Errorf("%+v leads nowhere", s)
		}
	}
	if i := slices.IndexFunc(got, func(s searchable) bool { return s.kind == "entry" }); got[i].title != "Größe" {
		t.Errorf("the first entry is %+v, not the newest", got[i])
	}
}

// Findings of one rule about one thing are one line, which says how many there are.
func TestAlikeFindingsAreFoundOnce(t *testing.T) {
	more := map[string]string{}
	for day := range 3 {
		more[fmt.Sprintf("entries/2026-04-0%d.md", day+1)] = "```toml\nwith = [\"nogauge\"]\n```\n"
	}
	var got []searchable
	for _, s := range indexOf(t, rendered(t, inMemory(with(shed(), more)))) {
		if strings.HasPrefix(s.more, "unknown-tool") {
			got = append(got, s)
		}
	}
	if len(got) != 1 || got[0].more != "unknown-tool, 3 times: nogauge" {
		t.Errorf("found %+v", got)
	}
}

// The page for searching loads no more than 150 kB of script and index for a journal of a thousand entries with long titles.
func TestTheIndexOfAThousandEntriesIsLight(t *testing.T) {
	files := map[string]string{"build.toml": "title = \"Big shed\"\n[engine]\ncylinders = [\"left\", \"right\"]\n"}
	var limits, parts strings.Builder
	for i := range 40 {
		fmt.Fprintf(&limits, "[clearance.item-%d]\ntitle = \"Clearance of item %d\"\nlow = \"0.05 mm\"\nhigh = \"0.20 mm\"\n", i, i)
		fmt.Fprintf(&parts, "[part-%d]\ntitle = \"Part of the shed, number %d\"\nslot = \"slot-%d\"\n", i, i, i)
	}
	files["limits.toml"], files["parts.toml"] = limits.String(), parts.String()
	for i := range 1000 {
		name := fmt.Sprintf("20%02d-%02d-%02d-valves-and-float", i/336, i/28%12+1, i%28+1)
		figure := "0.10 mm"
		if i%5 == 0 {
			figure = "0.30 mm"
		}
		files["entries/"+name+".md"] = fmt.Sprintf("```toml\ntitle = \"Valves, the float bowl and another look at item %d\"\n[set]\nclearance.item-%d = %q\n```\n\n- [ ] look again\n", i%40, i%40, figure)
	}
	m := rendered(t, inMemory(files))
	entries := 0
	for _, s := range indexOf(t, m) {
		if s.kind == "entry" {
			entries++
		}
	}
	size := len(m.Page("search-index.js")) + len(m.Page("search.js"))
	t.Logf("%d bytes, %d of them the script", size, len(m.Page("search.js")))
	if entries != 1000 || size > 150_000 {
		t.Errorf("index and script have %d bytes for %d entries", size, entries)
	}
}

// What the script looks for on the page is there, and without the script there is a way to everything.
func TestThePageForSearching(t *testing.T) {
	m := rendered(t, os.DirFS("../example-build"))
	page, script := string(m.Page("search.html")), string(m.Page("search.js"))
	for _, id := range []string{"search.box", "search.words", "search.count", "search.found"} {
		if strings.Count(page, `id="`+id+`"`) != 1 || !strings.Contains(script, `"`+id+`"`) {
			t.Errorf("%s is not on the page, or not in the script", id)
		}
	}
	for _, part := range []string{`<label for="search.words">`, `role="status"`, "<noscript>\n<p>", `role="search" id="search.box" hidden=""`} {
		if !strings.Contains(page, part) {
			t.Errorf("the page lacks %s", part)
		}
	}
	for _, outside := range []string{"http:", "https:", "fetch(", "XMLHttpRequest", "innerHTML", "eval(", "import("} {
		if strings.Contains(script, outside) {
			t.Errorf("the script has %q", outside)
		}
	}
	if order := strings.Index(page, "search-index.js"); order < 0 || order > strings.Index(page, "search.js") {
		t.Error("the index is not loaded before the script")
	}
}
