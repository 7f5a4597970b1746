package journal_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
	"example.org/locknut/render"
)

// Orders that can't be are each found where they stand, at every moment of the journal, and the site is made all the same.
func TestOrdersThatCantBe(t *testing.T) {
	folder := fstest.MapFS{}
	for name, text := range map[string]string{
		"build.toml":  "fitted = [\"std\", \"chain\"]\n[machine]\nyear = 1987\nmeter = \"km\"\n",
		"limits.toml": "[oil.change]\nnominal = \"1 L\"\ntolerance = \"0.1 L\"\nevery = [\"3000 km\", \"12 months\", \"3 weeks\"]\n",
		"parts.toml": "[std]\nslot = \"cam\"\nevery = [\"500 km\", \"12 months\"]\n[hill]\nslot = \"cam\"\nthen = [\"oil.change\"]\n[race]\nslot = \"cam\"\n" +
			"[late]\nevery = \"2 weeks\"\n[early]\n[chain]\nevery = \"100 km\"\n",
		"tools.toml":                       "[jug]\nfor = [\"oil\"]\nerror = \"2 %\"\ncalibrated = [0001-01-01, 9999-12-31]\ncalibrate-every = \"12 months\"\n",
		"entries/0001-01-01-dawn.md":       "```toml\nmeter = 5\nwith = [\"jug\"]\n[set]\noil.change = \"1 L\"\n```\n",
		"entries/2026-03-01-early.md":      "```toml\nmeter = 9\nremoved = [\"early\"]\nfitted = [\"late\"]\n[[later]]\ndo = \"Oil\"\nreading = \"oil.change\"\nafter = \"9999 months\"\non = 9999-12-31\n```\n",
		"entries/2026-03-02-two.md":        "```toml\nmeter = 8\nfitted = [\"hill\", \"race\"]\nremoved = [\"std\"]\n```\n",
		"entries/2026-03-03-a.md":          "```toml\nfitted = [\"hill\"]\n```\n",
		"entries/2026-03-03-b.md":          "```toml\nfitted = [\"race\"]\n```\n",
		"entries/2026-03-04-chain.md":      "```toml\nremoved = [\"chain\"]\nfitted = [\"chain\"]\n```\n",
		"entries/2026-03-05-bought.md":     "```toml\nbought = [\"late\"]\nfitted = [\"early\"]\nremoved = [\"hill\"]\n```\n",
		"entries/9999-12-31-end-of-all.md": "```toml\nmeter = 999999999\nwith = [\"jug\"]\n[set]\noil.change = \"1 L\"\n```\n",
	} {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	want := []string{
		"warning before-bought/2026-03-01-early/late",
		"warning before-machine/0001-01-01-dawn/date",
		"warning far-off-date/9999-12-31-end-of-all/date",
		"warning meter-backwards/2026-03-02-two/meter",
		"note not-fitted/2026-03-01-early/removed/early",
		"error not-fitted/2026-03-05-bought/removed/hill",
		"note removed-and-fitted/2026-03-04-chain/chain",
		"error slot-twice/2026-03-02-two/hill/race",
	}
	result, err := journal.Compile(folder, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range result.Findings {
		timed := f.Rule == "due" || f.Rule == "overdue" || f.Rule == "recheck-due" // follow from the year 9999
		if f.State == source.Open && !timed {
			got = append(got, f.Severity.String()+" "+f.ID())
		}
	}
	for _, line := range missingFrom(want, got) {
		t.Errorf("not found:   %s", line)
	}
	for _, line := range missingFrom(got, want) {
		t.Errorf("unexpected:  %s", line)
	}
	for _, name := range slices.Sorted(maps.Keys(folder)) {
		entry, is := strings.CutPrefix(name, "entries/")
		if !is {
			continue
		}
		t.Run(entry, func(t *testing.T) {
			result, err := journal.Compile(folder, journal.Options{AsOf: entry})
			if err != nil {
				t.Fatal(err)
			}
			var site render.Memory
			if _, err := render.Site(result, &site); err != nil {
				t.Fatal(err)
			}
			page := fmt.Sprintf("entries/%s.html", strings.TrimSuffix(entry, ".md"))
			if site.Page(page) == nil {
				t.Errorf("there is no %s", page)
			}
		})
	}
}
