package upkeep_test

import (
	"fmt"
	"slices"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/upkeep"
)

// compiled compiles a journal as of a day; an empty one is that of its newest entry.
func compiled(t *testing.T, asOf string, files map[string]string) *journal.Result {
	t.Helper()
	folder := fstest.MapFS{}
	for name, text := range files {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	result, err := journal.Compile(folder, journal.Options{SkipHTML: true, AsOf: asOf})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// What was up on the old meter is told by the old meter.
func TestWhatWasUpBeforeTheMeterWasChanged(t *testing.T) {
	items := compiled(t, "", map[string]string{
		"build.toml":                   "[machine]\nmeter = \"km\"\n",
		"limits.toml":                  "[oil.change]\nevery = \"100 km\"\nlow = \"0.5 L\"\n[chain.slack]\nevery = \"1000 km\"\nlow = \"20 mm\"\n",
		"entries/2026-01-01-start.md":  "```toml\nmeter = 18240\n[set]\noil.change = \"0.9 L\"\nchain.slack = \"25 mm\"\n```\n",
		"entries/2026-02-01-clock.md":  "```toml\nmeter = 40\nmeter-was = 18400\n```\n",
		"entries/2026-03-01-ridden.md": "```toml\nmeter = 340\n```\n",
	}).Upkeep
	var got []string
	for _, item := range items {
		got = append(got, item.Path+" "+item.State.String()+" "+item.Spans[0].Meter.Shown().String())
	}
	// 160 km by the old meter, 300 by the new one: 100 km were up at 18340, 1000 will be up 540 km on.
	if want := []string{"oil.change overdue 18340 km", "chain.slack not yet 880 km"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// Work to come back to that says neither when nor on which day is not forgotten.
func TestWorkWithoutADay(t *testing.T) {
	items := compiled(t, "", map[string]string{
		"build.toml":                  "",
		"entries/2026-01-01-start.md": "```toml\n[[later]]\ndo = \"see to the choke\"\n```\n",
	}).Upkeep
	if len(items) != 1 || items[0].State != upkeep.Unclear || items[0].Spans[0].Reason != "neither `after` nor `on` says when" {
		t.Errorf("%+v", items)
	}
}

// A day that was asked for counts whoever may see what, and what a part's slot leaves unclear is only what parts have a say in.
func TestWhatIsUnclearAndWhatIsHidden(t *testing.T) {
	result := compiled(t, "2027-01-01", map[string]string{
		"build.toml":                   "",
		"limits.toml":                  "[oil.change]\nevery = \"6 months\"\nlow = \"0.5 L\"\n[lash]\nevery = \"6 months\"\nintake = \"0.08 ± 0.02 mm\"\n",
		"parts.toml":                   "[cam]\nslot = \"cam shaft\"\n[cam.limits.lash]\nintake = \"0.10 ± 0.02 mm\"\n",
		"entries/2026-01-01-start.md":  "```toml\n[set]\noil.change = \"0.9 L\"\nlash.intake = \"0.08 mm\"\n```\n",
		"entries/2026-02-01-secret.md": "```toml\n```\n\nHidden.\n",
	})
	items := upkeep.OfShown(result.Journal, func(e *model.Entry) bool { return e.Path == "2026-01-01-start" })
	if len(items) != 1 || items[0].Path != "oil.change" || items[0].State != upkeep.Overdue {
		t.Errorf("%+v", items)
	}
}

// A meter that leaps has run nothing: one that isn't believed, and one that stays where it leapt to.
func TestWhatAMeterLeaptWasNotRun(t *testing.T) {
	for _, c := range []struct {
		then, want string
	}{
		{"meter = 416500", "oil.change not yet 53200 km 50 km"},           // 41200 + 12000, 50 km after it was changed
		{"meter = 41650", "oil.change not yet 53200 km 450 km"},           //
		{"meter = 416500 # stays", "oil.change not yet 428450 km 150 km"}, // 50 km until it leapt to 416500, 100 since: 11950 to go
	} {
		files := map[string]string{
			"build.toml":                   "[machine]\nmeter = \"km\"\n",
			"limits.toml":                  "[oil.change]\nevery = \"12000 km\"\nlow = \"0.5 L\"\n",
			"entries/2026-01-01-start.md":  "```toml\nmeter = 41200\n[set]\noil.change = \"0.9 L\"\n```\n",
			"entries/2026-02-01-ridden.md": "```toml\nmeter = 41250\n```\n",
			"entries/2026-03-01-ridden.md": "```toml\n" + c.then + "\n```\n",
		}
		if c.then == "meter = 416500 # stays" {
			files["entries/2026-03-08-ridden.md"] = "```toml\nmeter = 416600\n```\n"
		}
		item := compiled(t, "", files).Upkeep[0]
		span := item.Spans[0]
		if got := item.Path + " " + item.State.String() + " " + span.Meter.Shown().String() + " " + fmt.Sprintf("%.0f km", span.Used/1000); got != c.want {
			t.Errorf("%s: %q, want %q", c.then, got, c.want)
		}
	}
}
