package render

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/report"
)

// hiding adds to the shed what each word of `hide` could let out: a plain figure, a finding about it, a link to it.
func hiding(word string) map[string]string {
	files := with(shed(), map[string]string{
		"tools.toml": "[quillgauge]\ntitle = \"Quill gauge\"\nfor = [\"lash\"]\nrange = \"0.05..0.09 mm\"\nleeves = [\"1 mm\"]\n",
		"entries/2026-03-05-secret.md": "```toml\ntitle = \"Zanzibar night\"\ntags = [\"private\"]\nremoved = [\"cam\"]\nwith = [\"nogauge\"]\n[found]\nlash.intake.right = \"0.33 mm\"\nlash.intake.quokka = \"0.09 mm\"\nfloat.zanzibar = \"0.44 mm\"\nengine.bore = \"61.7 mm\"\n" +
			"[set]\ntorque.drain-plug = \"91 lbf\"\n[[pulls]]\ndata = [\"data/secret.csv\"]\n```\n\nNobody may know. [cam](part:cam)\n",
		"entries/2026-03-06-open.md": "```toml\ntitle = \"An open day\"\nspent = [{ for = \"fuel\", price = \"31.17 GBP\" }, { for = \"bread\", price = \"12.34 quid\" }]\nhours = \"9.875 h\"\n" +
			"[set]\nlash.intake.left = \"0.30 mm\"\nfees.entry = \"77.31 GBP\"\n[[accept]]\nfinding = \"out-of-limits\"\nat = \"lash.intake.left\"\nwhy = \"Pelican says so\"\n" +
			"[[pulls]]\npeak = \"20.5 hp\"\nair = { temp = \"19 °C\", altitude = \"1234 m\", sea-level = \"1017 hPa\" }\n```\n\n" +
			"Seen with [the gauge](tool:quillgauge), after [that night](entry:2026-03-05-secret), [?](value:2026-03-05-secret/found/float.zanzibar), " +
			"[fees](value:fees.entry).\n\n![A heron on the tank](photos/heron.jpg)\n",
		"data/secret.csv": "rpm,power [hp]\n4000,ostrich\n",
	})
	files["build.toml"] = strings.Replace(files["build.toml"], "[site]\n", "[site]\nhide = ["+word+"]\n", 1)
	return files
}

func TestWhatHideNamesIsNowhere(t *testing.T) {
	shown := everything(rendered(t, inMemory(hiding(""))))
	for _, c := range []struct {
		hide  string
		words []string
		pages []string // that are no more
	}{
		{"spend", []string{"145.25", "31.17", "quid", "77.31", "9.40", "Spent", "Price"}, nil},
		{"hours", []string{"7.25", "9.875"}, nil},
		{"tools", []string{"Quill gauge", "quillgauge", "leeves", "tools.html", "tools/"}, []string{"tools.html", "tools/quillgauge.html"}},
		{"accepted", []string{"Pelican", "Accepted"}, nil},
		{"places", []string{"1234", "altitude", "1017", "limits.toml:2</code>"}, nil},
		{"photos", []string{"heron", "dented tank"}, nil},
		{"private", []string{"Zanzibar", "zanzibar", "quokka", "2026-03-05", "0.33", "0.44", "61.7", "lbf</code>", "nogauge", "ostrich", "secret", ">private<"},
			[]string{"entries/2026-03-05-secret.html", "tags/private.html", "paths/float.zanzibar.html"}},
	} {
		t.Run(c.hide, func(t *testing.T) {
			m := rendered(t, inMemory(hiding(`"`+c.hide+`"`)))
			checkSite(t, m)
			all := everything(m)
			for _, word := range c.words {
				if !strings.Contains(shown, word) {
					t.Errorf("%q is nowhere even when nothing is hidden: the test proves nothing", word)
				}
				if i := strings.Index(all, word); i >= 0 {
					t.Errorf("%q got out: …%s…", word, all[max(0, i-120):min(len(all), i+120)])
				}
			}
			for _, page := range c.pages {
				if m.Page(page) != nil {
					t.Errorf("%s is there", page)
				}
			}
			if c.hide != "private" && !strings.Contains(all, "Zanzibar night") {
				t.Error("something else was hidden with it")
			}
		})
	}
}

// Where the tags of an entry can't be read it may be one that is hidden, so it is.
func TestAnEntryWhoseTagsAreUnclearIsHidden(t *testing.T) {
	for _, c := range []struct{ name, head string }{
		{"a head that can't be read", "title = \"x\ntags = [\"private\"]"},
		{"a key mistyped", "tag = [\"private\"]"},
		{"another kind", "tags = 5"},
		{"a name that is none", "tags = [\"fine\", \"private!\"]"},
		{"below a table", "[set]\ntags = [\"private\"]"},
		{"the same key twice", "tags = [\"fine\"]\nTags = [\"private\"]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := hiding(`"private"`)
			files["entries/2026-03-07-unclear.md"] = "```toml\n" + c.head + "\n```\n\nKookaburra.\n"
			m := rendered(t, inMemory(files))
			checkSite(t, m)
			if all := everything(m); strings.Contains(all, "Kookaburra") || strings.Contains(all, "unclear") {
				t.Error("it got out")
			}
			files = hiding("")
			files["entries/2026-03-07-unclear.md"] = "```toml\n" + c.head + "\n```\n\nKookaburra.\n"
			if !strings.Contains(everything(rendered(t, inMemory(files))), "Kookaburra") {
				t.Error("it is hidden though no tag is")
			}
		})
	}
}

// A comment or another line of a file never reaches the site, whatever is found in it.
func TestSourceLinesAndCommentsStayAtHome(t *testing.T) {
	files := shed()
	files["limits.toml"] += "[jet]\nmain = \"10 mm\" # Wombat was here\n"
	files["entries/2026-03-09-comment.md"] = "```toml\n# Wombat again\n[set]\nlash.intake.left = \"0.99 mm\" # Wombat's guess\nlash.intake.right = \"0.08 furlongs\" # Wombat\n```\n"
	m := rendered(t, inMemory(files))
	if !strings.Contains(words(m, "warnings.html"), "0.99 mm") {
		t.Error("the findings that stand beside the comments are not there")
	}
	if strings.Contains(everything(m), "Wombat") {
		t.Error("a comment got out")
	}
}

// exported is what an export says of a value, as far as this test asks.
type exported struct {
	ID     string   `json:"id"`
	Entry  *string  `json:"entry"`
	Meter  *float64 `json:"meter"`
	Method *string  `json:"method"`
	Origin string   `json:"origin"`
	File   *string  `json:"file"`
}

func exportOf(t *testing.T, result *journal.Result, opts report.ExportOptions) map[string]exported {
	t.Helper()
	var out bytes.Buffer
	if err := report.ExportJSON(&out, result, opts); err != nil {
		t.Fatal(err)
	}
	var read struct{ Values []exported }
	if err := json.Unmarshal(out.Bytes(), &read); err != nil {
		t.Fatal(err)
	}
	values := map[string]exported{}
	for _, v := range read.Values {
		values[v.ID] = v
	}
	return values
}

// A public export and the site publish the same: of every value of the journal both have it, or neither has.
func TestAPublicExportHoldsWhatTheSiteDoes(t *testing.T) {
	for _, hide := range []string{"", "spend", "hours", "tools", "accepted", "places", "photos", "private"} {
		t.Run(hide, func(t *testing.T) {
			word := ""
			if hide != "" {
				word = `"` + hide + `"`
			}
			files := hiding(word)
			// Its tags can't be read, so it might be one of those that are hidden.
			files["entries/2026-03-07-unclear.md"] = "```toml\nmeter = 11999\ntag = [\"private\"]\n[set]\nfloat.unclear = \"0.5 mm\"\n```\n"
			files["entries/2026-03-08-after.md"] = "```toml\n[set]\nfloat.after = \"0.5 mm\"\n```\n"
			result := compiled(t, inMemory(files))
			var m Memory
			if _, err := Site(result, &m); err != nil {
				t.Fatal(err)
			}
			var ids []string
			for _, r := range allRead(t, &m) {
				ids = append(ids, r.ids...)
			}
			all, public := exportOf(t, result, report.ExportOptions{}), exportOf(t, result, report.ExportOptions{Public: true})
			if all["2026-03-06-open/set/fees.entry"].ID == "" || all["2026-03-07-unclear/set/float.unclear"].ID == "" || len(all) < 12 {
				t.Fatalf("only %d values: the test proves nothing", len(all))
			}
			for id := range all {
				_, there := public[id]
				if onSite := slices.Contains(ids, anchor(id)); there != onSite {
					t.Errorf("%s: in the export %t, on the site %t", id, there, onSite)
				}
			}
			for id, v := range public {
				if v.Entry != nil && m.Page("entries/"+*v.Entry+".html") == nil {
					t.Errorf("%s names the entry %s, which has no page", id, *v.Entry)
				}
				if v.Origin != "worked" && v.Method != nil && m.Page("tools/"+*v.Method+".html") == nil {
					t.Errorf("%s names the tool %s, which has no page", id, *v.Method)
				}
				if v.File != nil && hide == "places" {
					t.Errorf("%s says where it stands", id)
				}
			}
			gone := map[string]bool{"2026-03-06-open/set/fees.entry": hide == "spend", "2026-03-05-secret/found/float.zanzibar": hide == "private", "2026-03-07-unclear/set/float.unclear": hide == "private"}
			for id, isGone := range gone {
				if _, there := public[id]; there == isGone {
					t.Errorf("%s: in the export %t", id, there)
				}
			}
			meter := 11999.0
			if hide == "private" {
				meter = 11820 // that of the last entry which is published
			}
			if got := public["2026-03-08-after/set/float.after"].Meter; got == nil || *got != meter {
				t.Errorf("the meter of the entry after is %v in the export, want %v", got, meter)
			}
			if got := strings.Contains(everything(&m), "11999"); got != (hide != "private") {
				t.Errorf("the meter of the unclear entry is on the site: %t", got)
			}
		})
	}
}
