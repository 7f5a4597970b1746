package model_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
)

// atTheValve are the rows of a dial on a valve: the lift over a rocker of 1.2, without what the lash (mm) takes.
func atTheValve(lash float64) string {
	lobe := intakeLobe
	var b strings.Builder
	b.WriteString("crank [°],lift [mm]\n")
	for a := math.Round(lobe.centre - lobe.half - 20); a <= lobe.centre+lobe.half+20; a += 4 {
		fmt.Fprintf(&b, "%g,%.2f\n", a, max(0, lobe.lift(a)*1.2-lash))
	}
	return b.String()
}

// lashCase compiles an engine whose intake was read at the valve, with a lash (mm) of now.
func lashCase(t *testing.T, csv, lash, table string) *journal.Result {
	t.Helper()
	return degreed(t, csv, "[engine]\nrocker-ratio = { intake = 1.2 }\nbore = \"62 mm\"\nstroke = \"59 mm\"\nrod = \"118 mm\"\nchamber = \"17.8 cm3\"",
		"cam.intake.at = \"1.0 mm\"\ncam.exhaust.at = \"1.0 mm\"\ncam.exhaust.closes = \"16° ATDC\"\nlash.intake = \""+lash+"\"\nspring.intake.installed = \"34.5 mm\"\nspring.intake.solid = \"23.4 mm\"\nclearance.retainer.intake = \"11.0 mm\"",
		"of = \"cam.intake\"\n"+table)
}

func figureAt(t *testing.T, r *journal.Result, path string) float64 {
	t.Helper()
	if i := slices.IndexFunc(r.Numbers, func(n *derive.Number) bool { return n.Path == path }); i >= 0 {
		if n := r.Numbers[i]; n.Reason != "" {
			t.Fatalf("%s: %s", path, n.Reason)
		}
		return r.Numbers[i].Estimate.Value
	}
	v := valueAt(r, path)
	if v == nil {
		t.Fatalf("there is no %s", path)
	}
	return v.Estimate.Value
}

// One cam, read with the lash in, with the lash taken up and at the cam, is one cam: what the cam does is the closed form, and the seat is where it is by the file at the cam, within the way
// between two points of the wheel.
func TestADialThatWasReadWithItsLashIn(t *testing.T) {
	const degree = math.Pi / 180
	in, up := lashCase(t, atTheValve(0.1), "0.10 mm", `lash = "0.10 mm"`), lashCase(t, atTheValve(0), "0.10 mm", `lash = "0 mm"`)
	cam := lashCase(t, "crank [°],lift [mm]\n"+intakeLobe.rows(4, "%g,%.2f", asIs, 1), "0.10 mm", `at = "cam"`)
	opens, closes := intakeLobe.event(1, -1), intakeLobe.event(1, 1)
	for _, c := range []struct {
		path         string
		want, within float64 // SI; no figure: that of the file at the cam
	}{
		{"cam.intake.lift", 7.9e-3, 0.02e-3}, {"cam.intake.duration", (closes - opens) * degree, 0.3 * degree}, {"cam.overlap", (16 - opens) * degree, 0.15 * degree},
		{"cam.intake.area", intakeLobe.area(1) * 1e-3 * degree, 2e-6}, {"cam.intake.valve-lift", 7.9e-3*1.2 - 0.1e-3, 0.02e-3},
		{"margin.coil-bind.intake", 34.5e-3 - 23.4e-3 - 7.9e-3*1.2, 0.03e-3}, {"margin.retainer.intake", 11e-3 - 7.9e-3*1.2, 0.03e-3},
		{"engine.trapped-compression", math.NaN(), 0.15}, {"engine.cranking-pressure", math.NaN(), 0.3e5}, // half a step of the wheel
	} {
		if math.IsNaN(c.want) {
			c.want = figureAt(t, cam, c.path)
		}
		for i, r := range []*journal.Result{in, up, cam} {
			if got := figureAt(t, r, c.path); math.Abs(got-c.want) > c.within {
				t.Errorf("%s, %s: %v, want %v", []string{"lash in", "lash taken up", "at the cam"}[i], c.path, got, c.want)
			}
		}
	}
	fine := lashCase(t, "crank [°],lift [mm]\n"+intakeLobe.rows(1, "%g,%.3f", asIs, 1), "0.10 mm", `at = "cam"`)
	overlap := fine.Numbers[slices.IndexFunc(fine.Numbers, func(n *derive.Number) bool { return n.Path == "cam.overlap" })]
	if got := overlap.Shown().Number; len(got) > 4 { // of events at a tenth of a degree
		t.Errorf("an overlap of %s° is finer than its events", got)
	}
	for i, r := range []*journal.Result{in, up, cam} {
		if got := findings(r); got != "" {
			t.Errorf("%d: findings:\n%s", i, got)
		}
	}
}

// Where nothing says whether the lash was in, the margins are those with it in, and the lash is taken off once; the events are those of the dial.
func TestALashThatNobodyTold(t *testing.T) {
	told, untold := lashCase(t, atTheValve(0.1), "0.10 mm", `lash = "0.10 mm"`), lashCase(t, atTheValve(0.1), "0.10 mm", "")
	if got := findings(untold); strings.TrimSpace(got) != "warning lash-untold/2026-01-01/cam.intake" {
		t.Fatalf("findings:\n%s", got)
	}
	for _, path := range []string{"cam.intake.lift", "margin.coil-bind.intake", "margin.retainer.intake", "cam.intake.valve-lift"} {
		if got, want := figureAt(t, untold, path), figureAt(t, told, path); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %v, want %v", path, got, want)
		}
	}
	longer := intakeLobe.event(1, 1) - intakeLobe.event(1, -1) - intakeLobe.event(1.1/1.2+0.1/1.2+0.1/1.2, 1) + intakeLobe.event(1.1/1.2+0.1/1.2+0.1/1.2, -1)
	if got := (figureAt(t, told, "cam.intake.duration") - figureAt(t, untold, "cam.intake.duration")) * 180 / math.Pi; math.Abs(got-longer) > 0.3 {
		t.Errorf("with the lash in it is open for %v° more, want %v°", got, longer)
	}
	if figureAt(t, untold, "engine.trapped-compression") <= figureAt(t, told, "engine.trapped-compression") {
		t.Error("less is trapped, as if it shut later")
	}
}

// A checking lift below the lash tells no events of a file that was read with the lash in; the seat is told as far as the dial showed it.
func TestWhatALashHides(t *testing.T) {
	r := lashCase(t, atTheValve(0.6), "0.60 mm", "lash = \"0.60 mm\"")
	if got := findings(r); got != "" {
		t.Errorf("findings:\n%s", got)
	}
	low := degreed(t, atTheValve(0.6), "[engine]\nrocker-ratio = { intake = 1.2 }", `cam.intake.at = "0.5 mm"`, "of = \"cam.intake\"\nlash = \"0.60 mm\"")
	if got := findings(low); strings.TrimSpace(got) != "warning events-untold/2026-01-01/cam.intake" || valueAt(low, "cam.intake.opens") != nil || valueAt(low, "cam.intake.area") != nil || valueAt(low, "cam.intake.lift") == nil {
		t.Errorf("below the lash:\n%s", got)
	}
	for now, atMost := range map[string]bool{"0.60 mm": false, "0.55 mm": true, "0.65 mm": false} {
		r := lashCase(t, atTheValve(0.6), now, "lash = \"0.60 mm\"")
		i := slices.IndexFunc(r.Numbers, func(n *derive.Number) bool { return n.Path == "engine.trapped-compression" })
		if n := r.Numbers[i]; n.AtMost != atMost {
			t.Errorf("with a lash of %s now: %s, at most: %v", now, n.Words, n.AtMost)
		}
	}
	for table, want := range map[string]string{"at = \"cam\"\nlash = \"0.10 mm\"": "error bad-degreeing/2026-01-01/cam.intake", "at = \"cam\"\nlash = \"0 mm\"": "", "lash = \"0.08..0.12 mm\"": "error bad-quantity/2026-01-01/cam.intake"} {
		if got := findings(degreed(t, atTheValve(0), "[engine]\nrocker-ratio = { intake = 1.2 }", `cam.intake.at = "1.0 mm"`, "of = \"cam.intake\"\n"+table)); strings.TrimSpace(got) != want {
			t.Errorf("%s:\n%s", table, got)
		}
	}
	if d := lashCase(t, atTheValve(0.1), "0.10 mm", `lash = "0.10 mm"`).Journal.Entries[0].Degreeings[0]; math.Abs(d.CamLift(1.1e-3)-1e-3) > 1e-12 || d.CamLift(0) != 0 {
		t.Errorf("1.1 mm at the dial is %v m at the cam, and nought %v", d.CamLift(1.1e-3), d.CamLift(0))
	}
}
