package derive_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"example.org/locknut/journal"
	"example.org/locknut/journal/derive"
)

// What can't be read is not "not given", and not nought: no number comes from what is left.
func TestNoNumberComesFromWhatIsLeft(t *testing.T) {
	const engine = "[engine]\ncylinders = 2\nbore = \"60 mm\"\nstroke = \"50 mm\"\nrod = \"100 mm\"\nchamber = \"15.7 cm3\"\ndeck = \"0.1 mm\"\ngasket = { bore = \"61 mm\", thickness = \"0.6 mm\" }\ndome = \"1.0 cm3\"\n" +
		"redline = \"12000 rpm\"\ncycle = \"four-stroke\"\ncam-sprocket = 34\nrocker-ratio = { intake = 1, exhaust = 1 }\n"
	const read = "cam.intake = { opens = \"12° BTDC\", closes = \"46° ABDC\", lift = \"8 mm\", at = \"1.0 mm\" }\ncompression = { 1 = \"1000 kPa\", 2 = \"1020 kPa\" }\nlash.intake = { 1 = \"0.10 mm\", 2 = \"0.12 mm\" }\n" +
		"bore = { 1 = { top = { x = \"60.01 mm\", y = \"60.02 mm\" }, low = { x = \"60.00 mm\", y = \"60.00 mm\" } } }\ngap.ring.1.top = \"0.20 mm\"\n"
	for _, c := range []struct{ name, from, to, unclear, stays string }{
		{"dome", `dome = "1.0 cm3"`, `dome = "-1.0 cm3"`, "engine.compression-ratio engine.trapped-compression engine.cranking-pressure", "engine.squish engine.displacement"},
		{"deck", `deck = "0.1 mm"`, `deck = "0.1"`, "engine.compression-ratio engine.trapped-compression engine.cranking-pressure engine.squish", "engine.displacement"},
		{"gasket", `gasket = { bore = "61 mm", thickness = "0.6 mm" }`, `gasket = "0.6 mm"`, "engine.compression-ratio engine.trapped-compression engine.cranking-pressure engine.squish", "engine.rod-ratio"},
		{"chamber", `"15.7 cm3"`, `"15.7 mm"`, "engine.compression-ratio engine.trapped-compression engine.cranking-pressure", "engine.rod-ratio"},
		{"rod", `"100 mm"`, `"100"`, "engine.rod-ratio engine.trapped-compression engine.cranking-pressure", "engine.compression-ratio"},
		{"bore", `bore = "60 mm"`, `bore = "60"`, "engine.compression-ratio engine.trapped-compression engine.cranking-pressure engine.displacement", "displacement.1"},
		{"no cylinders", `cylinders = 2`, `cylinders = 0`, "engine.displacement", "engine.compression-ratio"},
		{"fewer than none", `cylinders = 2`, `cylinders = -2`, "engine.displacement", "engine.compression-ratio"},
		{"one name twice", `cylinders = 2`, `cylinders = ["1", "1"]`, "engine.displacement", "engine.compression-ratio"},
		{"cycle", `"four-stroke"`, `"four"`, "engine.trapped-compression engine.cranking-pressure cam.tooth", "engine.compression-ratio"},
		{"redline", `"12000 rpm"`, `"12000 km"`, "engine.piston-speed.mean", "engine.rod-ratio"},
		{"ratio", `{ intake = 1, exhaust`, `{ intake = "-1", exhaust`, "cam.intake.valve-lift.1 cam.intake.valve-lift.2", "cam.intake.duration"},
		{"no side", `"46° ABDC"`, `"46°"`, "cam.intake.duration cam.intake.lobe-centre cam.advance cam.separation engine.trapped-compression engine.cranking-pressure", "engine.compression-ratio"},
		{"a cylinder", `2 = "1020 kPa"`, `2 = "1020 mm"`, "", "engine.compression-ratio"},
		{"an older figure", "[found]\n", "[found]\nengine.dome = \"2.0 mm\"\n", "engine.compression-ratio engine.trapped-compression engine.cranking-pressure", "engine.squish"},
		{"one size of a bore", `y = "60.02 mm"`, `y = "60.02 kPa"`, "displacement.1 engine.displacement taper.1 out-of-round.1 ring-share.1.top", "engine.compression-ratio"},
		{"the sheet", "[engine]", "engine]", "engine.compression-ratio engine.trapped-compression engine.cranking-pressure engine.piston-speed.mean engine.rod-ratio cam.intake.valve-lift.1 cam.intake.valve-lift.2", "cam.intake.duration"},
	} {
		t.Run(c.name, func(t *testing.T) {
			sheet, entry := strings.Replace(engine, c.from, c.to, 1), strings.Replace("[found]\n"+read, c.from, c.to, 1)
			if sheet+entry == engine+"[found]\n"+read {
				t.Fatal("nothing is spoilt")
			}
			r, err := journal.Compile(fstest.MapFS{"build.toml": {Data: []byte(sheet)}, "entries/2026-03-01-a.md": {Data: []byte("```toml\n" + entry + "```\n")}}, journal.Options{SkipHTML: true})
			if err != nil {
				t.Fatal(err)
			}
			if len(r.Findings) != 1 {
				t.Errorf("%d findings, want one: %v", len(r.Findings), r.Findings)
			}
			numbers := map[string]*derive.Number{}
			for _, n := range r.Numbers {
				numbers[n.Path] = n
				if strings.Contains(n.Reason, "unclear") && !strings.Contains(c.unclear, n.Path) {
					t.Errorf("%s: %s", n.Path, n.Reason)
				}
			}
			for _, path := range strings.Fields(c.unclear) {
				if n := numbers[path]; n != nil && !strings.HasPrefix(n.Reason, "unclear while something can't be read: ") || n == nil {
					t.Errorf("%s: %+v", path, n)
				}
			}
			for _, path := range strings.Fields(c.stays) {
				if n := numbers[path]; n == nil || n.Reason != "" {
					t.Errorf("%s isn't worked out: %+v", path, n)
				}
			}
		})
	}
}

// A degree wheel's file tells where the seat is only with the lash; one that tells no events, for want of a checking lift, leaves those of the card as they are.
func TestWhatAWheelsFileLeavesOpen(t *testing.T) {
	const sheet = "fitted = [\"cam\"]\n[engine]\nbore = \"60 mm\"\nstroke = \"50 mm\"\nrod = \"100 mm\"\nchamber = \"15.7 cm3\"\nrocker-ratio = { intake = 1 }\n"
	const file = "crank [°],lift [mm]\n20,0\n30,0\n32,0.2\n40,1\n50,2\n60,3\n70,4\n80,5\n90,6\n100,7\n110,8\n120,7\n130,6\n140,5\n150,4\n160,3\n170,2\n180,1\n184,0.6\n188,0.2\n190,0\n200,0\n"
	const wheel = "[[degreeing]]\ndata = \"data/cam.csv\"\nof = \"cam.intake\"\n"
	for _, c := range []struct {
		name, brings, set string
		trapped, duration string // the reason, or the words
		atMost            bool
	}{
		{"the lash is known", `, at = "1.0 mm"`, "lash.intake = \"0.20 mm\"\n", "on its seat at 8° ABDC, where `data/cam.csv` has fallen to the lash of 0.20 mm", "at 1.0 mm", false},
		{"two lashes", `, at = "1.0 mm"`, "lash.intake = { a = \"0.15 mm\", b = \"0.25 mm\" }\n", "on its seat at 8° ABDC, where `data/cam.csv` has fallen to the lash of 0.20 mm in the mean", "at 1.0 mm", false},
		{"no lash", `, at = "1.0 mm"`, "", "shut at 1.0 mm of lift; on its seat less is trapped", "at 1.0 mm", true},
		{"a lash of nothing", `, at = "1.0 mm"`, "lash.intake = \"0.00 mm\"\n", "shut at 1.0 mm of lift; on its seat less is trapped", "at 1.0 mm", true},
		{"a lash that can't be read", `, at = "1.0 mm"`, "lash.intake = \"0.20 kg\"\n", "unclear while something can't be read: lash.intake", "at 1.0 mm", false},
		{"no checking lift", ``, "lash.intake = \"0.20 mm\"\n", "the checking lift isn't given: on its seat less may be trapped", "at a lift that is not given", true},
		{"a checking lift that can't be read", `, at = "1.0 kg"`, "lash.intake = \"0.20 mm\"\n", "unclear while something can't be read: cam.intake.closes", "unclear while something can't be read: cam.intake.opens, cam.intake.closes", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := journal.Compile(fstest.MapFS{
				"build.toml": {Data: []byte(sheet)}, "data/cam.csv": {Data: []byte(file)},
				"parts.toml":              {Data: []byte("[cam.brings.cam]\nintake = { opens = \"12° BTDC\", closes = \"46° ABDC\"" + c.brings + " }\n")},
				"entries/2026-03-01-a.md": {Data: []byte("```toml\n[set]\n" + c.set + wheel + "```\n")},
			}, journal.Options{SkipHTML: true})
			if err != nil {
				t.Fatal(err)
			}
			got := map[string]*derive.Number{}
			for _, n := range r.Numbers {
				got[n.Path] = n
			}
			for path, want := range map[string]string{"engine.trapped-compression": c.trapped, "cam.intake.duration": c.duration} {
				if n := got[path]; n == nil || n.Reason+n.Words != want {
					t.Errorf("%s: %+v\nwant %s", path, n, want)
				}
			}
			for _, path := range []string{"engine.trapped-compression", "engine.cranking-pressure"} {
				if n := got[path]; n == nil || n.Reason == "" && n.AtMost != c.atMost {
					t.Errorf("%s is at most: %+v, want %v", path, n, c.atMost)
				}
			}
		})
	}
}
