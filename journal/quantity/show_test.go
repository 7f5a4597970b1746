package quantity

import (
	"math"
	"testing"
)

func TestShownAsWritten(t *testing.T) {
	for _, r := range []struct {
		text  string
		want  Want
		shown string
	}{
		{"0.10 mm", Want{}, "0.10 mm"}, {"0.1mm", Want{}, "0.1 mm"}, {"12°BTDC", Want{}, "12° BTDC"}, {"2.30 mm BTDC", Want{}, "2.30 mm BTDC"}, {"-5° BTDC", Want{}, "5° ATDC"}, {"0° BTDC", Want{}, "0° BTDC"},
		{"0.10 .. 0.13mm", Want{}, "0.10..0.13 mm"}, {"0.1..0.13 mm", Want{}, "0.10..0.13 mm"}, {"..35C", Want{}, "..35 °C"}, {"0.25 mm..", Want{}, "0.25.. mm"},
		{"14..10° BTDC", Want{}, "10..14° BTDC"}, {"5° BTDC..5° ATDC", Want{}, "5° BTDC..5° ATDC"}, {"..10° BTDC", Want{}, "..10° BTDC"},
		{"27+/-1Nm", Want{}, "27 ± 1 N·m"}, {"20 N·m ± 5 %", Want{}, "20 ± 1 N·m"}, {"33.3 N·m ± 5 %", Want{}, "33.3 ± 1.7 N·m"}, {"48 N·m ± 5 %", Want{}, "48.0 ± 2.4 N·m"}, {"12 ± 1° BTDC", Want{}, "12 ± 1° BTDC"},
		{"1 1/16\"", Want{}, "1 1/16 in"}, {"½ turn", Want{}, "1/2 turn"}, {"1½ turn", Want{}, "1 1/2 turns"}, {"2 turn", Want{}, "2 turns"}, {"1 turns", Want{}, "1 turn"}, {"4/4 turn", Want{}, "1 turn"},
		{"1/16..1/8 in", Want{}, "1/16..2/16 in"}, {"1 tooth", Want{}, "1 tooth"}, {"34 T", Want{}, "34 teeth"}, {"12 month", Want{}, "12 months"},
		{"25 : 1", ratios, "25:1"}, {"82 / 10", ratios, "82/10"}, {"10.5:1", ratios, "10.5:1"}, {"£14.50", pounds, "14.50 GBP"}, {"55%", wants(Pure), "55%"}, {"-5°C", Want{}, "−5 °C"},
		{"90 deg", Want{}, "90°"}, {"18 240 km", Want{}, "18240 km"}, {"98.6 kPa", wants(PressureAbs), "98.6 kPa abs"}, {"80/72", Want{SupplyHeld: true}, "10%"}, {"100/93", Want{SupplyHeld: true}, "7%"},
	} {
		q := resolved(t, r.text, r.want)
		if got := q.Shown().String(); got != r.shown {
			t.Errorf("%q shows as %q, want %q", r.text, got, r.shown)
		}
		printsBack(t, q, r.want)
	}
	if got := resolved(t, "12° BTDC", Want{}).Shown(); got != (Shown{"12", "° BTDC"}) {
		t.Errorf("%+v", got)
	}
}

// printsBack asks that what is shown parses to the same figure.
func printsBack(t *testing.T, q Quantity, want Want) {
	t.Helper()
	printed := q.Shown().String()
	if q.Unit == table().percent {
		want.SupplyHeld = false
	}
	w, slip := Parse(printed)
	if slip != nil {
		t.Fatalf("%q prints as %q: %s", q.Text, printed, slip.Message)
	}
	back, slip := w.Resolve(want)
	if slip != nil {
		t.Fatalf("%q prints as %q: %s", q.Text, printed, slip.Message)
	}
	if back.Unit != q.Unit || (back.Kind == Interval) != (q.Kind == Interval) || back.Words != "" || back.HasSpread != q.HasSpread {
		t.Fatalf("%q prints as %q, which is %+v, not %+v", q.Text, printed, back, q)
	}
	// The last digit shown may hide what a percentage or another unit's step was worked out to.
	tolerance := 0.51*max(q.Step, back.Step) + closeness*math.Abs(q.Value)
	if math.Abs(back.Value-q.Value) > tolerance || math.Abs(back.Low-q.Low) > tolerance+closeness*math.Abs(q.Low) || math.Abs(back.High-q.High) > tolerance+closeness*math.Abs(q.High) {
		t.Fatalf("%q prints as %q, which is %g (%g..%g), not %g (%g..%g)", q.Text, printed, back.Value, back.Low, back.High, q.Value, q.Low, q.High)
	}
}

// Half the last digit is carried over and rounded down to a decimal place; the values are worked out by hand with 25.4 mm to the inch,
// 1.355 818 N·m to the lbf·ft and 0.745 7 kW to the hp.
func TestShownInAnotherUnit(t *testing.T) {
	for _, r := range []struct {
		text, unit, shown string
	}{
		{"0.10 mm", "in", "0.0039 in"},  // half of 0.01 mm is 0.000197 in
		{"0.10 mm", "thou", "3.9 thou"}, // 0.197 thou
		{"0.004 in", "mm", "0.10 mm"},   // half of 0.001 in is 0.0127 mm
		{"3 thou", "mm", "0.08 mm"},     // 0.0127 mm; 0.0762
		{"0.10..0.13 mm", "in", "0.0039..0.0051 in"},
		{"..0.20 mm", "in", "..0.0079 in"},
		{"27 ± 1 N·m", "lbf·ft", "19.91 ± 0.74 lbf·ft"},
		{"20 N·m", "lbf·ft", "14.8 lbf·ft"}, // 0.369 lbf·ft
		{"20 lbf·ft", "N·m", "27.1 N·m"},    // 0.678 N·m
		{"9.1 hp", "kW", "6.79 kW"},         // 0.0373 kW
		{"19 °C", "°F", "66.2 °F"},          // 0.9 °F
		{"..35 °C", "°F", "..95.0 °F"},
		{"80 ± 5 °C", "°F", "176.0 ± 9.0 °F"},
		{"18240 km", "mi", "11333.8 mi"}, // 0.311 mi
		{"12 months", "year", "1.00 years"},
		{"1/4 turn", "°", "90°"}, // half of a quarter turn is 45°
		{"12° BTDC", "rad", "0.209 rad BTDC"},
		{"50 mpg imp", "L/100 km", "5.65 L/100 km"}, // 0.0565 at this figure
		{"40..50 mpg imp", "L/100 km", "5.65..7.06 L/100 km"},
		{"0.10 mm", "kg", "0.10 mm"}, // can't be had: as it is
		{"0.10 mm", "mm", "0.10 mm"},
	} {
		q := resolved(t, r.text, Want{})
		u := UnitShown(r.unit)
		got := q.ShownIn(u)
		if got.String() != r.shown {
			t.Errorf("%q in %s shows as %q, want %q", r.text, r.unit, got, r.shown)
		}
		if _, slip := Parse(got.String()); slip != nil {
			t.Errorf("%q doesn't parse: %s", got, slip.Message)
		}
		if in, ok := q.In(u); ok && in.Shown() != got {
			t.Errorf("%q: In shows %q, ShownIn %q", r.text, in.Shown(), got)
		}
	}
	if _, ok := resolved(t, "20 GBP", Want{}).In(UnitShown("EUR")); ok {
		t.Error("pounds became euros")
	}
	if _, ok := resolved(t, "30 psi", Want{}).In(unitOf(t, PressureAbs, "psi abs")); ok {
		t.Error("gauge became absolute")
	}
}

func TestShow(t *testing.T) {
	mm, rpm := UnitShown("mm"), UnitShown("rpm")
	for _, r := range []struct {
		si    float64
		unit  *Unit
		step  float64
		shown string
	}{
		{0.0001, mm, 1e-5, "0.10 mm"}, {0.0001, mm, 9e-6, "0.100 mm"}, {-0.0001, mm, 1e-5, "−0.10 mm"}, {-1e-9, mm, 1e-5, "0.00 mm"},
		{0.00012345678, mm, 0, "0.123457 mm"}, {0, mm, 0, "0 mm"}, {0.001, mm, 0, "1 mm"}, {12.3456789, mm, 1, "12000 mm"}, {1e300, UnitShown("nm"), 0, "–"},
		{math.NaN(), mm, 1e-5, "–"}, {math.Inf(1), mm, 1e-5, "–"}, {0.0001, mm, math.NaN(), "0.1 mm"},
		{7432 * math.Pi / 30, rpm, 10 * math.Pi / 30, "7430 rpm"}, {0.55, UnitShown("%"), 0.01, "55%"}, {25, UnitShown(":1"), 1, "25:1"}, {1.2, UnitShown(""), 0.1, "1.2"},
		{293.15, UnitShown("°C"), 1, "20 °C"}, {2 * math.Pi, UnitShown("turn"), math.Pi, "1.0 turns"},
	} {
		if r.si == 1e300 {
			r.si = 1e305 // past what the unit can hold
		}
		if got := Show(r.si, r.unit, r.step).String(); got != r.shown {
			t.Errorf("%g at %g in %s shows as %q, want %q", r.si, r.step, r.unit.Name, got, r.shown)
		}
	}
}

// The rule of two figures is common practice (GUM 7.2.6 gives it as enough for most purposes, from memory).
func TestShowEstimate(t *testing.T) {
	nm, kw := UnitShown("N·m"), UnitShown("kW")
	for _, r := range []struct {
		value, std float64
		unit       *Unit
		want       [2]string
	}{
		{24.1234, 0.61, nm, [2]string{"24.1 N·m", "1.2 N·m"}},
		{24.1234, 0.0498, nm, [2]string{"24.12 N·m", "0.10 N·m"}},
		{24.1234, 0, nm, [2]string{"24.1234 N·m", "0 N·m"}},
		{12345, 617, nm, [2]string{"12300 N·m", "1200 N·m"}},
	} {
		e := Estimate{Value: r.value, Dimension: Torque, Shares: []Share{{Cause: "wrench", Std: r.std}}}
		value, uncertainty := ShowEstimate(e, r.unit)
		if value.String() != r.want[0] || uncertainty.String() != r.want[1] {
			t.Errorf("%g, std %g: %q ± %q, want %q", r.value, r.std, value, uncertainty, r.want)
		}
	}
	if v, u := ShowEstimate(Estimate{Value: 1, Dimension: Torque}, kw); v.Number != "–" || u.Number != "–" {
		t.Errorf("a torque in kW: %q ± %q", v, u)
	}
	celsius := Estimate{Value: 353.15, Dimension: Temperature, Shares: []Share{{Cause: "probe", Std: 0.5}}}
	if v, u := ShowEstimate(celsius, UnitShown("°F")); v.String() != "176.0 °F" || u.String() != "1.8 °F" {
		t.Errorf("80 °C: %q ± %q", v, u)
	}
}

// On a page the blank before a unit is U+202F NARROW NO-BREAK SPACE (Unicode 17.0, General Punctuation, from memory); Parse reads it back too.
func TestPrinted(t *testing.T) {
	for text, want := range map[string]string{"0.08 mm": "0.08\u202fmm", "-3 °C": "−3\u202f°C", "12° BTDC": "12° BTDC", "40 %": "40%"} {
		got := resolved(t, text, Want{}).Shown().Printed()
		if got != want {
			t.Errorf("%q is printed as %q, want %q", text, got, want)
		}
		if _, slip := Parse(got); slip != nil {
			t.Errorf("%q doesn't parse: %s", got, slip.Message)
		}
	}
}

func TestSigned(t *testing.T) {
	for _, r := range []struct {
		number string
		of     float64
		want   string
	}{{"1.5", 1.5, "+1.5"}, {"−1.5", -1.5, "−1.5"}, {"0.0", 0.01, "0.0"}, {"0", 0, "0"}, {"+2", 2, "+2"}} {
		if got := (Shown{r.number, "hp"}).Signed(r.of); got != (Shown{r.want, "hp"}) {
			t.Errorf("%q of %v is signed as %q, want %q", r.number, r.of, got.Number, r.want)
		}
	}
}

// By hand: 4 and 6 thou are 0.1016 and 0.1524 mm, 22 and 26 lbf·ft 29.828 and 35.251 N·m (the pound and the foot by definition), 0.08 and 0.12 mm 0.00315
// and 0.00472 in.
func TestWhatIsShownWithinLiesWithin(t *testing.T) {
	for _, c := range []struct{ text, unit, want string }{
		{"5 ± 1 thou", "mm", "0.102..0.152 mm"},
		{"22..26 lbf·ft", "N·m", "29.9..35.2 N·m"},
		{"24 ± 2 lbf·ft", "N·m", "29.9..35.2 N·m"},
		{"0.10 ± 0.02 mm", "in", "0.0032..0.0047 in"},
		{"..6 thou", "mm", "..0.152 mm"},
		{"4.. thou", "mm", "0.102.. mm"},
		{"180..220 kPa", "psi", "26.11..31.90 psi"},
		{"0.10 mm", "in", "0.0039 in"},
	} {
		w, slip := Parse(c.text)
		if slip != nil {
			t.Fatal(slip)
		}
		q, slip := w.Resolve(Want{})
		if slip != nil {
			t.Fatal(slip)
		}
		if got := q.Within(UnitOf(c.unit, q.Unit.Dimension)).Shown().String(); got != c.want {
			t.Errorf("%s: %s, want %s", c.text, got, c.want)
		}
	}
}
