package model

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// humidityApart is how far the relative humidity may be from the one that the dew point makes, as a share: two instruments, an hour apart. Common practice, no source.
const humidityApart = 0.1

// soundAir reports figures of the air that can't be, or contradict each other. An air with such a figure counts as one that can't be read: which of two is wrong nobody can tell.
func (l *linker) soundAir(a *Air) {
	sound := true
	for _, one := range []struct {
		value *Value
		can   quantity.Span
		none  string
	}{
		{a.Temp, calc.AirTemperatures, "no air that an engine breathes is of"},
		{a.DewPoint, calc.AirTemperatures, "no air has a dew point of"},
		{a.Pressure, calc.GroundPressures, "no air on the ground has a pressure of"},
		{a.SeaLevel, calc.GroundPressures, "no air at the sea has a pressure of"},
		{a.Altitude, calc.GroundHeights, "no engine is driven at a height of"},
	} {
		if one.value == nil || one.value.Quantity.Kind == quantity.Interval || one.can.Holds(one.value.Quantity.SI()) {
			continue
		}
		sound = false
		l.impossibleAir(one.value, one.none, one.can)
	}
	if sound {
		sound = l.agreesOnVapour(a)
	}
	if !sound {
		*a = Air{Unread: true}
	}
}

// impossibleAir reports a figure that no air has, and what it was probably meant for.
func (l *linker) impossibleAir(v *Value, none string, can quantity.Span) {
	shown := strings.TrimSuffix(v.Quantity.Shown().String(), " abs")
	f := source.Finding{Rule: "impossible-air", Severity: source.Error, At: v.At(), Subject: v.Path, Message: fmt.Sprintf("%s %s", none, shown), Do: "check the number and its unit"}
	holds := func(q quantity.Quantity) bool { return can.Holds(q.SI()) }
	meant, ok := quantity.TheOne(v.Quantity.OtherReadings(quantity.AnotherScale), holds)
	if !ok {
		meant, ok = quantity.TheOne(v.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces), holds)
	}
	if ok {
		text, why := strings.TrimSuffix(meant.Shown().String(), " abs"), strings.TrimSuffix(meant.Why, " abs") // no other is due here
		f.Do = fmt.Sprintf("%s? if so write `%s`; if not, check the number", why, text)
		f.Fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", text), v.Written.Span(0, len(v.Written.Text)), text)}
	}
	l.add(f)
}

// agreesOnVapour reports whether dew point, temperature and humidity can be of one air, and what is wrong where they can't.
func (l *linker) agreesOnVapour(a *Air) bool {
	if a.DewPoint == nil || a.Temp == nil {
		return true
	}
	dew, temp := a.DewPoint.Quantity, a.Temp.Quantity
	note := source.Remark{At: a.Temp.At(), Message: "the temperature"}
	if quantity.Compare(dew.SI(), temp.SI(), temp.SI()) > 0 {
		l.report("impossible-air", source.Error, a.DewPoint.At(), a.DewPoint.Path, fmt.Sprintf("the dew point, %s, is above the air's %s: water would fall out of it", dew.Shown(), temp.Shown()), "check both numbers and their units", note)
		return false
	}
	if a.Humidity == nil {
		return true
	}
	at, err := calc.SaturationPressure(dew.SI())
	full, bad := calc.SaturationPressure(temp.SI())
	if by := at / full; err == nil && bad == nil && (by > a.Humidity.Quantity.SI()+humidityApart || by < a.Humidity.Quantity.SI()-humidityApart) {
		percent := quantity.UnitShown("%")
		l.report("impossible-air", source.Error, a.Humidity.At(), a.Humidity.Path, fmt.Sprintf("a dew point of %s at %s makes a relative humidity of %s, and %s stands here", dew.Shown(), temp.Shown(), quantity.Show(by, percent, 0.01), a.Humidity.Quantity.Shown()), "leave out the one that was not measured", source.Remark{At: a.DewPoint.At(), Message: "the dew point"}, note)
		return false
	}
	return true
}
