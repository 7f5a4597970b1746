package quantity

import (
	"slices"
	"strings"
	"testing"
)

// What digits may have been meant for, worked out by hand from the definitions of the units: an inch is 25.4 mm, a thousandth of it a thou, a bar 100 kPa.
func TestOtherReadings(t *testing.T) {
	for _, c := range []struct {
		text string
		ways Misreading
		want string
	}{
		{"2.5 mm", AnotherUnit, "2.5 in, 2.5 thou"},
		{"2.5 in", AnotherUnit, "2.5 mm"},
		{"12.4 cm3", AnotherUnit, "12.4 mm³"},
		{"70 °C", AnotherUnit, ""},
		{"1.40 mm", OnePlace, "14.0 mm, 0.140 mm"},
		{"1.40 mm", TwoPlaces | AnotherUnit, "1.40 in, 1.40 thou, 140 mm, 0.0140 mm"},
		{"7 mm", ThreePlaces, "7000 mm, 0.007 mm"},
		{"5/8 in", OnePlace, "6 2/8 in, 0.06 in"},
		{"0.1..0.2 mm", OnePlace, "1..2 mm, 0.01..0.02 mm"},
		{"22° BTDC", AnotherCentre, "22° ATDC, 22° BBDC, 22° ABDC"},
		{"22° BTDC", OnePlace, "220° BTDC, 2.2° BTDC"},
		{"1..2° BTDC", AnotherCentre, ""},
		{"22°", AnotherCentre, ""},
		{"62.0 mm", SwappedDigits, "26.0 mm, 60.2 mm"},
		{"181 mm", SwappedDigits, "811 mm, 118 mm"},
		{"-0.35 mm", SwappedDigits, "−0.53 mm"},
		{"2150 kPa", OnePlace | SwappedDigits, "21500 kPa, 215.0 kPa, 1250 kPa, 2510 kPa, 2105 kPa"},
		{"5/8 in", SwappedDigits, ""},
		{"0.1..0.2 mm", SwappedDigits, ""},
	} {
		var got []string
		for _, r := range resolved(t, c.text, Want{}).OtherReadings(c.ways) {
			if r.Way&c.ways == 0 || r.Why == "" {
				t.Errorf("%s: %s is %d, %q", c.text, r.Shown(), r.Way, r.Why)
			}
			got = append(got, r.Shown().String())
		}
		if text := strings.Join(got, ", "); text != c.want {
			t.Errorf("%s by %d: %s, want %s", c.text, c.ways, text, c.want)
		}
	}
}

// The one that fits is told alone: not where two do, but where two come to the same.
func TestTheOneThatFits(t *testing.T) {
	within := func(low, high string) func(Quantity) bool {
		from, to := resolved(t, low, Want{}).SI(), resolved(t, high, Want{}).SI()
		return func(q Quantity) bool { return q.SI() >= from && q.SI() <= to }
	}
	for _, c := range []struct{ text, low, high, want, why string }{
		{"1.4 mm", "0.12 mm", "0.20 mm", "0.14 mm", "a decimal place too many"},
		{"1.4 mm", "10 mm", "40 mm", "", ""}, // 14 mm, or 1.4 in
		{"1.4 mm", "1 mm", "2 mm", "", ""},
		{"7 kPa", "690 kPa", "710 kPa", "7 bar", "a figure in bar"}, // and 700 kPa, which is the same
	} {
		readings := resolved(t, c.text, Want{}).OtherReadings(AnotherUnit | OnePlace | TwoPlaces)
		r, ok := TheOne(readings, within(c.low, c.high))
		if ok != (c.want != "") || ok && (r.Shown().String() != c.want || r.Why != c.why) {
			t.Errorf("%s within %s and %s: %s, %q; want %q, %q", c.text, c.low, c.high, r.Shown(), r.Why, c.want, c.why)
		}
	}
	wheel := resolved(t, "0.31 m", Want{}).OtherReadings(AcrossWheel)
	if fitting := Fitting(wheel, within("0.9 m", "2.4 m")); !slices.ContainsFunc(fitting, func(r OtherReading) bool { return r.Why == "the radius" }) || len(fitting) != 2 {
		t.Errorf("a radius of 0.31 m fits %v", fitting)
	}
}
