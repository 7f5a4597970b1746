package model

import (
	"slices"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
)

// Figures are those of one thing that each pull of a session has, in SI: at an engine speed, or the mean over a band.
type Figures struct {
	What      string // a path: it tells them from others of the session
	Dimension quantity.Dimension
	Speed     float64   // of the engine, rad/s: what a dyno is off by in power is so much less in torque
	Of        []float64 // each pull; there must be one at least
}

// Estimate returns their mean with its scatter and what the dyno may be off by.
func (p *Pulls) Estimate(f Figures) quantity.Estimate {
	unit := quantity.UnitOf(f.Dimension.SIUnit(), f.Dimension)
	v := &Value{Path: f.What, Origin: FromPulls, Entry: p.Entry, Tool: p.Dyno, pulls: p, ways: &ways{speed: f.Speed}}
	for _, x := range f.Of {
		v.Repeats = append(v.Repeats, quantity.Quantity{Kind: quantity.Figure, Unit: unit, Value: x})
	}
	mean, _ := quantity.Mean(f.Of)
	v.Quantity = quantity.Quantity{Kind: quantity.Figure, Unit: unit, Value: mean}
	if len(f.Of) == 1 {
		v.Repeats = nil
	}
	v.estimate()
	return v.Estimate
}

// IsScatterKnown reports whether it is known how far the pulls lie apart, in power or in torque: by two of them or more, or by what is stated of the dyno.
func (p *Pulls) IsScatterKnown(d quantity.Dimension) bool {
	peak := p.Peak
	if d == quantity.Torque {
		peak = p.Torque
	}
	return len(p.Runs) > 1 || peak != nil && (len(peak.Repeats) > 1 || peak.isScatterTold())
}

// CurvesID is the identity of the curves of the session: beside that of its peaks.
func (p *Pulls) CurvesID() string {
	return (&Value{Path: "curves", Origin: FromPulls, Entry: p.Entry, pulls: p}).ID()
}

// Scatter is Estimate with the scatter of the pulls alone: without what the dyno gets wrong in the same way each time.
func (p *Pulls) Scatter(f Figures) quantity.Estimate {
	e := p.Estimate(f)
	e.Shares = slices.DeleteFunc(e.Shares, func(s quantity.Share) bool { return strings.HasPrefix(s.Cause, toolCause) })
	return calc.Covered(e)
}
