package model_test

import "testing"

// An accept matches by rule and path: readings at exactly that path in its entry and before. A newer reading asks again.
func TestAcceptedFindings(t *testing.T) {
	const head = `
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
-- 2026-01-01.md --
[found]
lash.intake.left = "0.13 mm"
lash.intake.right = "0.13 mm"
`
	accept := func(finding, at string) string {
		return "[[accept]]\nfinding = \"" + finding + "\"\nat = \"" + at + "\"\nwhy = \"it runs\"\n"
	}
	tell(t, []story{
		{
			name:   "exactly that path, in its entry",
			files:  head + accept("out-of-limits", "lash.intake.left"),
			values: twoOut,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake.left, accepted
				error out-of-limits/2026-01-01/found/lash.intake.right
			`,
		},
		{
			name:   "a path above matches nothing",
			files:  head + accept("out-of-limits", "lash.intake"),
			values: twoOut,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake.left
				error out-of-limits/2026-01-01/found/lash.intake.right
				warning unused-accept/2026-01-01/lash.intake/out-of-limits
			`,
		},
		{
			name:   "in an entry after the reading",
			files:  head + "-- 2026-01-02.md --\n" + accept("out-of-limits", "lash.intake.left"),
			values: twoOut,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake.left, accepted
				error out-of-limits/2026-01-01/found/lash.intake.right
			`,
		},
		{
			name:   "a newer reading asks again, and the settled one still uses the accept",
			files:  head + accept("out-of-limits", "lash.intake.left") + "-- 2026-01-02.md --\n[found]\nlash.intake.left = \"0.14 mm\"\n",
			values: "2026-01-01/found/lash.intake.left: out above by lash.intake, +0.05 mm off, settled\n2026-01-01/found/lash.intake.right: out above by lash.intake, +0.05 mm off, current\n2026-01-02/found/lash.intake.left: out above by lash.intake, +0.06 mm off, current",
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake.left, settled
				error out-of-limits/2026-01-01/found/lash.intake.right
				error out-of-limits/2026-01-02/found/lash.intake.left
			`,
		},
		{
			name:   "before the reading it matches nothing",
			files:  head + "-- 2025-12-31.md --\n" + accept("out-of-limits", "lash.intake.left"),
			values: twoOut,
			findings: `
				warning unused-accept/2025-12-31/lash.intake.left/out-of-limits
				error out-of-limits/2026-01-01/found/lash.intake.left
				error out-of-limits/2026-01-01/found/lash.intake.right
			`,
		},
		{
			name:   "another rule at that path",
			files:  head + accept("worn", "lash.intake.left"),
			values: twoOut,
			findings: `
				error out-of-limits/2026-01-01/found/lash.intake.left
				error out-of-limits/2026-01-01/found/lash.intake.right
				warning unused-accept/2026-01-01/lash.intake.left/worn
			`,
		},
		{
			name:     "a suspected slip, like a verdict",
			files:    "-- limits.toml --\n[lash]\nintake = \"0.08 ± 0.02 mm\"\n-- 2026-01-01.md --\n[found]\nlash.intake.left = \"0.8 mm\"\n" + accept("suspected-slip", "lash.intake.left"),
			values:   "2026-01-01/found/lash.intake.left: out above by lash.intake, +0.72 mm off, current",
			findings: "error suspected-slip/2026-01-01/found/lash.intake.left, accepted",
		},
		{
			name:     "a path near a known one, like a verdict",
			files:    "-- limits.toml --\n[lash]\nintake = \"0.08 ± 0.02 mm\"\n-- 2026-01-01.md --\n[found]\nlash.intke.left = \"0.08 mm\"\n" + accept("near-path", "lash.intke.left"),
			values:   "2026-01-01/found/lash.intke.left: no limit, current",
			findings: "error near-path/2026-01-01/found/lash.intke.left, accepted",
		},
		{
			name:     "a limit's finding, from any entry",
			files:    "-- limits.toml --\n[wear]\nhigh = \"1 mm\"\nbasis = \"assumed\"\n-- 2026-01-01.md --\n" + accept("assumed-limit", "wear"),
			findings: "note assumed-limit/limits.toml/wear, accepted",
		},
		{
			name:  "what can't be right can't be accepted",
			files: "-- 2026-01-01.md --\n[found]\nlash.intake.left = \"0.13\"\n" + accept("missing-unit", "lash.intake.left"),
			findings: `
				error missing-unit/2026-01-01/found/lash.intake.left
				warning accept-refused/2026-01-01/lash.intake.left/missing-unit
			`,
		},
		{
			name:     "a plan accepts nothing, and is not asked whether it did",
			files:    head + "-- plan.md --\n" + accept("out-of-limits", "lash.intake.left"),
			values:   twoOut,
			findings: "error out-of-limits/2026-01-01/found/lash.intake.left\nerror out-of-limits/2026-01-01/found/lash.intake.right",
		},
	})
}

const twoOut = `
	2026-01-01/found/lash.intake.left: out above by lash.intake, +0.05 mm off, current
	2026-01-01/found/lash.intake.right: out above by lash.intake, +0.05 mm off, current
`

// An entry without a date changes nothing.
func TestPlansChangeNothing(t *testing.T) {
	const head = `
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
-- parts.toml --
[cam]
then = ["lash.intake"]
needs = ["springs"]
brings.cam.intake.lift = "7.9 mm"
[bought]
-- 2026-01-01.md --
[set]
lash.intake = "0.13 mm"
`
	out := "2026-01-01/set/lash.intake: out above by lash.intake, +0.05 mm off, current\n"
	tell(t, []story{
		{
			name:     "its parts stay planned",
			files:    head + "-- plan.md --\nfitted = [\"cam\"]\nbought = [\"bought\"]\nexpects = [\"chain.slack\"]\n",
			values:   out,
			findings: "error out-of-limits/2026-01-01/set/lash.intake",
		},
		{
			name:   "its readings get no verdict and settle nothing",
			files:  head + "-- plan.md --\n[set]\nlash.intake = \"0.30 mm\"\n",
			values: out + "plan/set/lash.intake: unjudged (planned)",
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
				warning plan-with-figures/plan/set/lash.intake
			`,
		},
		{
			name:   "repeats are figures too",
			files:  head + "-- plan.md --\n[set]\nlash.intake = [\"0.30 mm\", \"0.31 mm\"]\n",
			values: out + "plan/set/lash.intake: unjudged (planned)",
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
				warning plan-with-figures/plan/set/lash.intake
			`,
		},
		{
			name:   "blanks are what a plan has",
			files:  head + "-- plan.md --\n[set]\nlash.intake = \"-\"\n",
			values: out,
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
			`,
		},
		{
			name:   "a figure that can't be read is found, and settles nothing",
			files:  head + "-- plan.md --\n[set]\nlash.intake = \"0.30 zz\"\nlash.exhaust = \"3 kg\"\n[[readings]]\ndata = \"data/none.csv\"\n",
			values: out,
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
				error unknown-unit/plan/lash.intake
				error wrong-dimension/plan/set/lash.exhaust
				error missing-file/plan/data/none.csv
			`,
		},
		{
			name:   "a date that can't be read makes no plan",
			files:  head + "-- undated.md --\ndate = \"soon\"\n[set]\nlash.exhaust = \"0.30 mm\"\n",
			values: "undated/set/lash.exhaust: no limit, current\n" + out,
			findings: `
				error out-of-limits/2026-01-01/set/lash.intake
				error bad-date/undated/date
				note no-limit/undated/set/lash.exhaust
			`,
		},
	})
}
