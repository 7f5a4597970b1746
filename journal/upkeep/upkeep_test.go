package upkeep_test

import (
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
