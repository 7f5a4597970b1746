package render

import (
	"fmt"
	"strings"
	"testing"
)

// stagesHiding is a journal of nine stages, of which the session that begins the first has a tag.
func stagesHiding(hide string) map[string]string {
	files := longPulls(10, 1, 30)
	files["build.toml"] += "[site]\nhide = [" + hide + "]\n"
	const first = "entries/2026-01-01-session.md"
	files[first] = strings.Replace(files[first], "```toml\n", "```toml\ntags = [\"secret\"]\n", 1)
	files["entries/2026-02-01-later.md"] = "```toml\ntitle = \"Later\"\n```\n\n![Gain](chart:gain)\n"
	return files
}

// A gain of all stages rests on the oldest session as on the newest: where that is hidden neither the drawing of an entry nor its plate tells it.
func TestAGainTellsNothingOfAHiddenFirstSession(t *testing.T) {
	const later, total = "entries/2026-02-01-later.html", "in 9 stages"
	m := rendered(t, inMemory(stagesHiding("")))
	if got := drawings(m, later, "c-over"); len(got) != 2 || !strings.Contains(words(m, later), total) {
		t.Fatalf("%q, and: %s: the test proves nothing", got, words(m, later))
	}
	m = rendered(t, inMemory(stagesHiding(`"secret"`)))
	checkSite(t, m)
	for _, name := range m.Names() {
		if strings.Contains(string(m.Page(name)), total) || strings.HasSuffix(name, ".html") && strings.Contains(words(m, name), "( +") {
			t.Errorf("%s tells the gain of all stages", name)
		}
	}
	if got := drawings(m, later, "c-over"); len(got) != 0 {
		t.Errorf("drawn in a later entry: %q", got)
	}
	if got := drawings(m, "entries/2026-01-10-session.html", "c-over"); len(got) != 2 {
		t.Errorf("the stage that an entry ends itself rests on nothing hidden, but is drawn as %q", got)
	}
}

// What parts gave in several stages rests on all of them, also on those that are no more listed as an entry left the engine.
func TestAGainOfPartsTellsNothingOfAHiddenSession(t *testing.T) {
	const last, gain, earlier = "entries/2026-01-10-session.html", "gain with part-1 in place of part-0", "1 earlier figure; "
	for hide, isTold := range map[string]bool{"": true, `"secret"`: false} {
		files := stagesHiding(hide)
		for name, again := range map[string]string{"entries/2026-01-09-session.md": "part-0", "entries/2026-01-10-session.md": "part-1"} { // as in the first stage
			_, rest, _ := strings.Cut(files[name], "[[pulls]]")
			files[name] = "```toml\nfitted = [\"" + again + "\"]\n[[pulls]]" + rest
		}
		m := rendered(t, inMemory(files))
		if got := words(m, last); strings.Contains(got, gain) != isTold || strings.Contains(got, earlier) != isTold {
			t.Errorf("hiding %s: %s", hide, got)
		}
	}
}

// The drawing leaves the earliest stages out, and the table below it has all of them.
func TestTheTableOfGainsHasAllStages(t *testing.T) {
	m := rendered(t, inMemory(longPulls(9, 1, 30)))
	page := string(m.Page("power.html"))
	_, table, _ := strings.Cut(page, "Gain at round engine speeds")
	table, _, _ = strings.Cut(table, "</table>")
	if !strings.Contains(page, "and 3 earlier, in the table") {
		t.Error("the drawing doesn't say how many stages it leaves out")
	}
	if rows := strings.Count(table, `scope="row"`); rows != 9 { // eight stages and their sum
		t.Errorf("%d rows: %s", rows, table)
	}
	for i := 1; i < 9; i++ {
		if !strings.Contains(table, fmt.Sprintf("part-%d", i)) {
			t.Errorf("the table lacks part-%d: %s", i, table)
		}
	}
}

// A stage that can't be told has its row, too, with the reason.
func TestTheTableOfGainsSaysWhatIsNotTold(t *testing.T) {
	files := longPulls(4, 1, 30)
	for i, name := range []string{"entries/2026-01-01-session.md", "entries/2026-01-02-session.md", "entries/2026-01-03-session.md", "entries/2026-01-04-session.md"} {
		files[name] = strings.Replace(files[name], "[[pulls]]\n", fmt.Sprintf("[[pulls]]\ngear = %d\n", 4+i/3), 1)
	}
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	got := lineWith(t, m, "power.html", `<tr><th scope="row">part-3<span`)
	if !strings.HasPrefix(got, "part-3 not told: the two sessions were pulled in two gears: 4 before, 5 after –") || strings.ContainsAny(got, "±") {
		t.Errorf("the row is %q", got)
	}
}
