package quantity

import (
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf8"
)

// resolved parses and resolves a text that must be right.
func resolved(t testing.TB, text string, want Want) Quantity {
	t.Helper()
	w, slip := Parse(text)
	if slip != nil {
		t.Fatalf("%q: %s: %s", text, slip.Kind, slip.Message)
	}
	q, slip := w.Resolve(want)
	if slip != nil {
		t.Fatalf("%q: %s: %s", text, slip.Kind, slip.Message)
	}
	return q
}

func wants(d ...Dimension) Want { return Want{Dimensions: d} }

var (
	inf    = math.Inf(1)
	ratios = Want{Dimensions: []Dimension{Pure}, Ratio: true}
	pounds = Want{Dimensions: []Dimension{Money}, Money: "GBP"}
)

// The figures are worked out by hand from what is typed.
func TestWhatBuildersWrite(t *testing.T) {
	for _, r := range []struct {
		text      string
		want      Want
		symbol    string
		low, high float64 // in the unit; alike for a figure, infinite where open
		spread    float64
		step      float64
		words     string
	}{
		{"0.08 mm", Want{}, "mm", 0.08, 0.08, 0, 0.01, ""},
		{"0.08mm", Want{}, "mm", 0.08, 0.08, 0, 0.01, ""},
		{" 0.080  mm ", Want{}, "mm", 0.08, 0.08, 0, 0.001, ""},
		{"3 thou", Want{}, "thou", 3, 3, 0, 1, ""},
		{"20 lbf·ft", Want{}, "lbf·ft", 20, 20, 0, 1, ""},
		{"20 ft. lbs.", wants(Torque), "lbf·ft", 20, 20, 0, 1, ""},
		{"0.003\"", wants(Length), "in", 0.003, 0.003, 0, 0.001, ""},
		{"0.003″", wants(Length), "in", 0.003, 0.003, 0, 0.001, ""},
		{"27 ± 1 N·m", Want{}, "N·m", 27, 27, 1, 1, ""},
		{"27 +/- 1 N.m", Want{}, "N·m", 27, 27, 1, 1, ""},
		{"27 +- 0.5 Nm", Want{}, "N·m", 27, 27, 0.5, 1, ""},
		{"27 N·m ± 1 N·m", Want{}, "N·m", 27, 27, 1, 1, ""},
		{"20 N·m ± 5 %", Want{}, "N·m", 20, 20, 1, 1, ""},
		{"20 N·m ±5%", Want{}, "N·m", 20, 20, 1, 1, ""},
		{"55 ± 2 %", wants(Pure), "%", 55, 55, 2, 1, ""},
		{"20 % ± 2 %", wants(Pure), "%", 20, 20, 2, 1, ""},
		{"80 ± 5 °C", Want{}, "°C", 80, 80, 5, 1, ""},
		{"80 °C ± 9 °F", Want{}, "°C", 80, 80, 5, 1, ""},
		{"5 mm ± 0.1 cm", Want{}, "mm", 5, 5, 1, 1, ""},
		{"1 1/16 in", Want{}, "in", 1.0625, 1.0625, 0, 0.0625, ""},
		{"1/4 turn", Want{}, "turn", 0.25, 0.25, 0, 0.25, ""},
		{"½ turn", Want{}, "turn", 0.5, 0.5, 0, 0.5, ""},
		{"1½ turns", Want{}, "turn", 1.5, 1.5, 0, 0.5, ""},
		{"1 ¾ turns", Want{}, "turn", 1.75, 1.75, 0, 0.25, ""},
		{"-1/4 turn", Want{}, "turn", -0.25, -0.25, 0, 0.25, ""},
		{"25:1", ratios, ":1", 25, 25, 0, 1, ""},
		{"10.5 : 1", ratios, ":1", 10.5, 10.5, 0, 0.1, ""},
		{"14.7:1", wants(AirFuel), "AFR", 14.7, 14.7, 0, 0.1, ""},
		{"82/10", ratios, "", 8.2, 8.2, 0, 0.1, ""},
		{"41/16", ratios, "", 2.5625, 2.5625, 0, 0.0625, ""},
		{"80/72", Want{SupplyHeld: true}, "%", 10, 10, 0, 1.25, ""},
		{"80/72 psi", Want{SupplyHeld: true, Dimensions: []Dimension{Pure}}, "%", 10, 10, 0, 1.25, ""},
		{"80 psi / 72 psi", Want{SupplyHeld: true, Dimensions: []Dimension{Pure}}, "%", 10, 10, 0, 1.25, ""},
		{"800 kPa/720", Want{SupplyHeld: true, Dimensions: []Dimension{Pure}}, "%", 10, 10, 0, 0.125, ""},
		{"12 %", Want{SupplyHeld: true, Dimensions: []Dimension{Pure}}, "%", 12, 12, 0, 1, ""},
		{"145.00 GBP", Want{}, "GBP", 145, 145, 0, 0.01, ""},
		{"GBP 145", Want{}, "GBP", 145, 145, 0, 1, ""},
		{"£14.50", pounds, "GBP", 14.5, 14.5, 0, 0.01, ""},
		{"£ 14.50", pounds, "GBP", 14.5, 14.5, 0, 0.01, ""},
		{"14.50 £", pounds, "GBP", 14.5, 14.5, 0, 0.01, ""},
		{"-£5", pounds, "GBP", -5, -5, 0, 1, ""},
		{"£10..£15", pounds, "GBP", 10, 15, 0, 1, ""},
		{"£10..15", pounds, "GBP", 10, 15, 0, 1, ""},
		{"€20", Want{}, "EUR", 20, 20, 0, 1, ""},
		{"$20 CAD", pounds, "CAD", 20, 20, 0, 1, ""},
		{"145 kr", Want{Money: "NOK"}, "NOK", 145, 145, 0, 1, ""},
		{"0.10..0.13 mm", Want{}, "mm", 0.10, 0.13, 0, 0.01, ""},
		{"0.10 .. 0.13 mm", Want{}, "mm", 0.10, 0.13, 0, 0.01, ""},
		{"0.10 mm..0.13 mm", Want{}, "mm", 0.10, 0.13, 0, 0.01, ""},
		{"2 cm..25 mm", Want{}, "mm", 20, 25, 0, 1, ""},
		{"..35 °C", Want{}, "°C", -inf, 35, 0, 1, ""},
		{"0.25.. mm", Want{}, "mm", 0.25, inf, 0, 0.01, ""},
		{"0.25 mm..", Want{}, "mm", 0.25, inf, 0, 0.01, ""},
		{"..12 N·m", Want{}, "N·m", -inf, 12, 0, 1, ""},
		{"-5..5 °C", Want{}, "°C", -5, 5, 0, 1, ""},
		{"1/16..1/8 in", Want{}, "in", 0.0625, 0.125, 0, 0.0625, ""},
		{"12° BTDC", Want{}, "°", -12, -12, 0, 1, ""},
		{"12 deg before TDC", Want{}, "°", -12, -12, 0, 1, ""},
		{"42° a.b.d.c.", Want{}, "°", 42, 42, 0, 1, ""},
		{"2.30 mm BTDC", Want{}, "mm", -2.3, -2.3, 0, 0.01, ""},
		{"12 ± 1° BTDC", Want{}, "°", -12, -12, 1, 1, ""},
		{"12° BTDC ± 1°", Want{}, "°", -12, -12, 1, 1, ""},
		{"14..10° BTDC", Want{}, "°", -14, -10, 0, 1, ""},
		{"10..14° BTDC", Want{}, "°", -14, -10, 0, 1, ""},
		{"5° BTDC..5° ATDC", Want{}, "°", -5, 5, 0, 1, ""},
		{"10° BTDC..", Want{}, "°", -10, inf, 0, 1, ""},
		{"20 N·m then 35 N·m then 48 N·m", Want{}, "N·m", 48, 48, 0, 1, ""},
		{"18 N·m then 90°", Want{}, "°", 90, 90, 0, 1, ""},
		{"0.9 L, black, 10W-40", Want{}, "L", 0.9, 0.9, 0, 0.1, "black, 10W-40"},
		{"10 N·m,by feel", Want{}, "N·m", 10, 10, 0, 1, "by feel"},
		{"18 240 km", Want{}, "km", 18240, 18240, 0, 1, ""},
		{"18\u2009240\u00a0km", Want{}, "km", 18240, 18240, 0, 1, ""},
		{"1 234.5 rpm", Want{}, "rpm", 1234.5, 1234.5, 0, 0.1, ""},
		{"5\u202fmm", Want{}, "mm", 5, 5, 0, 1, ""},
		{"−5 °C", Want{}, "°C", -5, -5, 0, 1, ""},
		{"–5 °C", Want{}, "°C", -5, -5, 0, 1, ""},
		{"+5 ºC", Want{}, "°C", 5, 5, 0, 1, ""},
		{"12 μm", Want{}, "µm", 12, 12, 0, 1, ""},
		{"20 N⋅m", Want{}, "N·m", 20, 20, 0, 1, ""},
		{"98.6 kPa", wants(PressureAbs), "kPa abs", 98.6, 98.6, 0, 0.1, ""},
		{"98.6 kPa", wants(Pressure, PressureAbs), "kPa", 98.6, 98.6, 0, 0.1, ""},
		{"5 lb", wants(Force), "lbf", 5, 5, 0, 1, ""},
		{"2 oz", wants(Mass), "oz avdp", 2, 2, 0, 1, ""},
		{"1e3 rpm", Want{}, "rpm", 1000, 1000, 0, 1000, ""},
		{"40 mpg imp", Want{}, "mpg imp", 40, 40, 0, 1, ""},
		{"123456789012345678901 mm", Want{}, "mm", 123456789012345678901, 123456789012345678901, 0, 1, ""},
		{"0.1234567890123456789 mm", Want{}, "mm", 0.1234567890123456789, 0.1234567890123456789, 0, 1e-19, ""},
	} {
		q := resolved(t, r.text, r.want)
		low, high := q.Value, q.Value
		if q.Kind == Interval {
			low, high = -inf, inf
			if q.HasLow {
				low = q.Low
			}
			if q.HasHigh {
				high = q.High
			}
		}
		near := func(a, b float64) bool { return a == b || within(a, b, 1e-12) }
		if q.Unit.Symbol != r.symbol || !near(low, r.low) || !near(high, r.high) || !near(q.Spread, r.spread) || !near(q.Step, r.step) || q.Words != r.words {
			t.Errorf("%q: %g..%g ± %g %s, step %g, words %q\nwant %g..%g ± %g %s, step %g, words %q", r.text, low, high, q.Spread, q.Unit.Symbol, q.Step, q.Words,
				r.low, r.high, r.spread, r.symbol, r.step, r.words)
		}
		if q.HasSpread != (r.spread != 0) || q.Text != r.text && !strings.Contains(r.text, "then") {
			t.Errorf("%q: spread %v, text %q", r.text, q.HasSpread, q.Text)
		}
	}
}

func TestKinds(t *testing.T) {
	for _, r := range []struct {
		text string
		kind Kind
		bare bool
	}{
		{"", Blank, true}, {"  ", Blank, true}, {"-", Blank, true}, {"–", Blank, true}, {" - ", Blank, true},
		{"aligned", Words, true}, {"grade 10W-40", Words, true}, {"in 5", Words, true}, {"R12", Words, true}, {"M9x1.25", Words, true}, {".", Words, true}, {"£", Words, true},
		{"USD", Words, true}, {"½", Figure, true}, {"0.10", Figure, true}, {"0.10 mm", Figure, false}, {"0.10..0.13", Interval, true}, {"25:1", Ratio, false}, {"82/10", Ratio, true},
		{"1/4 turn", Figure, false}, {"20 N·m then 30 N·m", Steps, true}, {"20 N·m, then a quarter turn", Figure, false},
	} {
		w, slip := Parse(r.text)
		if slip != nil || w.Kind != r.kind || (w.Units == nil) != r.bare || w.Text != r.text {
			t.Errorf("%q: %s, units %v, slip %v; want %s, bare %v", r.text, w.Kind, w.Units, slip, r.kind, r.bare)
		}
	}
	w, _ := Parse(" 20 N·m then 35 N·m  THEN 90°, dry")
	if len(w.Steps) != 3 || w.Steps[1].Text != "35 N·m" || w.Words != "dry" {
		t.Fatalf("steps: %+v", w)
	}
	for i, want := range []string{"20 N·m", "35 N·m", "90°"} {
		if q, slip := w.Steps[i].Resolve(Want{}); slip != nil || q.Shown().String() != want {
			t.Errorf("step %d: %s, %v; want %s", i, q.Shown(), slip, want)
		}
	}
}

func TestBareNumbers(t *testing.T) {
	for _, r := range []struct {
		numeral string
		value   float64
		step    float64
	}{{"18240", 18240, 1}, {"10.90", 10.9, 0.01}, {"1_000", 1000, 1}, {"-3", -3, 1}, {"+0.5", 0.5, 0.1}, {"1e3", 1000, 1000}, {"2.5e-2", 0.025, 0.001}} {
		q, slip := Bare(r.numeral).Resolve(Want{Bare: UnitShown("km")})
		if slip != nil || !within(q.Value, r.value, 1e-15) || !within(q.Step, r.step, 1e-15) || q.Text != r.numeral || q.Unit.Symbol != "km" {
			t.Errorf("%s: %+v, %v", r.numeral, q, slip)
		}
		if _, slip := Bare(r.numeral).Resolve(Want{}); slip == nil || slip.Kind != "no-unit" || slip.Start != 0 || slip.End != len(r.numeral) {
			t.Errorf("%s without a unit: %+v", r.numeral, slip)
		}
	}
	for _, numeral := range []string{"nan", "inf", "-inf", "0x10", "0b1", "0o7", "true", "", "1 000", "1/4", "5.", ".5", "½"} {
		if _, slip := Bare(numeral).Resolve(Want{Bare: UnitShown("km")}); slip == nil || slip.Kind != "not-a-figure" {
			t.Errorf("%q is taken as a number: %+v", numeral, slip)
		}
	}
}

// Each place is the text between the corner marks; the message, advice and offers are read by builders, so all offers are spelled out.
func TestSlipsOfTheText(t *testing.T) {
	met := map[string]bool{}
	for _, r := range []struct {
		text   string
		kind   string
		offers string // parted by |
	}{
		{"⌜0,08⌟ mm", "decimal-comma", "0.08 mm"},
		{"⌜0,080⌟ mm", "decimal-comma", "0.080 mm"},
		{"⌜1.234,5⌟ mm", "decimal-comma", "1234.5 mm"},
		{"0.9 L ± ⌜0,1⌟ L", "decimal-comma", "0.9 L ± 0.1 L"},
		{"⌜18,240⌟", "thousands", "18240|18.240"},
		{"⌜18,240⌟ km", "thousands", "18240 km|18.240 km"},
		{"⌜1,234,567⌟ km", "thousands", "1234567 km"},
		{"⌜1,234.5⌟ mm", "thousands", "1234.5 mm"},
		{"⌜1.234.567⌟ km", "thousands", "1234567 km"},
		{"⌜1_000⌟ km", "thousands", "1000 km"},
		{"⌜.08⌟ mm", "leading-dot", "0.08 mm"},
		{"⌜.08⌟..0.10 mm", "leading-dot", "0.08..0.10 mm"},
		{"0.08⌜...⌟10 mm", "interval-dots", "0.08..10 mm"},
		{"⌜5.⌟ mm", "number-dot", "5 mm"},
		{"⌜1.2.3⌟ mm", "number-dot", ""},
		{"⌜<⌟5 N·m", "bound-sign", "..5 N·m"},
		{"⌜≤ ⌟5 N·m", "bound-sign", "..5 N·m"},
		{"⌜>=⌟5 N·m", "bound-sign", "5.. N·m"},
		{"80 N·m ⌜min⌟", "bound-words", "80.. N·m"},
		{"12 N·m ⌜Max.⌟", "bound-words", "..12 N·m"},
		{"12 N m ⌜(max)⌟, dry", "bound-words", "..12 N m, dry"},
		{"80 N·m ⌜or more⌟ oiled", "bound-words", "80.. N·m, oiled"},
		{"20 N·m then 35 N·m ⌜at least⌟", "bound-words", "20 N·m then 35.. N·m"},
		{"£14 ⌜max⌟", "bound-words", "..£14"},
		{"11:1 ⌜max⌟", "bound-words", "..11:1"},
		{"25 ⌜maximum⌟", "bound-words", "..25"},
		{"80 N·m ⌜min⌟ 100 N·m max", "bound-words", ""},
		{"80 N·m ⌜min⌟, 100 N·m max", "bound-words", ""},
		{"12° BTDC ⌜min⌟", "bound-words", ""},
		{"80 min ⌜dry⌟", "words-without-comma", "80 min, dry"},
		{"10..12 N·m ⌜max⌟", "words-without-comma", "10..12 N·m, max"},
		{"3 mm ⌜maxi⌟", "words-without-comma", "3 mm, maxi"},
		{"⌜~⌟0.1 mm", "about", "0.1 ± 0.1 mm"},
		{"⌜≈⌟20 N·m", "about", "20 ± 1 N·m"},
		{"⌜~⌟1/2 turn", "about", "1/2 turn"},
		{"0.10⌜-⌟0.13 mm", "range-dash", "0.10..0.13 mm"},
		{"0.10⌜–⌟0.13 mm", "range-dash", "0.10..0.13 mm"},
		{"0.10 ⌜to⌟ 0.13 mm", "range-dash", "0.10..0.13 mm"},
		{"0.10 mm ⌜-⌟ 0.13 mm", "range-dash", "0.10 mm..0.13 mm"},
		{"0.10⌜…⌟0.13 mm", "range-dash", "0.10..0.13 mm"},
		{"10⌜-⌟14° BTDC", "range-dash", "10..14° BTDC"},
		{"0.10⌜...⌟0.13 mm", "interval-dots", "0.10..0.13 mm"},
		{"⌜0.13..0.10 mm⌟", "reversed", "0.10..0.13 mm"},
		{"⌜13 mm..10 mm⌟", "reversed", "10 mm..13 mm"},
		{"⌜5° ATDC..5° BTDC⌟", "reversed", "5° BTDC..5° ATDC"},
		{"0.10⌜ mm⌟..0.13", "unit-place", "0.10..0.13 mm"},
		{"⌜..⌟", "empty-interval", ""},
		{"5..6⌜..7 mm⌟", "bad-quantity", ""},
		{"5..6 ⌜± 1 mm⌟", "interval-spread", ""},
		{"⌜± 0.02 mm⌟", "no-nominal", ""},
		{"27 N·m ± ⌜1⌟", "spread-unit", "27 ± 1 N·m|27 N·m ± 1 %"},
		{"27 ⌜± N·m⌟", "bad-spread", ""},
		{"27 ± ⌜-1⌟ N·m", "bad-spread", ""},
		{"10 mm ⌜+0.02 -0.01⌟", "two-tolerances", ""},
		{"⌜10W-40⌟", "bad-quantity", "grade 10W-40"},
		{"⌜5W30⌟, fresh", "bad-quantity", "grade 5W30, fresh"},
		{"⌜2026-03-01⌟", "bad-quantity", ""},
		{"⌜01/03/2026⌟", "bad-quantity", ""},
		{"⌜+ve earth⌟", "bad-quantity", ""},
		{"⌜20 35 N·m⌟", "bad-quantity", ""},
		{"5 mm ⌜3 thou⌟", "two-units", "200 thou|5 mm, 3 thou"},
		{"5 ft ⌜3 in⌟", "two-units", "63 in|5 ft, 3 in"},
		{"1 h ⌜30 min⌟", "two-units", "1.5 h|90 min"},
		{"5 h ⌜30 min⌟, in the rain", "two-units", "5.5 h, in the rain|330 min, in the rain"},
		{"5 h ⌜20 min⌟", "two-units", "320 min"}, // a third of an hour has no last decimal
		{"5 h ⌜45⌟", "two-units", "5.75 h|345 min"},
		{"1 hr ⌜5 mins⌟", "two-units", "65 min"},
		{"5 h ⌜30 m⌟", "two-units", "5.5 h|330 min"},
		{"5h⌜30⌟", "two-units", "5.5 h|330 min"},
		{"5h⌜06m⌟", "two-units", "5.1 h|306 min"},
		{"5 h ⌜90 min⌟", "two-units", "390 min|5 h, 90 min"},
		{"5 h ⌜30 kg⌟", "two-units", "5 h, 30 kg"},
		{"5 ⌜x30⌟", "unknown-unit", ""},
		{"⌜3:30 h⌟", "bad-quantity", "3.5 h|210 min"},
		{"⌜12:30 min⌟", "bad-quantity", "12.5 min|750 s"},
		{"3:30 ⌜kg⌟", "two-units", "3:30, kg"},
		{"3:75 ⌜h⌟", "two-units", "3:75, h"},
		{"£20 ⌜kg⌟", "two-units", "£20, kg"},
		{"10 N·m ⌜by feel⌟", "words-without-comma", "10 N·m, by feel"},
		{"£20 ⌜each⌟", "words-without-comma", "£20, each"},
		{"0.003⌜\"\"⌟", "inch-mark-doubled", "0.003 in"},
		{"0.003⌜''⌟", "inch-mark-doubled", "0.003 in"},
		{"0.003⌜”⌟", "curly-quotes", "0.003 in"},
		{"⌜“⌟0.08 mm”", "curly-quotes", "0.08 mm"},
		{"⌜\"⌟0.08 mm\"", "stray-quotes", "0.08 mm"},
		{"12° ⌜TDC⌟", "event-unclear", "12° BTDC|12° ATDC"},
		{"⌜5° BTDC..20° BBDC⌟", "two-centres", ""},
		{"5 ⌜milimetres⌟", "unknown-unit", "5 mm"},
		{"5 ⌜mPA⌟", "unknown-unit", "5 MPa"},
		{"5 ⌜bananas⌟", "unknown-unit", ""},
		{"⌜-82/10⌟", "bad-quantity", ""},
		{"⌜-25:1⌟", "bad-quantity", ""},
		{"5⌜’ 3”⌟", "curly-quotes", "63 in|5', 3\""},
		{"⌜5/0⌟ mm", "divided-by-zero", ""},
		{"⌜5:0⌟", "divided-by-zero", ""},
		{"⌜12:00⌟", "bad-quantity", "12 h|720 min"},
		{"⌜1e999⌟ mm", "too-large", ""},
		{"⌜1e-999⌟ mm", "too-large", ""},
		{"20 N·m ⌜then⌟", "empty-step", ""},
		{"20 N·m ⌜then  then⌟ 90°", "empty-step", ""},
	} {
		text, start, end := corners(t, r.text)
		_, slip := Parse(text)
		if slip == nil {
			t.Errorf("%q is let through", text)
			continue
		}
		met[slip.Kind] = true
		if slip.Kind != r.kind || strings.Join(slip.Offers, "|") != r.offers {
			t.Errorf("%q: %s %q\nwant %s %q", text, slip.Kind, slip.Offers, r.kind, r.offers)
		}
		if r.kind != "bad-quantity" && (slip.Start != start || slip.End != end) {
			t.Errorf("%q: at %q, want %q", text, text[slip.Start:slip.End], text[start:end])
		}
		checkSlip(t, text, slip)
	}
	for _, kind := range SlipKinds() {
		met[kind[0]] = met[kind[0]] || resolveSlips(t, kind[0])
		if !met[kind[0]] {
			t.Errorf("no case makes a slip of the kind %s", kind[0])
		}
		delete(met, kind[0])
	}
	for kind := range met {
		t.Errorf("the kind %s isn't listed", kind)
	}
}

// Where a limit is due, words that bound a figure are a slip as well; nothing is offered where they may be turned two ways.
func TestBoundsInWords(t *testing.T) {
	for _, r := range []struct{ text, offers string }{
		{"⌜from⌟ 80 N·m", "80.. N·m"},
		{"⌜min⌟ 80 N·m", "80.. N·m"},
		{"⌜at least⌟ 80 N·m", "80.. N·m"},
		{"⌜max⌟ 10 N·m", "..10 N·m"},
		{"⌜up to⌟ 10 N·m", "..10 N·m"},
		{"⌜not more than⌟ 10 N·m", "..10 N·m"},
		{"⌜No less than⌟ 5 mm", "5.. mm"},
		{"⌜Max.⌟ 10 N·m, cold", "..10 N·m, cold"},
		{"⌜max⌟: 10 N·m", "..10 N·m"},
		{"⌜max⌟\u00a010 N·m", "..10 N·m"},
		{"⌜max⌟10 N·m", "..10 N·m"},
		{"⌜under⌟ 0,10 mm", "..0.10 mm"},
		{"⌜max⌟ .5 mm", "..0.5 mm"},
		{"⌜min⌟ -5 °C", "-5.. °C"},
		{"⌜at least⌟ £5", "£5.."},
		{"⌜from⌟ 10 to 12 N·m", "10..12 N·m"},
		{"⌜between⌟ 10 and 12 N·m", "10..12 N·m"},
		{"12 N·m, ⌜max⌟", "..12 N·m"},
		{"80 N·m, ⌜min.⌟, dry", "80.. N·m, dry"},

		{"12 N·m, ⌜max 14 N·m⌟", ""}, // a target with a bound that would be lost
		{"12 N·m, ⌜max. 14⌟", ""},
		{"12 N·m, dry, ⌜not more than 10 lbf·ft⌟ oiled", ""},
		{"12 N·m, dry (⌜max 14 N·m⌟)", ""},
		{"12 N·m, ⌜14 N·m max⌟", ""},
		{"12 N·m, dry: ⌜14 max⌟", ""},
		{"12 N·m,\u00a0⌜at least 10 N·m⌟", ""},
		{"12 N·m, ⌜between 10 N·m⌟ and 14 N·m", ""},
		{"..12 N·m, ⌜min 10 N·m⌟", ""},
		{"20 N·m then 35 N·m, ⌜max 40 N·m⌟", ""},
		{"20 N·m then 90°, ⌜up to 40 N·m⌟", ""},

		{"⌜max⌟.10 mm", ""}, // ten, or a tenth
		{"⌜up to⌟ 10-12 N·m", ""},
		{"⌜min⌟ 80 N·m, max 100 N·m", ""},
		{"⌜min⌟ 80 N·m max 100 N·m", ""},
		{"⌜at least⌟ 12° BTDC", ""}, // which is -12° or less
		{"⌜max⌟ 27 ± 1 N·m", ""},
		{"⌜max⌟ 20 N·m then 35 N·m", ""},
		{"⌜up to⌟ 5 bananas", ""},
	} {
		text, start, end := corners(t, r.text)
		slip := Bound(text)
		if slip == nil {
			t.Errorf("%q is let through", text)
			continue
		}
		checkSlip(t, text, slip)
		if slip.Kind != "bound-words" || strings.Join(slip.Offers, "|") != r.offers || slip.Start != start || slip.End != end {
			t.Errorf("%q: %s %q at %q\nwant %q", text, slip.Kind, slip.Offers, text[slip.Start:slip.End], r.offers)
		}
		if (r.offers == "") != strings.Contains(slip.Do, "80.. N·m") {
			t.Errorf("%q: %s", text, slip.Do)
		}
	}
	for _, text := range []string{"aligned", "from the side", "under the seat", "max effort", "maximum", "minor 5 mm", "12 N·m", "12 N·m, max torque of it", "..12 N·m", "12 N·m max", "10..12 N·m, max", "-", "",
		"10..12 N·m, max 14 N·m", "12 ± 1 N·m, max 14 N·m", "0.08 mm, below 35 °C", "12 N·m, 20 °C max", "12 N·m, max 2 pulls", "12 N·m, 3 threads min", "12 N·m, up to 2019", "12 N·m, from 2019", "12 N·m, maximal 14 N·m",
		"12 N·m, after 500 km"} {
		if slip := Bound(text); slip != nil {
			t.Errorf("%q: %s", text, slip.Message)
		}
	}
}

var slipsOfThePlace = []struct {
	text   string
	want   Want
	kind   string
	offers string
}{
	{"⌜aligned⌟", Want{}, "not-a-figure", ""},
	{"⌜-⌟", Want{}, "not-measured", ""},
	{"80 ⌜min⌟", wants(Torque, Angle), "ambiguous-unit", "80 arcmin|80.. N·m"},
	{"80 ⌜min⌟, dry", wants(Torque, Angle), "ambiguous-unit", "80 arcmin, dry|80.. N·m, dry"},
	{"70..80 ⌜min⌟", wants(Torque, Angle), "ambiguous-unit", "70..80 arcmin"},
	{"30 ⌜min⌟", wants(Angle), "ambiguous-unit", "30 arcmin|30..°"},
	{"⌜0.08⌟", wants(Length), "no-unit", "0.08 mm|0.08 in"},
	{"⌜0.10..0.13⌟", wants(Length), "no-unit", "0.10..0.13 mm|0.10..0.13 in"},
	{"⌜20⌟, by feel", wants(Torque), "no-unit", "20 N·m, by feel|20 lbf·ft, by feel"},
	{"⌜145⌟", pounds, "no-unit", "145 GBP"},
	{"⌜12⌟ BTDC", Want{}, "no-unit", "12° BTDC|12 mm BTDC"},
	{"20 N·m then ⌜35⌟", wants(Torque), "no-unit", "20 N·m then 35 N·m|20 N·m then 35 lbf·ft"},
	{"20 ⌜mm⌟", wants(Torque), "wrong-dimension", ""},
	{"20 ⌜nm⌟", wants(Torque), "wrong-dimension", "20 N·m"},
	{"30 ⌜kPa abs⌟", wants(Pressure), "wrong-dimension", ""},
	{"18 N·m then 90⌜°⌟", wants(Torque), "wrong-dimension", ""},
	{"12 ⌜kg⌟ BTDC", Want{}, "wrong-dimension", ""},
	{"3 ⌜gal⌟", wants(Volume), "ambiguous-unit", "3 US gal|3 imp gal"},
	{"2 ⌜pt⌟", Want{}, "ambiguous-unit", "2 US pt|2 imp pt"},
	{"3 ⌜oz⌟", Want{}, "ambiguous-unit", "3 imp fl oz|3 US fl oz|3 oz avdp"},
	{"3 ⌜oz⌟", wants(Volume), "ambiguous-unit", "3 imp fl oz|3 US fl oz"},
	{"40 ⌜mpg⌟", Want{}, "ambiguous-unit", "40 mpg US|40 mpg imp"},
	{"⌜£⌟14.50", Want{}, "money-unclear", "GBP 14.50"},
	{"⌜$⌟14.50", pounds, "money-unclear", "USD 14.50"},
	{"£10..⌜£⌟15, for £5 less", Want{Money: "USD"}, "money-unclear", "GBP 10..GBP 15, for £5 less"},
	{"145 ⌜kr⌟", pounds, "money-unclear", "145 SEK|145 NOK|145 DKK"},
	{"⌜82/10⌟", wants(Length), "ratio-unclear", ""},
	{"⌜3:30⌟", wants(Duration), "bad-quantity", "3.5 h|210 min"},
	{"⌜3:20⌟, wet", wants(Length, Duration), "bad-quantity", "200 min, wet"},
	{"3⌜:75⌟", wants(Duration), "wrong-dimension", ""},
	{"3⌜:5⌟", wants(Duration), "wrong-dimension", ""},
	{"3.5⌜:30⌟", wants(Duration), "wrong-dimension", ""},
	{"3⌜:130⌟", wants(Duration), "wrong-dimension", ""},
	{"3⌜:30⌟", wants(Length), "wrong-dimension", ""},
	{"⌜72/80⌟", Want{SupplyHeld: true}, "held-above-supply", "80/72"},
	{"⌜650 kPa / 700 kPa⌟, warm", Want{SupplyHeld: true}, "held-above-supply", "700 kPa/650 kPa, warm"},
	{"⌜700 kPa / 650 kPa⌟", wants(Pressure), "ratio-unclear", ""},
	{"⌜45 mm / 2⌟", wants(Length), "ratio-unclear", ""},
	{"⌜700 kPa / 650 kPa..720 kPa⌟", Want{SupplyHeld: true}, "ratio-unclear", ""},
	{"⌜0.05⌟", Want{SupplyHeld: true, Dimensions: []Dimension{Pure}}, "no-unit", "5%|0.05%"},
	{"⌜0.055⌟, cold", wants(Pure), "no-unit", "5.5%, cold|0.055%, cold"},
	{"⌜5⌟", wants(Pure), "no-unit", "5%"},
	{"⌜0/0.5⌟", Want{SupplyHeld: true}, "impossible", ""},
	{"⌜-300 °C⌟", Want{}, "impossible", ""},
	{"⌜-5 kPa⌟", wants(PressureAbs), "impossible", ""},
	{"⌜0 mpg imp⌟", Want{}, "impossible", ""},
	{"⌜1.80 ± 0.10 mm⌟, by eye", Want{Centre: TopCentre}, "no-side", "1.80 ± 0.10 mm BTDC, by eye|1.80 ± 0.10 mm ATDC, by eye"},
	{"⌜1e308 km⌟", Want{}, "too-large", ""},
	{"80 °C ± ⌜5 %⌟", Want{}, "bad-spread", ""},
	{"⌜1 in..20 mm⌟", Want{}, "reversed", "20 mm..1 in"},
	{"5⌜ mm..6 N·m⌟", Want{}, "two-units", ""},
}

func TestSlipsOfThePlace(t *testing.T) {
	for _, r := range slipsOfThePlace {
		text, start, end := corners(t, r.text)
		w, slip := Parse(text)
		if slip != nil {
			t.Errorf("%q: %s", text, slip.Message)
			continue
		}
		q, slip := w.Resolve(r.want)
		if slip == nil {
			t.Errorf("%q is let through as %s", text, q.Shown())
			continue
		}
		if slip.Kind != r.kind || strings.Join(slip.Offers, "|") != r.offers {
			t.Errorf("%q: %s %q\nwant %s %q", text, slip.Kind, slip.Offers, r.kind, r.offers)
		}
		if r.kind != "two-units" && (slip.Start != start || slip.End != end) {
			t.Errorf("%q: at %q, want %q", text, text[slip.Start:slip.End], text[start:end])
		}
		checkSlip(t, text, slip)
		for _, offer := range slip.Offers {
			if offered, _ := Parse(offer); offered.Kind != Blank {
				if _, again := offered.Resolve(r.want); again != nil {
					t.Errorf("%q offers %q, which is a slip: %s", text, offer, again.Message)
				}
			}
		}
	}
}

func resolveSlips(t *testing.T, kind string) bool {
	for _, r := range slipsOfThePlace {
		if r.kind == kind {
			return true
		}
	}
	return false
}

// corners takes the marks ⌜ and ⌟ out of a text and returns where they stood.
func corners(t *testing.T, marked string) (text string, start, end int) {
	t.Helper()
	before, rest, _ := strings.Cut(marked, "⌜")
	inside, after, ok := strings.Cut(rest, "⌟")
	if !ok {
		t.Fatalf("%q has no corners", marked)
	}
	return before + inside + after, len(before), len(before) + len(inside)
}

// checkSlip asks what holds for every slip: a place in the text, a message in the house's style, offers that parse.
func checkSlip(t *testing.T, text string, slip *Slip) {
	t.Helper()
	if slip.Start < 0 || slip.End > len(text) || slip.Start > slip.End || slip.Start == slip.End && text != "" {
		t.Fatalf("%q: place %d to %d", text, slip.Start, slip.End)
	}
	for _, at := range []int{slip.Start, slip.End} {
		if utf8.ValidString(text) && at < len(text) && !utf8.RuneStart(text[at]) {
			t.Fatalf("%q: place %d is inside a character", text, at)
		}
	}
	if slip.Kind == "" || slip.Message == "" || slip.Do == "" || strings.HasSuffix(slip.Message, ".") || !utf8.ValidString(slip.Message) {
		t.Fatalf("%q: %+v", text, slip)
	}
	for _, offer := range slip.Offers {
		if _, again := Parse(offer); again != nil {
			t.Fatalf("%q offers %q, which is a slip: %s", text, offer, again.Message)
		}
	}
}

// A slip may need several mendings before the text is right; what is offered is the end of that way.
func TestOffersAreMendedToTheEnd(t *testing.T) {
	for text, want := range map[string]string{
		"~0,10-0,13 mm": "0.10..0.13 mm", "0,13-0,10 mm": "0.10..0.13 mm", "<.5 mm": "..0.5 mm", "“0,08 mm”": "0.08 mm", "0,08 mm by feel": "0.08 mm, by feel",
	} {
		_, slip := Parse(text)
		if slip == nil || len(slip.Offers) == 0 || slip.Offers[0] != want {
			t.Errorf("%q: %+v, want %q", text, slip, want)
		}
	}
}

// A text that goes wrong in a thousand places takes no longer than its length asks for, offers included.
func TestLongTextsEndSoon(t *testing.T) {
	for _, piece := range []string{"5 mm ", "1-", "<", "~", "~1", "1 then ", "5,5", "5..", "± 1 ", "£5 ", "(", "1 ", "0.1.1", "5 mm by ", "“5", "..", "5 N·m ± ", "1/", "1:", "min ", "mm max "} {
		text := strings.Repeat(piece, 3000)
		for _, text := range []string{text, "5 " + text, text + "mm", "0,5 mm, " + text} {
			begun := time.Now()
			w, slip := Parse(text)
			if slip != nil {
				checkSlip(t, text, slip)
			} else if w.Kind != Words {
				w.Resolve(Want{})
			}
			Bound(text)
			if took := time.Since(begun); took > 2*time.Second {
				t.Errorf("%q repeated takes %s", piece, took)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"0.08 mm", "27 ± 1 N·m", "0.10..0.13 mm", "..35 °C", "1 1/16 in", "25:1", "82/10", "£14.50", "12° BTDC", "20 N·m then 35 N·m", "~0,10-0,13 mm", "10W-40", "\xff0.1", "5 mm\xc2", "1\u2009000 km", "-£5..", "at least 80 N·m", "12 N·m, max 14 N·m", "12 N·m (max.), dry", "from 1 to 2 mm",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if slip := Bound(text); slip != nil {
			checkSlip(t, text, slip)
		}
		w, slip := Parse(text)
		if w.Text != text {
			t.Fatalf("%q: text %q", text, w.Text)
		}
		if slip != nil {
			checkSlip(t, text, slip)
			return
		}
		for _, d := range append(Dimensions(), Unknown) {
			want := Want{Dimensions: []Dimension{d}, Money: "GBP", Ratio: d == Pure, SupplyHeld: d == Pure}
			if d == Unknown {
				want = Want{Bare: UnitShown("mm")}
			}
			q, slip := w.Resolve(want)
			if slip != nil {
				checkSlip(t, text, slip)
				continue
			}
			if math.IsNaN(q.SI()) || math.IsNaN(q.LowSI()) || math.IsNaN(q.HighSI()) || q.LowSI() > q.HighSI() {
				t.Fatalf("%q as %s: %+v", text, d, q)
			}
			printsBack(t, q, want)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for _, text := range []string{"0.08 mm", "0.10..0.13 mm", "27 ± 1 N·m", "12° BTDC", "aligned"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				w, _ := Parse(text)
				w.Resolve(Want{Bare: table().percent})
			}
		})
	}
}
