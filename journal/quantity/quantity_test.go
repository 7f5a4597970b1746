package quantity

import (
	"math"
	"testing"
)

// Values are worked out by hand; 1 in = 25.4 mm, 1 °F = 5/9 K.
func TestQuantityInSI(t *testing.T) {
	inf := math.Inf(1)
	for _, r := range []struct {
		text                          string
		si, low, high, spread, stepSI float64
	}{
		{"0.08 mm", 80e-6, 80e-6, 80e-6, 0, 10e-6},
		{"0.10..0.13 mm", 115e-6, 100e-6, 130e-6, 0, 10e-6},
		{"..35 °C", 308.15, -inf, 308.15, 0, 1},
		{"0.25.. mm", 250e-6, 250e-6, inf, 0, 10e-6},
		{"68 ± 9 °F", 293.15, 293.15, 293.15, 5, 5.0 / 9},
		{"12 ± 3° BTDC", -math.Pi / 15, -math.Pi / 15, -math.Pi / 15, math.Pi / 60, math.Pi / 180},
		{"1 1/16 in", 0.0269875, 0.0269875, 0.0269875, 0, 0.0015875},
		{"20 km/L", 5e-8, 5e-8, 5e-8, 0, 2.5e-9}, // more kilometres by litre are fewer litres
		{"10..20 km/L", 1e-6 / 15, 5e-8, 1e-7, 0, 1e-6 / 225},
		{"10.. km/L", 1e-7, -inf, 1e-7, 0, 1e-8},
		{"..10 km/L", 1e-7, 1e-7, inf, 0, 1e-8},
	} {
		q := resolved(t, r.text, Want{})
		for _, c := range []struct {
			what      string
			got, want float64
		}{{"value", q.SI(), r.si}, {"low", q.LowSI(), r.low}, {"high", q.HighSI(), r.high}, {"spread", q.SpreadSI(), r.spread}, {"step", q.StepSI(), r.stepSI}} {
			if c.got != c.want && !within(c.got, c.want, 1e-12) {
				t.Errorf("%q: %s %.15g, want %.15g", r.text, c.what, c.got, c.want)
			}
		}
	}
}

func TestThereAndBack(t *testing.T) {
	for _, r := range []struct{ text, unit string }{
		{"0.10..0.13 mm", "in"}, {"80 ± 5 °C", "°F"}, {"40 ± 2 mpg imp", "L/100 km"}, {"40..50 mpg imp", "L/100 km"}, {"40.. mpg imp", "L/100 km"}, {"20 N·m ± 5 %", "lbf·ft"}, {"5° BTDC..5° ATDC", "rad"},
	} {
		q := resolved(t, r.text, Want{})
		there, ok := q.In(UnitShown(r.unit))
		back, ok2 := there.In(q.Unit)
		if !ok || !ok2 || there.Unit.Symbol != r.unit || back.HasLow != q.HasLow || back.HasHigh != q.HasHigh || back.Text != q.Text {
			t.Fatalf("%q by way of %s: %+v", r.text, r.unit, back)
		}
		for _, c := range [][2]float64{{back.Low, q.Low}, {back.High, q.High}, {back.Spread, q.Spread}, {back.Step, q.Step}, {there.LowSI(), q.LowSI()}, {there.HighSI(), q.HighSI()}} {
			if c[0] != c[1] && !within(c[0], c[1], 1e-9) {
				t.Errorf("%q by way of %s: %.15g, was %.15g", r.text, r.unit, c[0], c[1])
			}
		}
	}
}

func TestFractionsThatAreOneSign(t *testing.T) {
	for text, value := range map[string]float64{
		"½": 1.0 / 2, "⅓": 1.0 / 3, "⅔": 2.0 / 3, "¼": 1.0 / 4, "¾": 3.0 / 4, "⅙": 1.0 / 6, "⅚": 5.0 / 6, "⅛": 1.0 / 8, "⅜": 3.0 / 8, "⅝": 5.0 / 8, "⅞": 7.0 / 8,
	} {
		if q := resolved(t, text+" turn", Want{}); q.Value != value {
			t.Errorf("%s: %g, want %g", text, q.Value, value)
		}
		if q := resolved(t, "2"+text+" turn", Want{}); q.Value != 2+value {
			t.Errorf("2%s: %g, want %g", text, q.Value, 2+value)
		}
	}
}

// Before is negative and after positive, from either centre.
func TestEvents(t *testing.T) {
	for _, r := range []struct {
		text  string
		value float64
		event Event
	}{
		{"12° BTDC", -12, BTDC}, {"12° atdc", 12, ATDC}, {"12°BBDC", -12, BBDC}, {"12 deg ABDC", 12, ABDC}, {"12° after bottom dead centre", 12, ABDC}, {"12° before top dead center", -12, BTDC},
		{"0° BTDC", 0, BTDC}, {"12° b.t.d.c.", -12, BTDC}, {"12°", 12, NoEvent}, {"2.30 mm BTDC", -2.3, BTDC}, {"-3° ATDC", -3, ATDC},
	} {
		q := resolved(t, r.text, Want{})
		if q.Value != r.value || q.Event != r.event || math.Signbit(q.Value) != (r.value < 0) {
			t.Errorf("%q: %g %s, want %g %s", r.text, q.Value, q.Event, r.value, r.event)
		}
	}
	for text, want := range map[string]string{"-3° ATDC": "3° BTDC", "-3° BBDC": "3° ABDC", "..-3° ATDC": "..3° BTDC"} {
		if got := resolved(t, text, Want{}).Shown().String(); got != want {
			t.Errorf("%q shows as %q, want %q", text, got, want)
		}
	}
}

func TestPlainWords(t *testing.T) {
	for got, want := range map[string]string{
		Interval.String(): "interval", Blank.String(): "blank", Steps.String(): "steps", BTDC.String(): "BTDC", NoEvent.String(): "", Torque.String(): "torque", SpringRate.String(): "spring rate",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
