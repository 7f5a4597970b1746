package chart

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// What is read off a drawing: places are worked out by hand from the figures and from the measures that the pages state.

// lash is a limit of 0.08 ± 0.02 mm. Its scale goes on by half of the band on both sides, from 0.04 to 0.12 mm; in a cell that is from
// 7 to 113 px, so a hundredth is 13.25 px.
func lash(t *testing.T) Limit {
	return sheetLimit{Low: "0.06 mm", High: "0.10 mm", Nominal: "0.08 mm", Step: "0.01 mm"}.limit(t)
}

func TestAPointerStandsAtItsFigure(t *testing.T) {
	mm := quantity.UnitShown("mm")
	for _, c := range []struct {
		read string
		tip  float64
	}{
		{"0.08 mm", 60}, {"0.06 mm", 33.5}, {"0.10 mm", 86.5}, {"0.04 mm", 7}, {"0.12 mm", 113},
		{"0.13 mm", 119}, {"4 mm", 119}, {"0.03 mm", 1}, // pinned: the tip points out of the scale
	} {
		all := read(t, Strip(nil, StripData{Gauge: NewGauge(lash(t), mm), Reading: reading(t, c.read, "mm"), Verdict: model.In}, Cell))
		pointer := of(all, "c-reading")
		if len(pointer) != 1 || math.Abs(pointer[0].numbers[0]-c.tip) > 0.051 {
			t.Errorf("%s: the pointer is %v, want its tip at %v", c.read, pointer, c.tip)
		}
	}
}

func TestTheScaleIsTheLimits(t *testing.T) {
	mm := quantity.UnitShown("mm")
	limit := lash(t)
	bands := func(s StripData) string {
		var words []string
		for _, e := range read(t, Strip(nil, s, Cell)) {
			if e.class == "c-band" || e.class == "c-bound" || e.class == "c-rule" {
				words = append(words, e.attrs["d"])
			}
		}
		return strings.Join(words, " ")
	}
	near := bands(StripData{Gauge: NewGauge(limit, mm), Reading: reading(t, "0.08 mm", "mm")})
	far := bands(StripData{Gauge: NewGauge(limit, mm), Reading: reading(t, "8 mm", "mm"), Found: reading(t, "-3 mm", "mm")})
	if near == "" || near != far {
		t.Errorf("two strips of one limit don't compare:\n%s\n%s", near, far)
	}
}

// The ends of scales, by the rule that the page states, worked out by hand.
func TestEndsOfScales(t *testing.T) {
	for _, c := range []struct {
		name   string
		limit  sheetLimit
		lo, hi float64
	}{
		{"both bounds", sheetLimit{Low: "0.06 mm", High: "0.10 mm"}, 0.04, 0.12},
		{"wide service", sheetLimit{Low: "53.00 mm", High: "53.02 mm", ServiceHigh: "53.10 mm"}, 52.975, 53.125},
		{"high alone", sheetLimit{High: "3 mm"}, 0, 4.5},
		{"low alone", sheetLimit{Low: "1.6 mm"}, 0.8, 3.2},
		{"low with service", sheetLimit{Low: "1.6 mm", ServiceLow: "1.4 mm"}, 1.3, 2.0},
		{"target", sheetLimit{Nominal: "25 mm"}, 12.5, 37.5},
	} {
		lo, hi, ok := c.limit.limit(t).in(quantity.UnitShown("mm")).scale(0.01)
		if !ok || math.Abs(lo-c.lo) > 1e-9 || math.Abs(hi-c.hi) > 1e-9 {
			t.Errorf("%s: from %v to %v, want %v to %v", c.name, lo, hi, c.lo, c.hi)
		}
	}
}

// Verdicts must differ in shape, with all colour taken away.
func TestVerdictsDifferInShape(t *testing.T) {
	mm := quantity.UnitShown("mm")
	seen := map[string]model.Verdict{}
	for _, v := range []model.Verdict{model.In, model.Worn, model.Undecided, model.Out} {
		var shape strings.Builder
		for _, e := range of(read(t, Strip(nil, StripData{Gauge: NewGauge(lash(t), mm), Reading: reading(t, "0.09 mm", "mm"), Verdict: v}, Cell)), "c-reading") {
			outline := slices.Contains(strings.Fields(e.class), "c-outline")
			if outline {
				shape.WriteString("outline ")
			}
			shape.WriteString(e.attrs["d"] + ";")
		}
		if other, twice := seen[shape.String()]; twice || shape.Len() == 0 {
			t.Errorf("%s and %s look alike without colour: %s", v, other, shape.String())
		}
		seen[shape.String()] = v
	}
}

func TestABracketRunsOffTheOpenSide(t *testing.T) {
	mm := quantity.UnitShown("mm")
	for _, c := range []struct {
		read        string
		rings       int
		left, right float64 // the bar's ends
	}{
		{"0.06..0.10 mm", 2, 33.5 + 2.1, 86.5 - 2.1},
		{"..0.10 mm", 1, 0, 86.5 - 2.1},
		{"0.06.. mm", 1, 33.5 + 2.1, 120},
	} {
		all := read(t, Strip(nil, StripData{Gauge: NewGauge(lash(t), mm), Reading: reading(t, c.read, "mm"), Verdict: model.In}, Cell))
		bar := of(all, "c-bar")
		if len(of(all, "c-outline")) != c.rings || len(bar) != 1 || math.Abs(bar[0].numbers[0]-c.left) > 0.051 || math.Abs(bar[0].numbers[2]-c.right) > 0.051 {
			t.Errorf("%s: bar %v with %d hollow ends, want from %v to %v with %d", c.read, bar, len(of(all, "c-outline")), c.left, c.right, c.rings)
		}
	}
}

func TestAStripSaysItAll(t *testing.T) {
	all := read(t, Strip(nil, StripData{About: "lash.intake.left", Gauge: NewGauge(lash(t), quantity.UnitShown("mm")), Found: reading(t, "0.13 mm", "mm"), Reading: reading(t, "0.08 mm", "mm"), Verdict: model.In}, Cell))
	const want = "lash.intake.left: set 0.08\u202fmm, in; found 0.13\u202fmm; standard 0.06 to 0.10\u202fmm, nominal 0.08\u202fmm"
	if got := all[1].text; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// Fuel by distance turns about in distance by fuel: at least 20 km/L is at most 5 L/100 km (by hand: 100/20).
func TestReciprocalUnitsTurnTheScaleAbout(t *testing.T) {
	litres, kilometres := quantity.UnitOf("L/100km", quantity.Consumption), quantity.UnitOf("km/L", quantity.Consumption)
	if litres == nil || kilometres == nil || !kilometres.Reciprocal {
		t.Fatal("the units of consumption are not as this test takes them to be")
	}
	limit := Limit{High: Bound{true, litres.SI(5)}, ServiceHigh: Bound{true, litres.SI(8)}}
	if b := limit.in(kilometres); math.Abs(b.low-20) > 1e-9 || math.Abs(b.serviceLow-12.5) > 1e-9 || !math.IsNaN(b.high) {
		t.Errorf("5 and 8 L/100 km are %+v in km/L, want low 20 and service-low 12.5", b)
	}
	d, ok := (Reading{Is: true, Low: math.Inf(-1), High: litres.SI(5)}).drawnIn(kilometres)
	if !ok || math.Abs(d.low-20) > 1e-9 || !math.IsInf(d.high, 1) {
		t.Errorf("less than 5 L/100 km is %+v in km/L, want 20 and more", d)
	}
}

func TestTheLineBreaksWhereTheEngineChanged(t *testing.T) {
	point := func(day float64, text string, stale bool) HistoryPoint {
		return HistoryPoint{At: day, Reading: reading(t, text, "mm"), Stale: stale, Verdict: model.In}
	}
	data := HistoryData{Unit: quantity.UnitShown("mm"), Points: []HistoryPoint{point(20000, "0.10 mm", true), point(20010, "0.11 mm", true), point(20020, "0.15 mm", false), point(20030, "0.16 mm", false)}}
	lines := of(read(t, History(nil, data, Wide)), "c-trace")
	if len(lines) != 2 || len(lines[0].numbers) != 4 || len(lines[1].numbers) != 4 {
		t.Errorf("the readings before and after are joined as %v, want two lines of two points", lines)
	}
}

// Days are to scale: of readings on the first of January, April and October 2026 the second lies 90/273 of the way (31 + 28 + 31 days of
// 273, counted on a calendar).
func TestTimeIsToScale(t *testing.T) {
	data := HistoryData{Unit: quantity.UnitShown("mm")}
	for _, month := range []int{1, 4, 10} {
		data.Points = append(data.Points, HistoryPoint{At: Day(2026, month, 1), Reading: reading(t, "0.10 mm", "mm")})
	}
	var x []float64
	for _, e := range read(t, History(nil, data, Wide)) {
		if e.name == "circle" {
			x = append(x, e.numbers[0])
		}
	}
	if len(x) != 3 || math.Abs((x[1]-x[0])/(x[2]-x[0])-90.0/273) > 0.001 {
		t.Errorf("the points stand at %v", x)
	}
}

// Of ten thousand readings as many are drawn as can be told apart. The highest, the lowest, and the only one that is out are among them.
func TestACrowdKeepsItsExtremes(t *testing.T) {
	const days, high, low, out = 10000, 4321, 6789, 5555
	scatter := rand.New(rand.NewPCG(1, 2))
	data := HistoryData{Unit: quantity.UnitShown("mm")}
	for day := range days {
		at := HistoryPoint{At: Day(2000, 1, 1) + float64(day), Reading: figureReading(0.10e-3 + 0.01e-3*scatter.Float64()), Verdict: model.In}
		switch day {
		case high:
			at.Reading = figureReading(0.12e-3)
		case low:
			at.Reading = figureReading(0.09e-3)
		case out:
			at.Verdict = model.Out
		}
		data.Points = append(data.Points, at)
	}
	// A drawing of 640 px has its plot from 46 to 536, one of 320 from 42 to 274; the days take it all but for 4 % of them at each end.
	for _, plot := range []struct {
		size        Size
		left, right float64
	}{{Wide, 46, 536}, {Narrow, 42, 274}} {
		svg := History(nil, data, plot.size)
		if len(svg) > 30_000 {
			t.Errorf("%d bytes are a lot for a chart", len(svg))
		}
		var top, bottom, marked element
		for _, e := range read(t, svg) {
			if e.name != "circle" {
				continue
			}
			if top.name == "" || e.numbers[1] < top.numbers[1] {
				top = e
			}
			if bottom.name == "" || e.numbers[1] > bottom.numbers[1] {
				bottom = e
			}
			if strings.Contains(e.class, string(verdictClass(model.Out))) {
				marked = e
			}
		}
		for day, e := range map[float64]element{high: top, low: bottom, out: marked} {
			want := plot.left + (day/(days-1)+0.04)/1.08*(plot.right-plot.left)
			if e.name == "" || math.Abs(e.numbers[0]-want) > 0.1 {
				t.Errorf("the reading of day %v is drawn as %v, want a point at %.1f", day, e, want)
			}
		}
	}
}

func figureReading(si float64) Reading {
	return Reading{Is: true, Low: si, High: si}
}

// Ticks of months are held against the calendar of package time.
func TestTicksOfMonthsStandOnTheFirst(t *testing.T) {
	for _, days := range []float64{0.5, 3, 20, 45, 100, 400, 900, 4000, 40000, 900000} {
		a := axis{lo: Day(1996, 2, 20), hi: Day(1996, 2, 20) + days, from: 0, to: 600}
		ticks := a.dateTicks(8)
		if len(ticks) > 9 || days >= 3 && len(ticks) == 0 {
			t.Errorf("%v days: %d ticks", days, len(ticks))
		}
		for _, tick := range ticks {
			date := time.Unix(int64(tick.at)*86400, 0).UTC()
			if days > 120 && date.Day() != 1 || tick.at < a.lo || tick.at > a.hi {
				t.Errorf("%v days: a tick at %s", days, date.Format(time.DateOnly))
			}
			if want := date.Format("Jan"); len(tick.label) == 3 && tick.label != want {
				t.Errorf("%s is labelled %s", date.Format(time.DateOnly), tick.label)
			}
		}
	}
}

func TestTicksAreRound(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		about  int
		want   []float64
	}{
		{0.03, 0.21, 4, []float64{0.05, 0.10, 0.15, 0.20}},
		{880, 1370, 4, []float64{900, 1000, 1100, 1200, 1300}},
		{-0.4, 2.1, 3, []float64{0, 1, 2}},
		{4900, 10600, 3, []float64{6000, 8000, 10000}},
	} {
		got, _ := axis{lo: c.lo, hi: c.hi, to: 1}.ticks(c.about)
		if !slices.EqualFunc(got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
			t.Errorf("from %v to %v: %v, want %v", c.lo, c.hi, got, c.want)
		}
	}
}

// Bars end where the sums say: +2, then −1, then +3 hp, on a scale from 0 to 4 hp.
func TestStepsAddUp(t *testing.T) {
	hp := quantity.UnitShown("hp")
	var data GainData
	data.Unit = hp
	for _, gain := range []float64{2, -1, 3} {
		data.Stages = append(data.Stages, GainStage{Label: "stage", Gain: Figure{true, hp.SI(gain), 0}})
	}
	data.Total = Figure{true, hp.SI(4), 0}
	all := read(t, GainSteps(nil, data, Wide))
	px := (640.0 - 150 - 1) / 4
	for _, c := range []struct {
		class    string
		i        int
		from, to float64
	}{{"c-gain", 0, 0, 2}, {"c-loss-edge", 0, 1, 2}, {"c-gain", 1, 1, 4}, {"c-total", 0, 0, 4}} {
		bars := of(all, c.class)
		if len(bars) <= c.i {
			t.Errorf("%s %d is not drawn", c.class, c.i)
			continue
		}
		if n := bars[c.i].numbers; math.Abs(n[0]-1-c.from*px) > 0.06 || math.Abs(n[2]-1-c.to*px) > 0.06 {
			t.Errorf("%s %d goes from %v to %v px, want %v to %v", c.class, c.i, n[0], n[2], 1+c.from*px, 1+c.to*px)
		}
	}
	if got, want := all[0].attrs["aria-label"], "+4.00\u202fhp in 3 stages"; got != want {
		t.Errorf("the title is %q, want %q", got, want)
	}
}

// Of a thousand stages of 0.01 hp each the first 981 are one step, of 9.81 hp.
func TestVeryManyStagesAreMerged(t *testing.T) {
	hp := quantity.UnitShown("hp")
	data := GainData{Unit: hp, Total: Figure{true, hp.SI(10), hp.SI(1)}}
	for range 1000 {
		data.Stages = append(data.Stages, GainStage{Label: "Open pipe, its baffle taken out", Gain: Figure{true, hp.SI(0.01), hp.SI(0.02)}})
	}
	both := 0
	for _, size := range []Size{Wide, Narrow} {
		svg := GainSteps(nil, data, size)
		both += len(svg)
		words := texts(read(t, svg))
		if !slices.Contains(words, "the first 981 stages together") || !slices.Contains(words, "+9.81\u202fhp") || !strings.HasPrefix(string(svg), "<svg") || !slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, "in 1000 stages") }) {
			t.Errorf("it says %q", words)
		}
	}
	if both > 30_000 {
		t.Errorf("the two drawings of a page take %d bytes", both)
	}
}

// No line of the first pulls runs through words: of a loss first it stands in the midst of them, of gains alone to their left.
func TestTheLineOfTheFirstPullsKeepsClearOfWords(t *testing.T) {
	hp := quantity.UnitShown("hp")
	for _, first := range []float64{-1.2, 1.2} {
		data := GainData{Unit: hp, Baseline: Figure{true, hp.SI(24), 0}, Reason: "the two sessions are not corrected alike", Stages: []GainStage{
			{"Open pipe, its baffle taken out and the rest of it cleaned", Figure{true, hp.SI(first), 0}, ""}, {"Cam", Figure{true, hp.SI(2), 0}, ""}, {"Main jets and the needles of both carburettors", Figure{}, "not corrected"},
		}}
		for _, size := range []Size{Wide, Narrow} {
			all := read(t, GainSteps(nil, data, size))
			drawn := 0.0
			for _, line := range of(all, "c-axis") {
				n := line.numbers
				if len(n) != 4 || n[0] != n[2] {
					continue
				}
				drawn += n[3] - n[1]
				for _, e := range all {
					if e.name != "text" || e.attrs["text-anchor"] != "" {
						continue
					}
					x, y := e.numbers[0], e.numbers[1]
					if n[0] >= x && n[0] <= x+widthOf(e.text)*0.8 && n[1] < y && n[3] > y-fontSize*0.7 {
						t.Errorf("%v hp first, size %d: a line at %v from %v to %v runs through %q at %v, %v", first, size, n[0], n[1], n[3], e.text, x, y)
					}
				}
			}
			if drawn < 2*gainTall {
				t.Errorf("%v hp first, size %d: only %v px of it are drawn", first, size, drawn)
			}
		}
	}
}

// Of names that differ in their last words only, as those of one day do, none is cut to look like another.
func TestNamesOfOneDayStayApart(t *testing.T) {
	rpm, hp, nm := quantity.UnitShown("rpm"), quantity.UnitShown("hp"), quantity.UnitShown("N·m")
	for _, endings := range [][]string{{"first that day", "second that day", "third that day"}, {"09:30", "09:30:05", "14:00"}, {"08:15, before", "08:15, after", "14:00"}} {
		data := CurvesData{Speed: rpm, Power: hp, Torque: nm}
		for k, ending := range endings {
			run := []CurvePoint{{rpm.SI(5000), hp.SI(10 + float64(k)), 0}, {rpm.SI(9000), hp.SI(20 + 2*float64(k)), 0}}
			data.Sessions = append(data.Sessions, Session{Label: "2026-03-08, " + ending, Power: run, Torque: []CurvePoint{{rpm.SI(5000), 12, 0}, {rpm.SI(9000), 14 + float64(k), 0}}, PeakPower: Figure{true, hp.SI(20 + 2*float64(k)), 0}})
		}
		data.Sessions[0].Role, data.Sessions[2].Role = Baseline, Current
		for size, column := range map[Size]float64{Wide: 640 - 170, Narrow: 320 - 86} { // where the names stand
			names := map[string]int{} // line below line, behind what leads to each
			name := ""
			for _, e := range read(t, Curves(nil, data, size)) {
				switch {
				case e.class == "c-leader":
					names[name]++
					name = ""
				case e.name == "text" && e.numbers[0] == column && !strings.Contains(e.text, "hp"):
					name += e.text + "|"
				}
			}
			names[name]++
			delete(names, "")
			if len(names) != len(endings) {
				t.Errorf("size %d: the names are %v, want %q apart", size, names, endings)
			}
		}
	}
}

func TestAStepInsideItsUncertaintyIsAnOutline(t *testing.T) {
	hp := quantity.UnitShown("hp")
	all := read(t, GainSteps(nil, GainData{Unit: hp, Stages: []GainStage{{"filter", Figure{true, hp.SI(0.1), hp.SI(0.3)}, ""}, {"cam", Figure{true, hp.SI(2), hp.SI(0.3)}, ""}}}, Wide))
	if len(of(all, "c-unsure")) != 1 || len(of(all, "c-gain")) != 1 || len(of(all, "c-error")) != 2 {
		t.Errorf("%d outlines, %d solid bars, %d whiskers; want 1, 1, 2", len(of(all, "c-unsure")), len(of(all, "c-gain")), len(of(all, "c-error")))
	}
	if words := texts(all); !slices.Contains(words, "+0.10 ± 0.30\u202fhp") {
		t.Errorf("the gain is not told with its uncertainty: %q", words)
	}
}

// A gain from −1 hp at 5000 to +2 hp at 8000 rpm, ± 0.5 hp, crosses nought at 6000; by hand its band is below nought up to 5500 and above it from 6500 on. Between them there is neither.
func TestWherePowerWasLostIsHatched(t *testing.T) {
	rpm, hp := quantity.UnitShown("rpm"), quantity.UnitShown("hp")
	for _, spread := range []float64{0.5, 0} {
		points := []CurvePoint{{rpm.SI(5000), hp.SI(-1), hp.SI(spread)}, {rpm.SI(8000), hp.SI(2), hp.SI(spread)}}
		all := read(t, GainCurves(nil, GainCurvesData{Speed: rpm, Power: hp, Stages: []GainCurve{{Label: "cam", Points: points}}}, Wide))
		px := func(speed float64) float64 { return 42 + (speed-5000)/3000*(628-42) }
		filled, hatched := of(all, "c-gained"), of(all, "c-loss")
		if len(filled) != 1 || len(hatched) != 1 {
			t.Fatalf("± %v: %d are filled and %d hatched", spread, len(filled), len(hatched))
		}
		if from := filled[0].numbers[0]; math.Abs(from-px(6000+1000*spread)) > 0.11 {
			t.Errorf("± %v: filled from %v px, want %v", spread, from, px(6000+1000*spread))
		}
		n := hatched[0].numbers // x, nought, and the end of each stroke
		if first, last := n[0], n[len(n)-3]; first < px(5000) || first > px(5000)+4 || last > px(6000-1000*spread) || last < px(6000-1000*spread)-4 {
			t.Errorf("± %v: hatched from %v to %v px, want from %v to %v", spread, first, last, px(5000), px(6000-1000*spread))
		}
		words := strings.Join(texts(all), "|")
		bands, want := 0, "gained 6000 to 8000; lost 5000 to 6000\u202frpm"
		if spread > 0 {
			bands, want = 1, "gained 6500 to 8000; lost 5000 to 5500\u202frpm"
		}
		if len(of(all, "c-scatter")) != bands || !strings.Contains(words, want) || strings.Contains(words, "no band: nothing tells") != (bands == 0) {
			t.Errorf("± %v: %d bands, and it says %q", spread, len(of(all, "c-scatter")), words)
		}
	}
}

// The greatest gain and the greatest loss of any curve are drawn where they are, whatever else of it is left out: held against a plain search.
func TestAGainKeepsItsExtremes(t *testing.T) {
	rpm, hp := quantity.UnitShown("rpm"), quantity.UnitShown("hp")
	r := rand.New(rand.NewPCG(8, 1))
	for range 40 {
		data := GainCurvesData{Speed: rpm, Power: hp}
		for range 1 + r.IntN(7) {
			s := GainCurve{Label: "stage"}
			for i := range 240 {
				s.Points = append(s.Points, CurvePoint{rpm.SI(3000 + 30*float64(i)), hp.SI(r.NormFloat64() - 1), hp.SI(0.5 * float64(r.IntN(2)))})
			}
			data.Stages = append(data.Stages, s)
		}
		both := 0
		for _, size := range []Size{Wide, Narrow} {
			svg := GainCurves(nil, data, size)
			both += len(svg)
			all := read(t, svg)
			lines, dots := of(all, "c-run"), of(all, "c-peak")
			for i, line := range lines {
				highest, lowest := math.Inf(1), math.Inf(-1)
				for p := range slices.Chunk(line.numbers, 2) {
					highest, lowest = min(highest, p[1]), max(lowest, p[1])
				}
				if math.Abs(highest-dots[2*i].numbers[1]) > 0.051 || math.Abs(lowest-dots[2*i+1].numbers[1]) > 0.051 {
					t.Errorf("a line from %v to %v px, its extremes at %v and %v", highest, lowest, dots[2*i].numbers, dots[2*i+1].numbers)
				}
			}
		}
		if both > 30_000 {
			t.Errorf("%d plots take %d bytes in the two drawings of a page", len(data.Stages), both)
		}
	}
}

// twelveSessions are sessions of long pulls, as a page hands them over: with 240 points each, in power and torque.
func twelveSessions() CurvesData {
	rpm, hp, nm := quantity.UnitShown("rpm"), quantity.UnitShown("hp"), quantity.UnitShown("N·m")
	data := CurvesData{Speed: rpm, Power: hp, Torque: nm}
	for k := range 12 {
		s := Session{Label: "2026-03-08, session " + string(rune('a'+k)), PeakPower: Figure{true, hp.SI(24), 0}}
		for i := range 240 {
			speed := rpm.SI(3000 + 30*float64(i))
			moment := 18 + float64(k)/5 + math.Sin(float64(i)/40) + math.Sin(float64(i*i))/9
			s.Power, s.Torque = append(s.Power, CurvePoint{speed, moment * speed, speed / 5}), append(s.Torque, CurvePoint{speed, moment, 0.2})
		}
		data.Sessions = append(data.Sessions, s)
	}
	data.Sessions[0].Role, data.Sessions[11].Role = Baseline, Current
	return data
}

// A band has an edge above and below each point of its line, so that the line never leaves it.
func TestBandsHoldTheirLines(t *testing.T) {
	data := twelveSessions()
	data.Sessions = append(data.Sessions[:3:3], data.Sessions[11])
	for _, size := range []Size{Wide, Narrow} {
		all := read(t, Curves(nil, data, size))
		lines, bands := of(all, "c-run"), of(all, "c-scatter")
		if len(lines) != 8 || len(bands) != 8 {
			t.Fatalf("%d lines, %d bands", len(lines), len(bands))
		}
		for i, line := range lines {
			n, band := len(line.numbers), bands[i].numbers
			if len(band) != 2*n {
				t.Fatalf("size %d: %d numbers about a line of %d", size, len(band), n)
			}
			for at := 0; at < n; at += 2 {
				up, down := band[at+1], band[2*n-1-at]
				if x := line.numbers[at]; math.Abs(band[at]-x) > 0.11 || up > line.numbers[at+1] || down < line.numbers[at+1] {
					t.Errorf("size %d: the band at %g, from %g to %g, doesn't hold the line at %g, %g", size, band[at], up, down, x, line.numbers[at+1])
				}
			}
		}
	}
}

// All of twelve sessions are drawn and named, in little room; each line still has its peak, which stands where the axes put it.
func TestManyLongSessionsStaySmall(t *testing.T) {
	data := twelveSessions()
	both := 0
	for _, size := range []Size{Wide, Narrow} {
		svg := Curves(nil, data, size)
		both += len(svg)
		all := read(t, svg)
		words := strings.Join(texts(all), " ")
		for k := range 12 {
			times := 1
			if data.Sessions[k].Role != Earlier {
				times = 2
			}
			if want := "session " + string(rune('a'+k)); strings.Count(words, want) != times {
				t.Errorf("size %d names %q %d times, want %d", size, want, strings.Count(words, want), times)
			}
		}
		lines, bands, peaks := of(all, "c-run"), of(all, "c-scatter"), of(all, "c-peak")
		if len(lines) != 24 || len(bands) != 4 || len(peaks) != 24 || !strings.Contains(words, "of the first and the last alone") {
			t.Fatalf("%d lines, %d bands, %d peaks", len(lines), len(bands), len(peaks))
		}
		for i, line := range lines {
			top := math.Inf(1)
			at := 0.0
			for p := range slices.Chunk(line.numbers, 2) {
				if p[1] < top {
					at, top = p[0], p[1]
				}
			}
			if math.Abs(top-peaks[i].numbers[1]) > 0.051 || math.Abs(at-peaks[i].numbers[0]) > 0.051 {
				t.Errorf("the line's highest place is %v, %v, its peak is drawn at %v", at, top, peaks[i].numbers)
			}
		}
	}
	if both > 30_000 {
		t.Errorf("the two drawings of a page take %d bytes", both)
	}
}

// Of more sessions than can be told apart the oldest between the first and the last are left out, and the drawing says so.
func TestVeryManySessionsAreCounted(t *testing.T) {
	data := twelveSessions()
	for range 3 {
		data.Sessions = slices.Concat(data.Sessions[:1], data.Sessions[1:len(data.Sessions)-1], data.Sessions[1:])
	}
	both := 0
	for _, size := range []Size{Wide, Narrow} {
		svg := Curves(nil, data, size)
		both += len(svg)
		if all := read(t, svg); len(of(all, "c-run")) != 2*MostSessions || !slices.Contains(texts(all), "and "+strconv.Itoa(len(data.Sessions)-MostSessions)+" earlier, in the table") {
			t.Errorf("%d lines of %d sessions: %q", len(of(all, "c-run")), len(data.Sessions), texts(all))
		}
	}
	if both > 30_000 {
		t.Errorf("the two drawings of a page take %d bytes", both)
	}
}

func TestLabelsDontMeet(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		var list []beside
		for range 1 + r.IntN(9) {
			list = append(list, beside{want: r.Float64()*140 - 20, size: 5 + r.Float64()*15})
		}
		first := list[0]
		placed := spread(slices.Clone(list), 0, 100)
		if !slices.ContainsFunc(placed, func(l beside) bool { return l.want == first.want }) {
			t.Fatalf("the label that matters most was dropped: %v", list)
		}
		edge := 0.0
		for _, l := range placed {
			if l.at-l.size/2 < edge-1e-9 || l.at+l.size/2 > 100+1e-9 {
				t.Fatalf("labels meet, or leave the line: %v", placed)
			}
			edge = l.at + l.size/2
		}
	}
}

func TestLabelsOfPartsKeepClearOfTheirLines(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	type label struct {
		from, to float64
		row      int
	}
	for range 300 {
		var starts []float64
		var placed []label
		at := 500.0
		for at > 0 {
			at -= r.Float64() * 60
			l := label{from: at, to: at + 20 + r.Float64()*120}
			l.row, starts = row(starts, l.from, l.to, 4)
			for _, other := range placed {
				if l.row >= 0 && other.row >= l.row && l.to > other.from {
					t.Fatalf("%+v runs into %+v, or into its line", l, other)
				}
			}
			if l.row >= 0 {
				placed = append(placed, l)
			}
		}
		if len(starts) > 4 {
			t.Fatalf("%d rows", len(starts))
		}
	}
}

func TestLongWordsAreCutAndWrapped(t *testing.T) {
	if got := cut("short", 100); got != "short" {
		t.Errorf("got %q", got)
	}
	if got := cut(strings.Repeat("w", 50), 60); !strings.HasSuffix(got, "…") || widthOf(got) > 60 {
		t.Errorf("got %q, %v px", got, widthOf(got))
	}
	if got := wrap("power and torque: 24.1 hp at baseline, 27.6 hp now", 200, 3); len(got) < 2 || strings.Join(got, " ") != "power and torque: 24.1 hp at baseline, 27.6 hp now" {
		t.Errorf("got %q", got)
	}
}

func TestLimitOfTakesTheFigures(t *testing.T) {
	nominal := typed(t, "0.12 mm")
	l := &model.Limit{Unit: nominal.Unit, Nominal: &nominal, Low: model.Bound{Is: true, SI: 0.0001}, High: model.Bound{Is: true, SI: 0.00014}, Worn: [2]model.Bound{{}, {Is: true, SI: 0.0002}}, Step: 0.00001}
	want := Limit{Low: Bound{true, 0.0001}, High: Bound{true, 0.00014}, ServiceHigh: Bound{true, 0.0002}, Nominal: Bound{true, nominal.SI()}, Step: 0.00001}
	if got := LimitOf(l); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if LimitOf(nil) != (Limit{}) || LimitOf(&model.Limit{Expect: []string{"aligned"}}) != (Limit{}) {
		t.Error("a limit without figures has some")
	}
}
