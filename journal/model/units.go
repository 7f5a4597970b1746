package model

import (
	"slices"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// Units are the units that the builder wants to see, by dimension.
type Units struct {
	Lead     map[quantity.Dimension]*quantity.Unit
	Second   map[quantity.Dimension]*quantity.Unit
	Currency string
	Unread   map[quantity.Dimension]bool // what the builder names can't be read
}

func unitsOf(build *parse.Fields) Units {
	u := Units{Lead: map[quantity.Dimension]*quantity.Unit{}, Second: map[quantity.Dimension]*quantity.Unit{}, Unread: map[quantity.Dimension]bool{}}
	field := build.Get("units")
	if field == nil {
		return u
	}
	for _, choice := range field.Units {
		if len(choice.Units) == 0 {
			u.Unread[choice.Dimension] = true
			continue
		}
		u.Lead[choice.Dimension] = choice.Units[0]
		if len(choice.Units) > 1 {
			u.Second[choice.Dimension] = choice.Units[1]
		}
		if choice.Currency != "" {
			u.Currency = choice.Currency
		}
	}
	return u
}

// defaults are the units that worked-out numbers are shown in where the builder names none.
var defaults = map[quantity.Dimension]string{
	quantity.Length: "mm", quantity.Volume: "cm³", quantity.Torque: "N·m", quantity.Power: "kW", quantity.Pressure: "kPa",
	quantity.PressureAbs: "kPa abs", quantity.Temperature: "°C", quantity.Angle: "°", quantity.Rotation: "rpm", quantity.Mass: "kg",
	quantity.Pure: "", quantity.Speed: "km/h", quantity.Acceleration: "m/s²", quantity.Area: "mm²", quantity.Force: "N", quantity.SpringRate: "N/mm", quantity.LiftArea: "mm·°",
}

// Leading returns the unit that a dimension is shown in: the builder's, else the usual one, else the dimension's own.
func (u Units) Leading(d quantity.Dimension) *quantity.Unit {
	if unit := u.Lead[d]; unit != nil {
		return unit
	}
	symbol, usual := defaults[d]
	for _, unit := range quantity.UnitsOf(d) {
		if !usual || unit.Symbol == symbol {
			return unit
		}
	}
	return nil
}

// want returns what a value at a path must be: the path table decides, else the limit there, else the builder's units.
func (j *Journal) want(path string, limit *Limit, units []*quantity.Unit) quantity.Want {
	return j.wantAt(parse.FindPattern(path), limit, units)
}

// wantHeld returns what a figure of a limit or a goal at a path must be: what is read or worked out there decides.
func (j *Journal) wantHeld(path string, units []*quantity.Unit) quantity.Want {
	return j.wantAt(parse.FindHeld(path), nil, units)
}

// wantAt is want for the row of the path table that the path fits, nil for none. Units are those that the spelling may mean.
func (j *Journal) wantAt(pattern *parse.Pattern, limit *Limit, units []*quantity.Unit) quantity.Want {
	want := quantity.Want{Money: j.Units.Currency}
	if pattern != nil {
		want.Floor, want.Most, want.Centre = pattern.Floor, pattern.Most, pattern.Centre
	}
	switch {
	case pattern != nil && len(pattern.Dimensions) > 0:
		want.Dimensions = pattern.Dimensions
		want.Ratio, want.SupplyHeld = pattern.Ratio, pattern.SupplyHeld
		if pattern.Unit != "" {
			want.Bare = parse.UnitSpelled(pattern.Unit)
		}
		if pattern.Ratio {
			want.Bare = quantity.One()
		}
	case limit != nil && limit.Dimension != quantity.Unknown:
		want.Dimensions = []quantity.Dimension{limit.Dimension}
		for _, step := range limit.Steps {
			if !slices.Contains(want.Dimensions, step.Unit.Dimension) {
				want.Dimensions = append(want.Dimensions, step.Unit.Dimension)
			}
		}
		if limit.Dimension == quantity.Pure {
			want.Bare, want.Ratio = quantity.One(), true
		}
	default:
		want.Bare = quantity.One()
		want.Dimensions = j.narrowed(units)
	}
	want.Offer = j.offered(want.Dimensions, limit)
	return want
}

// offered returns the unit that a number without one is most likely in: its limit's, else the builder's own; nil where neither says.
func (j *Journal) offered(dimensions []quantity.Dimension, limit *Limit) *quantity.Unit {
	if limit != nil && limit.Unit != nil && (len(dimensions) == 0 || slices.Contains(dimensions, limit.Unit.Dimension)) {
		return limit.Unit
	}
	if len(dimensions) > 0 {
		return j.Units.Lead[dimensions[0]]
	}
	return nil
}

// narrowed returns the dimension that the builder's own units choose among the units that a spelling may mean; none where they don't.
func (j *Journal) narrowed(units []*quantity.Unit) []quantity.Dimension {
	if len(units) < 2 {
		return nil
	}
	var chosen []quantity.Dimension
	for _, u := range units {
		if lead := j.Units.Lead[u.Dimension]; lead != nil {
			chosen = append(chosen, u.Dimension)
		}
	}
	return chosen
}
