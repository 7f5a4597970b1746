package model_test

import (
	"math"
	"strings"
	"testing"

	"example.org/locknut/journal/model"
)

// A limit's figures are without the torque that runs the nut, what the wrench is set to is with it: 27.2 less 1.2 is 26, in.
func TestARunningTorqueIsTakenOffWhatIsSet(t *testing.T) {
	for _, c := range []struct {
		section, reading, want string
		got, setting           float64
	}{
		{"set", `"27.2 N·m"`, "in", 26, 27.2},
		{"set", `"25 N·m"`, "out", 23.8, 25},
		{"set", `"10 N·m then 27.2 N·m"`, "in", 26, 27.2},
		{"set", `["27.0 N·m", "27.4 N·m"]`, "in", 26, 27.2},
		{"set", `{ value = "21.76 N·m", adapter = "62.5 mm" }`, "in", 26, 21.76},
		{"found", `"27.2 N·m"`, "out", 27.2, 0}, // what turned it when it was tight is what it is
	} {
		j := compile(t, "-- limits.toml --\n[torque.nut]\nnominal = \"26 N·m\"\ntolerance = \"1 N·m\"\nrunning-torque = \"1.2 N·m\"\n"+
			"-- tools.toml --\n[wrench]\nfor = [\"torque\"]\nerror = \"4 %\"\nlength = \"250 mm\"\n-- 2026-03-01.md --\nwith = [\"wrench\"]\n["+c.section+"]\ntorque.nut = "+c.reading+"\n", "").Journal
		v := j.Current("torque.nut")
		if v == nil || math.Abs(v.Quantity.SI()-c.got) > 1e-9 || math.Abs(v.Estimate.Value-c.got) > 1e-9 || v.Verdict.String() != c.want {
			t.Errorf("%s %s: %+v, want %g, %s", c.section, c.reading, v, c.got, c.want)
			continue
		}
		if c.setting == 0 {
			if v.Setting() != nil {
				t.Errorf("%s %s: a setting of %v", c.section, c.reading, v.Setting().Quantity.Shown())
			}
			continue
		}
		if s := v.Setting(); s == nil || math.Abs(s.Quantity.SI()-c.setting) > 1e-9 {
			t.Errorf("%s: no setting of %g", c.reading, c.setting)
		}
		// 4 % of what the wrench was set to, whatever runs: through the adapter what the bolt got is 1.25 times that
		full := c.got + 1.2
		if want := 2 * 0.04 * full / math.Sqrt(3); c.reading[0] != '[' && math.Abs(v.Estimate.Expanded()-want) > 1e-9 {
			t.Errorf("%s: ± %g, want %g", c.reading, v.Estimate.Expanded(), want)
		}
	}
}

// What isn't known of the running torque comes on top, and one that leaves nothing gives no torque.
func TestARunningTorqueOfItsOwnUncertainty(t *testing.T) {
	at := func(running, reading string) *model.Value {
		j := compile(t, "-- limits.toml --\n[torque.nut]\nnominal = \"26 N·m\"\nrunning-torque = \""+running+"\"\n-- 2026-03-01.md --\n[set]\ntorque.nut = \""+reading+"\"\n", "").Journal
		return valueOf(t, j, "2026-03-01/set/torque.nut")
	}
	if v := at("1.2 ± 0.4 N·m", "27.2 N·m"); math.Abs(v.Estimate.Expanded()-0.4) > 1e-9 {
		t.Errorf("± %g", v.Estimate.Expanded())
	}
	if v := at("24 N·m", "20 N·m"); v.Unjudged != model.AdapterRefused || v.Counts {
		t.Errorf("%+v", v)
	}
}

// An error of 4 % of a maximum of 60 N·m is 2.4 N·m anywhere on the scale.
func TestAnErrorMayBeAShareOfTheMaximum(t *testing.T) {
	for of, want := range map[string]float64{"": 0.04 * 26, "error-of = \"reading\"\n": 0.04 * 26, "error-of = \"maximum\"\n": 0.04 * 60} {
		j := compile(t, "-- tools.toml --\n[wrench]\nfor = [\"torque\"]\nrange = \"5..60 N·m\"\nerror = \"4 %\"\n"+of+"-- 2026-03-01.md --\nwith = [\"wrench\"]\n[set]\ntorque.nut = \"26 N·m\"\n", "").Journal
		about(t, of, valueOf(t, j, "2026-03-01/set/torque.nut").Estimate.Std(), want/math.Sqrt(3))
	}
	r := compile(t, "-- tools.toml --\n[wrench]\nfor = [\"torque\"]\nerror = \"4 %\"\nerror-of = \"maximum\"\n", "")
	if got := findings(r); !strings.Contains(got, "missing-key") || len(r.Findings) != 1 {
		t.Errorf("a maximum that isn't given: %s", got)
	}
}

// A thread that can't be read does not fall back on the one that stands above it.
func TestAKeyThatCantBeReadHidesThoseAboveIt(t *testing.T) {
	j := compile(t, "-- limits.toml --\n[torque]\nthread = \"M6\"\nengagement = \"8 mm\"\n[torque.a]\nnominal = \"9 N·m\"\nthread = \"M8x9\"\nengagement = \"8 N\"\n[torque.b]\nnominal = \"9 N·m\"\n", "").Journal
	for _, l := range j.Limits {
		unread := l.Path == "torque.a"
		if l.IsKeyUnread("thread") != unread || (l.Key("thread").Text == "") != unread || (len(l.Figures("engagement")) == 0) != unread {
			t.Errorf("%s: %q, %v", l.Path, l.Key("thread").Text, l.Figures("engagement"))
		}
	}
}
