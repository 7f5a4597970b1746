package model_test

import (
	"math"
	"strings"
	"testing"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// Through an adapter what was typed is the setting of the wrench, and the limit judges what the bolt got: T = S·(L + E·cos θ)/L. Straight
// on, 180 mm and 30 mm make 210/180 of the setting; square (90°) all of it; back toward the hand (180°) 150/180 (recomputed from the lever).
func TestTheLimitJudgesWhatTheBoltGot(t *testing.T) {
	const tools = `
-- tools.toml --
[wrench]
for = ["torque"]
length = "180 mm"
[spare]
for = ["compression"]
-- limits.toml --
[torque.nut]
nominal = "21 N·m"
tolerance = "1 N·m"
[torque.bolt]
nominal = "7 N·m then 14 N·m then 90°"
tolerance = "5°"
-- 2026-01-01.md --
`
	const with = tools + "with = [\"wrench\"]\n[set]\n"
	tell(t, []story{
		{
			name:  "straight on",
			files: with + "torque.nut = { value = \"18 N·m\", adapter = \"30 mm\", adapter-angle = \"0°\" }\n",
			values: `
				2026-01-01/set/setting.nut: no limit, current
				2026-01-01/set/torque.nut: in by torque.nut, +0 N·m off, current
			`,
		},
		{
			name:  "no angle is straight on",
			files: with + "torque.nut = { value = \"21 N·m\", adapter = \"30 mm\" }\n",
			values: `
				2026-01-01/set/setting.nut: no limit, current
				2026-01-01/set/torque.nut: out above by torque.nut, +3.5 N·m off, current
			`,
			findings: "error out-of-limits/2026-01-01/set/torque.nut",
		},
		{
			name:  "square",
			files: with + "torque.nut = { value = \"21 N·m\", adapter = \"30 mm\", adapter-angle = \"90°\" }\n",
			values: `
				2026-01-01/set/setting.nut: no limit, current
				2026-01-01/set/torque.nut: in by torque.nut, +0 N·m off, current
			`,
		},
		{
			name:  "back toward the hand",
			files: with + "torque.nut = { value = \"24 N·m\", adapter = \"30 mm\", adapter-angle = \"180°\" }\n",
			values: `
				2026-01-01/set/setting.nut: no limit, current
				2026-01-01/set/torque.nut: in by torque.nut, -1 N·m off, current
			`,
		},
		{
			name:  "past the hand there is no leverage",
			files: with + "torque.nut = { value = \"24 N·m\", adapter = \"180 mm\", adapter-angle = \"180°\" }\n",
			values: `
				2026-01-01/set/setting.nut: no limit, current
				2026-01-01/set/torque.nut: unjudged (the adapter gives no torque)
			`,
			findings: "warning adapter-length/2026-01-01/set/torque.nut",
		},
		{
			name:  "repeats and brackets are settings too",
			files: with + "torque.nut = { value = [\"18 N·m\", \"18.6 N·m\"], adapter = \"30 mm\" }\n[found]\ntorque.nut = { value = \"..18 N·m\", adapter = \"30 mm\" }\n",
			values: `
				2026-01-01/found/setting.nut: no limit, settled
				2026-01-01/found/torque.nut: undecided by torque.nut, settled
				2026-01-01/set/setting.nut: no limit, current
				2026-01-01/set/torque.nut: in by torque.nut, +0.35 N·m off, current
			`,
			findings: `
				note near-bound/2026-01-01/set/torque.nut
				warning undecided/2026-01-01/found/torque.nut, settled
			`,
		},
		{
			name:  "steps before a turn are settings, the turn is none",
			files: with + "torque.bolt = { value = \"6 N·m then 12 N·m then 90°\", adapter = \"30 mm\" }\n",
			values: `
				2026-01-01/set/setting.bolt: no limit, current
				2026-01-01/set/torque.bolt: in by torque.bolt, +0 ° off, current
			`,
		},
		{
			name:     "a turn alone is no setting",
			files:    with + "torque.bolt = { value = \"90°\", adapter = \"30 mm\" }\n",
			values:   "2026-01-01/set/torque.bolt: in by torque.bolt, +0 ° off, current",
			findings: "",
		},
		{
			name:  "without the wrench's length there is no verdict",
			files: tools + "[set]\ntorque.nut = { value = \"18 N·m\", adapter = \"30 mm\" }\n",
			values: `
				2026-01-01/set/setting.nut: no limit, current
				2026-01-01/set/torque.nut: unjudged (the wrench's length isn't known)
			`,
			findings: "warning adapter-length/2026-01-01/set/torque.nut",
		},
		{
			name:     "a figure that can't be read is one finding",
			files:    with + "torque.nut = { value = \"18 kg\", adapter = \"30 mm\" }\n",
			findings: "error wrong-dimension/2026-01-01/set/torque.nut",
		},
	})
}

// What the wrench is off by, the bolt is off by in proportion: 4 % of 18 N·m as a greatest permitted error, and a resolution of 0.6 N·m,
// both through 210/180.
func TestUncertaintyThroughAnAdapter(t *testing.T) {
	j := compile(t, `
-- tools.toml --
[wrench]
for = ["torque"]
length = "180 mm"
error = "4 %"
resolution = "0.6 N·m"
-- 2026-01-01.md --
with = ["wrench"]
[set]
torque.nut = { value = "18 N·m", adapter = "30 mm" }
`, "").Journal
	setting, bolt := valueOf(t, j, "2026-01-01/set/setting.nut"), valueOf(t, j, "2026-01-01/set/torque.nut")
	std := math.Hypot(0.04*18/math.Sqrt(3), 0.6/math.Sqrt(12))
	about(t, "setting", setting.Quantity.SI(), 18)
	about(t, "uncertainty of the setting", setting.Estimate.Std(), std)
	about(t, "torque", bolt.Quantity.SI(), 21)
	about(t, "estimate of the torque", bolt.Estimate.Value, 21)
	about(t, "uncertainty of the torque", bolt.Estimate.Std(), std*210/180)
	about(t, "covariance of the two", quantity.Covariance(setting.Estimate, bolt.Estimate), std*std*210/180)
}

func valueOf(t *testing.T, j *model.Journal, id string) *model.Value {
	t.Helper()
	for _, v := range j.Values {
		if v.ID() == id {
			return v
		}
	}
	t.Fatalf("there is no value %s among\n%s", id, account(j))
	return nil
}

// about fails where two figures differ by more than a part in 10⁹.
func about(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*max(math.Abs(want), 1e-12) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// While an entry names a tool that nobody knows, that one may have taken any of its readings but those that name theirs; beside a range that can't be read
// only a wrench that is the only one for it is sure.
func TestAnUnknownToolMayHaveTakenAnyReading(t *testing.T) {
	const tools = "-- tools.toml --\n[click]\nfor = [\"torque\"]\nlength = \"180 mm\"\nrange = \"%\"\n[big]\nfor = [\"torque\"]\nlength = \"480 mm\"\nrange = \"40..200 N·m\"\n-- 2026-01-01.md --\n"
	for _, c := range []struct{ reach, with, reading, tool, torque string }{
		{"5..60 N·m", `["click", "big"]`, `{ value = "18 N·m", adapter = "30 mm" }`, "click", "21 N·m"},
		{"5..60 N·m", `["clik", "big"]`, `{ value = "18 N·m", adapter = "30 mm" }`, "", ""},
		{"5..60 N·m", `["clik", "big"]`, `{ value = "18 N·m", adapter = "30 mm", with = "click" }`, "click", "21 N·m"},
		{"5..60 N·m", `["clik", "big"]`, `"18 N·m"`, "", "18 N·m"},
		{"60..5 N·m", `["click", "big"]`, `{ value = "18 N·m", adapter = "30 mm" }`, "", ""},
		{"60..5 N·m", `["click"]`, `{ value = "18 N·m", adapter = "30 mm" }`, "click", "21 N·m"},
	} {
		r := compile(t, strings.Replace(tools, "%", c.reach, 1)+"with = "+c.with+"\n[set]\ntorque.nut = "+c.reading+"\n", "")
		tool, torque := "", ""
		if v := r.Journal.Current("torque.nut"); v != nil {
			torque = v.Quantity.Shown().String()
			if v.Tool != nil {
				tool = v.Tool.Name
			}
		}
		if tool != c.tool || torque != c.torque {
			t.Errorf("with %s of %s, %s: %q by %q, want %q by %q", c.with, c.reach, c.reading, torque, tool, c.torque, c.tool)
		}
		if strings.Contains(findings(r), "adapter-length") {
			t.Errorf("with %s of %s, %s: %s", c.with, c.reach, c.reading, findings(r))
		}
	}
}
