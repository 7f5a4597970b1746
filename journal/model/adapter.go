package model

import (
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// adapted takes in a torque that was put on through an adapter: what was typed is the setting of the wrench; what the bolt got is
// worked out from it, and is what the limit judges. Without the wrench's length there is no verdict. An angle is no setting.
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
	if l.journal.isWrenchUnclear(v.Entry) {
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
func (j *Journal) isWrenchUnclear(e *Entry) bool {
	return j.IsWithheld("tools") || e.Fields.IsBad("with") || slices.ContainsFunc(e.With, func(r Ref) bool { return r.Tool != nil && r.Tool.Fields.IsBad("for", "length") })
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
		v.Estimate = quantity.Combine(of.Value*by, of.Dimension, quantity.Term{Partial: by, Of: of})
	}
	v.Quantity = scaled(v.Quantity)
	v.Repeats, v.ways.steps = slices.Clone(v.Repeats), slices.Clone(v.ways.steps) // the setting keeps its own
	for _, list := range [][]quantity.Quantity{v.Repeats, v.ways.steps} {
		for i, q := range list {
			list[i] = scaled(q)
		}
	}
}
