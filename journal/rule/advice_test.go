package rule

import (
	"strings"
	"testing"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// A gap can be measured again; a bolt that was pulled too far can't be pulled again as if nothing had been. An engine's torque is no bolt's.
func TestAnOvertightenedFastenerIsNotMeasuredAgain(t *testing.T) {
	limit := &model.Limit{Limit: &parse.Limit{}}
	for _, r := range []struct {
		path     string
		side     int8
		fastener bool
	}{{"torque.head-bolt", 1, true}, {"torque", 1, true}, {"torque.head-bolt", -1, false}, {"power.torque", 1, false}, {"torquemeter", 1, false}, {"lash.intake", 1, false}} {
		advice := outAdvice(&model.Value{Path: r.path, Side: r.side, Origin: model.Set, Limit: limit})
		if strings.Contains(advice, "slacken") != r.fastener || strings.Contains(advice, "measure again") == r.fastener {
			t.Errorf("%s on side %d: %s", r.path, r.side, advice)
		}
	}
}

// A reading and its limit that are one another with two digits exchanged: nothing says which of the two was mistyped, and another unit is no likelier.
func TestSwappedDigitsAreToldAsThose(t *testing.T) {
	nm := quantity.UnitShown("N·m")
	figure := func(x float64) quantity.Quantity {
		return quantity.Quantity{Kind: quantity.Figure, Unit: nm, Value: x, Step: 1}
	}
	for _, r := range []struct {
		read, aim float64
		swapped   bool
	}{{46, 64, true}, {64, 46, true}, {46, 46, false}, {45, 64, false}, {460, 64, false}, {146, 164, true}} {
		aim := figure(r.aim)
		v := &model.Value{Path: "torque.head-bolt", Side: -1, Origin: model.Set, Quantity: figure(r.read), Limit: &model.Limit{Limit: &parse.Limit{}, Nominal: &aim}}
		if _, ok := swappedDigits(v); ok != r.swapped {
			t.Errorf("%g of %g: %t", r.read, r.aim, ok)
		}
	}
}
