package model_test

import (
	"strings"
	"testing"
)

// By the table of paths: a ring's name stands below its cylinder's. What holds for a position is the deepest limit on the way to it; one for every cylinder comes after those of
// the cylinder, and before those above it.
func TestALimitForEveryCylinder(t *testing.T) {
	const files = `
-- build.toml --
[engine]
cylinders = ["left", "right"]
-- limits.toml --
[gap.ring]
low = "0.10 mm"
high = "0.90 mm"
top = "0.25 ± 0.05 mm"
left.oil = "0.50 ± 0.10 mm"
oil = "0.40 ± 0.10 mm"
[lash.intake]
a = "0.10 ± 0.02 mm"
right = "0.12 ± 0.02 mm"
-- parts.toml --
[race]
then = ["gap.ring.top"]
limits.gap.ring.top = "0.35 ± 0.05 mm"
-- 2026-01-01.md --
[found]
gap.ring.left = { top = "0.30 mm", oil = "0.55 mm", third = "0.80 mm" }
gap.ring.right = { top = "0.31 mm", oil = "0.55 mm" }
lash.intake.left.a = "0.13 mm"
lash.intake.right.a = "0.13 mm"
`
	r := compile(t, files, "")
	var got []string
	for _, v := range r.Journal.Values {
		got = append(got, v.Path+" "+v.Verdict.String()+" by "+v.Limit.Path)
	}
	want := "gap.ring.left.top in by gap.ring.top, gap.ring.left.oil in by gap.ring.left.oil, gap.ring.left.third in by gap.ring, gap.ring.right.top out by gap.ring.top, " +
		"gap.ring.right.oil out by gap.ring.oil, lash.intake.left.a out by lash.intake.a, lash.intake.right.a in by lash.intake.right"
	if told := strings.Join(got, ", "); told != want {
		t.Errorf("it holds\n%s, want\n%s", told, want)
	}
	if below := strings.Join(r.Journal.Positions.Below("gap.ring.top"), " "); below != "gap.ring.left.top gap.ring.right.top" {
		t.Errorf("it is for %s", below)
	}
	for position, want := range map[string]string{"gap.ring.left.top": "left", "gap.ring.right.top": "right", "gap.ring.left.oil": "", "gap.ring.top": ""} {
		limit := r.Journal.Limits[0]
		for _, l := range r.Journal.Limits {
			if l.Path == "gap.ring.top" && l.Part == nil {
				limit = l
			}
		}
		if place, ok := limit.PlaceIn(position); ok != (want != "") || ok && place != want || limit.IsFor(position) != ok {
			t.Errorf("%s stands at %q of it, %t", position, place, ok)
		}
	}

	fitted := compile(t, files+"-- 2026-01-02.md --\nfitted = [\"race\"]\n[set]\ngap.ring.left.top = \"0.31 mm\"\n", "")
	if missing := strings.Join(fitted.Journal.Requests[0].Missing, " "); len(fitted.Journal.Requests) != 1 || missing != "gap.ring.right.top" {
		t.Errorf("missing %s", missing)
	}
	if v := fitted.Journal.Current("gap.ring.left.top"); v == nil || v.Limit == nil || v.Limit.Part == nil || v.Verdict.String() != "in" {
		t.Errorf("the part's own limit does not hold: %+v", v)
	}
}

// What may be a cylinder's name is taken for one: a number, or what is nearly the name of one; and any word where cylinders themselves are read.
func TestAWordThatMayBeACylinders(t *testing.T) {
	const build = "-- build.toml --\n[engine]\ncylinders = [\"left\", \"right\"]\n"
	for _, c := range []struct {
		limit, read string
		each        bool
	}{
		{"lash.intake.a", "", true},
		{"lash.intake.front", "", true},
		{"lash.intake.1", "", false},
		{"lash.intake.lfet", "", false},
		{"lash.intake.1", "lash.intake.left.1", true},
		{"lash.intake.b", "lash.exhaust.left.a", true},
		{"lash.intake.middle", "lash.exhaust.left", false},
		{"lash.intake.middle", "lash.exhaust.left.a = \"0.12 mm\"\nlash.intake.right", true},
		{"lash.intake.left", "", false},
		{"compression.middle", "", false},
		{"bore.top", "", false},
		{"gap.plug.middle", "", false},
		{"torque.nut", "", false},
	} {
		value := "\"0.12 mm\""
		files := build + "-- limits.toml --\n" + c.limit + " = " + value + "\n-- 2026-01-01.md --\n"
		if c.read != "" {
			files += "[found]\n" + c.read + " = " + value + "\n"
		}
		if limits := compile(t, files, "").Journal.Limits; limits[0].EachCylinder != c.each {
			t.Errorf("a limit at %s, with %q read, is for every cylinder: %t", c.limit, c.read, limits[0].EachCylinder)
		}
	}
}
