package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// loggedOutside reports what was logged beyond the scale of the meter: once a column, and a log's mixture, at its worst. Of lambda what can't burn is left aside: meters show anything then.
func (c *Context) loggedOutside(log *model.Log) {
	meter := log.Meter
	if meter == nil || meter.Range == nil || meter.Unread || c.isRangeSuspect(meter) {
		return
	}
	for _, course := range log.Courses {
		if v := course.Worst; v != nil && v.Tool == meter {
			c.beyondScale(v, logged{course.Least.SI, course.Least.Cell}, logged{course.Greatest.SI, course.Greatest.Cell})
		}
	}
	if m := log.Mixture; m != nil && m.Mean != nil && m.Mean.Tool == meter {
		c.beyondScale(m.Mean, logged{m.Richest.Lambda, m.Richest.Cell}, logged{m.Leanest.Lambda, m.Leanest.Cell})
	}
}

// logged is a figure of a log, in SI, and its cell.
type logged struct {
	si   float64
	cell source.Range
}

// beyondScale reports the one of two figures of a column that lies further beyond the scale of its meter.
func (c *Context) beyondScale(v *model.Value, least, greatest logged) {
	scale, unit, step := v.Tool.Range, v.Quantity.Unit, v.Quantity.StepSI()
	factor := 1.0
	if scale.Unit.Dimension == quantity.AirFuel && v.LambdaOne() > 0 { // both in ratios, as the meter shows them
		unit, factor, step = parse.UnitSpelled("AFR"), v.LambdaOne(), 0.01
	}
	var worst logged
	most := 0.0
	for _, l := range []logged{least, greatest} {
		l.si *= factor
		if v.Tool.Holds(quantity.Quantity{Kind: quantity.Figure, Unit: unit, Value: unit.FromSI(l.si)}) {
			continue
		}
		off := 0.0
		if scale.HasLow {
			off = scale.LowSI() - l.si
		}
		if scale.HasHigh {
			off = math.Max(off, l.si-scale.HighSI())
		}
		if off > most {
			worst, most = l, off
		}
	}
	if most > 0 {
		f := c.value(v, source.Warning, fmt.Sprintf("`%s` was logged as %s, outside the range of `%s`: %s", v.Path, quantity.Show(worst.si, unit, step), v.Tool.Name, scale.Shown()), "see which meter logged it, and what its scale is: beyond the end of it a meter tells nothing", rangeNote(v.Tool))
		f.At = worst.cell
		if f.State == source.Settled && !v.Beside().Settled { // another log of that time says nothing for this one
			f.State = source.Open
		}
	}
}
