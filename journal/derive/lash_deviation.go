package derive

import (
	"math"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// lashDeviation works out how far each valve's lash stands from what its limit aims for.
func lashDeviation(m *Moment) {
	for _, at := range m.lashes() {
		n := &Number{Path: "deviation." + at.below, Title: "lash deviation, " + at.title(), Formula: "Δ = lash − " + at.aim, Inputs: []Input{{Symbol: "lash", Value: at.value}}}
		n.Estimate = calc.Covered(quantity.Combine(at.off(at.value.Estimate.Value), quantity.Length, quantity.Term{Partial: 1, Of: at.value.Estimate}))
		n.Unit, n.step = at.value.Quantity.Unit, at.step
		if m.Journal.ShimsAt("."+at.below, at.value, m.Entry).Changed != nil {
			n.Reason = shimChanged
		}
		m.add(n)
	}
}

// shimChanged is why nothing is worked out from a lash that was read with another shim than the one that is in.
const shimChanged = "the shim was changed after the lash was read: read it again"

// lash is the lash in force at one valve, with what it should be.
type lash struct {
	below  string // the path below `lash`: `intake.left`
	value  *model.Value
	target float64 // what the limit aims for, in m
	aim    string  // what that is: `nominal`, or `middle`, of the limit
	step   float64 // the last digit of the nominal, in m; 0 for a middle
	low    float64 // the limit's bounds, in m; infinite on a side that is open
	high   float64
}

// off returns how far a lash is from the target; nothing where the two are equal but for the last bits of a float.
func (l lash) off(lash float64) float64 {
	if quantity.Compare(lash, l.target, 0) == 0 {
		return 0
	}
	return lash - l.target
}

func (l lash) title() string { return strings.ReplaceAll(l.below, ".", " ") }

// side returns the first segment of the path: `intake` or `exhaust`.
func (l lash) side() string {
	side, _, _ := strings.Cut(l.below, ".")
	return side
}

// lashes returns the lash in force at each valve whose limit aims for a figure: its nominal, or the middle between its two bounds.
func (m *Moment) lashes() []lash {
	var found []lash
	for _, position := range m.Journal.Positions.Below("lash") {
		below, ok := strings.CutPrefix(position, "lash.")
		v := m.value(position)
		limit := m.Journal.LimitAt(position, m.Entry)
		if !ok || v == nil || limit == nil || v.Quantity.Unit.Dimension != quantity.Length {
			continue
		}
		l := lash{below: below, value: v, aim: "nominal", low: math.Inf(-1), high: math.Inf(1)}
		if limit.Low.Is {
			l.low = limit.Low.SI
		}
		if limit.High.Is {
			l.high = limit.High.SI
		}
		switch {
		case limit.Nominal != nil:
			l.target, l.step = limit.Nominal.SI(), limit.Nominal.StepSI()
		case limit.Low.Is && limit.High.Is:
			l.target, l.aim = (limit.Low.SI+limit.High.SI)/2, "middle"
		default:
			continue
		}
		if q := v.Quantity; q.IsOpenEnded() {
			continue
		}
		found = append(found, l)
	}
	return found
}
