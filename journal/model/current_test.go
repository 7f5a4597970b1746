package model_test

import "testing"

// The current value is the newest reading that nothing made stale; else what a fitted part brings; else the sheet's.
func TestTheNewestWordInTimeWins(t *testing.T) {
	const parts = `
-- build.toml --
[drive]
final = "41/15"
-- parts.toml --
[big]
slot = "sprocket"
brings.drive.final = "43/15"
[bigger]
slot = "sprocket"
brings.drive.final = "45/15"
[plain]
slot = "sprocket"
`
	tell(t, []story{
		{
			name:   "the sheet stands where nothing else does",
			files:  parts + "-- 2026-01-01.md --\n",
			values: "build/sheet/drive.final: no limit, current",
		},
		{
			name:  "a part that is in speaks over the sheet",
			files: parts + "-- 2026-01-01.md --\nfitted = [\"big\"]\n",
			values: `
				build/sheet/drive.final: no limit
				2026-01-01/part:big/drive.final: no limit, current
			`,
		},
		{
			name: "a reading speaks over the part that is in",
			files: parts + `
-- 2026-01-01.md --
fitted = ["big"]
-- 2026-01-02.md --
[set]
drive.final = "44/15"
`,
			values: `
				build/sheet/drive.final: no limit, settled
				2026-01-01/part:big/drive.final: no limit, settled
				2026-01-02/set/drive.final: no limit, current
			`,
		},
		{
			name: "fitting a part makes older readings at what it brings stale, and taking it out never gives one back",
			files: parts + `
-- 2026-01-01.md --
[set]
drive.final = "40/15"
-- 2026-01-02.md --
fitted = ["big"]
-- 2026-01-03.md --
removed = ["big"]
`,
			values: `
				build/sheet/drive.final: no limit, current, settled
				2026-01-01/set/drive.final: no limit
				2026-01-02/part:big/drive.final: no limit, settled
			`,
		},
		{
			name: "what was read of a part while it was in doesn't outlive it",
			files: parts + `
-- 2026-01-01.md --
fitted = ["big"]
[set]
drive.final = "44/15"
-- 2026-01-02.md --
removed = ["big"]
`,
			values: `
				build/sheet/drive.final: no limit, current, settled
				2026-01-01/part:big/drive.final: no limit, settled
				2026-01-01/set/drive.final: no limit
			`,
		},
		{
			name: "a slot holds one part: the next one takes out what was there, and brings its own",
			files: parts + `
-- 2026-01-01.md --
fitted = ["big"]
-- 2026-01-02.md --
fitted = ["bigger"]
`,
			values: `
				build/sheet/drive.final: no limit
				2026-01-01/part:big/drive.final: no limit, settled
				2026-01-02/part:bigger/drive.final: no limit, current
			`,
		},
		{
			name: "a part that brings nothing takes out what was there, and the sheet is back",
			files: parts + `
-- 2026-01-01.md --
fitted = ["big"]
-- 2026-01-02.md --
fitted = ["plain"]
`,
			values: `
				build/sheet/drive.final: no limit, current
				2026-01-01/part:big/drive.final: no limit, settled
			`,
		},
		{
			name: "a reading after the part came out is newer than the sheet",
			files: parts + `
-- 2026-01-01.md --
fitted = ["big"]
-- 2026-01-02.md --
removed = ["big"]
[set]
drive.final = "42/15"
`,
			values: `
				build/sheet/drive.final: no limit, settled
				2026-01-01/part:big/drive.final: no limit, settled
				2026-01-02/set/drive.final: no limit, current
			`,
		},
		{
			name: "of two parts that bring one value the later holds while it is in, then the earlier again",
			files: `
-- parts.toml --
[cam]
brings.cam.intake.lift = "7.2 mm"
[rockers]
brings.cam.intake.lift = "7.9 mm"
-- 2026-01-01.md --
fitted = ["cam"]
-- 2026-01-02.md --
fitted = ["rockers"]
-- 2026-01-03.md --
removed = ["rockers"]
`,
			values: `
				2026-01-01/part:cam/cam.intake.lift: no limit, current
				2026-01-02/part:rockers/cam.intake.lift: no limit, settled
			`,
		},
		{
			name: "what the machine came with speaks over the sheet, with no readings to take again",
			files: `
-- build.toml --
fitted = ["big"]
[drive]
final = "41/15"
-- parts.toml --
[big]
then = ["chain.slack"]
brings.drive.final = "43/15"
`,
			values: `
				build/sheet/drive.final: no limit
				build/part:big/drive.final: no limit, current
			`,
		},
	})
}

// A finding is settled once every path that its reading spoke for has a newer reading; staleness alone leaves it open.
func TestReadingsSettleEarlierOnes(t *testing.T) {
	const head = `
-- build.toml --
[engine]
cylinders = ["left", "right"]
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
-- parts.toml --
[cam]
then = ["lash.intake"]
-- 2026-01-01.md --
[found]
lash.intake = "0.13 mm"
`
	tell(t, []story{
		{
			name: "partly covered: still open, and still current where nothing newer was read",
			files: head + `
-- 2026-01-02.md --
[set]
lash.intake.left = "0.08 mm"
`,
			values: `
				2026-01-01/found/lash.intake: out above by lash.intake, +0.05 mm off, current
				2026-01-02/set/lash.intake.left: in by lash.intake, +0 mm off, current
			`,
			findings: "error out-of-limits/2026-01-01/found/lash.intake",
		},
		{
			name: "covered by two readings in two entries",
			files: head + `
-- 2026-01-02.md --
[set]
lash.intake.left = "0.08 mm"
-- 2026-01-03.md --
[set]
lash.intake.right = "0.12 mm"
`,
			values: `
				2026-01-01/found/lash.intake: out above by lash.intake, +0.05 mm off, settled
				2026-01-02/set/lash.intake.left: in by lash.intake, +0 mm off, current
				2026-01-03/set/lash.intake.right: out above by lash.intake, +0.04 mm off, current
			`,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake, settled
				error out-of-limits/2026-01-03/set/lash.intake.right
			`,
		},
		{
			name: "a reading of one is settled by a reading above it",
			files: head + `
-- 2026-01-02.md --
[found]
lash.intake.right = "0.12 mm"
[set]
lash.intake = "0.08 mm"
`,
			values: `
				2026-01-01/found/lash.intake: out above by lash.intake, +0.05 mm off, settled
				2026-01-02/found/lash.intake.right: out above by lash.intake, +0.04 mm off, settled
				2026-01-02/set/lash.intake: in by lash.intake, +0 mm off, current
			`,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake, settled
				error out-of-limits/2026-01-02/found/lash.intake.right, settled
			`,
		},
		{
			name: "stale is not settled",
			files: head + `
-- 2026-01-02.md --
fitted = ["cam"]
`,
			values: "2026-01-01/found/lash.intake: out above by lash.intake, +0.05 mm off, stale since cam",
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake
				warning not-read-again/2026-01-02/cam/lash.intake
			`,
		},
		{
			name: "blank and words are no readings where the limit has figures",
			files: head + `
-- 2026-01-02.md --
[set]
lash.intake.left = "-"
lash.intake.right = "as it was"
`,
			values: `
				2026-01-01/found/lash.intake: out above by lash.intake, +0.05 mm off, current
				2026-01-02/set/lash.intake.right: unjudged (not measured)
			`,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake
				note words-for-figure/2026-01-02/set/lash.intake.right
			`,
		},
		{
			name: "figures of the sheet, of a part and of pulls settle too",
			files: `
-- build.toml --
[engine]
bore = "53.2 mm"
-- limits.toml --
[engine]
bore = "53.0 ± 0.1 mm"
[power]
peak = "25.. hp"
[cam.intake]
lift = "8.0 ± 0.2 mm"
-- parts.toml --
[cam]
brings.cam.intake.lift = "7.0 mm"
-- 2026-01-01.md --
fitted = ["cam"]
[[pulls]]
peak = "24 hp"
-- 2026-01-02.md --
removed = ["cam"]
[set]
engine.bore = "53.05 mm"
[[pulls]]
peak = "26 hp"
`,
			values: `
				build/sheet/engine.bore: out above by engine.bore, +0.2 mm off, settled
				2026-01-01/part:cam/cam.intake.lift: out below by cam.intake.lift, -1 mm off, settled
				2026-01-01/pulls-after/power.peak: out below by power.peak, settled
				2026-01-02/set/engine.bore: in by engine.bore, +0.05 mm off, current
				2026-01-02/pulls-after/power.peak: in by power.peak, current
			`,
			findings: `
				error out-of-limits/build.toml/sheet/engine.bore, settled
				error out-of-limits/2026-01-01/pulls/power.peak, settled
				error out-of-limits/2026-01-01/part/cam.intake.lift, settled
			`,
		},
	})
}
