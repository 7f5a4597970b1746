package quantity

import "testing"

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
