package journal_test

import (
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"example.org/locknut/journal"
	"example.org/locknut/journal/source"
)

// around is the journal that a fuzzed entry stands in: limits of every kind, parts that bring, limit, need and ask, tools, and data.
var around = map[string]string{
	"build.toml": `
fitted = ["std"]
[machine]
meter = "km"
[units]
money = "GBP"
power = "hp"
[goals]
power.peak = "30 hp"
[engine]
cylinders = ["left", "right"]
bore = "53 mm"
stroke = "56.4 mm"
chamber = "12.6 cm3"
adjuster = { kind = "screw", pitch = "0.5 mm", at = "valve" }
[drive]
final = "41/15"
[fuelling]
fuel = "E10"
target = """
lambda 4000 8000
30 1.00 0.95
100 0.90 0.87
"""
`,
	"limits.toml": `
[lash]
when = { engine-temp = "..35 °C" }
intake = "0.08 ± 0.02 mm"
[lash.exhaust]
nominal = "0.12 mm"
tolerance = "10 %"
service = "..0.20 mm"
[timing.marks]
expect = "aligned"
[torque.head]
nominal = "18 N·m then 90°"
plus = "5°"
[torque.nut]
nominal = "18 N·m"
tolerance = "2 N·m"
[oil.temp]
high = "120 °C"
`,
	"parts.toml": `
[std]
slot = "camshaft"
[cam]
slot = "camshaft"
needs = ["springs"]
clashes = ["std"]
then = ["lash", "compression"]
brings.cam.intake.lift = "7.9 mm"
limits.lash.intake = "0.10 ± 0.02 mm"
[springs]
needs = ["cam"]
`,
	"tools.toml": `
[wrench]
for = ["torque"]
length = "180 mm"
error = "4 %"
[feeler]
for = ["lash"]
resolution = "0.01 mm"
`,
	"data/p.csv": "rpm,power [hp]\n6000,20\n7000,24\n",
	"data/l.csv": "crank [°],lift [mm]\n-70,0.00\n-60,0.00\n-50,0.05\n-40,0.20\n-30,0.48\n-20,0.89\n-10,1.45\n0,2.12\n10,2.89\n20,3.73\n30,4.60\n40,5.46\n50,6.27\n60,7.02\n70,7.65\n80,8.15\n90,8.49\n100,8.67\n110,8.67\n120,8.49\n130,8.15\n140,7.65\n150,7.02\n160,6.27\n170,5.46\n180,4.60\n190,3.73\n200,2.89\n210,2.12\n220,1.45\n230,0.89\n240,0.48\n250,0.20\n260,0.05\n270,0.00\n280,0.00\n",
	"data/r.csv": "path,found,set\nlash.intake.left,0.13 mm,0.08 mm\n",
	"entries/2026-01-01-before.md": "```toml\nengine-temp = \"12 °C\"\nexpects = [\"torque.nut\"]\n[found]\nlash = \"0.13 mm\"\n[[pulls]]\npeak = \"20 hp\"\n```\n" +
		"See [here](entry:2026-01-02) and [?](value:lash.intake).\n",
	"entries/2026-01-03-after.md": "```toml\nfitted = [\"cam\"]\n[set]\nlash.intake.left = \"0.10 mm\"\n[[accept]]\nfinding = \"worn\"\nat = \"lash.exhaust\"\nwhy = \"it runs\"\n```\n",
}

var seeds = []string{
	"",
	"```toml\n",
	"```toml\n```\n",
	"```toml\n= 1\n```\n[a](value:lash.intake)",
	"```toml\n[set]\nlash.intake = \"0.08 mm\"\n```\nIt is [0.08 mm](value:lash.intake), by [?](tool:feeler), see [limit](limit:lash), ![x](chart:power).\n- [ ] step\n",
	"```toml\ndate = 2026-01-02T10:00\nmeter = 12\nengine-temp = \"20 °C\"\nfitted = [\"cam\", \"cam\", \"springs\"]\nremoved = [\"std\"]\nbought = [\"cam\"]\nwith = [\"wrench\", \"feeler\"]\n[found]\nlash.exhaust.left = \"0.12..0.13 mm\"\nlash.exhaust.right = [\"0.12 mm\", \"0.21 mm\"]\ntiming.marks = \"off\"\n[set]\nlash = \"\"\"\nmm left right\nintake 0.10 -\nexhaust 0.12 0.13\n\"\"\"\n```\n",
	"```toml\nwith = [\"wrench\"]\n[set]\ntorque.nut = { value = \"15 N·m\", adapter = \"30 mm\", adapter-angle = \"180°\" }\ntorque.head = \"18 N·m then 90°\"\ntorque.x = { value = [\"..12 N·m\", \"1 N·m then 2 N·m\"], adapter = \"900 mm\", adapter-angle = \"180°\" }\n```\n",
	"```toml\n[[pulls]]\ndata = [\"data/p.csv\", \"data/none.csv\"]\nstate = \"before\"\ndyno = \"wrench\"\n[[pulls]]\npeak = [\"20 hp\", \"21 hp\"]\ncorrected = \"none\"\n[[readings]]\ndata = \"data/r.csv\"\n[[accept]]\nfinding = \"out-of-limits\"\nat = \"lash.intake.left\"\nwhy = \"so\"\n```\n",
	"```toml\n[set]\n\"lash\".intake = \"0.08 in\"\ninlet = 3\nengine.bore = \"0 mm\"\nengine.chamber = \"-900 cm3\"\nlash.intake.left = \"nan mm\"\noil.temp = \"-300 °C\"\nleak.left = \"80/0\"\ndrive.final = \"0/15\"\n```\n",
	"```toml\nwith = [\"wrench\", \"feeler\"]\n[set]\nengine.rocker-ratio.intake = 1.1\nengine.cam-sprocket = 34\ncam.intake = { at = \"1.0 mm\", opens = \"400° BTDC\", centre = \"126° ATDC\" }\ncam.exhaust = { at = \"0 mm\", opens = \"46°\", closes = \"..16° ATDC\" }\n[[degreeing]]\ndata = \"data/l.csv\"\nof = \"cam.intake\"\n[[degreeing]]\ndata = \"data/l.csv\"\nof = \"cam.intake\"\nzero = \"3° BTDC\"\nat = \"cam\"\n[[degreeing]]\ndata = \"data/l.csv\"\nof = \"cam.exhaust\"\nzero = \"firing TDC\"\n[[degreeing]]\ndata = \"data/p.csv\"\nof = \"cam.exhaust\"\ncolumns = { angle = \"rpm\" }\n```\n[?](value:cam.advance) [1](value:cam.tooth)\n",
	"```toml\n[set]\nengine = { stroke = \"50 mm\", rod = \"20 mm\", cam-sprocket = 0, rocker-ratio.intake = 0 }\nport.exhaust = { opens = \"84° ATDC\", closes = \"900° BTDC\", height = \"-3 mm\" }\nport.transfer = { opens = \"84..86°\", height = \"70 mm\" }\nport.intake.height = \"..5 mm\"\nignition.timing = \"2 mm BTDC\"\nspring.intake = { solid = \"23 mm\", installed = \"22 N\" }\nclearance.retainer.intake = \"0 mm\"\ncam.intake.lift = \"-7 mm\"\nlash.intake = \"..3 mm\"\n```\n",
	"---\ntitle = 1\n---\n",
	"\uFEFF```toml\r\ndate = 2026-02-30\r\n[set]\r\nlash.intake = \"0,08 mm\"\r\n```\r\n",
}

// Whatever a log holds, what is made of it is as sound as what is made of an entry.
func FuzzLog(f *testing.F) {
	for _, seed := range []string{
		"", "\n", "time [s],rpm,throttle [%],lambda,oil.temp [°C]\n0,4000,30,1.01,80\n0.2,4000,30,1.02,81\n0.4,4100,31,1.10,140\n1.4,8000,100,0.99,141\n",
		"rpm;throttle [%];AFR\n4000;30,5;14,7\n4000;30;13,1\n", "t\trpm\ttp\tlambda\ns\t\t%\t\n0\t-1\t200\t1e9\n-5\t9e99\t\tNaN\n", "\"time [s]\",rpm,throttle [%],lambda\n\"0\n\",1,1,1\n0,1,1\n\"",
		"lambda,lambda,rpm,throttle [%]\n13,14,4000,99\n", "time [h],rpm,throttle [ppm],lambda [AFR],oil.temp [K],oil.pressure\n1e300,1e300,1,1,0,1\n2e300,1,1,1,0,1\n",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, log string) {
		sound(t, "```toml\n[[fuelling]]\ndata = [\"data/log.csv\", \"data/log.csv\"]\nstate = \"before\"\n[[logs]]\ndata = \"data/log.csv\"\npaths = { head.temp = \"lambda\" }\n```\n![x](chart:fuelling)\n", map[string]string{"data/log.csv": log})
	})
}

// Whatever an entry holds, compiling it neither panics nor fails; every finding points into its file, on whole characters, and so does
// every edit that it offers; every identity is of one value, or of one finding, alone.
func FuzzJournal(f *testing.F) {
	for _, seed := range seeds {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, entry string) { sound(t, entry, nil) })
}

// sound compiles the journal with an entry, and files, among what is around it.
func sound(t *testing.T, entry string, more map[string]string) {
	t.Helper()
	files := fstest.MapFS{"entries/2026-01-02.md": {Data: []byte(entry)}}
	for _, list := range []map[string]string{around, more} {
		for name, text := range list {
			files[name] = &fstest.MapFile{Data: []byte(text)}
		}
	}
	r, err := journal.Compile(files, journal.Options{})
	if err != nil {
		t.Fatalf("compile: %v", err)
	}
	ids := map[string]bool{}
	for _, finding := range r.Findings {
		if ids[finding.ID()] {
			t.Errorf("two findings are %s", finding.ID())
		}
		ids[finding.ID()] = true
		placed(t, finding)
	}
	values := map[string]bool{}
	for _, v := range r.Journal.Values {
		if values[v.ID()] {
			t.Errorf("two values are %s", v.ID())
		}
		values[v.ID()] = true
	}
}

// placed fails where a finding, its remarks or its edits don't lie in their files.
func placed(t *testing.T, f source.Finding) {
	t.Helper()
	ranges := []source.Range{f.At}
	for _, note := range f.Notes {
		ranges = append(ranges, note.At)
	}
	for _, r := range ranges {
		switch {
		case r.File == nil:
			t.Errorf("%s has a place in no file", f.ID())
		case r.IsWhole() && r.Start == 0:
		case r.Start < 0 || r.End > len(r.File.Text) || r.Start >= r.End:
			t.Errorf("%s lies at %d to %d of the %d bytes of %s", f.ID(), r.Start, r.End, len(r.File.Text), r.File.Name)
		case !onCharacters(r.File.Text, r.Start, r.End):
			t.Errorf("%s lies at %d to %d of %s, inside a character", f.ID(), r.Start, r.End, r.File.Name)
		}
	}
	for _, fix := range f.Fixes {
		for _, e := range fix.Edits {
			if e.File == nil || e.Start < 0 || e.End < e.Start || e.End > len(e.File.Text) || !onCharacters(e.File.Text, e.Start, e.End) {
				t.Errorf("%s: the fix `%s` edits %d to %d, which is not in its file", f.ID(), fix.Title, e.Start, e.End)
			}
		}
	}
}

// onCharacters reports whether two offsets stand before whole characters of a text; one that is not UTF-8 has none to break.
func onCharacters(text string, offsets ...int) bool {
	for _, at := range offsets {
		if utf8.ValidString(text) && at < len(text) && !utf8.RuneStart(text[at]) {
			return false
		}
	}
	return true
}
