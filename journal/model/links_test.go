package model_test

import (
	"testing"

	"example.org/locknut/journal/model"
)

// linked is the journal that links lead into.
const linkedTo = `
-- build.toml --
[engine]
bore = "53 mm"
stroke = "56.4 mm"
cylinders = ["left", "right"]
-- limits.toml --
[lash]
intake = "0.08 ± 0.02 mm"
exhaust = "0.12 ± 0.02 mm"
[torque]
basis = "manual"
-- parts.toml --
[cam-212]
limits.lash.intake = "0.10 ± 0.02 mm"
-- tools.toml --
[feeler]
-- photos/cam.jpg --
-- entries/close-up.jpg --
-- data/p.csv --
a
1
-- 2026-01-01-first.md --
[found]
lash.intake = "0.13 mm"
[set]
lash.intake = "0.08 mm"
-- sub/2026-01-02-second.md --
[set]
lash.exhaust.left = "0.12 mm"
lash.exhaust.right = "0.13 mm"
-- 2026-01-05-last.md --
fitted = ["cam-212"]
[set]
lash.intake = "0.10 mm"
-- a-plan.md --
[found]
lash.intake = "9 mm"
[set]
lash.intake = "9 mm"
`

func TestLinks(t *testing.T) {
	for link, want := range map[string]string{
		"part:cam-212": "part cam-212",
		"part:CAM_212": "part cam-212",
		"part:cam-221": "there is no part `cam-221`; cam-212",
		"part:piston":  "there is no part `piston`",
		"tool:feeler":  "tool feeler",
		"tool:feelr":   "there is no tool `feelr`; feeler",

		"entry:2026-01-01-first":      "entry 2026-01-01-first",
		"entry:2026-01-01-first.md":   "entry 2026-01-01-first",
		"entry:sub/2026-01-02-second": "entry sub/2026-01-02-second",
		"entry:a-plan":                "entry a-plan",
		"entry:2026-01-01-frist":      "there is no entry `2026-01-01-frist`; 2026-01-01-first",

		"limit:lash.intake":      "limit lash.intake",
		"limit:lash.intake.left": "limit lash.intake",
		"limit:lash.inlet":       "limit lash.intake",
		"limit:torque":           "limit torque", // a table of words is there to be read too
		"limit:lash.intke":       "there is no limit at `lash.intke`; lash.intake",

		// Before the cam went in: the sheet's limit, and the values as this entry left them.
		"value:lash.intake":       "value 2026-01-01-first/set/lash.intake",
		"value:lash.intake.left":  "value 2026-01-01-first/set/lash.intake",
		"value:lash.exhaust.left": "value sub/2026-01-02-second/set/lash.exhaust.left",
		"value:lash.exhaust":      "there is no value at `lash.exhaust`", // left and right differ
		"value:engine.bore":       "value build/sheet/engine.bore",
		"value:engine.bor":        "there is no value at `engine.bor`; engine.bore",

		"value:found/chain.slack":                           "value 2026-01-03-here/found/chain.slack",
		"value:set/chain.slack":                             "value 2026-01-03-here/set/chain.slack",
		"value:chain.slack":                                 "value 2026-01-03-here/set/chain.slack",
		"value:found/tyre.tread":                            "nothing was found at `tyre.tread` here",
		"value:set/tyre.tread":                              "nothing was set at `tyre.tread` here",
		"value:2026-01-01-first/found/lash.intake":          "value 2026-01-01-first/found/lash.intake",
		"value:2026-01-01-first/found/lash.intake.left":     "value 2026-01-01-first/found/lash.intake",
		"value:2026-01-01-first/set/lash.intake":            "value 2026-01-01-first/set/lash.intake",
		"value:2026-01-01-first/lash.intake":                "value 2026-01-01-first/set/lash.intake",
		"value:2026-01-05-last/lash.intake":                 "value 2026-01-05-last/set/lash.intake",
		"value:sub/2026-01-02-second/set/lash.exhaust.left": "value sub/2026-01-02-second/set/lash.exhaust.left",
		"value:2026-01-09/set/lash.intake":                  "there is no entry `2026-01-09`",
		"value:engine.displacement":                         "worked engine.displacement",

		"../photos/cam.jpg":        "file photos/cam.jpg",
		"photos/cam.jpg":           "file photos/cam.jpg",
		"/photos/cam.jpg":          "file photos/cam.jpg",
		"close-up.jpg":             "file entries/close-up.jpg",
		"2026-01-01-first.md":      "entry 2026-01-01-first",
		"sub/2026-01-02-second.md": "entry sub/2026-01-02-second",
		"../data/p.csv":            "file data/p.csv",
		"../../outside.txt":        "there is no file `../../outside.txt`",
		"photos/cm.jpg":            "there is no file `photos/cm.jpg`; photos/cam.jpg",
		"../limits.toml":           "file limits.toml",
	} {
		if got := resolved(t, link); got != want {
			t.Errorf("%s leads to: %s, want: %s", link, got, want)
		}
	}
}

// resolved puts a link into an entry of 3 January and says where it leads.
func resolved(t *testing.T, link string) string {
	t.Helper()
	here := "-- 2026-01-03-here.md --\n~~~toml\n[found]\nchain.slack = \"33 mm\"\n[set]\nchain.slack = \"30 mm\"\n~~~\nA [link](" + link + ").\n"
	e := compile(t, linkedTo+here, "").Journal.Entry("2026-01-03-here")
	if len(e.Links) != 1 {
		t.Fatalf("%s: %d links, want 1", link, len(e.Links))
	}
	return leadsTo(e.Links[0])
}

func leadsTo(m *model.Mention) string {
	switch {
	case m.Broken != "" && m.Near != "":
		return m.Broken + "; " + m.Near
	case m.Broken != "":
		return m.Broken
	case m.Part != nil:
		return "part " + m.Part.Name
	case m.Tool != nil:
		return "tool " + m.Tool.Name
	case m.Limit != nil:
		return "limit " + m.Limit.Path
	case m.Value != nil:
		return "value " + m.Value.ID()
	case m.Target != nil:
		return "entry " + m.Target.Path
	case m.File != "":
		return "file " + m.File
	case m.Worked:
		return "worked " + m.Path
	}
	return "nowhere"
}

// In a plan a value is what the plan writes, else what is in force now.
func TestLinksInAPlan(t *testing.T) {
	text := linkedTo + "-- b-plan.md --\n~~~toml\n[set]\nlash.exhaust = \"9 mm\"\n~~~\n[a](value:lash.exhaust) [b](value:lash.intake) [c](limit:lash.intake)\n"
	links := compile(t, text, "").Journal.Entry("b-plan").Links
	for i, want := range []string{"value b-plan/set/lash.exhaust", "value 2026-01-05-last/set/lash.intake", "limit lash.intake"} {
		if got := leadsTo(links[i]); got != want {
			t.Errorf("link %d leads to: %s, want: %s", i+1, got, want)
		}
	}
	if links[2].Limit.Part == nil {
		t.Errorf("the limit seen from a plan is the sheet's, want that of the part that is in now")
	}
}

// What stands where a link leads but can't be read is no broken link.
func TestLinksToWhatCantBeRead(t *testing.T) {
	r := compile(t, `
-- build.toml --
[engine]
gasket = { bore = "54 kg", thickness = "0.8 mm" }
-- 2026-01-01.md --
~~~toml
[set]
lash.intake = "0.08 zz"
~~~
[a](value:lash.intake) [b](value:set/lash.intake) [c](value:engine.gasket.bore)
`, "")
	differ(t, "findings", "links to what can't be read", findings(r), "error wrong-dimension/build.toml/bore\nerror unknown-unit/2026-01-01/lash.intake")
}

// Where the newest word up to the entry can't be read, an older one is not shown in its place; what was found is found all the same, and
// an entry before knows nothing of it.
func TestLinksToValuesWithANewerOneThatCantBeRead(t *testing.T) {
	j := compile(t, `
-- 2026-01-01.md --
~~~toml
[set]
lash.intake = "0.08 mm"
~~~
[a](value:lash.intake)
-- 2026-01-02.md --
~~~toml
[found]
lash.intake = "0.13 mm"
[set]
lash.intake = "0.08 zz"
~~~
[a](value:lash.intake) [b](value:found/lash.intake) [c](value:2026-01-01/lash.intake)
`, "").Journal
	first, second := j.Entry("2026-01-01").Links, j.Entry("2026-01-02").Links
	for _, link := range []struct {
		of   *model.Mention
		want string
	}{
		{first[0], "value 2026-01-01/set/lash.intake"},
		{second[1], "value 2026-01-02/found/lash.intake"},
		{second[2], "value 2026-01-01/set/lash.intake"},
	} {
		if got := leadsTo(link.of); got != link.want {
			t.Errorf("a link leads to: %s, want: %s", got, link.want)
		}
	}
	if m := second[0]; m.Value != nil || !m.Unread || m.Broken != "" {
		t.Errorf("the link to what can't be read leads to: %s, unread %v", leadsTo(m), m.Unread)
	}
}
