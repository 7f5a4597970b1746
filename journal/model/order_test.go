package model_test

import (
	"strings"
	"testing"
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
				2026-01-02/set/lash.intake: unjudged (read at another engine temperature) by lash.intake
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
				2026-01-02/set/lash.intake: unjudged (engine temperature not written) by lash.intake
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
				2026-01-02/set/lash.intake: unjudged (unclear while something can't be read)
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
