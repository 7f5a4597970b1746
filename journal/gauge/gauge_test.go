package gauge

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
)

func compile(folder fs.FS) (*journal.Result, error) {
	return journal.Compile(folder, journal.Options{SkipHTML: true})
}

func compiled(t *testing.T, folder fs.FS) *journal.Result {
	t.Helper()
	result, err := compile(folder)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

func shed() fstest.MapFS {
	return fstest.MapFS{
		"build.toml":            {Data: []byte("[engine]\ncylinders = [\"left\", \"right\"]\n")},
		"limits.toml":           {Data: []byte("[lash]\nwhen = { engine-temp = \"..35 °C\" }\nintake = \"0.08 ± 0.02 mm\"\nexhaust = \"0.12 ± 0.02 mm\"\n[lift]\nintake = \"7.0..7.4 mm\"\n[torque]\nhead-bolt = \"20 N·m\"\n")},
		"entries/2026-03-01.md": {Data: []byte("```toml\nengine-temp = \"18 °C\"\n[set]\nlash.intake.left = \"0.10 mm\"\n```\n")},
		"entries/2026-03-08.md": {Data: []byte("```toml\n[set]\noil.change = \"0.7 L\"\n```\n")},
	}
}

var day = parse.Date{Year: 2026, Month: 3, Day: 4}

// The deviations are 0.09 and 0.13 less 0.08 mm, by hand.
func TestAValueIsHeldToItsLimitOfNow(t *testing.T) {
	now := compiled(t, shed())
	for _, c := range []struct {
		asked   Asked
		path    string
		verdict model.Verdict
		why     model.Unjudged
		off     float64 // in metres
	}{
		{Asked{Path: "lash.in.l", Value: "0.09 mm", Temp: "18 °C"}, "lash.intake.left", model.In, model.Judged, 1e-5},
		{Asked{Path: "Lash.Inlet.Left", Value: "0.13 mm", Temp: "18 °C"}, "lash.intake.left", model.Out, model.Judged, 5e-5},
		{Asked{Path: "lash.in.l", Value: "0.13 mm"}, "lash.intake.left", model.NoLimit, model.ConditionUnwritten, 0},
		{Asked{Path: "squish", Value: "0.9 mm"}, "squish", model.NoLimit, model.Judged, 0},
	} {
		c.asked.Day = day
		v, before, err := c.asked.Hold(now, compile)
		if err != nil {
			t.Errorf("%+v: %v", c.asked, err)
			continue
		}
		if v.Path != c.path || v.Verdict != c.verdict || v.Unjudged != c.why || v.Deviation < c.off-1e-9 || v.Deviation > c.off+1e-9 {
			t.Errorf("%+v: %s is %s, %q, off by %g", c.asked, v.Path, v.Verdict, v.Unjudged, v.Deviation)
		}
		if (before != nil) != (c.path == "lash.intake.left") || before != nil && before.ID() != "2026-03-01/set/lash.intake.left" {
			t.Errorf("%+v: before it stood %v", c.asked, before)
		}
		// It counts as the newest: never before the journal's last day.
		if got := v.Entry.Date.String(); got != "2026-03-08" {
			t.Errorf("%+v: it is read on %s", c.asked, got)
		}
	}
	if len(now.Journal.Entries) != 2 {
		t.Error("the journal has an entry more")
	}
}

func TestWhatIsNoValueIsTold(t *testing.T) {
	now := compiled(t, shed())
	for _, c := range []struct {
		asked Asked
		want  string
	}{
		{Asked{Path: "l.i", Value: "0.09 mm"}, "`l.i` may mean lash.intake, lift.intake"},
		{Asked{Path: "lash.in.l", Value: "0,09 mm"}, "has a decimal comma: "},
		{Asked{Path: "lash.in.l", Value: "5 N·m"}, "torque"},
		{Asked{Path: "lash.in.l", Value: "0.09 mm", Temp: "1 mm"}, "temperature"},
		{Asked{Path: "lash.in.l", Value: "0.09 mm\n[set]"}, "a value has no control characters in it"},
		{Asked{Path: "lash.in.l", Value: "0.09 mm", Temp: "5\x7f"}, "a value has no control characters in it"},
		{Asked{Path: "lash.in.l", Value: "-"}, "`-` is no value that `lash.intake.left` can have"},
		{Asked{Path: "lash..l", Value: "0.09 mm"}, "isn't a key"},
	} {
		v, _, err := c.asked.Hold(now, compile)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, %v; want %q", c.asked, v, err, c.want)
		}
	}
	_, _, err := Asked{Path: "squish", Value: "1 mm", Day: day}.Hold(now, func(fs.FS) (*journal.Result, error) { return nil, errDisk })
	if !errors.Is(err, errDisk) {
		t.Errorf("a folder that can't be read: %v", err)
	}
}

func TestShortenedPaths(t *testing.T) {
	j := compiled(t, shed()).Journal
	for typed, want := range map[string]string{
		"lash.intake.left": "lash.intake.left", "la.i.l": "lash.intake.left", "lash.left": "", "lash.i": "lash.intake", "tor.h": "torque.head-bolt", "head": "torque.head-bolt", "o": "oil.change", "left.lash": "left.lash", "squish": "squish", "lashes.i": "lashes.i",
	} {
		got, err := meant(j, typed)
		if want == "" {
			if err == nil {
				t.Errorf("%s means %s", typed, got)
			}
			continue
		}
		if err != nil || got != want {
			t.Errorf("%s means %s, %v; want %s", typed, got, err, want)
		}
	}
}
