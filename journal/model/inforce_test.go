package model_test

import "testing"

// A reading is judged by the limit in force at its own moment: found before the entry's fitting, set after it.
func TestLimitsAtTheMomentOfAReading(t *testing.T) {
	const sheets = `
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
exhaust = "0.12 ± 0.02 mm"
-- parts.toml --
[cam]
slot = "camshaft"
limits.lash.intake = "0.20 ± 0.02 mm"
[std]
slot = "camshaft"
`
	tell(t, []story{
		{
			name: "found by the old part's limit, set by the new one's",
			files: sheets + `
-- 2026-01-01.md --
fitted = ["cam"]
[found]
lash.intake = "0.20 mm"
[set]
lash.intake = "0.08 mm"
`,
			values: `
				2026-01-01/found/lash.intake: out above by lash.intake, +0.12 mm off, settled
				2026-01-01/set/lash.intake: out below by cam:lash.intake, -0.12 mm off, current
			`,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake, settled
				error out-of-limits/2026-01-01/set/lash.intake
			`,
		},
		{
			name: "found by the part that is taken out, set by the sheet's",
			files: sheets + `
-- 2026-01-01.md --
fitted = ["cam"]
-- 2026-01-02.md --
removed = ["cam"]
[found]
lash.intake = "0.20 mm"
[set]
lash.intake = "0.08 mm"
`,
			values: `
				2026-01-02/found/lash.intake: in by cam:lash.intake, +0 mm off, settled
				2026-01-02/set/lash.intake: in by lash.intake, +0 mm off, current
			`,
		},
		{
			name: "the next part in the slot takes the limit out with the part",
			files: sheets + `
-- 2026-01-01.md --
fitted = ["cam"]
-- 2026-01-02.md --
fitted = ["std"]
[found]
lash.intake = "0.20 mm"
[set]
lash.intake = "0.20 mm"
`,
			values: `
				2026-01-02/found/lash.intake: in by cam:lash.intake, +0 mm off, settled
				2026-01-02/set/lash.intake: out above by lash.intake, +0.12 mm off, current
			`,
			findings: `
				error out-of-limits/2026-01-02/set/lash.intake
			`,
		},
		{
			name: "a verdict of the past stays that of its moment",
			files: sheets + `
-- 2026-01-01.md --
[set]
lash.intake = "0.08 mm"
-- 2026-01-02.md --
fitted = ["cam"]
`,
			values: "2026-01-01/set/lash.intake: in by lash.intake, +0 mm off, current",
		},
		{
			name: "pulls before are judged before the fitting",
			files: `
-- parts.toml --
[pipe]
limits.power.peak = "30.. hp"
-- 2026-01-01.md --
fitted = ["pipe"]
[[pulls]]
peak = "24 hp"
state = "before"
[[pulls]]
peak = "24 hp"
`,
			values: `
				2026-01-01/pulls-before/power.peak: no limit, settled
				2026-01-01/pulls-after/power.peak: out below by pipe:power.peak, current
			`,
			findings: `
				error out-of-limits/2026-01-01/pulls/power.peak
			`,
		},
	})
}

// A fitted part's limit hides the sheet's at and below its path; of two parts the one fitted later wins; the deepest gives the figures.
func TestWhichLimitGoverns(t *testing.T) {
	tell(t, []story{
		{
			name: "the deepest of the sheet",
			files: `
-- limits.toml --
[bore]
high = "53.02 mm"
[bore.left]
high = "53.05 mm"
-- 2026-01-01.md --
[set]
bore.left.top.x = "53.04 mm"
bore.right.top.x = "53.04 mm"
`,
			values: `
				2026-01-01/set/bore.left.top.x: in by bore.left, current
				2026-01-01/set/bore.right.top.x: out above by bore, current
			`,
			findings: `
				error out-of-limits/2026-01-01/set/bore.right.top.x
			`,
		},
		{
			name: "a part's limit above hides the sheet's below it",
			files: `
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
[lash.exhaust]
nominal = "0.12 mm"
tolerance = "0.02 mm"
-- parts.toml --
[cam]
limits.lash = "0.20 ± 0.02 mm"
-- 2026-01-01.md --
fitted = ["cam"]
[set]
lash.intake = "0.08 mm"
lash.exhaust = "0.20 mm"
`,
			values: `
				2026-01-01/set/lash.intake: out below by cam:lash, -0.12 mm off, current
				2026-01-01/set/lash.exhaust: in by cam:lash, +0 mm off, current
			`,
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
			`,
		},
		{
			name: "a part's limit deeper leaves the rest to the sheet",
			files: `
-- limits.toml --
[lash]
nominal = "0.08 mm"
tolerance = "0.02 mm"
-- parts.toml --
[cam]
limits.lash.intake.left = "0.20 ± 0.02 mm"
-- 2026-01-01.md --
fitted = ["cam"]
[set]
lash.intake.left = "0.20 mm"
lash.intake.right = "0.08 mm"
lash.exhaust = "0.08 mm"
`,
			values: `
				2026-01-01/set/lash.intake.left: in by cam:lash.intake.left, +0 mm off, current
				2026-01-01/set/lash.intake.right: in by lash, +0 mm off, current
				2026-01-01/set/lash.exhaust: in by lash, +0 mm off, current
			`,
		},
		{
			name: "of two parts the one fitted later, whatever their order in the file",
			files: `
-- parts.toml --
[b]
limits.lash.intake = "0.20 ± 0.02 mm"
[a]
limits.lash.intake = "0.10 ± 0.02 mm"
-- 2026-01-01.md --
fitted = ["b"]
-- 2026-01-02.md --
fitted = ["a"]
[set]
lash.intake = "0.20 mm"
-- 2026-01-03.md --
fitted = ["b"]
[set]
lash.intake = "0.20 mm"
`,
			values: `
				2026-01-02/set/lash.intake: out above by a:lash.intake, +0.1 mm off, settled
				2026-01-03/set/lash.intake: in by b:lash.intake, +0 mm off, current
			`,
			findings: `
				error out-of-limits/2026-01-02/set/lash.intake, settled
				warning limits-clash/parts.toml/b/lash.intake
			`,
		},
		{
			name: "a table that only holds words is no limit, and its children are",
			files: `
-- limits.toml --
[torque]
basis = "manual"
[torque.nut]
nominal = "20 N·m"
tolerance = "2 N·m"
-- 2026-01-01.md --
[set]
torque.nut = "30 N·m"
torque.bolt = "30 N·m"
`,
			values: `
				2026-01-01/set/torque.nut: out above by torque.nut, +10 N·m off, current
				2026-01-01/set/torque.bolt: no limit, current
			`,
			findings: `
				error out-of-limits/2026-01-01/set/torque.nut
				note no-limit/2026-01-01/set/torque.bolt
			`,
		},
		{
			name: "a reading above the limits is judged at every position, and the worst verdict counts",
			files: `
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
exhaust = "0.12 ± 0.02 mm"
-- 2026-01-01.md --
[set]
lash = "0.10 mm"
-- 2026-01-02.md --
[set]
lash = "0.07 mm"
-- 2026-01-03.md --
[set]
lash = "0.12..0.13 mm"
`,
			values: `
				2026-01-01/set/lash: in by lash.exhaust, -0.02 mm off, settled
				2026-01-02/set/lash: out below by lash.exhaust, -0.05 mm off, settled
				2026-01-03/set/lash: out above by lash.intake, +0.045 mm off, current
			`,
			findings: "any",
		},
		{
			name: "a reading above limits of two dimensions is judged by those of its own",
			files: `
-- limits.toml --
[wheel]
mass = "..4 kg"
runout = "..0.5 mm"
-- 2026-01-01.md --
[set]
wheel = "0.7 mm"
`,
			values:   "2026-01-01/set/wheel: out above by wheel.runout, current",
			findings: "any",
		},
		{
			name: "below a limit of another dimension, on a free path: not governed, with a note",
			files: `
-- limits.toml --
[wheel]
high = "0.5 mm"
-- 2026-01-01.md --
[set]
wheel.mass = "7 kg"
`,
			values:   "2026-01-01/set/wheel.mass: unjudged (not what the limit measures), current",
			findings: "note other-dimension/2026-01-01/set/wheel.mass",
		},
		{
			name: "at the limit's own path, or where the path says what it is, another dimension is an error",
			files: `
-- limits.toml --
[wheel]
high = "0.5 mm"
[lash]
intake = "0.08 ± 0.02 mm"
-- 2026-01-01.md --
[set]
wheel = "7 kg"
lash.intake.left = "7 kg"
`,
			findings: `
				error wrong-dimension/2026-01-01/set/wheel
				error wrong-dimension/2026-01-01/set/lash.intake.left
			`,
		},
		{
			name: "a limit that can't be read holds nothing to anything, and hides what lies above it",
			files: `
-- limits.toml --
[lash]
nominal = "0.08 mm"
tolerance = "0.02 mm"
intake = "0.08 ± 0.02 zz"
-- 2026-01-01.md --
[set]
lash.intake = "0.40 mm"
lash.exhaust = "0.08 mm"
`,
			values: `
				2026-01-01/set/lash.intake: no limit, current
				2026-01-01/set/lash.exhaust: in by lash, +0 mm off, current
			`,
			findings: "error unknown-unit/limits.toml/lash.intake",
		},
		{
			name: "defined in two files: the second is an error, the first holds",
			files: `
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
-- limits/more.toml --
[lash]
intake = "0.40 ± 0.02 mm"
-- 2026-01-01.md --
[set]
lash.intake = "0.08 mm"
`,
			values:   "2026-01-01/set/lash.intake: in by lash.intake, +0 mm off, current",
			findings: "error defined-twice/limits/more.toml/lash.intake",
		},
	})
}

// Limits inherit every word but figures from the tables above them. A part's limit takes from the sheet only what belongs to the
// fastener or the reading; its basis, source and second figure are its part's own.
func TestWhatALimitInherits(t *testing.T) {
	const text = `
-- limits.toml --
[torque]
basis = "manual"
source = "section 2"
threads = "oiled"
decision = "guarded"
drive = "12 mm hex"
every = "4000 km"
when = { engine-temp = "..35 °C" }
title = "All torques"
[torque.head]
nominal = "20 N·m"
tolerance = "2 N·m"
also = "15 lbf·ft"
threads = "dry"
thread = "M8x1.25"
class = "10.9"
into = "aluminium"
engagement = "16 mm"
order = "1 2"
-- parts.toml --
[studs]
source = "the card"
[studs.limits.torque]
head = "30 ± 2 N·m"
[nuts]
[nuts.limits.torque.head]
basis = "drawing"
source = "the drawing"
threads = "greased"
nominal = "40 N·m"
plus = "2 N·m"
`
	j := compile(t, text, "").Journal
	type words struct{ title, basis, source, threads, drive, thread, class, into, engagement, order string }
	want := map[string]words{
		"torque.head":       {basis: "manual", source: "section 2", threads: "dry", drive: "12 mm hex", thread: "M8x1.25", class: "10.9", into: "aluminium", engagement: "16 mm", order: "1 2"},
		"studs:torque.head": {source: "the card", threads: "dry", drive: "12 mm hex", thread: "M8x1.25", class: "10.9", into: "aluminium", engagement: "16 mm"},
		"nuts:torque.head":  {basis: "drawing", source: "the drawing", threads: "greased", drive: "12 mm hex", thread: "M8x1.25", class: "10.9", into: "aluminium", engagement: "16 mm"},
	}
	for _, l := range j.Limits {
		name := l.Path
		if l.Part != nil {
			name = l.Part.Name + ":" + name
		}
		if name == "torque" {
			continue
		}
		got := words{l.Title, l.Basis, l.Source, l.Key("threads").Text, l.Key("drive").Text, l.Key("thread").Text, l.Key("class").Text, l.Key("into").Text, "", l.Key("order").Text}
		if e := l.Figures("engagement"); len(e) == 1 {
			got.engagement = e[0].Text
		}
		if got != want[name] {
			t.Errorf("%s inherits %+v, want %+v", name, got, want[name])
		}
		if isSheet := l.Part == nil; l.Guarded != isSheet || (l.Also != nil) != isSheet {
			t.Errorf("%s: guarded %v, also %v; want both only of the sheet's", name, l.Guarded, l.Also)
		}
		if len(l.Figures("every")) != 1 || l.When == nil {
			t.Errorf("%s: every %v, when %v; want both inherited", name, l.Figures("every"), l.When)
		}
		delete(want, name)
	}
	for name := range want {
		t.Errorf("no limit %s", name)
	}
}
