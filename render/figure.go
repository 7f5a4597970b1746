package render

import (
	"math"
	"strconv"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
)

// figure writes a figure: every number of the site with a unit goes through here.
func (p *page) figure(s quantity.Shown) {
	p.put(`<span class="figure">`)
	p.text(s.Printed())
	p.put("</span>")
}

// lead is a figure in the unit that the builder leads with.
func (s *site) lead(q quantity.Quantity) quantity.Shown {
	if u := s.journal.Units.Lead[q.Unit.Dimension]; u != nil {
		return q.ShownIn(u)
	}
	return q.Shown()
}

// usual are the dimensions that are shown in the site's own unit where the builder names none.
var usual = []quantity.Dimension{quantity.Length, quantity.Torque, quantity.Power, quantity.Pressure, quantity.Temperature, quantity.Mass}

// otherUnits finds for each unit the one that its figures are shown in beside: the leading one, or where they stand in that the second.
// Units that have none are left out.
func otherUnits(units model.Units) map[*quantity.Unit]*quantity.Unit {
	others := map[*quantity.Unit]*quantity.Unit{}
	for _, u := range quantity.Units() {
		if other := otherUnit(units, u); other != nil {
			others[u] = other
		}
	}
	return others
}

func otherUnit(units model.Units, u *quantity.Unit) *quantity.Unit {
	lead := units.Lead[u.Dimension]
	for _, d := range usual {
		if d == u.Dimension && lead == nil {
			lead = units.Leading(d)
		}
	}
	if lead == u {
		lead = units.Second[u.Dimension]
	}
	if lead == nil || lead == u || !u.ConvertsTo(lead) || units.Lead[u.Dimension] == nil && isMoved(u, lead) {
		return nil
	}
	return lead
}

// isMoved reports whether figures in two units differ by nothing but the place of the decimal point.
func isMoved(a, b *quantity.Unit) bool {
	power := math.Log10(a.Factor / b.Factor)
	return a.Offset == b.Offset && math.Abs(power-math.Round(power)) < 1e-9
}

// both writes a figure as it was written, and in brackets in the other unit.
func (p *page) both(q quantity.Quantity) {
	p.figure(q.Shown())
	if u := p.site.others[q.Unit]; u != nil {
		p.put(` <span class="other">(`)
		p.figure(q.ShownIn(u))
		p.put(")</span>")
	}
}

// value writes a value: words, a figure, the steps to it, or the mean of repeats with its uncertainty.
func (p *page) value(v *model.Value) {
	switch {
	case v.Words != "":
		p.text(v.Words)
		return
	case v.Quantity.Unit == nil:
		p.put("–")
		return
	case len(v.Repeats) > 0:
		p.mean(v)
	default:
		for _, step := range v.Steps() {
			p.figure(step.Shown())
			p.put(" then ")
		}
		p.both(v.Quantity)
	}
	if v.Quantity.Words != "" {
		p.put(", ")
		p.text(v.Quantity.Words)
	}
}

func (p *page) mean(v *model.Value) {
	mean, spread := quantity.ShowEstimate(v.Estimate, v.Quantity.Unit)
	if v.Estimate.Expanded() > 0 {
		p.figure(quantity.Shown{Number: mean.Number + " ± " + spread.Number, Unit: spread.Unit})
	} else {
		p.figure(v.Quantity.Shown())
	}
	p.put(` <span class="repeats">mean of `)
	for i, q := range v.Repeats {
		if i > 0 {
			p.put(", ")
		}
		s := q.Shown()
		if i < len(v.Repeats)-1 && q.Unit == v.Repeats[i+1].Unit {
			s.Unit = ""
		}
		p.figure(s)
	}
	p.put("</span>")
}

// plainValue is a value as text, in one unit.
func plainValue(v *model.Value) string {
	if v.Words != "" {
		return v.Words
	}
	return v.Quantity.Shown().Printed()
}

// number writes a worked-out number with its uncertainty.
func (p *page) number(n *derive.Number) {
	s := n.Shown()
	if _, u := quantity.ShowEstimate(n.Estimate, n.Unit); n.IsUnsure() {
		s = quantity.Shown{Number: s.Number + " ± " + u.Number, Unit: s.Unit}
	}
	p.figure(s)
}

// deviation writes how far a figure stands from nominal: as a difference in its unit, and as a share of the tolerance on that side.
func (p *page) deviation(v *model.Value) {
	if !v.Deviates || v.Limit == nil || v.Limit.Nominal == nil {
		return
	}
	step := min(v.Quantity.StepSI(), v.Limit.Nominal.StepSI())
	if v.Quantity.Kind == quantity.Interval {
		step /= 2 // its middle may lie half a digit off
	}
	p.difference(v.Deviation, v.Quantity.Unit, step)
	p.share(v.Deviation, v.Limit)
}

// difference writes a difference given in SI in the unit of the figures that it lies between. One that is less than half of their last
// digit gets one digit more, or says that it is less than that.
func (p *page) difference(si float64, u *quantity.Unit, step float64) {
	u = differenceUnit(u)
	s := quantity.Show(si, u, step)
	if si != 0 && step > 0 && s.IsNought() && quantity.Compare(si, 0, step) != 0 {
		if s = quantity.Show(si, u, step/10); s.IsNought() {
			s = quantity.Show(step/10, u, step/10)
			s.Number = "less than " + s.Number
			p.figure(s)
			return
		}
	}
	p.figure(s.Signed(si))
}

// differenceUnit is the unit that differences between figures in u have: a unit with neither offset nor reciprocal.
func differenceUnit(u *quantity.Unit) *quantity.Unit {
	if u.Offset == 0 && !u.Reciprocal {
		return u
	}
	for _, other := range quantity.UnitsOf(u.Dimension) {
		if u.Reciprocal && !other.Reciprocal {
			return other
		}
	}
	for _, other := range quantity.UnitsOf(quantity.TemperatureStep) {
		if u.Offset != 0 && other.Symbol == u.Symbol {
			return other
		}
	}
	return u
}

func (p *page) share(deviation float64, l *model.Limit) {
	room := 0.0
	switch {
	case deviation > 0 && l.High.Is:
		room = l.High.SI - l.Nominal.SI()
	case deviation < 0 && l.Low.Is:
		room = l.Nominal.SI() - l.Low.SI
	}
	if room <= 0 || quantity.Compare(deviation, 0, l.Size) == 0 {
		return
	}
	p.put(` <span class="share">`)
	defer p.put("</span>")
	part := math.Abs(deviation) / room
	switch {
	case part >= 1000:
		p.put("over 1000 times the tolerance")
		return
	case part >= 10:
		p.text(strconv.Itoa(int(part)))
		p.put(" times the tolerance")
		return
	}
	share := quantity.Show(part, quantity.UnitShown("%"), 0.01)
	if share.IsNought() {
		share.Number = "less than 1"
	}
	p.figure(share)
	p.put(" of the tolerance")
}

// verdict writes the verdict by a limit, nil for none, as a word with its own mark: neither rests on colour. A nominal alone is a target,
// which gives no verdict.
func (p *page) verdict(verdict model.Verdict, by *model.Limit) {
	if verdict == model.NoLimit && by != nil && by.Nominal != nil && !by.IsFigures() {
		p.put(`<span class="verdict none"><span class="mark" aria-hidden="true">–</span> target</span>`)
		return
	}
	marks := [...]literal{
		model.NoLimit:   `<span class="verdict none"><span class="mark" aria-hidden="true">–</span> no limit</span>`,
		model.In:        `<span class="verdict in"><span class="mark" aria-hidden="true">✓</span> in</span>`,
		model.Worn:      `<span class="verdict worn"><span class="mark" aria-hidden="true">◐</span> worn</span>`,
		model.Undecided: `<span class="verdict undecided"><span class="mark" aria-hidden="true">?</span> undecided</span>`,
		model.Out:       `<span class="verdict out"><span class="mark" aria-hidden="true">✕</span> out</span>`,
	}
	p.put(marks[verdict])
}

// judged writes the verdict on a value, or why there is none.
func (p *page) judged(v *model.Value) {
	if v.Unjudged != model.Judged {
		p.put(`<span class="unjudged"><span class="mark" aria-hidden="true">–</span> no verdict: `)
		p.text(v.Unjudged.String())
		p.put("</span>")
		return
	}
	p.verdict(v.Verdict, v.Limit)
	if v.Verdict != model.Out && v.Verdict != model.Worn {
		return
	}
	switch {
	case v.Side > 0:
		p.put(`, above`)
	case v.Side < 0:
		p.put(`, below`)
	}
}

// judgedThere writes the verdict on a value, linked to the finding where it is out.
func (p *page) judgedThere(v *model.Value) {
	link := p.open(p.site.outPlace(v))
	p.judged(v)
	if link {
		p.put("</a>")
	}
}
