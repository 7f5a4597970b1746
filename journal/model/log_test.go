package model_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"example.org/locknut/journal/model"
)

const target = `-- build.toml --
[fuelling]
fuel = "E10"
target = """
lambda 2000 4000 8000
20     1.00 1.00 0.95
100    0.90 0.88 0.86
"""
`

// logged is a journal with one log.
func logged(csv, table string) string {
	return target + "-- data/l.csv --\n" + csv + "-- 2026-01-01.md --\n[[fuelling]]\ndata = \"data/l.csv\"\n" + table + "\n"
}

// One square of a log, its columns told by head, by unit, or by `columns`: three rows of 1 s that count, a lambda of 0.88 on average.
func TestColumnsOfALog(t *testing.T) {
	for _, row := range []struct{ name, csv, table string }{
		{"by head", "time [s],rpm,throttle [%],lambda\n0,4000,100,9\n1,4000,100,0.87\n2,4100,99,0.88\n3,3900,98,0.89\n", ""},
		{"in any order, with a semicolon, decimal commas and units in the next row", "lambda;Throttle;RPM;Time\n;%;1/min;ms\n9;100;4000;0\n0,87;100;4000;1000\n0,88;99,5;4100;2000\n0,89;98;3900;3000\n", ""},
		{"air-fuel ratios of the meter's own", "time [s]\trpm\tthrottle [%]\tAFR\n0\t4000\t100\t30\n1\t4000\t100\t12.789\n2\t4100\t99\t12.936\n3\t3900\t98\t13.083\n", "ratio = 14.7"},
		{"by `columns`", "t,n [rpm],tp [%],ch 7\n0,4000,100,9\n1,4000,100,0.87\n2,4100,99,0.88\n3,3900,98,0.89\n", `columns = { time = "t", rpm = "n", throttle = "tp", lambda = "ch 7" }`},
		{"cells that hold nothing", "time [s],rpm,throttle [%],lambda\n0,4000,100,\n1,4000,100,0.87\n2,4100,99,0.88\n3,3900,98,0.89\n3,,100,5\n3,4000,-,0.1\n", ""},
		{"throttle by its short head, beside another column in per cent; a pulse is no time", "duty [%],time [s],rpm,TPS [%],pulse [ms],lambda\n5,0,4000,100,2,9\n5,1,4000,100,2,0.87\n5,2,4100,99,2,0.88\n5,3,3900,98,2,0.89\n", ""},
		{"a row without its time counts for nothing", "time [s],rpm,throttle [%],lambda\n0,4000,100,9\n1,4000,100,0.87\n,4000,100,1.5\n2,4100,99,0.88\n3,3900,98,0.89\n", ""},
		{"rows of one time stamp share it", "time [s],rpm,throttle [%],lambda\n0,4000,100,9\n1,4000,100,0.86\n1,4000,100,0.88\n2,4100,99,0.88\n3,3900,98,0.88\n3,3900,98,0.90\n3,3900,98,0.89\n", ""},
		{"a pause counts as a row", "time [s],rpm,throttle [%],lambda\n0,4000,100,9\n1,4000,100,0.87\n2,4100,99,0.88\n900,3900,98,0.89\n", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			csv := row.csv
			if row.name == "by `columns`" {
				csv = strings.Replace(csv, "t,", "t [s],", 1)
			}
			r := compile(t, logged(csv, row.table), "")
			if got := findings(r); got != "" {
				t.Fatalf("findings:\n%s", got)
			}
			log := r.Journal.Entries[0].Logs[0]
			square := log.Mixture.At(1, 1)
			if math.Abs(square.Seen.Mean()-0.88) > 1e-9 || math.Abs(square.Seen.Seen-3) > 1e-9 || square.State != model.OnTarget || !log.Timed {
				t.Errorf("the square is %s with %v over %v s, want 0.88 over 3 s on target", square.State, square.Seen.Mean(), square.Seen.Seen)
			}
		})
	}
}

func TestLogsThatCantBeRead(t *testing.T) {
	good := "time [s],rpm,throttle [%],lambda\n0,4000,100,0.88\n1,4000,100,0.88\n2,4000,100,0.88\n"
	csv := "error bad-csv/2026-01-01/data/l.csv"
	empty := "warning empty-log/2026-01-01/data/l.csv"
	all := "2026-01-01/fuelling/fuelling.lambda: no limit, current\n2026-01-01/fuelling/fuelling.leanest: no limit, current\n2026-01-01/fuelling/fuelling.richest: no limit, current\n2026-01-01/fuelling/fuelling.seen: no limit, current\n"
	tell(t, []story{
		{name: "one that can", files: logged(good, ""), values: all},
		{name: "no throttle", files: logged("time [s],rpm,lambda\n0,4000,0.9\n", ""), findings: csv},
		{name: "two columns of lambda, neither of them named", files: logged("time [s],rpm,throttle [%],aim [λ],read [λ]\n0,4000,100,0.9,1.05\n", ""), findings: csv},
		{name: "no row", files: logged("time [s],rpm,throttle [%],lambda\n", ""), findings: csv},
		{name: "no file", files: target + "-- 2026-01-01.md --\n[[fuelling]]\ndata = []\n", findings: "error missing-key/2026-01-01/data"},
		{name: "a ratio that is no single figure", files: logged("time [s],rpm,throttle [%],AFR\n0,4000,100,13\n", `ratio = "14..15"`), findings: "warning ratio-unknown/2026-01-01/data/l.csv"},
		{name: "two columns at one path", files: logged("time [s],rpm,throttle [%],lambda,oil.temp [°C],oil.temp [°F]\n0,4000,100,0.88,80,176\n1,4000,100,0.88,80,176\n", ""), values: all + "2026-01-01/fuelling/oil.temp: no limit, current\n", findings: csv},
		{name: "throttle without a unit", files: logged("time [s],rpm,throttle,lambda\n0,4000,100,0.9\n", ""), findings: csv},
		{name: "time without a unit", files: logged("time,rpm,throttle [%],lambda\n0,4000,100,0.9\n", ""), findings: csv},
		{name: "a head that isn't there", files: logged(good, `columns = { lambda = "O2" }`), findings: csv},
		{name: "no such file", files: target + "-- 2026-01-01.md --\n[[fuelling]]\ndata = \"data/l.csv\"\n", findings: "error missing-file/2026-01-01/data/l.csv"},
		{name: "a path whose column isn't there takes nothing else with it", files: logged(good, `paths = { oil.temp = "T_OIL" }`), values: all, findings: csv},
		{name: "a column at a path without its unit", files: logged("time [s],rpm,throttle [%],lambda,oil.temp\n0,4000,100,0.88,80\n1,4000,100,0.88,80\n", ""), values: all, findings: csv},
		{name: "a column at a path in a unit of something else", files: logged("time [s],rpm,throttle [%],lambda,oil.temp [kPa]\n0,4000,100,0.88,80\n1,4000,100,0.88,80\n", ""), values: all, findings: csv},
		{name: "a cell that is no number leaves its row out", files: logged(good+"3,4000,100,rich\n", ""), values: all, findings: csv},
		{name: "a file that is all wrong is not read to its end", files: logged("time [s],rpm,throttle [%],lambda\n"+strings.Repeat("x,1,1,1\n", 5000), ""), findings: csv + "\n" + numbered(csv, 4)},
		{name: "thousands of rpm that don't say so", files: logged("time [s],rpm,throttle [%],lambda\n0,4,100,0.88\n1,8,100,0.88\n", ""), findings: csv},
		{name: "thousands of rpm that say so", files: logged("time [s],rpm x1000,throttle [%],lambda\n0,4,100,0.88\n1,4,100,0.88\n", ""), values: all},
		{name: "nothing burnt", files: logged("time [s],rpm,throttle [%],lambda\n0,4000,30,2\n1,4000,30,2\n", ""), findings: empty},
		{name: "an engine that stands still", files: logged("time [s],rpm,throttle [%],lambda\n0,0,1,0.9\n1,0,1,0.9\n", ""), findings: empty},
		{name: "no lambda in any row", files: logged("time [s],rpm,throttle [%],lambda\n0,4000,30,\n1,4000,30,-\n", ""), findings: empty},
		{name: "a ratio that no meter has", files: logged("time [s],rpm,throttle [%],AFR\n0,4000,30,13\n1,4000,30,13\n", "ratio = 6.4"), findings: empty},
		{name: "shares of full throttle", files: logged("time [s],rpm,throttle [%],lambda\n0,4000,0.3,0.9\n1,4000,1,0.9\n", ""), findings: csv},
		{name: "throttle as the sensor counts", files: logged("time [s],rpm,throttle [%],lambda\n0,4000,30,0.9\n1,4000,255,0.9\n", ""), findings: csv},
		{name: "throttle below nought", files: logged("time [s],rpm,throttle [%],lambda\n0,4000,30,0.9\n1,4000,-20,0.9\n", ""), findings: csv},
		{name: "milliseconds headed s", files: logged("time [s],rpm,throttle [%],lambda\n0,4000,30,0.9\n100,4000,30,0.9\n200,4000,30,0.9\n300,4000,30,0.9\n400,4000,30,0.9\n", ""), findings: csv},
		{name: "seconds headed ms", files: logged("time [ms],rpm,throttle [%],lambda\n0,4000,30,0.9\n0.1,4000,30,0.9\n0.2,4000,30,0.9\n0.3,4000,30,0.9\n0.4,4000,30,0.9\n", ""), findings: csv},
		{name: "squares seen too briefly", files: logged("time [s],rpm,throttle [%],lambda\n0,4000,100,0.88\n0.1,4000,100,0.88\n", ""), values: "2026-01-01/fuelling/fuelling.lambda: no limit, current\n", findings: "warning empty-log/2026-01-01/data/l.csv/fuelling"},
	})
}

// The target's own faults, each at its cell. Nothing is judged by a target that can't be read.
func TestTargetsThatCantBeRead(t *testing.T) {
	grid := func(text string) string {
		return "-- build.toml --\n[fuelling]\nfuel = \"E10\"\ntarget = \"\"\"\n" + text + "\n\"\"\"\n-- data/l.csv --\ntime [s],rpm,throttle [%],lambda\n0,4000,100,0.88\n1,4000,100,0.88\n2,4000,100,0.88\n-- 2026-01-01.md --\n[[fuelling]]\ndata = \"data/l.csv\"\n"
	}
	bad := "error bad-grid/build.toml/target"
	mean := "2026-01-01/fuelling/fuelling.lambda: no limit, current\n"
	tell(t, []story{
		{name: "engine speeds that fall", files: grid("lambda 4000 2000\n50 0.9 0.9"), values: mean, findings: bad},
		{name: "throttles that fall", files: grid("lambda 2000 4000\n100 0.9 0.9\n50 0.9 0.9"), values: mean, findings: bad},
		{name: "more than full throttle", files: grid("lambda 2000 4000\n50 0.9 0.9\n150 0.9 0.9"), values: mean, findings: bad},
		{name: "ratios headed lambda", files: grid("lambda 2000 4000\n50 13.2 13.0\n100 12.8 12.6"), values: mean, findings: bad},
		{name: "thousands of rpm", files: grid("lambda 4 6 8\n50 0.9 0.9 0.9\n100 0.9 0.9 0.9"), values: mean, findings: bad},
		{name: "shares of full throttle", files: grid("lambda 4000 6000\n0.2 0.9 0.9\n1.0 0.9 0.9"), values: mean, findings: bad},
		{name: "lambda headed ratios", files: grid("AFR 2000 4000\n50 0.9 0.9\n100 0.9 0.9"), values: mean, findings: bad},
	})
}

// A column at a path is judged by its worst: the greatest for a limit above, the least for one below, the one that is out for both.
func TestWorstOfACourse(t *testing.T) {
	files := func(limits, csv string) string {
		return "-- limits.toml --\n" + limits + "\n-- data/l.csv --\ntime [s],oil.temp [°C],P1 [kPa]\n" + csv + "-- 2026-01-01.md --\n[[logs]]\ndata = \"data/l.csv\"\npaths = { oil.pressure = \"P1\" }\n"
	}
	for _, row := range []struct {
		name, limits, csv string
		temp, pressure    float64 // °C, kPa
		verdicts          string
	}{
		{"no limit: the greatest", "", "0,80,300\n1,95.5,250\n2,70,400\n", 95.5, 400, "no limit, no limit"},
		{"above and below", "oil.temp = \"..110 °C\"\noil.pressure = \"200.. kPa\"", "0,80,300\n1,95.5,250\n2,70,400\n", 95.5, 250, "in, in"},
		{"out above and below", "oil.temp = \"..90 °C\"\noil.pressure = \"280.. kPa\"", "0,80,300\n1,95.5,250\n2,70,400\n", 95.5, 250, "out, out"},
		{"both ends: the one that is out", "oil.temp = \"75..100 °C\"\noil.pressure = \"100..350 kPa\"", "0,80,300\n1,95.5,250\n2,70,400\n", 70, 400, "out, out"},
		{"cells that hold nothing", "", "0,80,\n1,,250\n2,-,-\n", 80, 250, "no limit, no limit"},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := compile(t, files(row.limits, row.csv), "")
			worst := map[string]*model.Value{}
			for _, c := range r.Journal.Entries[0].Logs[0].Courses {
				worst[c.Path] = c.Worst
			}
			temp, pressure := worst["oil.temp"], worst["oil.pressure"]
			about(t, "oil temperature", temp.Quantity.Value, row.temp)
			about(t, "oil pressure", pressure.Quantity.Value, row.pressure)
			if got := temp.Verdict.String() + ", " + pressure.Verdict.String(); got != row.verdicts {
				t.Errorf("verdicts %s, want %s", got, row.verdicts)
			}
			if at := temp.At().Text(); !strings.Contains(row.csv, at) || at == "" {
				t.Errorf("the worst stands at %q, want a cell of the log", at)
			}
		})
	}
}

// Squares of a log without time, rows at random, against all rows kept and gonum's mean and deviation of those whose nearest breakpoints are the square's.
func TestSquaresAgainstASecondMethod(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 6))
	speeds, throttles := []float64{2000, 4000, 8000}, []float64{20, 100}
	var csv strings.Builder
	csv.WriteString("rpm,throttle [%],lambda\n")
	held := map[[2]int][]float64{}
	nearest := func(points []float64, x float64) int {
		best := 0
		for i, p := range points {
			if math.Abs(p-x) <= math.Abs(points[best]-x) {
				best = i
			}
		}
		return best
	}
	for range 3000 {
		speed, throttle, lambda := float64(1001+rng.IntN(8900)), float64(rng.IntN(101)), 0.6+float64(rng.IntN(1100))/1000
		fmt.Fprintf(&csv, "%.0f,%.0f,%.3f\n", speed, throttle, lambda)
		if lambda <= 1.6 {
			at := [2]int{nearest(throttles, throttle), nearest(speeds, speed)}
			held[at] = append(held[at], lambda)
		}
	}
	r := compile(t, logged(csv.String(), ""), "")
	log := r.Journal.Entries[0].Logs[0]
	log.Mixture.Each(func(row, column int, s model.Square) {
		lambdas := held[[2]int{row, column}]
		mean, deviation := stat.PopMeanStdDev(lambdas, nil)
		if math.Abs(s.Seen.Mean()-mean) > 1e-9 || math.Abs(s.Seen.Deviation()-deviation) > 1e-9 || s.Seen.Seen != float64(len(lambdas)) {
			t.Errorf("square %d, %d: %v ± %v of %v rows, want %v ± %v of %d", row, column, s.Seen.Mean(), s.Seen.Deviation(), s.Seen.Seen, mean, deviation, len(lambdas))
		}
	})
}

// Files of one log follow each other, with time or all without; each begins where those before it ended.
func TestLogsOfSeveralFiles(t *testing.T) {
	const head = "time [s],rpm,throttle [%],lambda,oil.temp [°C]\n"
	files := func(third string) string {
		return target + "-- data/a.csv --\n" + head + "0,4000,100,0.88,80\n1,4000,100,0.88,81\n-- data/b.csv --\n" + head + "5,4000,100,0.88,82\n6,4000,100,0.88,83\n-- data/c.csv --\n" + third +
			"-- 2026-01-01.md --\n[[fuelling]]\ndata = [\"data/a.csv\", \"data/b.csv\", \"data/c.csv\"]\n"
	}
	timed := compile(t, files(head+"0,4000,100,0.88,84\n1,4000,100,0.88,85\n"), "").Journal.Entries[0].Logs[0]
	if course := timed.Courses[0]; !timed.Timed || timed.Span != 3 || course.End != 3 || course.Greatest.Time != 3 || course.Greatest.SI != 85+273.15 {
		t.Errorf("three files of 1 s: %v s, timed %v, the course ends at %v with %v at %v", timed.Span, timed.Timed, course.End, course.Greatest.SI, course.Greatest.Time)
	}
	begins := math.Inf(-1)
	for _, stretch := range timed.Courses[0].Trace.Stretches {
		if stretch.Begin < begins {
			t.Errorf("the course goes back to %v", stretch.Begin)
		}
		begins = stretch.Begin
	}
	rows := compile(t, files("rpm,throttle [%],lambda,oil.temp [°C]\n4000,100,0.88,84\n4000,100,0.88,85\n"), "").Journal.Entries[0].Logs[0]
	if rows.Timed || rows.Span != 6 {
		t.Errorf("with a file without time: timed %v, %v rows, want 6", rows.Timed, rows.Span)
	}
}

// The digits of a course's worst figure are those that the log has, in whatever unit and form.
func TestDigitsOfACourse(t *testing.T) {
	for csv, want := range map[string]string{
		"80.5 [°C]": "80.5 °C", "1.5e2 [°F]": "150 °F", "81 [°C]": "81 °C", "8.25e1 [°C]": "82.5 °C",
	} {
		figure, unit, _ := strings.Cut(csv, " ")
		r := compile(t, "-- data/l.csv --\ntime [s],oil.temp "+unit+"\n0,"+figure+"\n-- 2026-01-01.md --\n[[logs]]\ndata = \"data/l.csv\"\n", "")
		if got := r.Journal.Entries[0].Logs[0].Courses[0].Worst.Quantity.Shown().String(); strings.ReplaceAll(got, "\u202f", " ") != want {
			t.Errorf("%s is shown as %q, want %q", csv, got, want)
		}
	}
}

// What a meter of air-fuel ratios tells in such holds in lambda, by the ratio that is lambda 1: by hand 0.147/14.7/2 (k = 2) and one step of 0.1/14.7 over √12. A log in lambda says
// nothing of what the meter's ratios are to it.
func TestWhatAMeterTellsInRatios(t *testing.T) {
	const ratios = "time [s],rpm,throttle [%],AFR\n0,4000,100,12.936\n1,4000,100,12.936\n2,4000,100,12.936\n"
	for name, row := range map[string]struct {
		tool, csv string
		std       float64
	}{
		"its uncertainty": {`uncertainty = "0.147 AFR"`, ratios, 0.147 / 14.7 / 2},
		"its resolution":  {`resolution = "0.1 AFR"`, ratios, 0.1 / 14.7 / math.Sqrt(12)},
		"by its range":    {"range = \"8..20 AFR\"\nerror = \"2 %\"", ratios, 0.02 * 0.88 / math.Sqrt(3)},
		"a log in lambda": {`uncertainty = "0.147 AFR"`, "time [s],rpm,throttle [%],lambda\n0,4000,100,0.88\n1,4000,100,0.88\n2,4000,100,0.88\n", 0},
	} {
		j := compile(t, "-- tools.toml --\n[wideband]\nfor = [\"fuelling\"]\n"+row.tool+"\n"+logged(row.csv, "ratio = 14.7\nwith = \"wideband\""), "").Journal
		about(t, name, valueOf(t, j, "2026-01-01/fuelling/fuelling.lambda").Estimate.Std(), row.std)
	}
}

// What a meter is off by in per cent is a share of the lambda that it read, and not of how far that stands off its target: by hand 0.01 · 0.881/√3. How much of a target was seen no meter reads.
func TestWhatAMeterIsOffByIsOfLambda(t *testing.T) {
	const csv = "time [s],rpm,throttle [%],lambda\n0,4000,100,0.881\n1,4000,100,0.881\n2,4000,100,0.881\n"
	j := compile(t, "-- tools.toml --\n[wideband]\nfor = [\"fuelling\"]\nerror = \"1 %\"\n"+logged(csv, "with = \"wideband\""), "").Journal
	for path, std := range map[string]float64{"lambda": 0.01 * 0.881 / math.Sqrt(3), "leanest": 0.01 * 0.881 / math.Sqrt(3), "richest": 0.01 * 0.881 / math.Sqrt(3), "seen": 0} {
		about(t, path, valueOf(t, j, "2026-01-01/fuelling/fuelling."+path).Estimate.Std(), std)
	}
}

// Of several logs of one entry and state the worst counts, in whatever order they stand, and a later entry takes its place.
func TestTheWorstOfLogsBesideEachOther(t *testing.T) {
	const limit = "-- limits.toml --\n[oil]\ntemp = { high = \"135 °C\" }\npressure = { low = \"150 kPa\" }\n"
	log := func(name, temp, pressure string) (file, table string) {
		return "-- data/" + name + ".csv --\ntime [s],oil.temp [°C],oil.pressure [kPa]\n0," + temp + "," + pressure + "\n1," + temp + "," + pressure + "\n", "[[logs]]\ndata = \"data/" + name + ".csv\"\n"
	}
	a, inA := log("a", "171", "300")
	b, inB := log("b", "120", "200")
	c, inC := log("c", "139", "250")
	for _, order := range []string{inA + inB + inC, inA + inC + inB, inB + inA + inC, inB + inC + inA, inC + inA + inB, inC + inB + inA} {
		j := compile(t, limit+a+b+c+"-- 2026-01-01.md --\n"+order, "").Journal
		if temp, pressure := j.At("oil.temp", j.Entries[0]), j.At("oil.pressure", j.Entries[0]); temp.Quantity.Value != 171 || temp.Settled || !temp.Current || pressure.Quantity.Value != 200 || pressure.Settled {
			t.Errorf("%s: %v °C, settled %v, current %v; %v kPa", order, temp.Quantity.Value, temp.Settled, temp.Current, pressure.Quantity.Value)
		}
		if _, course := j.Entries[0].CourseOf("oil.temp"); course.Worst.Quantity.Value != 171 {
			t.Errorf("%s: the course of %v °C is drawn", order, course.Worst.Quantity.Value)
		}
	}
	j := compile(t, limit+a+b+"-- 2026-01-01.md --\n"+inA+"-- 2026-01-02.md --\n"+inB, "").Journal
	if v := j.At("oil.temp", j.Entries[1]); v.Quantity.Value != 120 || !valueOf(t, j, "2026-01-01/logs/oil.temp").Settled {
		t.Errorf("a later entry: %v °C", v.Quantity.Value)
	}
}
