package model

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// adapted takes in a torque that was put on through an adapter, or on a fastener that takes some to run: what was typed is the setting of the wrench; what the
// bolt got is worked out from it, and is what the limit judges. Without the wrench's length there is no verdict. An angle is no setting.
func (l *linker) adapted(v *Value) {
	limits := l.governing(v.Path)
	if !l.figures(v, limits) {
		l.unread(v.Path, v.Order)
		return
	}
	l.chooseTool(v)
	setting, ok := v.setting()
	if !ok {
		v.estimate()
		v.judgeIn(limits)
		l.happens(v)
		return
	}
	setting.estimate()
	l.happens(setting)
	v.change().setting = setting
	if v.adapter() != nil && l.journal.isWrenchUnclear(v) {
		l.unread(v.Path, v.Order)
		return
	}
	v.estimate()
	if v.Unjudged, v.ways.why = l.deliver(v); v.Unjudged != Judged {
		v.Counts = false
	}
	v.judgeIn(limits)
	l.happens(v)
}

// adapter returns the length of the adapter that a torque was put on through, nil where there was none.
func (v *Value) adapter() *parse.Value {
	if v.Written == nil || v.Written.Details == nil {
		return nil
	}
	return v.Written.Details.Adapter
}

// runs returns the running torque of the fastener that a torque was set on; nil where its limit names none. What is found turns a tight one, and is no setting.
func (l *linker) runs(v *Value) *quantity.Quantity {
	if v.Origin != Set || !parse.IsAtOrBelow(v.Path, "torque") {
		return nil
	}
	if limits := l.governing(v.Path); len(limits) > 0 {
		return limits[0].Running()
	}
	return nil
}

// setting returns what the wrench was set to: the torque that was typed, or the last torque of its steps. Without a torque there is
// none.
func (v *Value) setting() (*Value, bool) {
	setting := *v
	setting.Path = settingPath(v.Path)
	steps := append(slices.Clone(v.Steps()), v.Quantity)
	for i := len(steps) - 1; i >= 0; i-- {
		if q := steps[i]; q.Unit != nil && q.Unit.Dimension == quantity.Torque {
			setting.Quantity = q
			setting.change().steps = steps[:i]
			return &setting, true
		}
	}
	return nil, false
}

// isWrenchUnclear reports whether it can't be told which wrench was used, or how long it is, because that can't be read.
func (j *Journal) isWrenchUnclear(v *Value) bool {
	if v.IsToolNamed() {
		return v.Tool == nil || v.Tool.Fields.IsBad("length") // the name leads nowhere
	}
	if j.IsWithheld("tools") || j.isToolUnknown(v.Entry) {
		return true
	}
	tools := v.Entry.Tools(v.Path)
	return slices.ContainsFunc(tools, func(t *Tool) bool { return t.Fields.IsBad("length") || len(tools) > 1 && t.Fields.IsBad("range") })
}

// settingPath is where the setting of a wrench stands: `setting.F` for `torque.F`.
func settingPath(path string) string {
	if parse.IsAtOrBelow(path, "torque") && len(path) > len("torque") {
		return "setting" + path[len("torque"):]
	}
	return "setting." + path
}

// deliver puts what the bolt got in the place of the setting, or says why it can't be known. What the wrench is off by, the bolt is off
// by in the same proportion.
func (l *linker) deliver(v *Value) (Unjudged, string) {
	if v.adapter() != nil {
		if unjudged, why := v.throughAdapter(); unjudged != Judged {
			return unjudged, why
		}
	}
	running := l.runs(v)
	if running == nil || v.Quantity.Unit.Dimension != quantity.Torque {
		return Judged, ""
	}
	if _, err := calc.NetTorque(v.Quantity.LowSI(), running.SI()); err != nil {
		return AdapterRefused, err.Error()
	}
	v.lessen(*running)
	return Judged, ""
}

// throughAdapter puts what an adapter makes of the setting in its place.
func (v *Value) throughAdapter() (Unjudged, string) {
	details := v.Written.Details
	if v.Tool == nil || v.Tool.Length == nil {
		return WrenchUnknown, ""
	}
	adapter, slip := details.Adapter.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Length}})
	if slip != nil {
		return AdapterRefused, slip.Message
	}
	angle := 0.0
	if details.AdapterAngle != nil {
		q, slip := details.AdapterAngle.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Angle}})
		if slip != nil {
			return AdapterRefused, slip.Message
		}
		angle = q.SI()
	}
	setting := v.Setting().Quantity
	torque, err := calc.Delivered(setting.SI(), v.Tool.Length.SI(), adapter.SI(), angle)
	if err != nil {
		return AdapterRefused, err.Error()
	}
	v.scale(torque / setting.SI())
	return Judged, ""
}

// lessen takes the running torque off the torques of the value. What the wrench is off by stays, and what is not known of the running torque comes on top.
func (v *Value) lessen(running quantity.Quantity) {
	less := func(q quantity.Quantity) quantity.Quantity {
		if q.Unit != nil && q.Unit.Dimension == quantity.Torque {
			off := q.Unit.FromSI(running.SI())
			q.Value, q.Low, q.High = q.Value-off, q.Low-off, q.High-off
		}
		return q
	}
	of := v.Estimate
	terms := []quantity.Term{{Partial: 1, Of: of}}
	if running.HasSpread {
		terms = append(terms, quantity.Term{Partial: -1, Of: quantity.Estimate{Dimension: quantity.Torque, Shares: []quantity.Share{{Cause: "running/" + v.Path, Std: running.SpreadSI() / 2}}}})
	}
	v.Estimate = calc.Covered(quantity.Combine(of.Value-running.SI(), of.Dimension, terms...))
	v.Quantity = less(v.Quantity)
	v.Repeats, v.ways.steps = slices.Clone(v.Repeats), slices.Clone(v.ways.steps) // the setting keeps its own
	for _, list := range [][]quantity.Quantity{v.Repeats, v.ways.steps} {
		for i, q := range list {
			list[i] = less(q)
		}
	}
}

// scale makes what the bolt got of every torque in the value: figures, repeats, steps, and the uncertainty that they had as settings.
func (v *Value) scale(by float64) {
	scaled := func(q quantity.Quantity) quantity.Quantity {
		if q.Unit != nil && q.Unit.Dimension == quantity.Torque {
			q.Value, q.Low, q.High, q.Spread = q.Value*by, q.Low*by, q.High*by, q.Spread*by
		}
		return q
	}
	if v.Quantity.Unit.Dimension == quantity.Torque {
		of := v.Setting().Estimate
		v.Estimate = calc.Covered(quantity.Combine(of.Value*by, of.Dimension, quantity.Term{Partial: by, Of: of}))
	}
	v.Quantity = scaled(v.Quantity)
	v.Repeats, v.ways.steps = slices.Clone(v.Repeats), slices.Clone(v.ways.steps) // the setting keeps its own
	for _, list := range [][]quantity.Quantity{v.Repeats, v.ways.steps} {
		for i, q := range list {
			list[i] = scaled(q)
		}
	}
}
