package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// usual is what a figure of an engine lies between: beyond that there is none.
type usual struct {
	path   string // of the worked-out number, or of the size
	beside string // of another size, whose share it is; empty for a number
	alone  bool   // it is itself a ratio that somebody wrote, and no number
	quantity.Span
	own        int    // how many of its inputs, from the first, belong to it alone
	less, more string // what it would be beyond an end, in words; empty: the figure of the end says it
}

var usuals = []usual{
	{path: "engine.compression-ratio", Span: compressions, own: 8},
	{path: "engine.rod-ratio", Span: rodRatios, own: 2},
	{path: "engine.squish", Span: squishes, own: 2},
	{path: "port.exhaust.duration", Span: exhaustsOpen, own: 1},
	{path: "port.transfer.duration", Span: transfersOpen, own: 1},
	{path: "port.blowdown", Span: blowdowns, own: 2, less: "the transfers don't open after the exhaust"},
	{path: "ignition.degrees", Span: sparks, own: 1, less: "no engine fires so early", more: "no engine fires so late"},
	{path: pistonSpeed, Span: pistonSpeeds, own: 2},
	{path: "engine.gasket.bore", beside: "engine.bore", Span: gasketOverBore, own: 1, less: "the gasket would stand into the bore", more: "no gasket is so much wider than its bore"},
	{path: "engine.valve.intake", beside: "engine.bore", Span: valveOverBore, own: 1, less: "no engine has so small a valve", more: "no valve is so wide beside its bore"},
	{path: "engine.valve.exhaust", beside: "engine.bore", Span: valveOverBore, own: 1, less: "no engine has so small a valve", more: "no valve is so wide beside its bore"},
	{path: "engine.valve.exhaust", beside: "engine.valve.intake", Span: exhaustOverIntake, own: 2, less: "no engine has an exhaust valve so small beside it", more: "hardly any engine has the larger valve there"},
	{path: "engine.rocker-ratio.intake", alone: true, Span: model.RockerRatios, own: 1, less: "no rocker is so short on the side of the valve", more: "no rocker is so long on the side of the valve"},
	{path: "engine.rocker-ratio.exhaust", alone: true, Span: model.RockerRatios, own: 1, less: "no rocker is so short on the side of the valve", more: "no rocker is so long on the side of the valve"},
	{path: "engine.stroke", beside: "engine.bore", Span: model.StrokesOverBores, own: 1, less: "no engine has so short a stroke", more: "no engine has so long a stroke"},
}

// pistonSpeed has a rule of its own, and is looked at here to find what is mistyped.
const pistonSpeed = "engine.piston-speed.mean"

// trait is such a figure of this engine.
type trait struct {
	usual
	number *derive.Number // nil for one size beside another, and for a ratio that somebody wrote
	value  float64
	isNone bool // its inputs make no sense together
	inputs []*model.Value
}

// traits returns the figures of the engine as they are now, but those of which an input is out of its own limit, or suspect, already.
func (c *Context) traits() []*trait {
	var all []*trait
	for _, u := range usuals {
		t := c.traitOf(u)
		if t != nil && !slices.ContainsFunc(t.inputs, func(v *model.Value) bool { return v.Verdict == model.Out || c.isSuspect(v) }) {
			all = append(all, t)
		}
	}
	return all
}

func (c *Context) traitOf(u usual) *trait {
	if u.beside != "" {
		size, beside := c.size(u.path), c.size(u.beside)
		if size == nil || beside == nil {
			return nil
		}
		return &trait{usual: u, value: size.Estimate.Value / beside.Estimate.Value, inputs: []*model.Value{size, beside}}
	}
	if u.alone {
		v := c.Journal.Current(u.path)
		if v == nil || v.Quantity.Unit == nil || v.Quantity.IsOpenEnded() || !(v.Estimate.Value > 0) {
			return nil
		}
		return &trait{usual: u, value: v.Estimate.Value, inputs: []*model.Value{v}}
	}
	i := slices.IndexFunc(c.Numbers, func(n *derive.Number) bool { return n.Path == u.path && (n.Reason == "" || n.Fault != "") })
	if i < 0 {
		return nil
	}
	n := c.Numbers[i]
	t := &trait{usual: u, number: n, value: n.Estimate.Value, isNone: n.Reason != ""}
	for _, in := range n.Inputs {
		if in.Value == nil {
			return nil // it comes from another number, and that one is looked at
		}
		t.inputs = append(t.inputs, in.Value)
	}
	return t
}

// size returns the length in force at a path; nil where there is none, or where it can't be read.
func (c *Context) size(path string) *model.Value {
	v := c.Journal.Current(path)
	if v == nil || v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != quantity.Length || v.Quantity.IsOpenEnded() || !(v.Estimate.Value > 0) || c.Journal.IsUnreadSince(path, v, nil) {
		return nil
	}
	return v
}

// isOut reports whether a figure is beyond its ends; sizes that are alike as they are written are.
func (t *trait) isOut(value float64) bool {
	slack := 0.0
	if t.beside != "" {
		slack = (t.inputs[0].Quantity.StepSI() + t.inputs[1].Quantity.StepSI()) / 2 / t.inputs[1].Estimate.Value
	}
	return quantity.Compare(value, t.Low-slack, t.Low) < 0 || quantity.Compare(value, t.High+slack, t.High) > 0
}

func (t *trait) isBad() bool { return t.isNone || t.isOut(t.value) }

// isTold reports whether the rule reports such a figure where it is beyond its ends: not one that has another rule.
func (t *trait) isTold() bool { return !t.isNone && t.path != pistonSpeed }

// with returns the figure were one of its inputs so many times as large; false where that makes no sense.
func (t *trait) with(v *model.Value, times float64) (float64, bool) {
	at := slices.Index(t.inputs, v)
	switch {
	case t.number != nil:
		value, err := t.number.With(at, times)
		return value, err == nil
	case at == 1:
		return t.value / times, true
	}
	return t.value * times, true
}

// message says how far the figure is from what there is.
func (t *trait) message() string {
	why, end := t.more, t.High
	if t.value < t.Low {
		why, end = t.less, t.Low
	}
	switch {
	case t.alone:
		return fmt.Sprintf("`%s` is %s: %s", t.path, t.inputs[0].Quantity.Shown(), why)
	case t.number == nil:
		return fmt.Sprintf("`%s` is %s, and `%s` %s: %s", t.path, t.inputs[0].Quantity.Shown(), t.beside, t.inputs[1].Quantity.Shown(), why)
	}
	text := fmt.Sprintf("`%s` works out at %s", t.path, t.number.Shown())
	switch {
	case why != "":
		return text + ": " + why
	case end == t.Low:
		return text + ", and no engine has less than " + quantity.Show(end, t.number.Unit, 0).String()
	}
	return text + ", and no engine has more than " + quantity.Show(end, t.number.Unit, 0).String()
}
