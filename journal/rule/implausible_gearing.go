package rule

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// misgeared is a figure of the drive that can't be as it is written.
type misgeared struct {
	value       *model.Value
	message, do string
	fixes       []source.Fix
	notes       []source.Remark
}

// implausibleGearing reports the figure of a drive that is most likely wrong, where the drive is geared as none is.
func implausibleGearing(c *Context) { c.tellCauses() }

// misgearing finds it.
func (c *Context) misgearing() []*cause {
	m := c.misgeared()
	if m == nil {
		return nil
	}
	k := &cause{report: reportAbout(m.value, source.Warning, m.message, m.do, m.notes...)}
	k.report.Fixes = m.fixes
	if !m.value.Settled {
		k.against, k.weight = []*model.Value{m.value}, suspect
	}
	return []*cause{k}
}

// misgeared looks at the steps one by one, then at what they make together, then at the wheel, then at the speed that is asked about; the first that can't be is told. Nil for none.
func (c *Context) misgeared() *misgeared {
	d := drive{c: c, primary: c.figureNow("drive.primary"), final: c.figureNow("drive.final"), tyre: c.Journal.Current("drive.tyre")}
	if d.primary == nil && d.final == nil && d.tyre == nil {
		return nil
	}
	for _, n := range c.Numbers {
		if n.Family.Name == "drive-ratio" && n.Reason == "" {
			d.ratios = append(d.ratios, n)
		}
	}
	slices.SortStableFunc(d.ratios, func(a, b *derive.Number) int { return cmp.Compare(len(a.Path), len(b.Path)) }) // 10 after 9
	for _, find := range []func() *misgeared{d.speedsUp, d.overall, d.wheel, d.tooFast} {
		if m := find(); m != nil {
			return m
		}
	}
	return nil
}

// speedsUp finds a first or last step that turns its driven wheel faster than what drives it.
func (d drive) speedsUp() *misgeared {
	for _, v := range []*model.Value{d.final, d.primary} {
		if v == nil || quantity.Compare(v.Estimate.Value, 1, 0) >= 0 {
			continue
		}
		m := &misgeared{value: v, message: fmt.Sprintf("`%s` is %s: it speeds up what it drives, and hardly any does", v.Path, ratioWords(v)), do: "ratios are written as driven over driver: look at both numbers again"}
		d.turnAbout(m)
		return m
	}
	return nil
}

// overall finds the step that makes the whole ratio of the highest or the lowest gear what no drive has.
func (d drive) overall() *misgeared {
	if len(d.ratios) == 0 || d.fits(nil, 0) {
		return nil
	}
	low, top := d.ratios[0], d.ratios[len(d.ratios)-1]
	n, held, gear := top, topOverall, "top gear"
	if topOverall.Holds(top.Estimate.Value) {
		n, held, gear = low, lowOverall, "bottom gear"
	}
	var blamed *model.Value
	most := 0.0
	for _, in := range n.Inputs {
		usual := primaries
		switch {
		case in.Value == d.final:
			usual = finals
		case in.Value != d.primary && n == low && n != top:
			usual = lowGears
		case in.Value != d.primary:
			usual = topGears
		}
		if off := farFrom(usual, in.Value.Estimate.Value); blamed == nil || off > most || off == most && in.Value == d.final {
			blamed, most = in.Value, off
		}
	}
	if (blamed == d.primary || blamed == d.final) && !d.fall() {
		return nil // the gears are out of their order, and have a finding
	}
	m := &misgeared{value: blamed, message: fmt.Sprintf("`%s` is %s, and the engine turns %s for each turn of the wheel in %s: drives have %g to %g there", blamed.Path, ratioWords(blamed), n.Shown(), gear, held.Low, held.High),
		do: "look at the teeth of both wheels again"}
	for _, note := range inputRemarks(n, nil) {
		if note.At != blamed.At() {
			m.notes = append(m.notes, note)
		}
	}
	d.turnAbout(m)
	return m
}

// farFrom is by what factor, as a logarithm, a figure lies outside a span.
func farFrom(usual quantity.Span, x float64) float64 {
	return max(0, math.Log(usual.Low/x), math.Log(x/usual.High))
}

// wheel finds a driven wheel that is too small or too large.
func (d drive) wheel() *misgeared {
	around, ok := d.around()
	if !ok || circumferences.Holds(around) {
		return nil
	}
	m := &misgeared{value: d.tyre, do: "write how far the wheel rolls in a turn, or the size code of its tyre"}
	if d.tyre.Words != "" {
		m.message = fmt.Sprintf("`%s` is `%s`, which rolls %s in a turn: driven wheels roll %s to %s", d.tyre.Path, d.tyre.Words, d.metres(around), d.metres(circumferences.Low), d.metres(circumferences.High))
		return m
	}
	m.message = fmt.Sprintf("`%s` is %s: driven wheels roll %s to %s in a turn", d.tyre.Path, d.tyre.Quantity.Shown(), d.metres(circumferences.Low), d.metres(circumferences.High))
	readings := d.tyre.Quantity.OtherReadings(quantity.OnePlace | quantity.TwoPlaces | quantity.AcrossWheel)
	if fitting := quantity.Fitting(readings, func(q quantity.Quantity) bool { return mostWheels.Holds(q.SI()) }); len(fitting) > 0 {
		m.do = fmt.Sprintf("%s? then the wheel rolls %s in a turn", fitting[0].Why, d.metres(fitting[0].SI()))
	}
	return m
}

// tooFast finds what makes the speed that is asked about one that the engine can't reach in its highest gear.
func (d drive) tooFast() *misgeared {
	redline := d.c.figureNow("engine.redline")
	if len(d.ratios) == 0 || redline == nil {
		return nil
	}
	top := d.ratios[len(d.ratios)-1]
	n := d.c.numberAt("drive.rpm." + parse.LastSegment(top.Path))
	if n == nil || quantity.Compare(n.Estimate.Value-n.Estimate.Expanded(), redline.Estimate.Value, 0) <= 0 {
		return nil
	}
	cruise := n.Inputs[0].Value
	m := &misgeared{value: cruise, message: fmt.Sprintf("at %s the engine turns %s in top gear, above the redline of %s", cruise.Quantity.Shown(), n.Shown(), redline.Quantity.Shown()), do: "look at the speed again: the gearing doesn't reach it",
		notes: []source.Remark{{At: redline.At(), Message: "redline"}}}
	around, _ := d.around()
	beyond := n.Estimate.Value / redline.Estimate.Value
	switch {
	case redline.Estimate.Value < quantity.UnitShown("rpm").SI(redlines.Low) && beyond < 10:
		m.value, m.do, m.notes = redline, "look at the redline again, for a digit too few", []source.Remark{{At: cruise.At(), Message: "speed"}}
	case d.tyre.Words == "" && beyond < math.Pi && mostWheels.Holds(around*math.Pi):
		m.value, m.do = d.tyre, fmt.Sprintf("look at the wheel again: with %s as its diameter it rolls %s in a turn", d.tyre.Quantity.Shown(), d.metres(around*math.Pi))
		m.notes = append(m.notes, source.Remark{At: cruise.At(), Message: "speed"})
	}
	return m
}
