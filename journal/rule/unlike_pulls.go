package rule

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

const (
	mostPullsApart = 0.15 // by which pulls of one session, in one air, may differ: common practice, no source
	asMeant        = 0.08 // by which what was meant may be off the others: a gain, or a poor repeat. Common practice, no source
	slipOfColumn   = quantity.AnotherUnit | quantity.OnePlace | quantity.TwoPlaces | quantity.ThreePlaces
)

// pullFigure is what stands for one pull among its fellows.
type pullFigure struct {
	at     source.Range
	unit   *quantity.Unit
	figure float64 // in SI
}

// unlikePulls finds pulls that can't be repeats of the others of their session: by a unit, a decimal place, or by far.
func (c *Context) unlikePulls() []*cause {
	var found []*cause
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			for _, figures := range c.figuresOf(p) {
				if odd, fellow := oddPull(figures); odd != nil {
					found = append(found, suspectPulls(p, *odd, source.Error, fellow.figure, fmt.Sprintf("this pull makes %s where the others of its session make %s: no repeats are so far apart", odd.shown(), fellow.shownIn(odd.unit)), source.Remark{At: fellow.at, Message: "one of the others"}))
				}
			}
		}
	}
	return found
}

// figuresOf returns the figures of the pulls of a session that are repeats of each other: what the files have in the mean over the engine speeds that all cover, or what stood on a screen.
func (c *Context) figuresOf(p *model.Pulls) [][]pullFigure {
	var files []pullFigure
	if s := c.Sums.Session(p); s != nil && len(p.Runs) > 1 {
		power, torque := s.Levels(quantity.Power), s.Levels(quantity.Torque)
		for i := range power {
			run := &p.Runs[i]
			if run.Torn {
				return nil // that says why it is unlike the others
			}
			one := pullFigure{run.Head, run.Unit, power[i]}
			if run.Lacks == quantity.Power && len(torque) > i {
				one.figure = torque[i]
			}
			files = append(files, one)
		}
	}
	if slices.ContainsFunc(files, func(f pullFigure) bool { return f.unit == nil || f.unit.Dimension != files[0].unit.Dimension }) {
		return nil
	}
	return [][]pullFigure{files, c.screened(p, "peak", quantity.Power), c.screened(p, "torque", quantity.Torque)}
}

// screened returns what a session has from a screen.
func (c *Context) screened(p *model.Pulls, key string, d quantity.Dimension) []pullFigure {
	if len(p.Runs) > 0 {
		return nil
	}
	table := pullsTable(p)
	if table == nil {
		return nil
	}
	var figures []pullFigure
	values := table.Values(key)
	if len(values) < 2 {
		return nil
	}
	for j := range values {
		if q, slip := values[j].Resolve(quantity.Want{Dimensions: []quantity.Dimension{d}}); slip == nil {
			figures = append(figures, pullFigure{values[j].At, q.Unit, q.SI()})
		}
	}
	return figures
}

// oddPull returns the one that is far from the others, and one of those; of two the later. Nil where none is, or where it can't be told which.
func oddPull(figures []pullFigure) (odd, fellow *pullFigure) {
	if len(figures) < 2 {
		return nil, nil
	}
	all := make([]float64, len(figures))
	for i, f := range figures {
		all[i] = f.figure
	}
	slices.Sort(all)
	middle := all[(len(all)-1)/2]
	if len(figures) == 2 {
		middle = figures[0].figure
	}
	off := 0
	for i := range figures {
		switch f := &figures[i]; {
		case math.Abs(f.figure/middle-1) <= mostPullsApart:
			fellow = f
		default:
			if off++; odd == nil {
				odd = f
			}
		}
	}
	if odd == nil || fellow == nil || 2*off > len(figures) {
		return nil, nil
	}
	return odd, fellow
}

func (f pullFigure) quantity() quantity.Quantity {
	return quantity.Quantity{Kind: quantity.Figure, Unit: f.unit, Value: f.unit.FromSI(f.figure), Step: quantity.TwoFigures(f.unit.FromSI(f.figure)) / 10}
}

func (f pullFigure) shown() quantity.Shown { return f.quantity().Shown() }

func (f pullFigure) shownIn(unit *quantity.Unit) quantity.Shown {
	f.unit = unit
	return f.shown()
}

// suspectPulls makes the cause of a figure of pulls that can't be as it is written: nothing is told of what rests on the peaks of its session. Wanted is what it should be near, in SI.
func suspectPulls(p *model.Pulls, odd pullFigure, severity source.Severity, wanted float64, message string, notes ...source.Remark) *cause {
	k := &cause{weight: suspect, report: report{source.Finding{Severity: severity, At: odd.at, Subject: "power.peak", Entry: p.Entry.Path, Message: message, Do: "see what went wrong, and leave out what is no repeat", Notes: notes}, p.Order}}
	var whys []string
	for _, meant := range quantity.Fitting(odd.quantity().OtherReadings(slipOfColumn), func(q quantity.Quantity) bool { return math.Abs(q.SI()/wanted-1) <= asMeant }) {
		whys = append(whys, meant.Why)
	}
	if len(whys) > 0 {
		k.report.Do = strings.Join(whys, ", or ") + "? if so write the right unit, or the figures; if not, " + k.report.Do
	}
	k.against = peaksOf(p)
	return k
}
