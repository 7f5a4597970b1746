package model_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/journal"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// degreedLobe is lift = peak·(1 − u²)³, u from −1 to 1 over 2·half degrees about a centre: its events are known in closed form.
type degreedLobe struct{ centre, half, peak float64 } // degrees after the top dead centre of overlap, mm

func (l degreedLobe) lift(angle float64) float64 {
	u := (angle - l.centre) / l.half
	if math.Abs(u) >= 1 {
		return 0
	}
	return l.peak * math.Pow(1-u*u, 3)
}

// event is where the lobe passes through a lift, before (−1) or after (+1) its middle.
func (l degreedLobe) event(lift, side float64) float64 {
	return l.centre + side*l.half*math.Sqrt(1-math.Cbrt(lift/l.peak))
}

// area is that under the lift between the two events at a lift, in mm·°: the integral in closed form.
func (l degreedLobe) area(lift float64) float64 {
	u := math.Sqrt(1 - math.Cbrt(lift/l.peak))
	return 2 * l.peak * l.half * (u - math.Pow(u, 3) + 3*math.Pow(u, 5)/5 - math.Pow(u, 7)/7)
}

// rows are those of a file: the angle as the wheel shows it, and the lift times a scale.
func (l degreedLobe) rows(step float64, row string, wheel func(angle float64) float64, scale float64) string {
	var b strings.Builder
	for a := math.Round(l.centre - l.half - 20); a <= l.centre+l.half+20; a += step {
		fmt.Fprintf(&b, row+"\n", wheel(a), scale*l.lift(a))
	}
	return b.String()
}

func asIs(a float64) float64 { return a }

var (
	intakeLobe  = degreedLobe{106, 170, 7.9}
	exhaustLobe = degreedLobe{-108, 168, 7.7}
)

// degreed compiles an entry with one file.
func degreed(t *testing.T, csv, build, set, table string) *journal.Result {
	t.Helper()
	return compile(t, "-- build.toml --\n"+build+"\n-- data/l.csv --\n"+csv+"-- 2026-01-01.md --\n[set]\n"+set+"\n[[degreeing]]\ndata = \"data/l.csv\"\n"+table+"\n", "")
}

// valueAt returns the value of the degree wheel at a path.
func valueAt(r *journal.Result, path string) *model.Value {
	i := slices.IndexFunc(r.Journal.Values, func(v *model.Value) bool { return v.Path == path && v.Origin == model.FromDegreeing })
	if i < 0 {
		return nil
	}
	return r.Journal.Values[i]
}

// One lobe, written in every way that a file may have it, gives the events that it has in closed form.
func TestALobeInEveryDialect(t *testing.T) {
	const ratio = "[engine]\nrocker-ratio = { intake = 1.2, exhaust = 1.2 }"
	in, ex := intakeLobe, exhaustLobe
	for _, row := range []struct {
		name, csv, build, table string
		lobe                    degreedLobe
		at                      string
		mm                      float64
	}{
		{"at the cam", "crank [°],lift [mm]\n" + in.rows(4, "%g,%.3f", asIs, 1), "", "of = \"cam.intake\"\nat = \"cam\"", in, "1.0 mm", 1},
		{"at the valve, over a rocker", "crank [°],lift [mm]\n" + in.rows(4, "%g,%.3f", asIs, 1.2), ratio, `of = "cam.intake"`, in, "1.0 mm", 1},
		{"exhaust, in inches, at 0.050 in", "lift (in);angle (deg)\n" + strings.ReplaceAll(swapped(ex.rows(4, "%g;%.5f", asIs, 1/25.4)), ".", ","), "", "of = \"cam.exhaust\"\nat = \"cam\"", ex, "0.050 in", 1.27},
		{"tabs, units in a row of their own", "wheel\tdial\n°\tmm\n" + in.rows(4, "%g\t%.3f", asIs, 1), "", "of = \"cam.inlet\"\nat = \"cam\"", in, "1.0 mm", 1},
		{"heads told", "A [°],B [mm],C [mm]\n" + in.rows(4, "%g,0,%.3f", asIs, 1), "", "of = \"cam.intake\"\nat = \"cam\"\ncolumns = { angle = \"A\", lift = \"C\" }", in, "1.0 mm", 1},
		{"from firing", "crank [°],lift [mm]\n" + in.rows(4, "%g,%.3f", func(a float64) float64 { return a + 360 }, 1), "", "of = \"cam.intake\"\nat = \"cam\"\nzero = \"firing TDC\"", in, "1.0 mm", 1},
		{"to firing", "crank [°],lift [mm]\n" + in.rows(4, "%g,%.3f", func(a float64) float64 { return a - 360 }, 1), "", "of = \"cam.intake\"\nat = \"cam\"\nzero = \"Firing TDC\"", in, "1.0 mm", 1},
		{"from the bottom", "crank [°],lift [mm]\n" + ex.rows(4, "%g,%.3f", func(a float64) float64 { return a + 180 }, 1), "", "of = \"cam.exhaust\"\nat = \"cam\"\nzero = \"BDC\"", ex, "1.0 mm", 1},
		{"a wheel 3° late", "crank [°],lift [mm]\n" + in.rows(4, "%g,%.3f", func(a float64) float64 { return a - 3 }, 1), "", "of = \"cam.intake\"\nat = \"cam\"\nzero = \"3° ATDC\"", in, "1.0 mm", 1},
		{"through nought", "crank [°],lift [mm]\n" + ex.rows(4, "%g,%.3f", func(a float64) float64 { return math.Mod(a+360, 360) }, 1), "", "of = \"cam.exhaust\"\nat = \"cam\"", ex, "1.0 mm", 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			side := "intake"
			if row.lobe.centre < 0 {
				side = "exhaust"
			}
			r := degreed(t, row.csv, row.build, fmt.Sprintf("cam.%s.at = %q", side, row.at), row.table)
			if got := findings(r); got != "" {
				t.Fatalf("findings:\n%s", got)
			}
			for _, c := range []struct {
				what   string
				want   float64 // ° after the top dead centre of overlap
				within float64
			}{{"opens", row.lobe.event(row.mm, -1), 0.15}, {"closes", row.lobe.event(row.mm, 1), 0.15}, {"centre", row.lobe.centre, 0.05}} {
				v := valueAt(r, "cam."+side+"."+c.what)
				if v == nil {
					t.Fatalf("there is no %s", c.what)
				}
				got, ok := model.OverlapAngle(v.Path, v.Quantity)
				if got *= 180 / math.Pi; !ok || math.Abs(got-c.want) > c.within {
					t.Errorf("%s at %v° (%s), want %v°", c.what, got, v.Quantity.Shown(), c.want)
				}
				if v.Quantity.SI() != v.Estimate.Value || !v.Current {
					t.Errorf("%s: figure %v, estimate %v, current %v", c.what, v.Quantity.SI(), v.Estimate.Value, v.Current)
				}
				if at := r.Journal.CheckingLift(v); c.what != "centre" && (at == nil || math.Abs(at.Estimate.Value*1000-row.mm) > 1e-9) {
					t.Errorf("%s doesn't carry its lift: %+v", c.what, at)
				}
			}
			if v := valueAt(r, "cam."+side+".lift"); v == nil || math.Abs(v.Estimate.Value*1000-row.lobe.peak) > 0.02 {
				t.Errorf("lift %+v, want %v mm", v, row.lobe.peak)
			}
			if v := valueAt(r, "cam."+side+".area"); v == nil || math.Abs(v.Estimate.Value/(1e-3*math.Pi/180)/row.lobe.area(row.mm)-1) > 0.001 {
				t.Errorf("area %+v, want %v mm·°", v, row.lobe.area(row.mm))
			}
		})
	}
}

// swapped puts the second cell of each row first.
func swapped(rows string) string {
	var b strings.Builder
	for line := range strings.Lines(rows) {
		first, second, _ := strings.Cut(strings.TrimSpace(line), ";")
		b.WriteString(second + ";" + first + "\n")
	}
	return b.String()
}

// A pointer that stands anywhere, and the turn of the cycle that the wheel doesn't tell, are found from the stop and the lobe.
func TestNoughtByTheStop(t *testing.T) {
	in := intakeLobe
	for name, c := range map[string]struct {
		off  float64 // of the pointer, °
		stop string
	}{
		"on a scale of 360°":      {5, "timing.stop = { before = \"330°\", after = \"40°\" }"},
		"with sides":              {-2, "timing.stop = { before = \"37° BTDC\", after = \"33° ATDC\" }"},
		"counted from firing":     {362, "timing.stop = { before = \"33° BTDC\", after = \"37° ATDC\" }"},
		"a pointer at the bottom": {180, "timing.stop = { before = \"145°\", after = \"215°\" }"},
	} {
		rows := "crank [°],lift [mm]\n" + in.rows(4, "%g,%.3f", func(a float64) float64 { return a + c.off }, 1)
		r := degreed(t, rows, "", "cam.intake.at = \"1.0 mm\"\n"+c.stop, "of = \"cam.intake\"\nat = \"cam\"\nzero = \"stop\"")
		if got := findings(r); got != "" {
			t.Errorf("%s: %s", name, got)
			continue
		}
		for what, want := range map[string]float64{"opens": in.event(1, -1), "closes": in.event(1, 1), "centre": in.centre} {
			v := valueAt(r, "cam.intake."+what)
			if got, ok := model.OverlapAngle(v.Path, v.Quantity); !ok || math.Abs(got*180/math.Pi-want) > 0.15 {
				t.Errorf("%s: %s at %v°, want %v°", name, what, got*180/math.Pi, want)
			}
		}
	}
}

// Half of what either reading of the stop may be off by moves all events alike.
func TestTheStopMayBeOff(t *testing.T) {
	rows := "crank [°],lift [mm]\n" + intakeLobe.rows(4, "%g,%.3f", asIs, 1)
	std := func(stop, zero string) float64 {
		return valueAt(degreed(t, rows, "", "cam.intake.at = \"1.0 mm\"\n"+stop, "of = \"cam.intake\"\nat = \"cam\""+zero), "cam.intake.centre").Estimate.Std()
	}
	without := std("", "")
	with := std("timing.stop = { before = \"35 ± 1° BTDC\", after = \"35 ± 1° ATDC\" }", "\nzero = \"stop\"")
	one := math.Pi / 180 / 2 // of ±1°, at 95 %
	if want := math.Hypot(without, one/math.Sqrt2); math.Abs(with/want-1) > 1e-6 {
		t.Errorf("%v with the stop, want %v", with, want)
	}
}

func TestDegreeingThatCantBeRead(t *testing.T) {
	good := intakeLobe.rows(5, "%g,%.3f", asIs, 1)
	files := func(csv, table string) string {
		return "-- data/l.csv --\n" + csv + "-- 2026-01-01.md --\n[set]\ncam.intake.at = \"1.0 mm\"\n[[degreeing]]\ndata = \"data/l.csv\"\nat = \"cam\"\n" + table + "\n"
	}
	const of = "of = \"cam.intake\""
	lift := "2026-01-01/set/cam.intake.at: no limit, current\n"
	centre := lift + "2026-01-01/degreeing/cam.intake.centre: no limit, current\n"
	tell(t, []story{
		{name: "no angle", files: files("time,lift [mm]\n1,2\n", of), values: lift, findings: "error bad-csv/data/l.csv/data/l.csv"},
		{name: "no lift", files: files("crank [°],speed [rpm]\n1,2\n", of), values: lift, findings: "error bad-csv/data/l.csv/data/l.csv"},
		{name: "an angle without its unit", files: files("crank,lift [mm]\n"+good, of), values: lift, findings: "error bad-csv/data/l.csv/data/l.csv"},
		{name: "a head that isn't there", files: files("crank [°],lift [mm]\n"+good, of+"\ncolumns = { lift = \"L\" }"), values: lift, findings: "error bad-csv/2026-01-01/data/l.csv"},
		{name: "one cell that is no number, and nothing is told of the rest", files: files("crank [°],lift [mm]\n"+good+"300,zero\n", of), values: lift, findings: "error bad-csv/data/l.csv/data/l.csv"},
		{name: "a row that is too long", files: files("crank [°],lift [mm]\n"+good+"300,0,0\n", of), values: lift, findings: "error bad-csv/data/l.csv/data/l.csv"},
		{name: "no rows", files: files("crank [°],lift [mm]\n", of), values: lift, findings: "error bad-degreeing/2026-01-01/data/l.csv"},
		{name: "no such file", files: strings.Replace(files("", of), "-- data/l.csv --\n", "", 1), values: lift, findings: "error missing-file/2026-01-01/data/l.csv"},
		{name: "a lobe that is none", files: files("crank [°],lift [mm]\n"+good, `of = "cam.middle"`), values: lift, findings: "error unknown-word/2026-01-01/cam.middle"},
		{name: "a nought that is nowhere", files: files("crank [°],lift [mm]\n"+good, of+"\nzero = \"the mark\""), values: lift, findings: "error unknown-word/2026-01-01/cam.intake"},
		{name: "a nought without a side", files: files("crank [°],lift [mm]\n"+good, of+"\nzero = \"3°\""), values: lift, findings: "error unknown-word/2026-01-01/cam.intake"},
		{name: "no stop", files: files("crank [°],lift [mm]\n"+good, of+"\nzero = \"stop\""), values: lift, findings: "error bad-degreeing/2026-01-01/cam.intake"},
		{name: "a stop that can't be read", files: strings.Replace(files("crank [°],lift [mm]\n"+good, of+"\nzero = \"stop\""), "[[d", "timing.stop = { before = \"3 zz\", after = \"35° ATDC\" }\n[[d", 1),
			values: lift + "2026-01-01/set/timing.stop.after: no limit, current\n", findings: "error unknown-unit/2026-01-01/timing.stop.before"},
		{name: "the other lobe", files: files("crank [°],lift [mm]\n"+exhaustLobe.rows(5, "%g,%.3f", asIs, 1), of), values: lift, findings: "error bad-degreeing/2026-01-01/cam.intake"},
		{name: "never so far open", files: strings.Replace(files("crank [°],lift [mm]\n"+good, of), "1.0 mm", "10 mm", 1),
			values: centre + "2026-01-01/degreeing/cam.intake.lift: no limit, current\n", findings: "error bad-degreeing/2026-01-01/cam.intake.at"},
		{name: "inches by their size", files: files("crank [°],lift [mm]\n"+intakeLobe.rows(5, "%g,%.3f", asIs, 1/25.4), of), values: centre, findings: "error bad-degreeing/2026-01-01/cam.intake"},
		{name: "inches by their head", files: files("crank [°],lift [in]\n"+good, of), values: lift, findings: "error bad-degreeing/2026-01-01/data/l.csv"},
		{name: "more than half of the bore", files: "-- build.toml --\nengine.bore = \"14 mm\"\n" + files("crank [°],lift [mm]\n"+good, of), values: "build/sheet/engine.bore: no limit, current\n" + lift, findings: "error bad-degreeing/2026-01-01/data/l.csv"},
		{name: "a bore that no stroke goes with tells nothing", files: "-- build.toml --\nengine.bore = \"6 mm\"\nengine.stroke = \"59 mm\"\n" + files("crank [°],lift [mm]\n"+good, of), values: "build/sheet/engine.bore: no limit, current\nbuild/sheet/engine.stroke: no limit, current\n" + centre +
			"2026-01-01/degreeing/cam.intake.lift: no limit, current\n2026-01-01/degreeing/cam.intake.opens: no limit, current\n2026-01-01/degreeing/cam.intake.closes: no limit, current\n2026-01-01/degreeing/cam.intake.area: no limit, current\n", findings: "warning implausible-number/build.toml/sheet/engine.stroke"},
		{name: "a dial that was not at nought", files: files("crank [°],lift [mm]\n"+raisedRows(good, 0.3), of), values: lift, findings: "error bad-degreeing/2026-01-01/data/l.csv"},
		{name: "no lift to tell events at", files: strings.Replace(files("crank [°],lift [mm]\n"+good, of), "cam.intake.at = \"1.0 mm\"", "", 1),
			values: "2026-01-01/degreeing/cam.intake.centre: no limit, current\n2026-01-01/degreeing/cam.intake.lift: no limit, current\n", findings: "warning events-untold/2026-01-01/cam.intake"},
		{name: "a lift to tell events at that can't be read", files: strings.Replace(files("crank [°],lift [mm]\n"+good, of), "1.0 mm", "1.0 zz", 1),
			values: "2026-01-01/degreeing/cam.intake.centre: no limit, current\n2026-01-01/degreeing/cam.intake.lift: no limit, current\n", findings: "error unknown-unit/2026-01-01/cam.intake.at"},
		{name: "at the valve, and no rocker ratio", files: strings.Replace(files("crank [°],lift [mm]\n"+good, of), "at = \"cam\"\n", "", 1), values: centre, findings: "warning events-untold/2026-01-01/cam.intake"},
	})
}

// raisedRows adds to the lifts of rows.
func raisedRows(rows string, by float64) string {
	var all strings.Builder
	for line := range strings.Lines(rows) {
		angle, lift, _ := strings.Cut(strings.TrimSpace(line), ",")
		mm, _ := strconv.ParseFloat(lift, 64)
		fmt.Fprintf(&all, "%s,%.3f\n", angle, mm+by)
	}
	return all.String()
}

// What a file can't tell is not missed either: the one finding is the file's.
func TestWhatAFileCantTellIsNotMissed(t *testing.T) {
	tell(t, []story{{name: "asked for by a part", files: `
-- parts.toml --
[cam]
then = ["cam.intake.centre"]
brings.cam.intake = { opens = "16° BTDC", closes = "46° ABDC", at = "1.0 mm" }
-- data/l.csv --
crank [°],lift [mm]
1,x
-- 2026-01-01.md --
fitted = ["cam"]
[[degreeing]]
data = "data/l.csv"
of = "cam.intake"
`, values: "2026-01-01/part:cam/cam.intake.opens: no limit, current, settled\n2026-01-01/part:cam/cam.intake.closes: no limit, current, settled\n2026-01-01/part:cam/cam.intake.at: no limit, current\n", findings: "error bad-csv/data/l.csv/data/l.csv"}})
}

// The lift that a file is told at is that of the cam that went in with the same entry; what is measured takes the place of what the part brings; a file of a plan changes nothing.
func TestAFileMeasuresTheCamThatIsIn(t *testing.T) {
	r := compile(t, "-- parts.toml --\n[old]\nslot = \"cam\"\nbrings.cam.intake = { opens = \"10° BTDC\", closes = \"38° ABDC\", at = \"1.0 mm\" }\n"+
		"[new]\nslot = \"cam\"\nthen = [\"cam.intake.centre\"]\nbrings.cam.intake = { opens = \"16° BTDC\", closes = \"46° ABDC\", at = \"2.0 mm\" }\n"+
		"-- build.toml --\nfitted = [\"old\"]\n-- data/l.csv --\ncrank [°],lift [mm]\n"+intakeLobe.rows(4, "%g,%.3f", asIs, 1)+
		"-- 2026-01-01.md --\nfitted = [\"new\"]\n[[degreeing]]\ndata = \"data/l.csv\"\nof = \"cam.intake\"\nat = \"cam\"\n"+
		"-- plan.md --\n[[degreeing]]\ndata = \"data/l.csv\"\nof = \"cam.exhaust\"\nat = \"cam\"\n", "")
	if got := findings(r); got != "" {
		t.Fatalf("findings:\n%s", got)
	}
	v := r.Journal.Current("cam.intake.opens")
	angle, ok := model.OverlapAngle(v.Path, v.Quantity)
	if want := intakeLobe.event(2, -1); v.Origin != model.FromDegreeing || !ok || math.Abs(angle*180/math.Pi-want) > 0.15 {
		t.Errorf("%s: %v°, want %v°", v.ID(), angle*180/math.Pi, want)
	}
	for _, old := range r.Journal.History("cam.intake.opens") {
		if at := r.Journal.CheckingLift(old); at == nil || old.Part != nil && at.Part != old.Part {
			t.Errorf("%s doesn't carry its own lift", old.ID())
		}
	}
}

// What dial and wheel may be off by, carried by the first-order rule, is held against drawing at random (the method of JCGM 101, from its definition): the closed form with a dial and a wheel
// that are off by as much as their figures say.
func TestWhatAnEventMayBeOffBy(t *testing.T) {
	r := compile(t, "-- build.toml --\n[engine]\nrocker-ratio = { intake = 1.1, exhaust = 1.1 }\n-- tools.toml --\n[wheel]\nfor = [\"cam\"]\nuncertainty = \"1°\"\n[dial]\nfor = [\"cam.intake.lift\"]\nuncertainty = \"0.05 mm\"\n"+
		"-- data/l.csv --\ncrank [°],lift [mm]\n"+intakeLobe.rows(1, "%g,%.4f", asIs, 1.1)+
		"-- 2026-01-01.md --\nwith = [\"wheel\", \"dial\"]\n[set]\ncam.intake.at = \"1.0 mm\"\n[[degreeing]]\ndata = \"data/l.csv\"\nof = \"cam.intake\"\n", "")
	if got := findings(r); got != "" {
		t.Fatalf("findings:\n%s", got)
	}
	draw := rand.New(rand.NewPCG(1, 2))
	opens, closes, duration := moments{}, moments{}, moments{}
	for range 100_000 {
		wheel, dial := draw.NormFloat64()*0.5, draw.NormFloat64()*0.025
		o := intakeLobe.event((1.1-dial)/1.1, -1) + wheel // where the dial shows 1.1, the valve has lifted so much less
		c := intakeLobe.event((1.1-dial)/1.1, 1) + wheel
		opens.add(o)
		closes.add(c)
		duration.add(c - o)
	}
	o, c := valueAt(r, "cam.intake.opens"), valueAt(r, "cam.intake.closes")
	for _, x := range []struct {
		what string
		got  quantity.Estimate
		want moments
	}{{"opens", o.Estimate, opens}, {"closes", c.Estimate, closes},
		{"duration: the wheel's share goes, the dial's adds", quantity.Combine(0, quantity.Angle, quantity.Term{Partial: 1, Of: c.Estimate}, quantity.Term{Partial: -1, Of: o.Estimate}), duration}} {
		if got, want := x.got.Std()*180/math.Pi, x.want.std(); math.Abs(got/want-1) > 0.03 {
			t.Errorf("%s: standard uncertainty %.4f° carried, %.4f° drawn", x.what, got, want)
		}
	}
}

// moments sums draws up.
type moments struct{ n, sum, squares float64 }

func (m *moments) add(x float64) { m.n, m.sum, m.squares = m.n+1, m.sum+x, m.squares+x*x }

func (m moments) std() float64 {
	mean := m.sum / m.n
	return math.Sqrt(m.squares/m.n - mean*mean)
}

// Where an event is counted from, by hand.
func TestOverlapAngle(t *testing.T) {
	for _, c := range []struct {
		path, text string
		want       float64 // °
		none       bool
	}{
		{"cam.intake.opens", "16° BTDC", -16, false}, {"cam.intake.opens", "10° ATDC", 10, false}, {"cam.intake.opens", "196° BBDC", -16, false},
		{"cam.intake.closes", "46° ABDC", 226, false}, {"cam.intake.closes", "226° ATDC", 226, false}, {"cam.intake.closes", "134° BTDC", 226, false}, {"cam.intake.closes", "5° BBDC", 175, false},
		{"cam.exhaust.opens", "46° BBDC", -226, false}, {"cam.exhaust.opens", "134° ATDC", -226, false}, {"cam.exhaust.opens", "226° BTDC", -226, false},
		{"cam.exhaust.closes", "16° ATDC", 16, false}, {"cam.exhaust.closes", "4° BTDC", -4, false}, {"cam.exhaust.closes", "196° ABDC", 16, false},
		{"cam.intake.centre", "105° ATDC", 105, false}, {"cam.intake.centre", "75° BBDC", 105, false}, {"cam.exhaust.centre", "105° BTDC", -105, false}, {"cam.exhaust.centre", "75° ABDC", -105, false},
		{"cam.intake.opens", "16°", 0, true}, {"cam.intake.opens", "..16° BTDC", 0, true}, {"cam.intake.lift", "16° BTDC", 0, true}, {"port.exhaust.opens", "84° ATDC", 0, true}, {"cam.intake.opens", "2 mm BTDC", 0, true},
	} {
		written, slip := quantity.Parse(c.text)
		if slip != nil {
			t.Fatal(slip)
		}
		q, slip := written.Resolve(quantity.Want{})
		if slip != nil {
			t.Fatal(slip)
		}
		if got, ok := model.OverlapAngle(c.path, q); ok == c.none || ok && math.Abs(got*180/math.Pi-c.want) > 1e-9 {
			t.Errorf("%s at %s: %v°, %v; want %v°", c.path, c.text, got*180/math.Pi, ok, c.want)
		}
	}
}
