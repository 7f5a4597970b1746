package model_test

import (
	"strings"
	"testing"

	"example.org/locknut/journal/model"
)

// Entries stand in order of day; without a time of day before any time; then of path, with digit runs as numbers; ties by bytes.
func TestEntriesStandInOrderOfTime(t *testing.T) {
	const text = `
-- 2026-04-18-b10.md --
-- 2026-04-18-b9.md --
-- 2026-04-18-late.md --
date = 2026-04-18T19:30
-- 2026-04-18-early.md --
date = 2026-04-18T07:05
-- 2026-04-18-earlier-by-seconds.md --
date = 2026-04-18T07:04:59
-- zebra.md --
date = 2026-01-01
-- 2025-12-31.md --
-- b.md --
title = "a plan"
-- a.md --
title = "another"
-- 2026-04-18-b09.md --
-- 2026-04-18-B9.md --
-- 2026-04-17-moved.md --
date = 2026-04-19
-- sub/2026-04-18.md --
`
	const want = `
		2025-12-31
		zebra
		2026-04-18-B9
		2026-04-18-b09
		2026-04-18-b9
		2026-04-18-b10
		sub/2026-04-18
		2026-04-18-earlier-by-seconds
		2026-04-18-early
		2026-04-18-late
		2026-04-17-moved
		a
		b
	`
	var got strings.Builder
	for _, e := range compile(t, text, "").Journal.Entries {
		got.WriteString(e.Path + "\n")
	}
	differ(t, "orders", text, got.String(), want)
}

// Inside an entry: pulls before, found, removed, fitted, set, other pulls, whatever their order in the text.
func TestMomentsOfAnEntryStandInOrder(t *testing.T) {
	tell(t, []story{
		{
			name: "the text's order doesn't matter",
			files: `
-- parts.toml --
[cam]
[cam.brings.cam.intake]
lift = "7.9 mm"
-- 2026-04-18.md --
fitted = ["cam"]
[[pulls]]
peak = "25 hp"
[[pulls]]
peak = "24 hp"
state = "before"
[set]
lash.intake = "0.10 mm"
[found]
lash.intake = "0.13 mm"
`,
			values: `
				2026-04-18/pulls-before/power.peak: no limit, settled
				2026-04-18/found/lash.intake: no limit, settled
				2026-04-18/part:cam/cam.intake.lift: no limit, current
				2026-04-18/set/lash.intake: no limit, current
				2026-04-18/pulls-after/power.peak: no limit, current
			`,
		},
		{
			name: "what is found before the fitting is stale after it, what is set is not",
			files: `
-- parts.toml --
[cam]
then = ["lash.intake", "lash.exhaust", "power.peak"]
-- 2026-04-18.md --
fitted = ["cam"]
[found]
lash.intake = "0.13 mm"
lash.exhaust = "0.13 mm"
[set]
lash.intake = "0.10 mm"
[[pulls]]
peak = "24 hp"
state = "before"
`,
			values: `
				2026-04-18/pulls-before/power.peak: no limit, stale since cam
				2026-04-18/found/lash.intake: no limit, settled
				2026-04-18/found/lash.exhaust: no limit, stale since cam
				2026-04-18/set/lash.intake: no limit, current
			`,
			findings: `
				warning not-read-again/2026-04-18/cam/lash.exhaust
				warning not-read-again/2026-04-18/cam/power.peak
			`,
		},
	})
}

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

func TestFittingMakesReadingsStale(t *testing.T) {
	const parts = `
-- build.toml --
[engine]
cylinders = ["left", "right"]
-- parts.toml --
[cam]
slot = "camshaft"
then = ["lash"]
[gasket]
then = ["lash.intake"]
`
	tell(t, []story{
		{
			name: "everything below the path that must be read again",
			files: parts + `
-- 2026-01-01.md --
[set]
lash.intake = "0.10 mm"
lash.exhaust.left = "0.15 mm"
-- 2026-01-02.md --
fitted = ["cam"]
`,
			values: `
				2026-01-01/set/lash.intake: no limit, stale since cam
				2026-01-01/set/lash.exhaust.left: no limit, stale since cam
			`,
			findings: "warning not-read-again/2026-01-02/cam/lash",
		},
		{
			name: "a reading above covers what lies below, and the request is met when every position is covered",
			files: parts + `
-- 2026-01-01.md --
[set]
lash.intake = "0.10 mm"
lash.exhaust.left = "0.15 mm"
-- 2026-01-02.md --
fitted = ["cam"]
[set]
lash.intake = "0.10 mm"
lash.exhaust = "0.15 mm"
`,
			values: `
				2026-01-01/set/lash.intake: no limit, settled
				2026-01-01/set/lash.exhaust.left: no limit, settled
				2026-01-02/set/lash.intake: no limit, current
				2026-01-02/set/lash.exhaust: no limit, current
			`,
		},
		{
			name: "a cylinder that nobody has read yet is asked for",
			files: parts + `
-- 2026-01-02.md --
fitted = ["cam"]
[set]
lash.intake = "0.10 mm"
lash.exhaust.left = "0.15 mm"
`,
			values: `
				2026-01-02/set/lash.intake: no limit, current
				2026-01-02/set/lash.exhaust.left: no limit, current
			`,
			findings: "warning not-read-again/2026-01-02/cam/lash",
		},
		{
			name: "renewing a part that is in asks again",
			files: parts + `
-- 2026-01-01.md --
fitted = ["gasket"]
[set]
lash.intake = "0.10 mm"
-- 2026-01-02.md --
fitted = ["gasket"]
`,
			values:   "2026-01-01/set/lash.intake: no limit, stale since gasket",
			findings: "warning not-read-again/2026-01-02/gasket/lash.intake",
		},
		{
			name: "a part that came out asks for nothing more, but what it made stale stays stale",
			files: parts + `
-- 2026-01-01.md --
[set]
lash.intake = "0.10 mm"
-- 2026-01-02.md --
fitted = ["gasket"]
-- 2026-01-03.md --
removed = ["gasket"]
`,
			values: "2026-01-01/set/lash.intake: no limit, stale since gasket",
		},
		{
			name: "a request of an entry is met by what the entry itself found, and later",
			files: `
-- 2026-01-01.md --
expects = ["chain.slack", "oil.level", "chain.stretch"]
[found]
chain.slack = "30 mm"
-- 2026-01-02.md --
[found]
chain.stretch = "1 %"
`,
			values: `
				2026-01-01/found/chain.slack: no limit, current
				2026-01-02/found/chain.stretch: no limit, current
			`,
			findings: "warning not-read-again/2026-01-01/oil.level",
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
				2026-01-02/set/lash.intake.right: unjudged (words)
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

// `when` is held against the temperature of the reading, then of the entry.
func TestReadingsOutsideTheirCondition(t *testing.T) {
	const head = `
-- limits.toml --
[lash]
when = { engine-temp = "..35 °C" }
intake = "0.08 ± 0.02 mm"
-- 2026-01-01.md --
engine-temp = "12 °C"
[set]
lash.intake = "0.13 mm"
-- 2026-01-02.md --
`
	first := "2026-01-01/set/lash.intake: out above by lash.intake, +0.05 mm off"
	tell(t, []story{
		{
			name:  "too warm: it stands in the history, is never current and settles nothing",
			files: head + "engine-temp = \"36 °C\"\n[set]\nlash.intake = \"0.08 mm\"\n",
			values: first + `, current
				2026-01-02/set/lash.intake: unjudged (condition not met) by lash.intake
			`,
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
				warning condition-unmet/2026-01-02/set/lash.intake
			`,
		},
		{
			name:  "not written: no verdict, and settles nothing",
			files: head + "[set]\nlash.intake = \"0.08 mm\"\n",
			values: first + `, current
				2026-01-02/set/lash.intake: unjudged (condition not written) by lash.intake
			`,
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
				warning condition-unwritten/2026-01-02/set/lash.intake
			`,
		},
		{
			name:  "the bound itself is met",
			files: head + "engine-temp = \"35 °C\"\n[set]\nlash.intake = \"0.08 mm\"\n",
			values: first + `, settled
				2026-01-02/set/lash.intake: in by lash.intake, +0 mm off, current
			`,
			findings: "error out-of-limits/2026-01-01/set/lash.intake, settled",
		},
		{
			name:  "95 °F is the bound too",
			files: head + "engine-temp = \"95 °F\"\n[set]\nlash.intake = \"0.08 mm\"\n",
			values: first + `, settled
				2026-01-02/set/lash.intake: in by lash.intake, +0 mm off, current
			`,
			findings: "error out-of-limits/2026-01-01/set/lash.intake, settled",
		},
		{
			name:  "the reading's own temperature speaks over the entry's",
			files: head + "engine-temp = \"80 °C\"\n[set]\nlash.intake = { value = \"0.08 mm\", engine-temp = \"20 °C\" }\n",
			values: first + `, settled
				2026-01-02/set/lash.intake: in by lash.intake, +0 mm off, current
			`,
			findings: "error out-of-limits/2026-01-01/set/lash.intake, settled",
		},
		{
			name:  "a temperature that can't be read is one finding, and settles nothing that can be told",
			files: head + "engine-temp = \"cold\"\n[set]\nlash.intake = \"0.08 mm\"\n",
			values: first + `, current, settled
				2026-01-02/set/lash.intake: unjudged (unclear)
			`,
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake, settled
				error bad-quantity/2026-01-02/engine-temp
			`,
		},
		{
			name: "a condition that can't be read leaves the limit unread: one finding",
			files: `
-- limits.toml --
[lash]
when = { engine-temp = "35 cold" }
intake = "0.08 ± 0.02 mm"
-- 2026-01-01.md --
[set]
lash.intake = "0.13 mm"
`,
			values:   "2026-01-01/set/lash.intake: no limit, current",
			findings: "error unknown-unit/limits.toml/engine-temp",
		},
	})
}

func TestPartsGoInAndOut(t *testing.T) {
	const parts = `
-- parts.toml --
[a]
slot = "s"
[b]
slot = "s"
[c]
`
	tell(t, []story{
		{name: "a part that came along but is on no list: a note", files: parts + "-- 2026-01-01.md --\nremoved = [\"a\"]\n",
			findings: "note not-fitted/2026-01-01/removed/a"},
		{name: "a part that is out already", files: parts + "-- 2026-01-01.md --\nfitted = [\"a\"]\n-- 2026-01-02.md --\nremoved = [\"a\"]\n-- 2026-01-03.md --\nremoved = [\"a\"]\n",
			findings: "error not-fitted/2026-01-03/removed/a"},
		{name: "a part that its slot's next one took out", files: parts + "-- 2026-01-01.md --\nfitted = [\"a\"]\n-- 2026-01-02.md --\nfitted = [\"b\"]\n-- 2026-01-03.md --\nremoved = [\"a\"]\n",
			findings: "error not-fitted/2026-01-03/removed/a"},
		{name: "out and in again in one entry", files: parts + "-- 2026-01-01.md --\nfitted = [\"a\"]\n-- 2026-01-02.md --\nremoved = [\"a\"]\nfitted = [\"a\"]\n"},
		{name: "two into one slot in one entry", files: parts + "-- 2026-01-01.md --\nfitted = [\"a\", \"b\"]\n",
			findings: "error slot-twice/2026-01-01/a/b"},
		{name: "one part twice in one list", files: parts + "-- 2026-01-01.md --\nfitted = [\"c\", \"c\"]\n",
			findings: "error defined-twice/2026-01-01/c"},
		{name: "two in one slot from the start", files: parts + "-- build.toml --\nfitted = [\"a\", \"b\"]\n",
			findings: "error slot-twice/build.toml/b"},
		{name: "one part twice from the start", files: parts + "-- build.toml --\nfitted = [\"c\", \"c\"]\n",
			findings: "error defined-twice/build.toml/c"},
	})
}

func TestStaysOfAPart(t *testing.T) {
	const text = `
-- build.toml --
fitted = ["std"]
-- parts.toml --
[std]
slot = "camshaft"
[hill]
slot = "camshaft"
[spare]
slot = "camshaft"
-- 2026-01-01.md --
bought = ["hill"]
-- 2026-01-02.md --
fitted = ["hill"]
-- 2026-01-03.md --
fitted = ["hill"]
-- 2026-01-04.md --
fitted = ["std"]
-- plan.md --
fitted = ["spare"]
`
	const want = `
		hill: 2026-01-02 to 2026-01-03, 2026-01-03 to 2026-01-04
		spare: planned
		std: the start to 2026-01-02, 2026-01-04 to now, in
	`
	var got strings.Builder
	for _, p := range compile(t, text, "").Journal.Parts {
		got.WriteString(p.Name + ":")
		for i, stay := range p.Stays {
			got.WriteString(strings.Repeat(",", min(i, 1)) + " " + entryName(stay.From, "the start") + " to " + entryName(stay.To, "now"))
		}
		if p.IsPlanned() {
			got.WriteString(" planned")
		}
		if p.IsFitted() {
			got.WriteString(", in")
		}
		got.WriteString("\n")
	}
	differ(t, "stays", text, got.String(), want)
}

func entryName(e *model.Entry, none string) string {
	if e == nil {
		return none
	}
	return e.Path
}
