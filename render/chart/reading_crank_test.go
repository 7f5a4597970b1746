package chart

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// What is read off the drawings of the crank, the cylinders and the gears. Angles are read by the dead centres that the drawing itself shows, other figures by
// its own ticks; what they must be is worked out by hand.

var pathStep = regexp.MustCompile(`([MLHV])([^MLHVZ]*)`)

// along returns the places along a drawing that a path goes through, in its order.
func along(e element) []float64 {
	var xs []float64
	for _, m := range pathStep.FindAllStringSubmatch(e.attrs["d"], -1) {
		for i, n := range svgNumber.FindAllString(m[2], -1) {
			if m[1] == "H" || m[1] != "V" && i%2 == 0 {
				x, _ := strconv.ParseFloat(n, 64)
				xs = append(xs, x)
			}
		}
	}
	return xs
}

// wheel reads angles off a drawing: two dead centres half a turn apart are known.
type wheel struct{ at, degrees, pxADegree float64 }

// wheelOf takes the first two upright lines of a drawing to be the dead centres at an angle and half a turn after it.
func wheelOf(t *testing.T, all []element, first float64) wheel {
	t.Helper()
	var at []float64
	for _, e := range of(all, "c-grid") {
		if xs := along(e); xs[0] == xs[1] {
			at = append(at, xs[0])
		}
	}
	if len(at) < 2 {
		t.Fatalf("the drawing shows %d dead centres", len(at))
	}
	return wheel{at[0], first, (at[1] - at[0]) / 180}
}

func (w wheel) angle(x float64) float64 { return w.degrees + (x-w.at)/w.pxADegree }

func (w wheel) reads(t *testing.T, what string, x, want float64) {
	t.Helper()
	if got := w.angle(x); math.Abs(got-want) > 0.15/w.pxADegree {
		t.Errorf("%s stands at %.1f°, want %v", what, got, want)
	}
}

func TestValveEventsStandAtTheirAngles(t *testing.T) {
	crank := func(text string) Reading { return reading(t, text, "°") }
	data := ValveData{Unit: degree(), Now: Valves{
		Exhaust: Opening{Opens: crank("50 ± 4° BBDC"), Closes: crank("12° ATDC"), Centre: crank("109° BTDC")},
		Intake:  Opening{Opens: crank("14° BTDC"), Closes: crank("42..50° ABDC")},
		Overlap: crank("26°"),
	}, Card: Valves{Intake: Opening{Opens: crank("10° ATDC"), Closes: crank("39° ABDC")}}}
	for _, size := range []Size{Wide, Narrow} {
		all := read(t, ValveTiming(nil, data, size))
		w := wheelOf(t, all, -180)
		bars := of(all, "c-open")
		exhaust, intake, card := along(bars[0]), along(bars[1]), along(of(all, "c-card")[0])
		w.reads(t, "exhaust opens", exhaust[0], -180-50)
		w.reads(t, "exhaust centre", exhaust[2], -109) // the bottom of the notch
		w.reads(t, "exhaust closes", slices.Max(exhaust), 12)
		w.reads(t, "intake opens", intake[0], -14)
		w.reads(t, "intake closes", slices.Max(intake), 180+46)
		w.reads(t, "the card's intake opens", card[0], 10)
		shared := along(of(all, "c-shared")[0])
		if got := w.angle(slices.Max(shared)) - w.angle(slices.Min(shared)); math.Abs(got-26) > 0.3/w.pxADegree {
			t.Errorf("the overlap is %.1f° wide, want 26", got)
		}
		whiskers := of(all, "c-error")
		if len(whiskers) != 2 {
			t.Fatalf("%d whiskers, want 2", len(whiskers))
		}
		w.reads(t, "earliest opening", along(whiskers[0])[0], -180-54)
		w.reads(t, "latest opening", along(whiskers[0])[1], -180-46)
		w.reads(t, "earliest closing", along(whiskers[1])[0], 180+42)
		w.reads(t, "latest closing", along(whiskers[1])[1], 180+50)
		if title := all[1].text; title != "valve timing at a lift that is not given: overlap 26°" {
			t.Errorf("the title is %q", title)
		}
	}
}

// TestTheOtherDeadCentreIsTheSamePlace: 194° before the bottom is 14° before the top, and so on around. A figure that is counted from nowhere stands nowhere.
func TestTheOtherDeadCentreIsTheSamePlace(t *testing.T) {
	for _, c := range []struct {
		centre deadCentre
		text   string
		want   float64
	}{
		{0, "14° BTDC", -14}, {0, "194° BBDC", -14}, {0, "166° BBDC", 14}, {-180, "50° BBDC", -230}, {-180, "130° ATDC", -230}, {180, "134° BTDC", 226}, {180, "46° ABDC", 226},
		{180, "84° ATDC", 84}, {180, "84° BTDC", 276}, {180, "96° BBDC", 84}, {360, "72° BTDC", 288}, {360, "72° ATDC", 432}, {360, "108° ABDC", 288},
	} {
		if e := c.centre.event(reading(t, c.text, "°"), degree()); !e.is || math.Abs(e.at-c.want) > 1e-9 || e.text != c.text {
			t.Errorf("%s, counted where %v° is: %+v, want %v°", c.text, float64(c.centre), e, c.want)
		}
	}
	for _, text := range []string{"14°", "400° BTDC", "5 mm"} {
		if e := deadCentre(0).event(reading(t, text, "°"), degree()); e.is {
			t.Errorf("%s stands at %v", text, e.at)
		}
	}
}

func TestEventsWithoutWordsAreWorded(t *testing.T) {
	for _, c := range []struct {
		centre        deadCentre
		rad, expanded float64
		want          string
	}{
		{0, -14 * math.Pi / 180, 0, "14.0° BTDC"}, {0, 0, 0, "0.0° ATDC"}, {360, 0.5, 0, "28.6° ATDC"}, {-180, -0.5, 0, "28.6° BBDC"}, {180, 0.5, 0.02, "28.6° ABDC"}, {180, 0.5, 0.2, "29° ABDC"},
	} {
		if e := c.centre.event(Reading{Is: true, Low: c.rad, High: c.rad, Expanded: c.expanded}, degree()); e.text != c.want {
			t.Errorf("%v rad: %q, want %q", c.rad, e.text, c.want)
		}
	}
}

func TestValvesThatShareNothingAreNotHatched(t *testing.T) {
	data := ValveData{Unit: degree(), Now: Valves{Exhaust: Opening{Closes: reading(t, "4° BTDC", "°")}, Intake: Opening{Opens: reading(t, "6° ATDC", "°")}, Overlap: reading(t, "-10°", "°"), Lift: "0.050 in"}}
	all := read(t, ValveTiming(nil, data, Wide))
	if len(of(all, "c-shared")) != 0 || !slices.Contains(texts(all), "overlap −10°") || len(of(all, "c-unknown")) != 2 || len(of(all, "c-open")) != 2 {
		t.Errorf("want two ends, dots for the rest, and the figure alone: %v", texts(all))
	}
	if w := wheelOf(t, all, -180); true {
		w.reads(t, "exhaust closes", slices.Max(along(of(all, "c-open")[0])), -4)
		w.reads(t, "intake opens", along(of(all, "c-open")[1])[0], 6)
	}
}

func TestPortsStandAboutTheirDeadCentre(t *testing.T) {
	crank := func(text string) Reading { return reading(t, text, "°") }
	data := PortData{Unit: degree(), Now: Ports{
		Exhaust:  Opening{Opens: crank("84° ATDC"), Closes: crank("84° BTDC")},
		Transfer: Opening{Opens: crank("67° BBDC"), Closes: crank("67° ABDC")},
		Intake:   Opening{Opens: crank("72° BTDC"), Closes: crank("72° ATDC")},
		Blowdown: crank("29°"),
	}}
	all := read(t, PortTiming(nil, data, Wide))
	w := wheelOf(t, all, 180)
	for i, want := range [][2]float64{{84, 276}, {113, 247}, {288, 432}} {
		bar := along(of(all, "c-open")[i])
		w.reads(t, "opens", slices.Min(bar), want[0])
		w.reads(t, "closes", slices.Max(bar), want[1])
	}
	shared := along(of(all, "c-shared")[0])
	if got := (slices.Max(shared) - slices.Min(shared)) / w.pxADegree; math.Abs(got-29) > 0.3 {
		t.Errorf("the blowdown is %.1f° wide, want 29", got)
	}
}

// A trapezoid whose flanks rise 5 mm in 50° crosses 1 mm at 10° from their feet.
func TestALiftCurveCrossesItsCheckingLift(t *testing.T) {
	deg := math.Pi / 180
	lobe := Lobe{Points: []LiftPoint{{-20 * deg, 0}, {30 * deg, 0.005}, {186 * deg, 0.005}, {236 * deg, 0}}, At: reading(t, "1 mm", "mm"), Peak: reading(t, "5.00 mm", "mm"),
		Opening: Opening{Opens: reading(t, "10° BTDC", "°"), Closes: reading(t, "46° ABDC", "°"), Centre: reading(t, "108° ATDC", "°")}}
	all := read(t, LiftCurves(nil, LiftData{Angle: degree(), Lift: quantity.UnitShown("mm"), Now: Lobes{Intake: lobe}}, Wide))
	w := wheelOf(t, all, 0)
	run := of(all, "c-run")[0]
	for i, want := range []float64{-20, 30, 186, 236} {
		w.reads(t, "a point", run.numbers[2*i], want)
	}
	foot, top := run.numbers[1], run.numbers[3]
	check := of(all, "c-check")[0]
	if y := check.numbers[1]; math.Abs(y-(foot-(foot-top)/5)) > 0.11 {
		t.Errorf("1 mm stands at %v, where 0 is at %v and 5 mm at %v", y, foot, top)
	}
	dots := of(all, "c-peak")
	if len(dots) != 3 {
		t.Fatalf("%d dots, want the peak and two events", len(dots))
	}
	for i, want := range []float64{-10, 226} {
		x, y := number(t, dots[i+1], "cx"), number(t, dots[i+1], "cy")
		w.reads(t, "an event", x, want)
		if y != check.numbers[1] {
			t.Errorf("the event is at height %v, not on the checking lift", y)
		}
	}
	w.reads(t, "the centre", of(all, "c-aim")[0].numbers[0], 108)
	if title := all[1].text; title != "lift: intake 5.00\u202fmm; lobe centre: intake 108° ATDC" {
		t.Errorf("the title is %q", title)
	}
}

func number(t *testing.T, e element, name string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(e.attrs[name], 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Labels of events keep the order of the cycle, and none leaves the drawing while they fit in it.
func TestEventsKeepTheirOrder(t *testing.T) {
	x := axis{-240, 240, 2, 318}
	for opens := -200.0; opens < 150; opens += 10 {
		for long := 20.0; long < 260; long += 30 {
			event := func(at float64) crankEvent {
				return crankEvent{is: true, at: at, from: at, to: at, text: fmt.Sprintf("%.0f ± 1° ABDC", at)}
			}
			p := pen{}
			p.eventRow("c-name", "", x, 20, 320, stretch{opens: event(opens), closes: event(opens + long), centre: event(opens + long/2)})
			all := read(t, []byte(`<svg role="img" aria-label="x"><title>x</title>`+string(p.out)+`</svg>`))
			opensAt, closesAt := math.NaN(), math.NaN()
			for _, e := range all {
				if e.name == "text" && strings.HasSuffix(" "+e.text, " "+event(opens).text) {
					opensAt = number(t, e, "x")
				} else if e.name == "text" && strings.HasSuffix(" "+e.text, " "+event(opens+long).text) {
					closesAt = number(t, e, "x")
				}
			}
			if !(opensAt < closesAt) {
				t.Fatalf("from %v° for %v°: the labels stand at %v and %v px", opens, long, opensAt, closesAt)
			}
		}
	}
}

// A bar begins at no pressure, and is as long as its reading is to the tick of 1000 kPa. Verdicts differ in shape with all colour taken away.
func TestBarsOfPressureCompare(t *testing.T) {
	kPa := quantity.UnitShown("kPa")
	data := CompressionData{Unit: kPa, Expected: Limit{Low: Bound{true, 900e3}, High: Bound{true, 1200e3}, Step: 1e4}, Lowest: reading(t, "750 kPa", "kPa"), Rule: "75 % of the highest"}
	verdicts := []model.Verdict{model.In, model.Worn, model.Undecided, model.Out}
	for i, v := range verdicts {
		data.Cylinders = append(data.Cylinders, Cylinder{Name: strconv.Itoa(i + 1), Reading: reading(t, strconv.Itoa(1000-100*i)+" kPa", "kPa"), Verdict: v})
	}
	all := read(t, Compression(nil, data, Wide))
	in := along(of(all, "c-pressure")[0])
	zero, unit := in[0], (in[1]-in[0])/1000
	worn, undecided, out := of(all, "c-outline")[0], of(all, "c-pressure-undecided")[0], of(all, "c-pressure-out")[0]
	for want, e := range map[float64]element{900: worn, 800: undecided, 700: out} {
		if xs := along(e); xs[0] != zero || math.Abs((slices.Max(xs)-zero)/unit-want) > 0.2 {
			t.Errorf("a bar goes from %v to %v px, want %v kPa of %v px each from %v", xs[0], slices.Max(xs), want, unit, zero)
		}
	}
	for want, x := range map[float64]float64{750: of(all, "c-floor")[0].numbers[0], 900: of(all, "c-edge")[0].numbers[0], 1200: of(all, "c-edge")[1].numbers[0]} {
		if math.Abs((x-zero)/unit-want) > 0.2 {
			t.Errorf("a line is at %v kPa, want %v", (x-zero)/unit, want)
		}
	}
	for _, word := range []string{"lowest allowed 750\u202fkPa: 75 % of the highest", "expected 900 to 1200\u202fkPa", "1000\u202fkPa, in", "900\u202fkPa, worn", "800\u202fkPa, undecided", "700\u202fkPa, out"} {
		if !slices.Contains(texts(all), word) {
			t.Errorf("%q is not said: %v", word, texts(all))
		}
	}
	if title := all[1].text; title != "compression, out: cylinder 4 at 700\u202fkPa" {
		t.Errorf("the title is %q", title)
	}
}

// Half of the redline is half of the speed; two gears of 40 and 80 km/h leave half of the redline at the change.
func TestTheWayThroughTheGears(t *testing.T) {
	at := func(text string) Reading { return reading(t, text, "km/h") }
	data := GearsData{Rotation: quantity.UnitShown("rpm"), Speed: quantity.UnitShown("km/h"), Redline: reading(t, "8000 rpm", "rpm"),
		Gears: []Gear{{"1", at("40 km/h"), Reading{}}, {"2", at("80 km/h"), reading(t, "4000 rpm", "rpm")}, {"3", at("70 km/h"), reading(t, "1000 rpm", "rpm")}}}
	all := read(t, GearSpeeds(nil, data, Wide))
	fan, drop := of(all, "c-earlier"), of(all, "c-drop")
	if len(fan) != 3 || len(drop) != 1 {
		t.Fatalf("%d lines and %d drops, want 3 and 1: a gear that is slower takes over nowhere", len(fan), len(drop))
	}
	left, foot, right := fan[0].numbers[0], fan[0].numbers[1], fan[0].numbers[2]
	if d := drop[0].numbers; d[0] != right || math.Abs(d[2]-(left+right)/2) > 0.06 || d[1] != fan[0].numbers[3] || d[3] != d[1] {
		t.Errorf("the drop goes %v, want from %v to %v at %v", d, right, (left+right)/2, fan[0].numbers[3])
	}
	if up := foot - fan[1].numbers[3]; math.Abs(up-2*(foot-fan[0].numbers[3])) > 0.11 {
		t.Errorf("80 km/h is %v px up, 40 are %v", up, foot-fan[0].numbers[3])
	}
	if title := all[1].text; title != "gear 2: 80\u202fkm/h at 8000\u202frpm; the widest drop is 4000\u202frpm, from 1 to 2" {
		t.Errorf("the title is %q", title)
	}
}
