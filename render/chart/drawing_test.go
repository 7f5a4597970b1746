package chart

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// element is one element of a drawing.
type element struct {
	name, class, text string
	attrs             map[string]string
	numbers           []float64 // of a path, or centre and radius of a circle
}

var (
	svgNumber = regexp.MustCompile(`-?\d+(\.\d+)?`)
	longTail  = regexp.MustCompile(`\.\d{3}`)
	pathData  = regexp.MustCompile(`^[MLHVZl0-9. -]*$`)
)

// read takes a drawing apart, and holds it to what all drawings must be: well-formed XML (encoding/xml reads it), one svg with a role and a
// label, numbers with two decimals at most, no id, no style, no colour, no address.
func read(t *testing.T, svg []byte) []element {
	t.Helper()
	if len(svg) == 0 {
		return nil
	}
	if !utf8.Valid(svg) {
		t.Fatalf("broken UTF-8: %q", svg)
	}
	var all []element
	var open []int
	d := xml.NewDecoder(bytes.NewReader(svg))
	roots := 0
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, svg)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if len(open) == 0 {
				roots++
			}
			open = append(open, len(all))
			all = append(all, elementOf(t, token))
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].text += string(token)
			}
		}
	}
	if roots != 1 || all[0].name != "svg" || all[1].name != "title" || all[1].text == "" {
		t.Fatalf("want one svg that has its title first:\n%s", svg)
	}
	small := len(of(all[:1], "c-cell")) > 0
	if role, label := all[0].attrs["role"], all[0].attrs["aria-label"]; small && role+label != "" || !small && (role != "img" || label != all[1].text) {
		t.Errorf("a small drawing has neither role nor label, any other is an image that has its title as label:\n%s", svg)
	}
	return all
}

func elementOf(t *testing.T, token xml.StartElement) element {
	t.Helper()
	if !slices.Contains([]string{"svg", "title", "desc", "g", "path", "circle", "text", "tspan"}, token.Name.Local) {
		t.Errorf("draws a <%s>", token.Name.Local)
	}
	e := element{name: token.Name.Local, attrs: map[string]string{}}
	for _, a := range token.Attr {
		e.attrs[a.Name.Local] = a.Value
		switch a.Name.Local {
		case "class":
			e.class = a.Value
		case "d", "cx", "cy", "r", "x", "y", "width", "height", "viewBox":
			if longTail.MatchString(a.Value) || !pathData.MatchString(a.Value) {
				t.Errorf("<%s %s=%q> has more than two decimals, or no numbers", e.name, a.Name.Local, a.Value)
			}
			for _, n := range svgNumber.FindAllString(a.Value, -1) {
				x, _ := strconv.ParseFloat(n, 64)
				if n := len(e.numbers); a.Name.Local == "d" && strings.Contains(a.Value, "l") && n > 1 {
					x = math.Round(10*(x+e.numbers[n-2])) / 10 // each place is told from the one before
				}
				e.numbers = append(e.numbers, x)
			}
			if a.Name.Local == "d" && (!strings.HasPrefix(a.Value, "M") || len(e.numbers) < 2) {
				t.Errorf("a path is empty: %q", a.Value)
			}
		case "role", "aria-label", "text-anchor", "font-size":
		default:
			t.Errorf("<%s> has %s=%q", e.name, a.Name.Local, a.Value)
		}
	}
	return e
}

// of returns the elements that have a class.
func of(all []element, class string) []element {
	var some []element
	for _, e := range all {
		if slices.Contains(strings.Fields(e.class), class) {
			some = append(some, e)
		}
	}
	return some
}

// texts returns what a drawing says in words, in order.
func texts(all []element) []string {
	var words []string
	for _, e := range all {
		if e.name == "text" {
			words = append(words, e.text)
		}
	}
	return words
}

func TestEveryExampleIsADrawing(t *testing.T) {
	for _, kind := range kinds {
		for _, x := range examples(t, kind) {
			t.Run(kind.name+" "+x.name, func(t *testing.T) {
				all := read(t, x.svg)
				if (x.size == Wide || x.size == Narrow) && len(texts(all)) == 0 {
					t.Error("a large drawing has no words")
				}
			})
		}
	}
}

// variables are the variables of a theme that the charts may use.
var variables = []string{"--blue", "--faint", "--ink", "--ochre", "--paper", "--plain", "--quiet", "--rule", "--vermilion"}

// TestClassesHaveRules holds the classes that drawings name against the rules, and the rules to the variables of a theme.
func TestClassesHaveRules(t *testing.T) {
	css := CSS()
	rule := regexp.MustCompile(`\.(c-[a-z-]+)`)
	known := map[string]bool{}
	for _, m := range rule.FindAllStringSubmatch(css, -1) {
		known[m[1]] = true
	}
	doc := regexp.MustCompile(`c-(strip|history|gains|over|curves|timing|lift|pressures|gears|squares|course|cell|wide|narrow|bar|peak|run|scatter|now|earlier|baseline|in|gain|figure)$`)
	for _, kind := range kinds {
		for _, x := range examples(t, kind) {
			for _, e := range read(t, x.svg) {
				for _, class := range strings.Fields(e.class) {
					if class != "chart" && !known[class] && !doc.MatchString(class) {
						t.Errorf("%s: class %s has no rule", kind.name, class)
					}
				}
			}
		}
	}
	var used []string
	for _, m := range regexp.MustCompile(`var\((--[a-z-]+), (currentColor|none|sans-serif)\)`).FindAllStringSubmatch(css, -1) {
		used = append(used, m[1])
	}
	if n := strings.Count(css, "var("); n != len(used) {
		t.Errorf("%d of %d variables have no fallback", n-len(used), n)
	}
	slices.Sort(used)
	if used = slices.Compact(used); !slices.Equal(used, variables) {
		t.Errorf("the rules use %v, want %v", used, variables)
	}
	for _, m := range regexp.MustCompile(`(?:fill|stroke): ([^;]+);`).FindAllStringSubmatch(css, -1) {
		if m[1] != "none" && m[1] != "stroke" && !strings.HasPrefix(m[1], "var(--") {
			t.Errorf("a rule has a colour of its own: %s", m[0])
		}
	}
	if strings.Count(css, "{") != strings.Count(css, "}") {
		t.Error("the braces don't match")
	}
}

// wild are figures that no chart should trip over: the ends of IEEE 754 binary64, what is no number, and everyday ones.
var wild = []float64{0, math.Copysign(0, -1), 1, -1, 0.00008, 0.0001, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, 1e300, -1e300, 1e18, 1e18 + 256, 0.00008 + 1e-20}

var wildText = "<&\"'>\x00\x1b\xff\ufffe]]> −×°µ 😀 " + strings.Repeat("long", 40)

func TestWildFiguresStillDraw(t *testing.T) {
	units := []*quantity.Unit{quantity.UnitShown("mm"), quantity.UnitShown("°C"), nil}
	for _, u := range quantity.Units() {
		if u.Reciprocal {
			units = append(units, u)
			break
		}
	}
	angle, pressure, rotation, speed := quantity.UnitShown("°"), quantity.UnitShown("kPa"), quantity.UnitShown("rpm"), quantity.UnitShown("km/h")
	drawn := map[string]int{}
	try := func(kind string, svg []byte) {
		if len(svg) > 0 {
			drawn[kind]++
		}
		read(t, svg)
		if len(svg) > 30_000 {
			t.Errorf("%s takes %d bytes", kind, len(svg))
		}
	}
	for _, u := range units {
		for i, a := range wild {
			for k, b := range wild {
				c, d := wild[(i+k)%len(wild)], wild[(i*3+k)%len(wild)]
				limit := Limit{Low: Bound{i%3 > 0, a}, High: Bound{k%3 > 0, b}, ServiceLow: Bound{i%2 > 0, c}, ServiceHigh: Bound{k%2 > 0, d}, Nominal: Bound{k%5 > 2, c}, Step: d}
				reading, found := Reading{Is: true, Low: c, High: c, Expanded: a}, Reading{Is: k%2 > 0, Low: b, High: a}
				verdict := model.Verdict((i + k) % 5)
				size := []Size{Cell, Wide, Narrow}[(i+k)%3]
				try("strip", Strip(nil, StripData{wildText, NewGauge(limit, u), reading, found, verdict}, size))
				points := []HistoryPoint{{a, reading, true, false, verdict}, {b, found, false, true, verdict}, {c, reading, false, false, model.In}}
				data := HistoryData{About: wildText, Unit: u, Points: points, Limits: []LimitFrom{{a, limit}, {b, Limit{}}}, Fitted: []Fitted{{c, wildText}, {d, ""}}}
				try("history", History(nil, data, size))
				stages := []GainStage{{wildText, Figure{true, a, b}, ""}, {"", Figure{false, c, d}, wildText}, {"x", Figure{true, c, d}, ""}}
				try("gains", GainSteps(nil, GainData{Unit: u, Baseline: Figure{true, d, a}, Stages: stages, Total: Figure{i%2 > 0, b, c}, Reason: wildText}, size))
				run := []CurvePoint{{a, b, d}, {c, d, a}, {b, b, 0}, {b, a, 1}, {1, 2, c}}
				sessions := []Session{{Label: wildText, Role: Current, Power: run, Torque: run[:k%4], PeakPower: Figure{true, a, b}}, {Power: run[:1]}}
				try("curves", Curves(nil, CurvesData{Speed: u, Power: u, Torque: u, Sessions: sessions}, size))
				over := []GainCurve{{wildText, false, run, ""}, {"", true, run[i%4:], ""}, {"x", false, run, wildText}}[k%2:]
				try("over", GainCurves(nil, GainCurvesData{u, u, over, k % 3}, size))
				stretches := []calc.Stretch{{Begin: a, Least: b, Greatest: c}, {Begin: 1, Least: d, Greatest: d}, {Begin: a, Least: c, Greatest: b}, {Begin: c, Least: 0.001, Greatest: 0.002}}
				clock := []*quantity.Unit{nil, quantity.UnitShown("s"), quantity.UnitShown("min"), quantity.UnitShown("kPa")}[i%4]
				try("course", Course(nil, CourseData{wildText, u, clock, stretches[k%4:], d, limit, []Reading{reading, found}[i%2], b, verdict}, size))
				crank := func(x float64) Reading { return Reading{Is: true, Low: x, High: x, Expanded: a} }
				opening := Opening{Opens: crank(a), Closes: crank(b), Centre: Reading{Is: i%2 > 0, Low: c, High: d}, Duration: reading}
				lifts := Lobe{Points: []LiftPoint{{1, 0.001}, {a, b}, {2, 0.002}, {c, d}, {b, c}}[:k%6], Opening: opening, Peak: reading, At: found}
				if u != units[0] {
					continue // these have units of their own
				}
				square := func(mean, target float64, state int) MixtureSquare {
					return MixtureSquare{mean, target, d, wildText[:k%9], model.SquareState(state % 7), i%2 > 0} // one state more than there is
				}
				ragged := [][]MixtureSquare{{square(a, b, i), square(0.9, c, k), square(d, 0.9, i+k)}, nil, {square(0.95, 0.9, i+1), square(a, a, k+1), {}, square(c, d, 3)}, {square(1, 1, 3)}}
				try("squares", MixtureSquares(nil, MixtureData{[]string{wildText, "", "100%"}, []string{"", wildText, "8000"}[:1+k%3], wildText, ragged}, size))
				try("timing", ValveTiming(nil, ValveData{angle, Valves{opening, Opening{Opens: crank(d)}, found, wildText}, Valves{Intake: opening}}, size))
				try("ports", PortTiming(nil, PortData{angle, Ports{opening, Opening{Closes: crank(c)}, opening, found}, Ports{Transfer: opening}}, size))
				try("lift", LiftCurves(nil, LiftData{angle, u, Lobes{wildText, lifts, Lobe{}}, Lobes{"", lifts, lifts}}, size))
				cylinders := []Cylinder{{wildText, reading, verdict, ""}, {"", found, model.Worn, wildText}, {"2", crank(d), model.Out, ""}}
				try("pressures", Compression(nil, CompressionData{pressure, cylinders, limit, crank(b), wildText}, size))
				try("gears", GearSpeeds(nil, GearsData{rotation, speed, crank(max(a, 1)), []Gear{{wildText, crank(b), found}, {"", crank(c), crank(d)}, {"3", crank(9), reading}}}, size))
			}
		}
	}
	for _, kind := range []string{"strip", "history", "gains", "curves", "timing", "ports", "lift", "pressures", "gears", "squares", "course"} {
		if drawn[kind] < 100 {
			t.Errorf("only %d drawings of %s: the figures are too wild to test it", drawn[kind], kind)
		}
	}
}

func TestNothingToDrawGivesNothing(t *testing.T) {
	mm, before := quantity.UnitShown("mm"), []byte("before")
	for name, got := range map[string][]byte{
		"a strip without a limit":           Strip(before, StripData{Gauge: NewGauge(Limit{}, mm), Reading: Reading{Is: true}}, Cell),
		"a strip without a unit":            Strip(before, StripData{Gauge: NewGauge(Limit{High: Bound{true, 1}}, nil)}, Cell),
		"a history without readings":        History(before, HistoryData{Unit: mm, Limits: []LimitFrom{{0, Limit{High: Bound{true, 1}}}}}, Wide),
		"gains without a stage":             GainSteps(before, GainData{Unit: quantity.UnitShown("hp"), Total: Figure{true, 1, 0}}, Wide),
		"gains of which none is known":      GainSteps(before, GainData{Unit: quantity.UnitShown("hp"), Stages: []GainStage{{Label: "x", Reason: "y"}}}, Wide),
		"curves without sessions":           Curves(before, CurvesData{Speed: quantity.UnitShown("rpm"), Power: quantity.UnitShown("hp")}, Wide),
		"curves of a session of no row":     Curves(before, CurvesData{Speed: quantity.UnitShown("rpm"), Power: quantity.UnitShown("hp"), Sessions: []Session{{Power: []CurvePoint{}}}}, Wide),
		"gain over speed of no stage":       GainCurves(before, GainCurvesData{Speed: quantity.UnitShown("rpm"), Power: quantity.UnitShown("hp")}, Wide),
		"gain over speed that is not told":  GainCurves(before, GainCurvesData{Speed: quantity.UnitShown("rpm"), Power: quantity.UnitShown("hp"), Stages: []GainCurve{{Label: "x", Reason: "y"}}}, Wide),
		"valve timing without an event":     ValveTiming(before, ValveData{Unit: degree(), Now: Valves{Overlap: Reading{Is: true, Low: 0.4, High: 0.4}, Lift: "1 mm"}}, Wide),
		"valve timing in millimetres":       ValveTiming(before, ValveData{Unit: mm, Now: Valves{Intake: Opening{Opens: Reading{Is: true}}}}, Wide),
		"port timing without an event":      PortTiming(before, PortData{Unit: degree()}, Wide),
		"port timing without a unit":        PortTiming(before, PortData{Now: Ports{Exhaust: Opening{Opens: Reading{Is: true}}}}, Wide),
		"a lift curve of one point":         LiftCurves(before, LiftData{Angle: degree(), Lift: mm, Now: Lobes{Intake: Lobe{Points: []LiftPoint{{1, 0.001}}}}}, Wide),
		"a lift curve without a unit":       LiftCurves(before, LiftData{Angle: degree(), Now: Lobes{Intake: Lobe{Points: []LiftPoint{{1, 0.001}, {2, 0.002}}}}}, Wide),
		"compression that nobody read":      Compression(before, CompressionData{Unit: quantity.UnitShown("kPa"), Cylinders: []Cylinder{{Name: "left", Reason: "x"}}, Expected: Limit{Low: Bound{true, 1e6}}}, Wide),
		"gears without a redline":           GearSpeeds(before, GearsData{Rotation: quantity.UnitShown("rpm"), Speed: quantity.UnitShown("km/h"), Gears: []Gear{{"1", Reading{Is: true, Low: 9, High: 9}, Reading{}}}}, Wide),
		"gears of which none has its speed": GearSpeeds(before, GearsData{Rotation: quantity.UnitShown("rpm"), Speed: quantity.UnitShown("km/h"), Redline: Reading{Is: true, Low: 900, High: 900}, Gears: []Gear{{Name: "1"}}}, Wide),
		"squares that nobody was in":        MixtureSquares(before, MixtureData{[]string{"100%"}, []string{"8000"}, "rpm", [][]MixtureSquare{{{Target: 0.9}}}}, Wide),
		"squares without a head":            MixtureSquares(before, MixtureData{Squares: [][]MixtureSquare{{{Mean: 0.9, Target: 0.9, State: model.OnTarget}}}}, Wide),
		"a square of no number":             MixtureSquares(before, MixtureData{[]string{"100%"}, []string{"8000"}, "rpm", [][]MixtureSquare{{{Mean: math.NaN(), State: model.Lean}}}}, Narrow),
		"a course without a stretch":        Course(before, CourseData{Unit: mm, Limit: Limit{High: Bound{true, 1}}, End: 9}, Wide),
		"a course of no number":             Course(before, CourseData{Unit: mm, Stretches: []calc.Stretch{{Begin: 1, Least: math.NaN(), Greatest: 1}, {Begin: math.Inf(1), Least: 1, Greatest: 1}}}, Wide),
		"a course without a unit":           Course(before, CourseData{Stretches: []calc.Stretch{{Begin: 1, Least: 1, Greatest: 1}}}, Wide),
		"a course over millimetres":         Course(before, CourseData{Unit: mm, Time: mm, Stretches: []calc.Stretch{{Begin: 1, Least: 1, Greatest: 1}}}, Wide),
	} {
		if string(got) != "before" {
			t.Errorf("%s: %s", name, got)
		}
	}
}

// FuzzText sees that no text of a builder's breaks out of a drawing.
func FuzzText(f *testing.F) {
	f.Add(wildText)
	f.Add("hill cam")
	f.Fuzz(func(t *testing.T, text string) {
		mm := quantity.UnitShown("mm")
		r := Reading{Is: true, Low: 0.001, High: 0.001, Shown: quantity.Shown{Number: text, Unit: text}}
		read(t, Strip(nil, StripData{About: text, Gauge: NewGauge(Limit{High: Bound{true, 0.002}}, mm), Reading: r}, Wide))
		read(t, History(nil, HistoryData{About: text, Unit: mm, Points: []HistoryPoint{{At: 20000, Reading: r}}, Fitted: []Fitted{{20001, text}}}, Narrow))
		at := Reading{Is: true, Low: 0.3, High: 0.3, Shown: quantity.Shown{Number: text, Unit: text}}
		opening := Opening{Opens: at, Closes: at, Centre: at, Duration: at}
		read(t, ValveTiming(nil, ValveData{degree(), Valves{opening, opening, at, text}, Valves{Intake: opening, Lift: text}}, Narrow))
		read(t, PortTiming(nil, PortData{degree(), Ports{opening, opening, opening, at}, Ports{}}, Wide))
		lobe := Lobe{[]LiftPoint{{-1, 0}, {0, 0.007}, {1, 0}}, opening, at, r}
		read(t, LiftCurves(nil, LiftData{degree(), mm, Lobes{text, lobe, lobe}, Lobes{text, lobe, Lobe{}}}, Narrow))
		read(t, Compression(nil, CompressionData{quantity.UnitShown("kPa"), []Cylinder{{text, at, model.Worn, text}, {Name: text, Reason: text}}, Limit{}, at, text}, Narrow))
		read(t, GearSpeeds(nil, GearsData{quantity.UnitShown("rpm"), quantity.UnitShown("km/h"), at, []Gear{{text, at, at}, {text, Reading{Is: true, Low: 9, High: 9}, at}}}, Wide))
		squares := [][]MixtureSquare{{{0.95, 0.9, 0.03, text, model.Lean, true}, {0.95, 0.9, 0.03, text, model.Glimpsed, false}}, {{}, {0.9, 0.9, 0.03, text, model.Rich, false}}}
		read(t, MixtureSquares(nil, MixtureData{[]string{text, "100%"}, []string{text, text}, text, squares}, Narrow))
		read(t, Course(nil, CourseData{About: text, Unit: mm, Stretches: []calc.Stretch{{Begin: 0, Least: 0, Greatest: 0.002}}, End: 3, Worst: r, WorstAt: 1, Verdict: model.Out}, Wide))
		read(t, GainSteps(nil, GainData{Unit: quantity.UnitShown("hp"), Stages: []GainStage{{text, Figure{true, 1, 0}, ""}, {text, Figure{}, text}}, Reason: text}, Narrow))
	})
}

// FuzzStrip sees that any figures give a drawing, or nothing.
func FuzzStrip(f *testing.F) {
	f.Add(0.00006, 0.0001, 0.0, 0.0002, 0.00008, 0.00005, 0.00007, 0.00001, byte(31))
	f.Fuzz(func(t *testing.T, low, high, serviceLow, serviceHigh, nominal, from, to, spread float64, is byte) {
		limit := Limit{Bound{is&1 > 0, low}, Bound{is&2 > 0, high}, Bound{is&4 > 0, serviceLow}, Bound{is&8 > 0, serviceHigh}, Bound{is&16 > 0, nominal}, spread, quantity.NoEvent}
		for _, size := range []Size{Cell, Wide, Narrow} {
			read(t, Strip(nil, StripData{"x", NewGauge(limit, quantity.UnitShown("mm")), Reading{Is: true, Low: from, High: to, Expanded: spread}, Reading{Is: true, Low: to, High: to}, model.Verdict(is % 5)}, size))
		}
	})
}
