package quantity

import (
	"math"
	"strings"
	"testing"
)

// A figure that can't be so small is told at its place, as it is written; a bracket may begin at nought.
func TestFloors(t *testing.T) {
	for _, c := range []struct {
		text  string
		floor Floor
		slip  string // what is wrong; empty for nothing
	}{
		{"1.1 m", NoFloor, "`1.1 m` is more than there is anywhere"}, {"1 m", OverZero, ""}, {"0.5..1.1 m", NoFloor, "`0.5..1.1 m` is more than there is anywhere"}, {"0.5.. m", NoFloor, ""},
		{"-0.1 mm", NoFloor, ""}, {"-0.1 mm", ZeroFloor, "`-0.1 mm` is below nought"}, {"0 mm", ZeroFloor, ""}, {"0 mm", OverZero, "`0 mm` is nothing at all"},
		{"0.1 mm", OverZero, ""}, {"-0.1..0.2 mm", ZeroFloor, "`-0.1..0.2 mm` is below nought"}, {"0..0.2 mm", OverZero, ""}, {"0..0.2 mm", BothOverZero, "`0..0.2 mm` is nothing at all"}, {"0.1.. mm", BothOverZero, "`0.1.. mm` has one end"}, {"0.1..0.2 mm", BothOverZero, ""}, {"0.1 mm", BothOverZero, ""}, {"0 mm", BothOverZero, "`0 mm` is nothing at all"},
		{"..-0.2 mm", ZeroFloor, "`..-0.2 mm` is below nought"},
		{"-1.1 m", NoFloor, "`-1.1 m` is more than there is anywhere"}, {"-0.5..0.5 m", NoFloor, ""}, {"-1.1..0.5 m", NoFloor, "`-1.1..0.5 m` is more than there is anywhere"},
		{"1.1 m BTDC", NoFloor, "`1.1 m BTDC` is further from its dead centre than there is anywhere"},
		{"−3 mm, by feel", OverZero, "`−3 mm` is below nought"},
	} {
		w, slip := Parse(c.text)
		if slip != nil {
			t.Fatal(slip)
		}
		_, slip = w.Resolve(Want{Dimensions: []Dimension{Length}, Floor: c.floor, Most: 1})
		switch {
		case slip == nil && c.slip != "" || slip != nil && slip.Message != c.slip:
			t.Errorf("%s: %+v, want %q", c.text, slip, c.slip)
		case slip != nil && slip.Kind != "impossible":
			t.Errorf("%s: a slip of the kind %s", c.text, slip.Kind)
		}
	}
}

// A place that is counted from a dead centre asks for it; half a turn is as far as an event is from the nearer one.
func TestCentres(t *testing.T) {
	for _, c := range []struct {
		text   string
		centre Centre
		slip   string // its kind and message; empty for none
		offers string
	}{
		{"22°", NoCentre, "", ""},
		{"22° BTDC", EitherCentre, "", ""},
		{"46° after BDC", EitherCentre, "", ""},
		{"10..14° BTDC", EitherCentre, "", ""},
		{"180° ATDC", EitherCentre, "", ""},
		{"..14° ABDC", EitherCentre, "", ""},
		{"22°", EitherCentre, "no-side: `22°` doesn't say which dead centre it is counted from, and to which side", ""},
		{"10..14°, by eye", EitherCentre, "no-side: `10..14°` doesn't say which dead centre it is counted from, and to which side", ""},
		{"181° BTDC", EitherCentre, "impossible: `181° BTDC` is further from its dead centre than there is anywhere", ""},
		{"181.. ° BTDC", EitherCentre, "impossible: `181.. ° BTDC` is further from its dead centre than there is anywhere", ""},
		{"22° BTDC", TopCentre, "", ""},
		{"1.80 ± 0.10 mm BTDC", TopCentre, "", ""},
		{"1.80 ± 0.10 mm, by eye", TopCentre, "no-side: `1.80 ± 0.10 mm` doesn't say whether it is before or after top dead centre", "1.80 ± 0.10 mm BTDC, by eye|1.80 ± 0.10 mm ATDC, by eye"},
		{"1.75 mm BBDC", TopCentre, "impossible: `1.75 mm BBDC` is counted from bottom dead centre", ""},
	} {
		w, slip := Parse(c.text)
		if slip != nil {
			t.Fatal(slip)
		}
		_, slip = w.Resolve(Want{Dimensions: []Dimension{Angle, Length}, Most: math.Pi, Centre: c.centre})
		got, offers := "", ""
		if slip != nil {
			got, offers = slip.Kind+": "+slip.Message, strings.Join(slip.Offers, "|")
		}
		if got != c.slip || offers != c.offers {
			t.Errorf("%s: %q %q, want %q %q", c.text, got, offers, c.slip, c.offers)
		}
	}
}
