package derive

import (
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// cylinderNames returns the names of the cylinders; `1` for the only one; none where it can't be read which there are.
func (m *Moment) cylinderNames() []string {
	switch names := m.Journal.Cylinders; {
	case len(names) > 0:
		return names
	case m.unread("engine.cylinders"):
		return nil
	}
	return []string{"1"}
}

// boreTop returns the path above what was read in the bore of a cylinder.
func (m *Moment) boreTop(cylinder string) string {
	top := "bore." + cylinder
	if len(m.Journal.Cylinders) == 0 {
		if at := m.Journal.Positions.Below(top); len(at) == 1 && at[0] == top && m.inForce(top) == nil {
			return "bore" // an only cylinder needs no name
		}
	}
	return top
}

// boresUnclear is why it can't be told what was read in the bore of a cylinder; "" where it can.
func (m *Moment) boresUnclear(cylinder string) string {
	if !m.Journal.HasUnread() {
		return "" // asked for every entry
	}
	return m.unclear(m.Journal.Positions.Below(m.boreTop(cylinder))...)
}

// bored is one size that was read in a bore, and where: the words below the cylinder's.
type bored struct {
	value *model.Value
	below []string
}

// sizes returns what was read in the bore of a cylinder by the entry that read there last.
func (m *Moment) sizes(cylinder string) []bored {
	top := m.boreTop(cylinder)
	var read []bored
	var newest *model.Value
	for _, position := range m.Journal.Positions.Below(top) {
		v := m.value(position)
		if v == nil || !v.IsReading() || v.Quantity.Unit.Dimension != quantity.Length {
			continue
		}
		if newest == nil || v.Order > newest.Order {
			newest = v
		}
		if !slices.ContainsFunc(read, func(b bored) bool { return b.value == v }) {
			read = append(read, bored{v, strings.FieldsFunc(strings.TrimPrefix(position, top), func(r rune) bool { return r == '.' })})
		}
	}
	return slices.DeleteFunc(read, func(b bored) bool { return b.value.Entry != newest.Entry })
}

// bores returns what was read in the bore of a cylinder, unless the bore of the whole engine was read later.
func (m *Moment) bores(cylinder string) []Input {
	var inputs []Input
	whole := m.value("engine.bore")
	for _, b := range m.sizes(cylinder) {
		if whole != nil && whole.Order > b.value.Order {
			return nil
		}
		inputs = append(inputs, Input{Symbol: "B", Value: b.value})
	}
	return inputs
}

// boreOf returns what the bore of a cylinder is told by: what was read in it, else the engine's; nothing where there is neither.
func (m *Moment) boreOf(cylinder string) []Input {
	if read := m.bores(cylinder); len(read) > 0 {
		return read
	}
	whole, _ := m.gather([2]string{"B", "engine.bore"})
	return whole
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, each := range x {
		sum += each
	}
	return sum / float64(len(x))
}
