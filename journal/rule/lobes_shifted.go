package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What two lobes that one wheel was read for are shifted by, in rad of the crank. Common practice, no source.
const (
	leastShift = math.Pi / 36 // 5°: less is how cams are made and set
	rightShift = math.Pi / 60 // 3°: as near as both come to their place by what a stop was meant to be
)

// lobesShifted reports that both lobes were measured as far out, the same way: by the stop that the wheel's nought comes from, where a figure of it is mistyped; else at the first lobe, where both are out of their limits.
func lobesShifted(c *Context) { c.tellCauses() }

// shift is both lobes, measured in one entry as far out.
type shift struct {
	lobes [2]late
	by    float64 // rad, the mean
}

// shiftedLobes finds them.
func (c *Context) shiftedLobes() []*cause {
	s, ok := c.shift()
	if !ok {
		return nil
	}
	if k := c.misreadStop(s); k != nil {
		return []*cause{k}
	}
	if tooth, ok := c.tooth(); ok && wholeTeeth(s.lobes[0].by, tooth) != 0 && wholeTeeth(s.lobes[0].by, tooth) == wholeTeeth(s.lobes[1].by, tooth) {
		return nil // that is a chain
	}
	if s.lobes[0].value.Verdict != model.Out || s.lobes[1].value.Verdict != model.Out {
		return nil
	}
	first := s.lobes[0]
	do := "find top dead centre again: a wheel whose nought is elsewhere (`zero`, `timing.stop`) moves both; if it is right, both lobes are on one camshaft, and its wheel or chain is to be set"
	return []*cause{c.shiftCause(s, first.value, s.message(), do, source.Remark{At: s.lobes[1].value.At(), Message: "the exhaust"}, first.from)}
}

// shift returns by how much both lobes are out, by one amount; false where they are not.
func (c *Context) shift() (s shift, ok bool) {
	for i, side := range parse.Sides {
		l, known := c.late(side)
		if !known || c.toldBy(l.value) != "" || slices.ContainsFunc(l.brought, func(v *model.Value) bool { return c.toldBy(v) != "" }) {
			return s, false
		}
		s.lobes[i] = l
		s.by += l.by / 2
	}
	a, b := s.lobes[0], s.lobes[1]
	return s, a.value.Entry == b.value.Entry && a.value.Entry != nil && math.Abs(a.by-b.by) <= movedAlike && min(math.Abs(a.by), math.Abs(b.by)) > leastShift && a.by*b.by > 0
}

// message says where the lobes stand.
func (s shift) message() string {
	way := "late"
	if s.by < 0 {
		way = "early"
	}
	return fmt.Sprintf("both lobes stand %s: the intake by %s, the exhaust by %s", way, shownSpan(math.Abs(s.lobes[0].by)), shownSpan(math.Abs(s.lobes[1].by)))
}

// shiftCause is what is told of it at a figure.
func (c *Context) shiftCause(s shift, at *model.Value, message, do string, notes ...source.Remark) *cause {
	k := &cause{weight: doubted}
	severity := source.Warning
	for _, l := range s.lobes {
		k.instead = append(k.instead, l.value)
		k.against = append(append(k.against, l.value), c.besideMiddle(l.value)...)
		if l.value.Verdict == model.Out { // it stands for that finding
			severity = source.Error
		}
	}
	k.report = reportAbout(at, severity, message, do, notes...)
	return k
}

// misreadStop finds the one figure of the stop which, read otherwise, puts both lobes where they should be; nil for none, and where the wheel's nought doesn't come from a stop.
func (c *Context) misreadStop(s shift) *cause {
	entry := s.lobes[0].value.Entry
	for _, l := range s.lobes {
		if d := l.value.Degreeing(); d == nil || !d.ByStop {
			return nil
		}
	}
	stops := [2]*model.Value{c.Journal.Current(model.StopBefore), c.Journal.Current(model.StopAfter)}
	if stops[0] == nil || stops[1] == nil || stops[0].Entry != entry || stops[1].Entry != entry {
		return nil
	}
	centre, fault := model.StopCentre(stops[0], stops[1])
	if fault != nil {
		return nil
	}
	var at *model.Value
	var meant quantity.Quantity
	nearest := rightShift
	for i, v := range stops {
		for _, r := range v.Quantity.OtherReadings(quantity.OnePlace | quantity.SwappedDigits) {
			changed, other := stops, *v
			other.Quantity, other.Estimate = r.Quantity, quantity.Estimate{Value: r.SI(), Dimension: quantity.Angle}
			changed[i] = &other
			right, fault := model.StopCentre(changed[0], changed[1])
			off := s.by - (right - centre)
			if fault != nil || math.Abs(off) > nearest {
				continue
			}
			at, meant, nearest = v, r.Quantity, math.Abs(off)
		}
	}
	if at == nil {
		return nil
	}
	other := stops[0]
	if at == other {
		other = stops[1]
	}
	message := fmt.Sprintf("`%s` is %s, and by that stop %s", at.Path, at.Quantity.Shown(), s.message())
	do := fmt.Sprintf("`%s`? then both would be right to %s: if so write that; if not, read the wheel again where the stop halts the piston, on either side", meant.Shown(), quantity.Show(nearest, meant.Unit, model.WheelStep))
	return c.shiftCause(s, at, message, do, source.Remark{At: other.At(), Message: "the other side"}, source.Remark{At: s.lobes[0].value.At(), Message: "the intake's file"}, source.Remark{At: s.lobes[1].value.At(), Message: "the exhaust's file"})
}
