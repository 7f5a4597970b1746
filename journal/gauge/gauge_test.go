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
		standing, err := c.asked.Hold(now, compile)
		if err != nil {
			t.Errorf("%+v: %v", c.asked, err)
			continue
		}
		v, before := standing.Value, standing.Before
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

// What the last entry of the day fitted, at whatever hour, holds.
func TestAValueIsReadAfterAllElseOfItsDay(t *testing.T) {
	files := shed()
	files["parts.toml"] = &fstest.MapFile{Data: []byte("[cam-hill]\n[cam-hill.limits.lash]\nintake = \"0.20 ± 0.02 mm\"\n")}
	files["entries/2026-03-08-öl.md"] = &fstest.MapFile{Data: []byte("```toml\ndate = 2026-03-08T18:00:00\nfitted = [\"cam-hill\"]\n```\n")}
	standing, err := Asked{Path: "lash.intake.left", Value: "0.21 mm", Temp: "18 °C", Day: day}.Hold(compiled(t, files), compile)
	if err != nil || standing.Value.Verdict != model.In {
		t.Fatalf("%+v, %v", standing, err)
	}
}

// By hand: 0.11 mm is above 0.10, and from 0.10 to 0.14.
func TestAValueAboveSeveralLimitsIsHeldToEach(t *testing.T) {
	now := compiled(t, shed())
	s, err := Asked{Path: "lash", Value: "0.11 mm", Temp: "18 °C", Day: day}.Hold(now, compile)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, j := range s.Value.Judged() {
		got = append(got, j.Limit.Path+" "+j.Verdict.String())
	}
	if want := "lash.exhaust in, lash.intake out"; strings.Join(got, ", ") != want || s.Value.Verdict != model.Out || s.Value.Limit.Path != "lash.intake" {
		t.Errorf("%q, and it is %s by %s; want %q", got, s.Value.Verdict, s.Value.Limit.Path, want)
	}
}

func TestAValueIsHeldToItsGoal(t *testing.T) {
	folder := shed()
	folder["build.toml"] = &fstest.MapFile{Data: []byte("[goals]\npower.peak = \"15 hp\"\npower.torque = \"20 N·m\"\nsquish = \"0.9 mm\"\ndeck = \"0.2..0.4 mm\"\nweight = \"120 kg\"\n")}
	folder["entries/2026-03-02.md"] = &fstest.MapFile{Data: []byte("```toml\n[found]\nsquish = \"1.2 mm\"\npower.torque = \"22 N·m\"\n```\n")}
	now := compiled(t, folder)
	for _, c := range []struct {
		path, value    string
		reached, plain bool
	}{
		{"power.peak", "15.1 hp", true, true}, // nothing was read before: power is to rise
		{"power.peak", "14.9 hp", false, true},
		{"power.peak", "15 hp", true, true},
		{"power.peak", "12 kW", true, true},      // 16.1 hp
		{"power.torque", "19 N·m", true, true},   // it began above
		{"power.torque", "21 N·m", false, true},  //
		{"squish", "0.85 mm", true, true},        // it began at 1.2
		{"squish", "0.95 mm", false, true},       //
		{"squish", "0.8..1.0 mm", false, false},  // no single figure
		{"deck", "0.3 mm", true, true},           // the goal is an interval
		{"deck", "0.41 mm", false, true},         //
		{"weight", "118 kg", false, false},       // up or down nobody knows
		{"weight", "120 kg", true, true},         //
		{"lash.intake", "0.08 mm", false, false}, // it has no goal
	} {
		s, err := Asked{Path: c.path, Value: c.value, Temp: "18 °C", Day: day}.Hold(now, compile)
		if err != nil {
			t.Errorf("%s %s: %v", c.path, c.value, err)
			continue
		}
		if s.Reached != c.reached || s.IsToGoal != c.plain || (s.Goal != nil) != (c.path != "lash.intake") {
			t.Errorf("%s %s: reached %t, told %t, goal %v", c.path, c.value, s.Reached, s.IsToGoal, s.Goal)
		}
	}
}

func TestASlipIsOffered(t *testing.T) {
	folder := shed()
	folder["limits.toml"] = &fstest.MapFile{Data: []byte("torque.head-bolt = \"22..26 N·m\"\n")}
	s, err := Asked{Path: "torque.head-bolt", Value: "24 lbf·in", Day: day}.Hold(compiled(t, folder), compile)
	if err != nil || !strings.Contains(s.Slip, "a figure in N·m? if so write `24 N·m`") {
		t.Errorf("%v, %v", s, err)
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
		{Asked{Path: "lash.in.l", Value: "6"}, "`6` has no unit: write the unit of the length, as in `6 mm` or `6 in`"},
		{Asked{Path: "lash.in.l", Value: "0.09 mm", Temp: "1 mm"}, "temperature"},
		{Asked{Path: "lash.in.l", Value: "0.09 mm\n[set]"}, "a value has no control characters in it"},
		{Asked{Path: "lash.in.l", Value: "0.09 mm", Temp: "5\x7f"}, "a value has no control characters in it"},
		{Asked{Path: "lash.in.l", Value: "-"}, "`-` is no value that `lash.intake.left` can have"},
		{Asked{Path: "lash.intake.9", Value: "0.09 mm", Temp: "18 °C"}, "names the cylinder `9`; the engine has `left`, `right`"},
		{Asked{Path: "margin.coil-bind.intake", Value: "2 mm"}, "`margin.coil-bind.intake` is worked out, and never written"},
		{Asked{Path: "lash..l", Value: "0.09 mm"}, "isn't a key"},
	} {
		standing, err := c.asked.Hold(now, compile)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%+v: %v, %v; want %q", c.asked, standing, err, c.want)
		}
	}
	_, err := Asked{Path: "squish", Value: "1 mm", Day: day}.Hold(now, func(fs.FS) (*journal.Result, error) { return nil, errDisk })
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

// What else a value may be told as, a chain on the wrong tooth, is still a value that is out: 127 less 107 is a tooth of 36, by hand.
func TestALobeAToothOutIsOut(t *testing.T) {
	folder := shed()
	folder["build.toml"] = &fstest.MapFile{Data: []byte("[engine]\ncam-sprocket = 36\n")}
	folder["limits.toml"] = &fstest.MapFile{Data: []byte("[cam]\nintake.centre = \"107 ± 2° ATDC\"\n")}
	now := compiled(t, folder)
	standing, err := Asked{Path: "cam.intake.centre", Value: "127° ATDC", Day: day}.Hold(now, compile)
	if err != nil || standing.Value.Verdict != model.Out {
		t.Errorf("%+v, %v; want one that is out", standing, err)
	}
}
