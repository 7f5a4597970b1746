package model_test

import (
	"strings"
	"testing"

	"example.org/locknut/journal/model"
)

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
		{name: "out and in again in one entry", files: parts + "-- 2026-01-01.md --\nfitted = [\"a\"]\n-- 2026-01-02.md --\nremoved = [\"a\"]\nfitted = [\"a\"]\n",
			findings: "note removed-and-fitted/2026-01-02/a"},
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

// Readings from a CSV file stand beside those in the text: one path is read once in an entry's state, and not above another.
func TestReadingsFromAFile(t *testing.T) {
	const data = `
-- data/r.csv --
path,found,set
wear.a,1 mm,2 mm
wear.b,-,3 mm
wear.c.x,4 mm,
-- 2026-01-01.md --
[[readings]]
data = "data/r.csv"
`
	const all = `
		2026-01-01/found/wear.a: no limit, settled
		2026-01-01/found/wear.c.x: no limit, current
		2026-01-01/set/wear.a: no limit, current
		2026-01-01/set/wear.b: no limit, current
	`
	tell(t, []story{
		{name: "found and set", files: data, values: all},
		{
			name:     "the same path in the text",
			files:    data + "[set]\nwear.a = \"2 mm\"\n",
			values:   all,
			findings: "error defined-twice/2026-01-01/wear.a",
		},
		{
			name:  "a path above in the text",
			files: data + "[found]\nwear.c = \"5 mm\"\n",
			values: `
				2026-01-01/found/wear.c: no limit, settled
				2026-01-01/found/wear.a: no limit, settled
				2026-01-01/found/wear.c.x: no limit, current
				2026-01-01/set/wear.a: no limit, current
				2026-01-01/set/wear.b: no limit, current
			`,
			findings: "error value-and-deeper/2026-01-01/wear.c.x",
		},
	})
}
