package parse

import (
	"slices"
	"strings"
	"testing"

	"example.org/locknut/journal/source"
)

// One file of each kind that shows everything the format has: nothing may be found in any of them.
var wholeFiles = map[string]string{
	"build.toml": `format = 1
title = "Curlew 250, second summer"
url = "https://example.org/curlew/"
fitted = ["cam-std", "springs-std"]       # as it came
[site]
theme = "workshop"
home = "What was *measured*."
hide = ["spend", "places", "trackday"]
[units]
torque = ["N·m", "lbf·ft"]
power = ["hp", "kW"]
length = "mm"
money = "GBP"
[machine]
name = "Curlew 250"
year = 1987
meter = "km"
[goals]
power.peak = "31 hp"
compression.left = "1200 kPa"
[engine]
cylinders = ["left", "right"]
cycle = "four-stroke"
bore = "53.0 mm"
stroke = "56.4 mm"
rod = "4.1 in"
chamber = "12.9 cm3"
deck = "-0.2 mm"
gasket = { bore = "54 mm", thickness = "0.8 mm" }
dome = "1.2 cm3"
dish = "0.1 cm3"
redline = "10500 rpm"
cam-sprocket = 34
rocker-ratio = { intake = 1.22, exhaust = 1.18 }
adjuster = { kind = "shim", at = "cam", sizes = "1.20..3.50 mm by 0.05", stock = ["2.35 mm", "2.40 mm"] }
[drive]
primary = "68/21"
gears = ["35/13", "31/16", "28/19", "26/21", "24/22"]
final = "41/15"
tyre = "130/80-17"
[power]
correct-to = "SAE J1349"
band = "5000..9500 rpm"
[fuelling]
fuel = "E10"
tolerance = 0.03
target = """
lambda  2000  4000  6000
10      1.00  1.00  0.98
50      0.95  0.92  0.90
"""
`,
	"limits.toml": `[lash]
when = { engine-temp = "..35 °C" }
basis = "label"
source = "label under the seat"
every = ["4000 km", "12 months"]
intake = "0.08 ± 0.02 mm"
[lash.exhaust]
title = "Exhaust valve lash, cold"
nominal = "0.12 mm"
tolerance = "0.02 mm"
service = "..0.20 mm"
also = "0.005 in"
decision = "guarded"
note = "Both at once."
[timing.marks]
expect = "aligned"
[oil]
level = "between the marks"
pressure = "300..500 kPa"
[torque]
basis = "manual"
plug = "12 ± 2 N·m"
[torque.head-bolt]
nominal = "20 N·m then 35 N·m then 90°"
plus = "3 N·m"
minus = "1 N·m"
thread = "M9x1.25"
class = "10.9"
into = "aluminium"
engagement = "18 mm"
threads = "oiled"
drive = "12 mm hex"
order = "5 6 4 7 3 8 2 9 1 10"
[clearance.piston]
of = ["bore", "piston"]
low = "0.015 mm"
high = "0.045 mm"
`,
	"parts.toml": `[cam-212]
title = "212-profile camshaft"
slot = "camshaft"
price = 145
mass = "0.61 kg"
needs = ["fuelling"]
gives = []
clashes = ["head-std-springs"]
then = ["lash", "timing.marks", "torque.cam-sprocket"]
claim = { power = "1.5..2.5 hp", torque = "1 N·m", mass = "10 g", from = "7000 rpm", to = "10000 rpm" }
every = ["20000 km"]
meter = "4.8 h"
source = "supplier's card"
note = "New."
[cam-212.brings.cam.intake]
opens = "14° BTDC"
closes = "42° ABDC"
at = "1.0 mm"
lift = "7.9 mm"
[cam-212.limits.lash]
basis = "standard"
intake = "0.10 ± 0.02 mm"
`,
	"tools.toml": `[feeler]
title = "Feeler gauge"
for = ["lash"]
leaves = ["0.05 mm", "0.08 mm", "0.10 mm"]
[click-wrench]
for = "torque"
range = "5..60 N·m"
error = "4 %"
length = "180 mm"
resolution = "0.5 N·m"
calibrated = [2025-01-12, 2026-01-10]
calibrate-every = "12 months"
note = "Clicks twice below 8 N·m."
[rolling-road]
for = ["power"]
repeatability = "1 %"
uncertainty = "2 %"
`,
	entryName: headed(`title = "Cam in, lash set"
date = 2026-04-18T19:30
meter = 18240
meter-was = "38.0 h"
engine-temp = "19 °C"
bought = ["cam-212", "cam-gasket"]
fitted = ["cam-212"]
removed = []
with = ["feeler", "click-wrench"]
expects = ["torque.cam-cover"]
hours = 3.5
spent = [{ for = "oil", price = 9.40, part = "oil-filter", note = "dear" }]
tags = ["valvetrain"]

[found]
lash.intake.left = "0.10..0.13 mm"
lash.intake.right = "0.13 mm"
compression = { left = ["1180 kPa", "1190 kPa", "1185 kPa"], right = "12 bar, warm" }
oil.level = "low"
chain.slack = "-"

[set]
lash.intake = "0.10 mm"
timing.marks = "aligned"
oil.change = "0.7 L, 10W-40, black before"
oil.grade = { words = "10W-40" }
torque.cam-sprocket = "24 N·m"
torque.cam-cover = { value = "9 lbf·ft", adapter = "30 mm", adapter-angle = "90°", with = "click-wrench", was = "9 N·m", note = "slowly", engine-temp = "18 °C" }
torque.head-bolt = "20 N·m then 35 N·m then 90°"
bore = """
mm      top.x   top.y   mid.x
left    53.010  53.012  53.008
right   53.011  -       53.009..53.010
"""

[[later]]
do = "Lash again after the first heat cycles"
reading = "lash"
after = "300 km"
on = 2026-09-01

[[pulls]]
data = ["data/p7.csv", "data/p8.csv"]
columns = { rpm = "RPM", power = "P [hp]" }
dyno = "rolling-road"
gear = 4
air = { temp = "21 °C", pressure = "98.6 kPa", humidity = "55 %" }
corrected = "none"
state = "after"

[[pulls]]
peak = ["13.4 hp"]
torque = "14 N·m"
air = { sea-level = "1018 hPa", altitude = "240 m", dew-point = "11 °C" }
note = "off the screen"

[[degreeing]]
data = "data/intake-lift.csv"
of = "cam.intake"
zero = "TDC"
at = "valve"

[[fuelling]]
data = "data/road-log.csv"
columns = { throttle = "TPS", lambda = "L", time = "t" }

[[readings]]
data = "data/bores.csv"

[[accept]]
finding = "assumed-limit"
at = "torque.cam-cover"
why = "Three handbooks agree."`),
}

func TestNothingIsFoundInFilesThatAreRight(t *testing.T) {
	for name, text := range wholeFiles {
		for _, form := range []struct{ name, text string }{
			{"as typed", text},
			{"with Windows line ends", strings.ReplaceAll(text, "\n", "\r\n")},
			{"with a byte order mark", "\uFEFF" + text},
		} {
			t.Run(name+" "+form.name, func(t *testing.T) {
				d := decode(name, form.text)
				wantNothingFound(t, d)
				if d.fields == nil {
					t.Error("nothing was decoded")
				}
			})
		}
	}
}

// A figure must not depend on the editor: Windows line ends and a byte order mark change no value.
func TestReadingsAreAlikeWhateverTheLineEnds(t *testing.T) {
	text := wholeFiles[entryName]
	want := shownReadings(decode(entryName, text).readings)
	for _, form := range []string{strings.ReplaceAll(text, "\n", "\r\n"), "\uFEFF" + text, strings.ReplaceAll(text, "  ", "\t")} {
		if got := shownReadings(decode(entryName, form).readings); got != want {
			t.Errorf("read\n%s\nwant\n%s", got, want)
		}
	}
}

// Worked out by hand: 9 lbf·ft is 9 · 0.3048 m · 0.45359237 kg · 9.80665 m/s² = 12.2024 N·m.
func TestWhatAnEntryHolds(t *testing.T) {
	want := `found lash.intake.left = 0.0001..0.00013 length
found lash.intake.right = 0.00013 length
found compression.left = [1.18e+06 pressure; 1.19e+06 pressure; 1.185e+06 pressure]
found compression.right = 1.2e+06 pressure "warm"
found oil.level = "low"
found chain.slack = blank
set lash.intake = 0.0001 length
set timing.marks = "aligned"
set oil.change = 0.0007 volume "10W-40, black before"
set oil.grade = "10W-40" {}
set torque.cam-sprocket = 24 torque
set torque.cam-cover = 12.2024 torque {was "9 N·m", note "slowly", with click-wrench, engine-temp 291.15 temperature, adapter 0.03 length, adapter-angle 1.5708 angle}
set torque.head-bolt = 3 steps, last 1.5708 angle
set bore.left.top.x = 0.05301 length
set bore.left.top.y = 0.053012 length
set bore.left.mid.x = 0.053008 length
set bore.right.top.x = 0.053011 length
set bore.right.top.y = blank
set bore.right.mid.x = 0.053009..0.05301 length`
	if got := shownReadings(decode(entryName, wholeFiles[entryName]).readings); got != want {
		t.Errorf("read\n%s\nwant\n%s", got, want)
	}
}

// Each value in turn is replaced by one that can stand nowhere: there must be one finding, in that very value, and none elsewhere.
func TestEverySpoiltValueIsFoundOnceAndThere(t *testing.T) {
	for name, text := range wholeFiles {
		start, end := 0, len(text)
		if name == entryName {
			start, end = strings.Index(text, "\n")+1, strings.LastIndex(text, "```")
		}
		root, _ := locate(source.NewFile(name, text), start, end)
		for _, at := range valuesBelow(root) {
			for _, spoilt := range []string{"true", "nan", "[[]]", "2026-02-28T10:00:00Z"} {
				d := decode(name, text[:at.Start]+spoilt+text[at.End:])
				line, _, _, _ := at.Position()
				if len(d.findings) != 1 {
					t.Errorf("%s:%d: `%s` for `%s` gives %d findings, want one:\n%s", name, line, spoilt, at.Text(), len(d.findings), placed(d.findings))
					continue
				}
				if spoilt == "[[]]" && d.findings[0].Rule == "unknown-key" {
					continue // a list where a limit in one line is due: it is the key that can't hold one
				}
				if f := d.findings[0]; f.At.Start < at.Start || f.At.End > at.Start+len(spoilt) || f.Severity != source.Error {
					t.Errorf("%s:%d: `%s` for `%s` gives a finding elsewhere, or no error: %s", name, line, spoilt, at.Text(), placed(d.findings))
				}
			}
		}
	}
}

// valuesBelow returns the places of all values below a table: scalars, lists and their items, tables in braces.
func valuesBelow(table *node) []source.Range {
	var places []source.Range
	for _, n := range slices.Concat(table.keys, table.items) {
		if n.kind != nodeTable && n.kind != nodeTables {
			places = append(places, n.at)
		}
		places = append(places, valuesBelow(n)...)
	}
	return places
}

// The smallest journal.
func TestAnEmptySheetIsASheet(t *testing.T) {
	for _, name := range []string{"build.toml", "limits.toml", "parts.toml", "tools.toml"} {
		for _, text := range []string{"", "\n", "# nothing yet\r\n", "\uFEFF"} {
			wantNothingFound(t, decode(name, text))
		}
	}
	d := decode("entries/2026-03-01-oil.md", "```toml\n[set]\noil.change = \"0.7 L, 10W-40\"\n```\nBlack.\n")
	wantNothingFound(t, d)
	if got := shownReadings(d.readings); got != `set oil.change = 0.0007 volume "10W-40"` {
		t.Errorf("read %s", got)
	}
	if d.entry.Date.String() != "2026-03-01" {
		t.Errorf("dated %q, want the day in its name", d.entry.Date)
	}
}
