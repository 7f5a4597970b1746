package model

import (
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// Air is what an entry says of the air of its pulls; what it doesn't say is nil.
type Air struct {
	At                 source.Range // where it stands
	Temp, Pressure     *Value       // at the place
	Humidity, DewPoint *Value
	SeaLevel, Altitude *Value // of a report that is reduced to sea level, and the height of the place
	Unread             bool   // some of it can't be read
}

// Values returns what is said of it, in the order of the keys; none of no air.
func (a *Air) Values() []*Value {
	if a == nil {
		return nil
	}
	return slices.DeleteFunc([]*Value{a.Temp, a.Pressure, a.Humidity, a.DewPoint, a.SeaLevel, a.Altitude}, func(v *Value) bool { return v == nil })
}

// TellsPlace reports whether a value of an air says where that was.
func (v *Value) TellsPlace() bool { return v.Path == "air.altitude" || v.Path == "air.sea-level" }

// air takes in the air of a session; nil where nothing is said of it.
func (l *linker) air(p *Pulls, table *parse.Fields) *Air {
	given := table.Table("air")
	if given == nil && !table.IsBad("air") {
		return nil
	}
	a := &Air{Unread: true, At: p.At}
	if given == nil || given.IsBad("temp", "pressure", "humidity", "dew-point", "sea-level", "altitude") {
		return a
	}
	a.Unread, a.At = false, table.Get("air").At
	for key, at := range map[string]**Value{
		"temp": &a.Temp, "pressure": &a.Pressure, "humidity": &a.Humidity, "dew-point": &a.DewPoint, "sea-level": &a.SeaLevel, "altitude": &a.Altitude,
	} {
		v := given.Value(key)
		if v == nil {
			continue
		}
		q, slip := v.Resolve(given.Get(key).Key.Want())
		if slip != nil || q.IsOpenEnded() {
			a.Unread = true
			continue
		}
		value := (&Value{Path: "air." + key, Origin: FromPulls, Entry: p.Entry, Order: p.Order, Quantity: q, Written: v, pulls: p}).placed(v.At)
		value.estimate()
		value.digits()
		*at = value
	}
	l.soundAir(a)
	return a
}
