package model_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/locknut/journal/quantity"
)

// One pull, its columns told by head, by unit, or by `columns`. 10 kW at 6000 rpm is 10000/(2π·100) = 15.9155 N·m.
func TestColumnsOfAPull(t *testing.T) {
	const hp = 745.6998715822702 // W, mechanical horsepower, NIST SP 811 B.8, recomputed: 550 ft·lbf/s
	const torque = 10000 / (2 * math.Pi * 100)
	for _, row := range []struct {
		name, csv, columns string
		power              float64 // W at the peak
		torque             float64 // N·m at the peak
	}{
		{"by head", "rpm,power [kW]\n6000,10\n5000,8\n", "", 10000, torque},
		{"heads in any case, unit in round brackets", "RPM,Power (kW)\n6000,10\n5000,2\n", "", 10000, torque},
		{"short heads with their units", "n [1/min],P [kW],M [N·m]\n6000,10,15.9155\n5000,2,3.8197\n", "", 10000, 15.9155},
		{"by unit", "engine [rpm],wheel [hp]\n6000,10\n5000,2\n", "", 10 * hp, 10 * hp / (200 * math.Pi)},
		{"torque alone: P = M·ω", "rpm,torque [N·m]\n6000,15\n3000,20\n", "", 15 * 200 * math.Pi, 20},
		{"by `columns`", "a [rpm],b [kW],c [kW]\n6000,99,10\n5000,2,2\n", `columns = { rpm = "a", power = "c [kW]" }`, 10000, torque},
		{"time is not torque, road speed not engine speed", "t [s],speed [km/h],crank [rpm],p [kW]\n1,80,6000,10\n2,70,5000,1\n", "", 10000, torque},
		{"a bare `t` is not torque", "t,rpm,power [kW]\n1,6000,10\n2,5000,1\n", "", 10000, torque},
		{"units in the row below the heads", "rpm;power\nrpm;kW\n6000;10\n5000;1\n", "", 10000, torque},
		{"a decimal comma", "rpm;power [kW]\n6000;10,0\n5000;1,0\n", "", 10000, torque},
		{"tabs", "rpm\tpower [kW]\n6000\t10\n5000\t1\n", "", 10000, torque},
		{"units for heads", "1/min;kW\n6000;10,0\n5000;1,0\n", "", 10000, torque},
		{"a column is told by its name before its unit", "kW,rpm,power [kW]\n10.05,6000,10\n1.005,5000,1\n", "", 10000, torque},
		{"one power in two units", "rpm,kW,hp\n6000,10,13.4\n5000,1,1.34\n", "", 10000, torque},
		{"thousands in the head", "rpm x1000,power [kW]\n6.0,10\n5.0,1\n", "", 10000, torque},
		{"thousands as a head", "krpm,power [kW]\n6.0,10\n5.0,1\n", "", 10000, torque},
		{"thousands a minute", "1000/min,power [kW]\n6.0,10\n5.0,1\n", "", 10000, torque},
		{"thousands in brackets", "rpm [×1000],power [kW]\n6.0,10\n5.0,1\n", "", 10000, torque},
		{"thousands in the next row", "n\tP\n1000 1/min\tkW\n6.0\t10\n5.0\t1\n", "", 10000, torque},
		{"thousands by `columns`", "engine [rpm/1000],power [kW]\n6.0,10\n5.0,1\n", `columns = { rpm = "engine" }`, 10000, torque},
		{"time, lambda and air-fuel ratio beside it", "time [s],lambda,AFR,rpm,power [kW]\n0.1,0.88,12.9,6000,10\n0.2,,,5000,1\n", "", 10000, torque},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := compile(t, "-- data/p.csv --\n"+row.csv+"-- 2026-01-01.md --\n[[pulls]]\ndata = \"data/p.csv\"\n"+row.columns+"\n", "")
			if got := findings(r); got != "" {
				t.Fatalf("findings:\n%s", got)
			}
			p := r.Journal.Entries[0].Pulls[0]
			about(t, "peak power", p.Peak.Quantity.SI(), row.power)
			about(t, "peak torque", p.Torque.Quantity.SI(), row.torque)
		})
	}
}

func TestPullsThatCantBeRead(t *testing.T) {
	files := func(csv, columns string) string {
		return "-- data/p.csv --\n" + csv + "-- 2026-01-01.md --\n[[pulls]]\ndata = \"data/p.csv\"\n" + columns + "\n"
	}
	peak := "2026-01-01/pulls-after:p/power.peak: no limit, current\n2026-01-01/pulls-after:p/power.torque: no limit, current\n"
	tell(t, []story{
		{name: "no engine speed", files: files("time,power [kW]\n1,2\n", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "thousands that don't say so", files: files("rpm,power [kW]\n6.0,10\n5.0,1\n", ""), findings: "error bad-csv/2026-01-01/data/p.csv"},
		{name: "rpm that say they are thousands", files: files("krpm,power [kW]\n6000,10\n5000,1\n", ""), findings: "error bad-csv/2026-01-01/data/p.csv"},
		{name: "neither power nor torque", files: files("rpm,lambda\n1,2\n", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "power without its unit", files: files("rpm,power\n1,2\n", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "power in a unit that is none", files: files("rpm,power [ponies]\n1,2\n", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "two powers, and nothing says which counts", files: files("rpm,kW,hp\n6000,10,14.1\n5000,1,1.41\n", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "a column of power that is empty, and a full one", files: files("rpm,kW,hp\n6000,,13.4\n5000,,1.34\n", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "a head that isn't there", files: files("rpm,power [kW]\n1,2\n", `columns = { power = "watts" }`), findings: "error bad-csv/2026-01-01/data/p.csv"},
		{name: "no such file", files: "-- 2026-01-01.md --\n[[pulls]]\ndata = \"data/p.csv\"\n", findings: "error missing-file/2026-01-01/data/p.csv"},
		{name: "no rows", files: files("rpm,power [kW]\n", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "an empty file", files: files("", ""), findings: "error bad-csv/data/p.csv/data/p.csv"},
		{name: "cells that are no numbers are left out, one finding each for three of a column and one for the rest", files: files("rpm,power [kW]\n6000,10\nx,11\n6000,NaN\n6000,Inf\n6000,0x1p9\n6000,1e99\n0,12\n-6000,12\n", ""), values: peak,
			findings: "error bad-csv/data/p.csv/data/p.csv\n" + numbered("error bad-csv/data/p.csv/data/p.csv", 7)},
		{name: "a file that is all wrong is not read to its end", files: files("rpm,power [kW]\n"+strings.Repeat("x,y\n", 5000), ""),
			findings: "error bad-csv/data/p.csv/data/p.csv\n" + numbered("error bad-csv/data/p.csv/data/p.csv", 4)},
	})
}

// numbered returns a line with `~2` to `~n`.
func numbered(line string, n int) string {
	var b strings.Builder
	for i := 2; i <= n; i++ {
		fmt.Fprintf(&b, "%s~%d\n", line, i)
	}
	return b.String()
}

// The peak of a session is the mean of its pulls' peaks, with s/√n for its uncertainty; a lone pull has the dyno's repeatability.
func TestPeaksOfRepeatedPulls(t *testing.T) {
	j := compile(t, `
-- tools.toml --
[roller]
repeatability = "1 %"
-- data/a.csv --
rpm,power [kW]
6000,10.0
7000,9.9
-- data/b.csv --
rpm,power [kW]
5900,9.0
6900,10.3
-- data/c.csv --
rpm,power [kW]
5900,9.2
6900,10.6
-- 2026-01-01.md --
[[pulls]]
data = ["data/a.csv", "data/b.csv", "data/c.csv"]
dyno = "roller"
[[pulls]]
peak = "12 kW"
dyno = "roller"
state = "before"
`, "").Journal
	after, before := valueOf(t, j, "2026-01-01/pulls-after:a/power.peak"), valueOf(t, j, "2026-01-01/pulls-before/power.peak")
	about(t, "mean of 10.0, 10.3 and 10.6 kW", after.Quantity.SI(), 10300)
	about(t, "s/√3 of them", after.Estimate.Std(), 300/math.Sqrt(3))
	about(t, "one pull", before.Quantity.SI(), 12000)
	about(t, "1 % of it", before.Estimate.Std(), 120)
}

func TestIdentitiesOfPulls(t *testing.T) {
	const text = `
-- data/run.csv --
rpm,power [kW]
6000,10
-- data/old/run.csv --
rpm,power [kW]
6000,9
-- data/before/run.csv --
rpm,power [kW]
6000,8
-- 2026-01-01.md --
[[pulls]]
data = "data/run.csv"
[[pulls]]
data = "data/old/run.csv"
[[pulls]]
peak = "9 kW"
[[pulls]]
peak = "9 kW"
[[pulls]]
data = "data/before/run.csv"
state = "before"
`
	const want = `
		2026-01-01/pulls-before:run/power.peak: no limit, settled
		2026-01-01/pulls-before:run/power.torque: no limit, settled
		2026-01-01/pulls-after:run/power.peak: no limit, settled
		2026-01-01/pulls-after:run/power.torque: no limit, settled
		2026-01-01/pulls-after:run~2/power.peak: no limit, settled
		2026-01-01/pulls-after:run~2/power.torque: no limit, current
		2026-01-01/pulls-after/power.peak: no limit, settled
		2026-01-01/pulls-after~2/power.peak: no limit, current
	`
	differ(t, "identities", text, account(compile(t, text, "").Journal), want)
}

// A dyno measures power or torque, and the other is P = M·ω: what it tells as a share of what it reads holds for both, in the same share. By hand: 2 %/√3 and 1 % of 12 kW, and of the 19.0986 N·m that it is at 6000 rpm.
func TestWhatIsWorkedOutCarriesItsDyno(t *testing.T) {
	for _, tool := range []string{"power", "power.torque"} {
		j := compile(t, `
-- tools.toml --
[roller]
for = ["`+tool+`"]
error = "2 %"
repeatability = "1 %"
-- data/a.csv --
rpm,power [kW]
6000,12.0
7000,11.9
-- 2026-01-01.md --
[[pulls]]
data = "data/a.csv"
dyno = "roller"
`, "").Journal
		share := math.Hypot(0.02/math.Sqrt(3), 0.01)
		for path, si := range map[string]float64{"power.peak": 12000, "power.torque": 12000 / (6000 * math.Pi / 30)} {
			v := valueOf(t, j, "2026-01-01/pulls-after:a/"+path)
			about(t, path+" of a dyno for "+tool, v.Estimate.Std(), share*si)
		}
	}
}

// What a dyno tells in watts holds in torque at the engine speed, and there alone: by hand 240 W/√3 and 120 W, over the 628.32 rad/s of 6000 rpm. Of a torque that was read off a
// screen without its speed nothing of it is known.
func TestWhatADynoTellsInWatts(t *testing.T) {
	j := compile(t, `
-- tools.toml --
[roller]
for = ["power"]
error = "0.24 kW"
repeatability = "0.12 kW"
-- data/a.csv --
rpm,power [kW]
6000,12.0
7000,11.9
-- 2026-01-01.md --
[[pulls]]
data = "data/a.csv"
dyno = "roller"
[[pulls]]
peak = "12 kW"
torque = "19.1 N·m"
dyno = "roller"
`, "").Journal
	watts := math.Hypot(240/math.Sqrt(3), 120)
	about(t, "power", valueOf(t, j, "2026-01-01/pulls-after:a/power.peak").Estimate.Std(), watts)
	about(t, "torque", valueOf(t, j, "2026-01-01/pulls-after:a/power.torque").Estimate.Std(), watts/(6000*math.Pi/30))
	about(t, "torque off a screen", valueOf(t, j, "2026-01-01/pulls-after/power.torque").Estimate.Std(), 0)
	for i, want := range []map[quantity.Dimension]bool{{quantity.Power: true, quantity.Torque: true}, {quantity.Power: true, quantity.Torque: false}} {
		for d, known := range want {
			if p := j.Entries[0].Pulls[i]; p.IsScatterKnown(d) != known {
				t.Errorf("session %d: the scatter in %s is known: %v", i+1, d, !known)
			}
		}
	}
}
