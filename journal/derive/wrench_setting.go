package derive

import (
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// wrenchSetting works out what to set the wrench to so that a fastener gets its nominal torque, where that isn't the nominal itself: through the adapter that was used
// last, and above a running torque.
func wrenchSetting(m *Moment) {
	for _, b := range m.bolts() {
		nominal, running := b.Limit.Nominal, b.Limit.Running()
		way := b.adapter()
		if b.Limit.Unread && (running != nil || way != nil || b.isUnread) {
			m.add(&Number{Path: "wrench-setting." + b.below, Title: "wrench setting, " + strings.ReplaceAll(b.below, ".", " "), Formula: settingFormula,
				Reason: "its limit can't be read", Estimate: quantity.Estimate{Dimension: quantity.Torque}})
			continue
		}
		if nominal == nil || nominal.Unit.Dimension != quantity.Torque || running == nil && way == nil {
			continue
		}
		n := &Number{Path: "wrench-setting." + b.below, Title: "wrench setting, " + strings.ReplaceAll(b.below, ".", " "), Unit: nominal.Unit, Formula: settingFormula}
		torque := nominal.SI()
		var words []string
		if running != nil {
			torque += running.SI()
			words = append(words, "with "+running.Shown().String()+" to run it")
		}
		n.Estimate = quantity.Estimate{Value: torque, Dimension: quantity.Torque}
		if way != nil {
			words = append(words, way.words)
			setting, err := calc.Setting(torque, way.length, way.adapter, way.angle)
			if err != nil {
				n.Reason = err.Error()
			}
			n.Estimate.Value = setting
			n.Inputs = []Input{{Symbol: "S last", Value: b.value.Setting()}}
		}
		n.Words = strings.Join(words, ", ")
		m.add(n)
	}
}

const settingFormula = "S = (T_nominal + T_running) · L / (L + E · cos θ)"

// lever is the way from a hand to a fastener: lengths in m, the angle in rad.
type lever struct {
	length, adapter, angle float64
	words                  string
}

// adapter returns the way through the adapter that the fastener's torque was put on through; nil where there was none, or none that can be reckoned with.
func (b *bolt) adapter() *lever {
	v := b.value
	if v == nil || v.Setting() == nil || v.Unjudged == model.AdapterRefused || v.Written.Details == nil || v.Written.Details.Adapter == nil || v.Tool == nil || v.Tool.Length == nil {
		return nil
	}
	way := &lever{length: v.Tool.Length.SI()}
	figure := func(value *parse.Value, d quantity.Dimension) (quantity.Quantity, bool) {
		q, slip := value.Resolve(quantity.Want{Dimensions: []quantity.Dimension{d}})
		return q, slip == nil
	}
	adapter, ok := figure(v.Written.Details.Adapter, quantity.Length)
	if !ok {
		return nil
	}
	way.adapter, way.words = adapter.SI(), "through an adapter of "+adapter.Shown().String()
	if v.Written.Details.AdapterAngle != nil {
		angle, ok := figure(v.Written.Details.AdapterAngle, quantity.Angle)
		if !ok {
			return nil
		}
		way.angle = angle.SI()
		way.words += " at " + angle.Shown().String()
	}
	return way
}
