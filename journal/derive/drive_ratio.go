package derive

import (
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// driven are the paths that what the drive does comes from.
var driven = []string{"drive", "engine.redline"}

// gear is one gear of the box; of a drive that has none, its only one.
type gear struct {
	name  string       // `1` for the first
	value *model.Value // nil where it is direct
}

func (g gear) title() string {
	if g.value == nil {
		return "direct"
	}
	return "gear " + g.name
}

// gears returns the gears from first; none where the build sheet can't be read there, or says nothing of the drive.
func (m *Moment) gears() []gear {
	sheet := m.stated("drive")
	if sheet == nil || sheet.IsBad("gears") {
		return nil
	}
	var found []gear
	for _, position := range m.Journal.Positions.Below("drive.gears") {
		name, ok := strings.CutPrefix(position, "drive.gears.")
		if _, err := strconv.Atoi(name); !ok || err != nil {
			continue
		}
		if m.unread(position) {
			return nil // it would be taken for a box without that gear
		}
		if v := m.value(position); v != nil {
			found = append(found, gear{name, v})
		}
	}
	slices.SortFunc(found, func(a, b gear) int {
		x, _ := strconv.Atoi(a.name) // it is one, above
		y, _ := strconv.Atoi(b.name)
		return x - y
	})
	if len(found) == 0 && sheet.Get("gears") == nil {
		return []gear{{name: "1"}}
	}
	return found
}

// driveRatio works out the overall ratio of each gear.
func driveRatio(m *Moment) {
	inputs, missing := m.gather([2]string{"i_primary", "drive.primary"}, [2]string{"i_final", "drive.final"})
	if len(inputs) == 0 {
		return
	}
	for _, g := range m.gears() {
		n := &Number{Path: "drive.ratio." + g.name, Title: "overall ratio, " + g.title(), Formula: "i = i_primary · i_gear · i_final", Inputs: slices.Clone(inputs), Reason: m.lacks(missing)}
		n.Estimate.Dimension = quantity.Pure
		n.Unit = quantity.UnitShown(":1")
		if g.value == nil {
			n.Formula = "i = i_primary · i_final"
		} else {
			n.Inputs = append(n.Inputs, Input{Symbol: "i_gear", Value: g.value})
		}
		if n.Reason == "" {
			n.carry(func(x []float64) (float64, error) {
				if len(x) == 2 {
					return calc.OverallRatio(x[0], 1, x[1])
				}
				return calc.OverallRatio(x[0], x[2], x[1])
			}, quantity.Pure)
			n.step = 0.001
		}
		m.add(n)
	}
}

// circumference returns how far the wheel rolls in a turn: as it was measured, else by the tyre's size code; why there is none.
func (m *Moment) circumference() (in Input, why string) {
	if v := m.value("drive.tyre"); v != nil {
		return Input{Symbol: "C", Value: v}, ""
	}
	if n := m.worked("drive.circumference"); n != nil {
		return Input{Symbol: "C", Number: n}, n.Reason
	}
	return Input{}, m.lacks([]string{"drive.tyre"})
}

// tyreWords returns the value that holds the size code of the driven tyre, nil where none does.
func (m *Moment) tyreWords() *model.Value {
	v := m.Journal.Current("drive.tyre")
	if m.Entry != nil {
		v = m.Journal.At("drive.tyre", m.Entry)
	}
	if v == nil || v.Words == "" || m.unread("drive.tyre") {
		return nil
	}
	if _, why := parse.ReadTyre(v.Words); why != "" {
		return nil
	}
	return v
}
