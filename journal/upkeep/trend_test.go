package upkeep_test

import (
	"fmt"
	"math"
	"slices"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/upkeep"
)

func trends(t *testing.T, files map[string]string) []upkeep.Trend {
	t.Helper()
	folder := fstest.MapFS{}
	for name, text := range files {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	result, err := journal.Compile(folder, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	return upkeep.Trends(result.Journal, func(*model.Entry) bool { return true }, func(*model.Value) bool { return true })
}

// worn is a journal of a pad that loses 0.1 mm in 1000 km, read by a scale whose steps give it a standard uncertainty of 0.01 mm, from 4 mm down.
func worn(more map[string]string) map[string]string {
	files := map[string]string{
		"build.toml":  "[machine]\nmeter = \"km\"\n",
		"limits.toml": "[pad]\nlow = \"3.0 mm\"\nservice = \"2.0.. mm\"\n",
		"tools.toml":  "[vernier]\nfor = [\"pad\"]\nresolution = \"0.0346410 mm\"\n",
	}
	for i := range 4 {
		files[fmt.Sprintf("entries/2026-0%d-01-look.md", i+1)] = fmt.Sprintf("```toml\nmeter = %d\nwith = [\"vernier\"]\n[found]\npad = \"%.1f mm\"\n```\n", 10000+1000*i, 4-0.1*float64(i))
	}
	for name, text := range more {
		files[name] = text
	}
	return files
}

// By hand: 4.0 at 10000 km and 0.1 mm less each 1000 km is 2.0 at 30000 km. The slope's uncertainty by the formula of a straight line through four
// points 1000 km apart, each good to 0.01 mm: 0.01/√5 a 1000 km; the level's 0.01/√4 at 11500 km, where it is 3.85; 18500 km ahead that is
// √(0.05² + (18.5·0.04472)²) = 0.8288 thousand km. What the tool gets wrong in all of them alike, 0.01 mm too, adds nothing to the slope and 0.1
// thousand km to the level's: 0.8348.
func TestATrendMakesForItsServiceBound(t *testing.T) {
	testTrend(t, worn(nil), 828.8e3)
	testTrend(t, worn(map[string]string{"tools.toml": "[vernier]\nfor = [\"pad\"]\nresolution = \"0.0346410 mm\"\nuncertainty = \"0.02 mm\"\n"}), 834.8e3)
}

func testTrend(t *testing.T, files map[string]string, std float64) {
	t.Helper()
	list := trends(t, files)
	if len(list) != 1 || list[0].Reason != "" {
		t.Fatalf("%+v", list)
	}
	trend := list[0]
	if math.Abs(trend.Slope.Value*1e9+0.1) > 1e-9 || math.Abs(trend.Slope.Std()*1e9-0.01/math.Sqrt(5)) > 1e-6 {
		t.Errorf("slope %v ± %v mm in 1000 km", trend.Slope.Value*1e9, trend.Slope.Std()*1e9)
	}
	if math.Abs(trend.At.Value-30000e3) > 1e-3 || math.Abs(trend.At.Expanded()-2*std) > 2e2 || math.Abs(trend.Left-17e6) > 1e-3 {
		t.Errorf("at %v ± %v m, in %v m", trend.At.Value, trend.At.Expanded(), trend.Left)
	}
}

// What was set anew begins a run of its own, and the drift of both counts.
func TestASettingBeginsARun(t *testing.T) {
	list := trends(t, worn(map[string]string{
		"entries/2026-05-01-new.md":  "```toml\nmeter = 14000\nwith = [\"vernier\"]\n[found]\npad = \"3.6 mm\"\n[set]\npad = \"5.0 mm\"\n```\n",
		"entries/2026-06-01-look.md": "```toml\nmeter = 15000\nwith = [\"vernier\"]\n[found]\npad = \"4.9 mm\"\n```\n",
	}))
	if len(list) != 1 || math.Abs(list[0].Slope.Value*1e9+0.1) > 1e-9 || math.Abs(list[0].At.Value-44000e3) > 1e-3 {
		t.Fatalf("%+v", list)
	}
}

// A part that makes a reading stale begins everything anew.
func TestAPartBeginsTheTrendAnew(t *testing.T) {
	files := worn(map[string]string{
		"parts.toml":                 "[pads]\nthen = [\"pad\"]\n",
		"entries/2026-05-01-new.md":  "```toml\nmeter = 14000\nwith = [\"vernier\"]\nfitted = [\"pads\"]\n[set]\npad = \"5.0 mm\"\n```\n",
		"entries/2026-06-01-look.md": "```toml\nmeter = 15000\nwith = [\"vernier\"]\n[found]\npad = \"4.7 mm\"\n```\n",
	})
	list := trends(t, files)
	if len(list) != 1 || math.Abs(list[0].Slope.Value*1e9+0.3) > 1e-9 || len(list[0].Values) != 2 {
		t.Fatalf("%+v", list)
	}
}

func TestTrendsThatTellNothing(t *testing.T) {
	for _, c := range []struct {
		files map[string]string
		want  []string
	}{
		{map[string]string{"tools.toml": "[vernier]\nfor = [\"pad\"]\nrepeatability = \"2 mm\"\n"}, []string{"the drift is less than three times its standard uncertainty: it may be scatter"}},
		{map[string]string{"limits.toml": "[pad]\nhigh = \"5 mm\"\n"}, []string{"it drifts to the side that has no limit"}},
		{map[string]string{"limits.toml": "[pad]\nlow = \"0.5 mm\"\n"}, []string{"not within ten times the distance that it was read over"}},
		{map[string]string{"limits.toml": ""}, nil},
		{map[string]string{"limits.toml": "[pad]\nlow = \"3.9 mm\"\n"}, nil},                                                      // it is out already
		{map[string]string{"entries/2026-04-01-look.md": "```toml\nmeter = 15000\n[set]\npad = \"4.4 mm\"\n```\n"}, []string{""}}, // the first three tell
		{map[string]string{"tools.toml": "[feeler]\nfor = [\"pad\"]\nleaves = [\"3.6 mm\", \"3.9 mm\", \"4.2 mm\"]\n[vernier]\nfor = [\"pad\"]\n"}, []string{""}},
	} {
		var got []string
		for _, trend := range trends(t, worn(c.files)) {
			got = append(got, trend.Reason)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: %q, want %q", c.files, got, c.want)
		}
	}
}

// A setting that can't be read, has an open end, is words, or is hidden parts what was read before from what was read after all the same; and so does a
// change of tool, whose difference is no wear.
func TestWhatPartsStretches(t *testing.T) {
	files := func(between, with string) map[string]string {
		return map[string]string{
			"build.toml":            "[machine]\nmeter = \"km\"\n",
			"limits.toml":           "[pad]\nlow = \"2 mm\"\nhigh = \"5 mm\"\n",
			"tools.toml":            "[a]\nfor = [\"pad\"]\nerror = \"0.02 mm\"\n[b]\nfor = [\"pad\"]\nerror = \"0.02 mm\"\n",
			"entries/2026-01-01.md": "```toml\nmeter = 1000\nwith = [\"a\"]\n[found]\npad = \"3.00 mm\"\n```\n",
			"entries/2026-02-01.md": "```toml\nmeter = 5000\n" + between + "\n```\n",
			"entries/2026-03-01.md": "```toml\nmeter = 9000\nwith = [\"" + with + "\"]\n[found]\npad = \"3.90 mm\"\n```\n",
		}
	}
	if list := trends(t, files("", "a")); len(list) != 1 || list[0].Reason != "" {
		t.Fatalf("without a setting between: %+v", list)
	}
	for _, between := range []string{"[set]\npad = \"4,0 mm\"", "[set]\npad = \"4.0.. mm\"", "[set]\npad = \"new\"", "[set]\npad = \"4.00 mm\""} {
		if list := trends(t, files(between, "a")); len(list) != 0 {
			t.Errorf("%s: %+v", between, list)
		}
	}
	if list := trends(t, files("", "b")); len(list) != 0 {
		t.Errorf("by two tools: %+v", list)
	}
}

// The limit is the one in force now, and a crossing that lies behind says so.
func TestATrendMakesForTheLimitOfNow(t *testing.T) {
	files := worn(map[string]string{
		"parts.toml":                "[hub]\n[hub.limits]\npad = \"3.65.. mm\"\n",
		"entries/2026-05-01-hub.md": "```toml\nmeter = 14000\nfitted = [\"hub\"]\n```\n",
	})
	list := trends(t, files)
	if len(list) != 1 || math.Abs(list[0].At.Value-13500e3) > 1 || math.Abs(list[0].Left+500e3) > 1 {
		t.Fatalf("%+v", list)
	}
}

// Hidden readings tell nothing.
func TestHiddenReadingsAreInNoTrend(t *testing.T) {
	folder := fstest.MapFS{}
	for name, text := range worn(nil) {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	result, err := journal.Compile(folder, journal.Options{SkipHTML: true})
	if err != nil {
		t.Fatal(err)
	}
	first := func(e *model.Entry) bool { return e.Path == "2026-01-01-look" }
	if list := upkeep.Trends(result.Journal, first, func(v *model.Value) bool { return first(v.Entry) }); len(list) != 0 {
		t.Errorf("%+v", list)
	}
}
