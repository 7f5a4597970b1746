package quantity

import "testing"

// A counterpart converts, and its own counterpart is of the system that one came from.
func TestCounterparts(t *testing.T) {
	seen := 0
	for _, u := range Units() {
		other := u.Counterpart()
		if other == nil {
			continue
		}
		seen++
		back := other.Counterpart()
		if !u.ConvertsTo(other) || back == nil || back.Counterpart() != other && other.Symbol != "thou" {
			t.Errorf("%s: %v, and back %v", u.Symbol, other, back)
		}
	}
	if seen < len(counterparts) {
		t.Errorf("%d of %d units have theirs", seen, len(counterparts))
	}
	of := func(symbol string) *Unit { return UnitShown(symbol) }
	for _, c := range []struct {
		a, b string
		want bool
	}{{"lbf·in", "lbf·ft", false}, {"lbf·in", "N·m", true}, {"N·m", "lbf·ft", true}, {"thou", "in", false}, {"mm", "thou", true}, {"kPa", "bar", false}, {"bar", "psi", true}, {"mm", "cm", false}} {
		if got := of(c.a).IsCounterpart(of(c.b)); got != c.want {
			t.Errorf("%s and %s: %t", c.a, c.b, got)
		}
	}
}
