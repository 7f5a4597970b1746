package render

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.org/locknut/journal/markdown"
	"example.org/locknut/render/chart"
	"example.org/locknut/themes"
)

// season is a build with an entry a day, each with pulls after a part that went in.
func season(days int) map[string]string {
	files := map[string]string{"build.toml": "title = \"Season\"\n"}
	var parts strings.Builder
	for i := range days {
		fmt.Fprintf(&parts, "[jet-%d]\nslot = \"jet\"\n", i)
		files[fmt.Sprintf("entries/2026-%02d-%02d-day.md", 1+i/28, 1+i%28)] = fmt.Sprintf("```toml\nfitted = [\"jet-%d\"]\n[[pulls]]\npeak = \"%d.0 hp\"\n```\n", i, 20+i)
	}
	files["parts.toml"] = parts.String()
	return files
}

var numberRow = regexp.MustCompile(`<tr id="[^"]*/worked/([^"]*)"`)

// The first pulls begin the first stage; each later day ends one, so that its page has that stage's gain, that of its part, and the total.
func TestTheGainsOfAnEntryAreItsOwn(t *testing.T) {
	m := rendered(t, inMemory(season(12)))
	checkSite(t, m)
	for i, want := range [][]string{
		0:  nil,
		1:  {"gain.parts.jet-1-for-jet-0", "gain.stage.2026-01-02-day", "gain.total"},
		11: {"gain.parts.jet-11-for-jet-10", "gain.stage.2026-01-12-day", "gain.total"},
	} {
		if i > 1 && i < 11 {
			continue
		}
		name := fmt.Sprintf("entries/2026-01-%02d-day.html", i+1)
		var got []string
		for _, row := range numberRow.FindAllStringSubmatch(string(m.Page(name)), -1) {
			got = append(got, row[1])
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s has the numbers %q, want %q", name, got, want)
		}
	}
	// Eleven stages of 1 hp each; six of them are shown, the newest last.
	row := lineWith(t, m, "entries/2026-01-12-day.html", `/worked/gain.total"`)
	if !strings.Contains(row, "11.0 hp") || !strings.Contains(row, "5 earlier figures; stage = 1.0 hp") || strings.Count(row, "stage =") != 6 {
		t.Errorf("the total says %q", row)
	}
	if got := strings.Count(string(m.Page("numbers/cumulative-gain.html")), "<var>stage</var>"); got != 11 {
		t.Errorf("the page of the total has %d stages, want 11", got)
	}
}

// An entry that mentions the gain of an earlier stage leads to where it stands.
func TestALinkToAnEarlierGain(t *testing.T) {
	files := season(3)
	files["entries/2026-02-01-look-back.md"] = "```toml\n```\nThe second jet gave [?](value:gain.stage.2026-01-02-day).\n"
	files["entries/plan.md"] = "```toml\n```\nAnother [?](value:gain.total).\n"
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	want := `<a href="../numbers/stage-gain.html#build/worked/gain.stage.2026-01-02-day"><span class="figure">1.0` + thinSpace + `hp</span></a>`
	if got := string(m.Page("entries/2026-02-01-look-back.html")); !strings.Contains(got, want) {
		t.Errorf("it lacks %s:\n%s", want, got)
	}
}

func TestLongListsAreSpreadOverPages(t *testing.T) {
	files := map[string]string{"build.toml": "title = \"Long\"\n", "limits.toml": "[lash]\nintake = \"0.08 ± 0.02 mm\"\n", "entries/plan.md": "```toml\n```\nSome day.\n"}
	for i := range 401 {
		files[fmt.Sprintf("entries/20%02d-01-01-%03d.md", 10+i/40, i)] = "```toml\ntags = [\"daily\"]\n[found]\nlash.intake = \"0.3 mm\"\n```\n"
	}
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	for _, c := range []struct {
		page    string
		entries int
		says    string
	}{
		{"entries.html", 201, "Page 1 Page 2 Page 3"}, {"entries-2.html", 200, "Entries, page 2"}, {"entries-3.html", 1, "2010-01-01-000"},
		{"tags/daily.html", 200, "Tag: daily"}, {"tags/daily_2.html", 200, "Tag: daily, page 2"}, {"tags/daily_3.html", 1, "2010-01-01-000"},
	} {
		text := string(m.Page(c.page))
		list := text[strings.Index(text, "<main"):]
		if got := strings.Count(list, "<ol class=\"entries\">"); got == 0 {
			t.Errorf("%s has no list", c.page)
		}
		if got := strings.Count(list, "href=\"entries/") + strings.Count(list, "href=\"../entries/"); got != c.entries {
			t.Errorf("%s has %d entries, want %d", c.page, got, c.entries)
		}
		if got := words(m, c.page); !strings.Contains(got, c.says) {
			t.Errorf("%s doesn't say %q", c.page, c.says)
		}
	}
	if text := words(m, "entries-2.html"); strings.Contains(text, "Plans") || m.Page("entries-4.html") != nil {
		t.Error("the plans stand twice, or there is a fourth page")
	}
	total := map[string]int{}
	for _, name := range m.Names() {
		if strings.HasPrefix(name, "warnings") || strings.HasPrefix(name, "rules/out-of-limits") {
			n := strings.Count(string(m.Page(name)), `<li class="finding`)
			if n == 0 || n > 200 {
				t.Errorf("%s has %d findings", name, n)
			}
			total[path.Dir(name)] += n
		}
	}
	findings := compiled(t, inMemory(files)).Findings
	out := 0
	for _, f := range findings {
		if f.Rule == "out-of-limits" {
			out++
		}
	}
	if total["."] != len(findings) || total["rules"] != out || out != 401 {
		t.Errorf("%v findings on the pages, want %d, and 401 of one rule, of which there are %d", total, len(findings), out)
	}
}

// Two sizes give a clearance at each position, by hand: 53.045 − 53.010 is 0.035 and 53.090 − 53.010 is 0.080; 0.05 of 0.02 mm is 250 %.
func TestWorkedOutNumbersStandWithTheirLimit(t *testing.T) {
	m := rendered(t, inMemory(map[string]string{
		"build.toml":            "[engine]\ncylinders = [\"left\", \"right\"]\n",
		"limits.toml":           "[clearance.piston]\nof = [\"bore-size\", \"piston.skirt\"]\nnominal = \"0.03 mm\"\ntolerance = \"0.02 mm\"\n",
		"entries/2026-03-01.md": "```toml\n[found]\nbore-size.left = \"53.045 mm\"\nbore-size.right = \"53.090 mm\"\npiston.skirt = \"53.010 mm\"\n```\n",
	}))
	checkSite(t, m)
	const path = "paths/clearance.piston.html"
	for _, want := range []string{
		"clearance .piston .left 0.035 mm worked out ✓ in ; from nominal +0.005 mm 25% of the tolerance",
		"clearance .piston .right 0.080 mm worked out ✕ out ; from nominal +0.050 mm 250% of the tolerance",
	} {
		if got := words(m, path); !strings.Contains(got, want) || strings.Contains(got, "No value") {
			t.Errorf("%s doesn't say %q:\n%s", path, want, got)
		}
	}
	if got, want := words(m, "limits.html"), "0.03 ± 0.02 mm left 0.035 mm right 0.080 mm ✕ out"; !strings.Contains(got, want) {
		t.Errorf("limits.html doesn't say %q:\n%s", want, got)
	}
	if got := words(m, "numbers/clearance.html"); !strings.Contains(got, "✕ out") {
		t.Errorf("the page of the family says %s", got)
	}
}

// The rules of coloured code, of drawings, of cards and of compact tables are the same in every theme, which gives the colours alone.
func TestCodeIsColouredInEveryTheme(t *testing.T) {
	for _, theme := range themes.Names() {
		m := rendered(t, inMemory(map[string]string{"build.toml": "[site]\ntheme = \"" + theme + "\"\n"}))
		css := string(m.Page("theme.css"))
		own, err := themes.CSS(theme)
		if err != nil {
			t.Fatal(err)
		}
		if css != markdown.HighlightCSS()+chart.CSS()+string(own)+string(cardCSS)+string(tablesCSS) || strings.Contains(string(own), ".code-") {
			t.Errorf("%s: the rules of code are not those of one place:\n%.400s", theme, css)
		}
		if !strings.Contains(string(own), "--code-comment:") {
			t.Errorf("%s gives comments no colour", theme)
		}
	}
}

func TestAnUnknownThemeIsTheUsualOne(t *testing.T) {
	usual, err := themes.CSS(themes.Usual)
	if err != nil {
		t.Fatal(err)
	}
	m := rendered(t, inMemory(map[string]string{"build.toml": "[site]\ntheme = \"workshpo\"\n"}))
	if !strings.Contains(string(m.Page("theme.css")), string(usual)) {
		t.Error("it is another")
	}
}

// Every list goes on at two hundred, and a link to a row leads to the page that has it: the value of the build sheet is the oldest of all.
func TestLongListsGoOnOnFurtherPages(t *testing.T) {
	files := map[string]string{"build.toml": "title = \"Long\"\n[engine]\nbore = \"53.00 mm\"\nstroke = \"56.4 mm\"\n"}
	var limits, parts, tools strings.Builder
	for i := range 450 {
		files[fmt.Sprintf("entries/%d-%02d-%02d-bore.md", 2020+i/336, 1+i/28%12, 1+i%28)] = "```toml\n[found]\nengine.bore = \"53.01 mm\"\n```\nFor [it](part:part-7).\n"
	}
	for i := range 250 {
		fmt.Fprintf(&limits, "[gap.place-%d]\nlimit = \"0.1..0.2 mm\"\n", i)
		fmt.Fprintf(&parts, "[part-%d]\nslot = \"place-%d\"\n", i, i)
		fmt.Fprintf(&tools, "[leaf-%d]\nfor = [\"gap\"]\n", i)
	}
	files["limits.toml"], files["parts.toml"], files["tools.toml"] = limits.String(), parts.String(), tools.String()
	m := rendered(t, inMemory(files))
	checkSite(t, m)
	for name, rows := range map[string]int{
		"limits.html": 200, "limits-2.html": 52, // and the paths of bore and stroke, which have no limit
		"parts.html": 200, "parts-2.html": 50, "tools.html": 200, "tools-2.html": 50,
		"paths/engine.bore.html": 200, "paths/engine.bore_2.html": 200, "paths/engine.bore_3.html": 51,
	} {
		got := strings.Count(string(m.Page(name)), `<th scope="row">`)
		if got != rows {
			t.Errorf("%s has %d rows, want %d", name, got, rows)
		}
	}
	for name, mentions := range map[string]int{"parts/part-7.html": 200, "parts/part-7_mentions-2.html": 200, "parts/part-7_mentions-3.html": 50} {
		if got := strings.Count(string(m.Page(name)), `: <span class="how">mentions it</span>`); got != mentions {
			t.Errorf("%s has %d mentions, want %d", name, got, mentions)
		}
	}
	for _, own := range []string{`id="build/sheet/engine.bore"`, `href="#build/sheet/engine.bore"`} {
		if !strings.Contains(string(m.Page("paths/engine.bore_3.html")), own) {
			t.Errorf("the last page of the bore has no %s: the value of the build sheet is the last row of all", own)
		}
	}
}

// By hand, of 0.08 ± 0.02 mm: 0.12 is 6, 0.40 is 20 and 29.92 is 1496 times 0.02.
func TestAFarDeviationIsToldInTimes(t *testing.T) {
	for value, want := range map[string]string{"0.20 mm": "600% of the tolerance", "0.48 mm": "20 times the tolerance", "30 mm": "over 1000 times the tolerance"} {
		m := rendered(t, inMemory(map[string]string{
			"build.toml": "", "limits.toml": "[lash]\nintake = \"0.08 ± 0.02 mm\"\n",
			"entries/2026-03-01.md": "```toml\n[found]\nlash.intake = \"" + value + "\"\n```\n",
		}))
		if got := words(m, "entries/2026-03-01.html"); !strings.Contains(got, want) || !strings.Contains(got, "as of 2026-03-01") {
			t.Errorf("%s doesn't say %q and its day:\n%s", value, want, got)
		}
	}
}

// What is out leads from the page of its path to the finding that says so; what is in leads nowhere.
func TestWhatIsOutLeadsToItsFinding(t *testing.T) {
	m := rendered(t, inMemory(with(pulled(), map[string]string{
		"limits.toml":               shed()["limits.toml"] + "[engine.displacement]\nhigh = \"240 cm³\"\n[power.peak]\nlow = \"24 hp\"\n[power.torque]\nlow = \"1 N·m\"\n",
		"entries/2026-03-04-out.md": "```toml\n[found]\nlash.intake.left = \"0.8 mm\"\nlash.intake.right = \"0.13 mm\"\noil.temp = \"84 °C\"\n```\n",
	})))
	checkSite(t, m)
	for page, want := range map[string][]string{
		"paths/lash.intake.left.html": {
			"suspected-slip/2026-03-04-out/found/lash.intake.left", "suspected-slip/2026-03-04-out/found/lash.intake.left", // now, and in the history
			"out-of-limits/2026-03-01-one/found/lash.intake.left",
		},
		"paths/lash.intake.right.html": {"out-of-limits/2026-03-04-out/found/lash.intake.right", "out-of-limits/2026-03-04-out/found/lash.intake.right"},
		"paths/lash.intake.html": {
			"suspected-slip/2026-03-04-out/found/lash.intake.left", "out-of-limits/2026-03-04-out/found/lash.intake.right", // now
			"out-of-limits/2026-03-04-out/found/lash.intake.right", "suspected-slip/2026-03-04-out/found/lash.intake.left",
			"out-of-limits/2026-03-01-one/found/lash.intake.left",
		},
		"paths/oil.temp.html":            nil,
		"paths/engine.displacement.html": {"out-of-limits/build.toml/worked/engine.displacement"},
		"paths/power.peak.html":          {"out-of-limits/2026-03-08-cam/pulls/power.peak", "out-of-limits/2026-02-01-before/pulls/power.peak"},
		"paths/power.torque.html":        nil,
	} {
		var got []string
		for _, link := range regexp.MustCompile(`<a href="\.\./warnings\.html#([^"]*)"><span class="verdict out">`).FindAllStringSubmatch(string(m.Page(page)), -1) {
			got = append(got, link[1])
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s leads to\n%q\nwant\n%q", page, got, want)
		}
	}
}

// A row that becomes a block on a phone has the head of its column in each cell; the table ends that.
func TestCellsOfAStackedTableHaveTheirHeads(t *testing.T) {
	m := rendered(t, inMemory(pulled()))
	cell := regexp.MustCompile(`<td data-head="([^"]*)">`)
	for page, want := range map[string][]string{
		"limits.html": {"Limit", "Now", "Verdict", "Who says so"},
		"power.html":  {"Changed since the session before", "Mean peak power", "Torque", "Gear", "Air", "Correction"},
		"parts.html":  {"Place", "Since", "Mass", "Price"},
	} {
		_, section, _ := strings.Cut(string(m.Page(page)), map[string]string{"power.html": `id="section.sessions"`}[page])
		_, table, _ := strings.Cut(section, `<table class="stack">`)
		_, rows, _ := strings.Cut(table, "<tbody>\n")
		row, _, _ := strings.Cut(rows, "\n")
		var got []string
		for _, c := range cell.FindAllStringSubmatch(row, -1) {
			got = append(got, c[1])
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: the cells of the first row have the heads %q, want %q", page, got, want)
		}
	}
	power := string(m.Page("power.html"))
	if after := power[strings.Index(power, `id="section.band"`):]; strings.Contains(after, "data-head") || !strings.Contains(after, "<td>") {
		t.Errorf("the table after it has heads in its cells:\n%s", after)
	}
}
