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

// Of values of which each would put as many figures right none is told, in whatever order they come up for these.
func TestRivalsAreToldNeither(t *testing.T) {
	mm := quantity.UnitShown("mm")
	reading := func(v *model.Value, x float64) *oddity {
		return &oddity{at: v, meant: &quantity.OtherReading{Quantity: quantity.Quantity{Kind: quantity.Figure, Unit: mm, Value: x, Step: 1}}}
	}
	a, b := &model.Value{Path: "engine.rod"}, &model.Value{Path: "engine.stroke"}
	rodThen, strokeThen := reading(a, 118), reading(b, 59)
	for _, c := range []struct {
		taken []*oddity
		of    []int
		want  *oddity
	}{
		{nil, nil, nil},
		{[]*oddity{strokeThen, strokeThen}, []int{2, 2}, strokeThen},
		{[]*oddity{strokeThen, strokeThen, rodThen, rodThen}, []int{2, 2, 2, 2}, nil},
		{[]*oddity{strokeThen, rodThen}, []int{1, 2}, rodThen},
		{[]*oddity{strokeThen, reading(b, 95)}, []int{1, 1}, nil},
		{[]*oddity{strokeThen, rodThen, strokeThen}, []int{1, 2, 2}, nil},
	} {
		var best rivals
		for i, o := range c.taken {
			best.take(o, c.of[i])
		}
		if got := best.alone(); got != c.want {
			t.Errorf("%v: %v", c.of, got)
		}
	}
}
