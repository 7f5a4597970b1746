package rule

import (
	"math"
	"slices"

	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// strained is a torque that may pull a fastener past what it bears.
type strained struct {
	of          *derive.Fastener
	least, most float64 // pull over the range of friction, in N
	load        float64 // that it bears, in N
}

// severity is an error where even most friction leaves too much pull, a warning where least friction does.
func (s strained) severity() source.Severity {
	if s.least > s.load {
		return source.Error
	}
	return source.Warning
}

// strain returns what torques from low to high (N·m) make of a fastener that bears so much; false where it bears them all, or that isn't known.
func strain(f *derive.Fastener, low, high float64, bears func(*derive.Fastener) (float64, error)) (strained, bool) {
	load, err := bears(f)
	if err != nil {
		return strained{}, false
	}
	least, _, err := f.Preloads(low)
	if err != nil {
		return strained{}, false
	}
	_, most, err := f.Preloads(high)
	return strained{of: f, least: least, most: most, load: load}, err == nil && most > load*(1+1e-9)
}

// aimOf returns the torque that a limit aims for, in N·m: its nominal, the middle of its bounds, or the only one; false where it aims for none.
func aimOf(l *model.Limit) (float64, bool) {
	switch {
	case l.Unread || l.Dimension != quantity.Torque:
		return 0, false
	case l.Nominal != nil && l.Nominal.Unit.Dimension == quantity.Torque:
		return l.Nominal.SI(), l.Nominal.SI() > 0
	case l.Nominal != nil:
		return 0, false // its last step is an angle
	case l.Low.Is && l.High.Is:
		return (l.Low.SI + l.High.SI) / 2, l.High.SI > 0
	case l.High.Is:
		return l.High.SI, l.High.SI > 0
	case l.Low.Is:
		return l.Low.SI, l.Low.SI > 0
	}
	return 0, false
}

// figureAt is where the figure stands that a limit aims for.
func figureAt(l *model.Limit) source.Range {
	if l.Line != nil {
		return l.Line.At
	}
	for _, name := range []string{"nominal", "high", "low"} {
		if v := l.Fields.Value(name); v != nil {
			return v.At
		}
	}
	return l.PathAt
}

// past reports limits and readings whose torque pulls a fastener past what it bears: limits once, and readings that the fault of a limit doesn't account for.
func (c *Context) past(bears func(*derive.Fastener) (float64, error), say func(s strained, subject string) (message, do string)) {
	if !slices.ContainsFunc(c.Journal.Limits, func(l *model.Limit) bool { return l.Key("thread").Text != "" }) {
		return // nothing is known of any bolt
	}
	told := map[*model.Limit]source.Severity{}
	for _, l := range c.Journal.Limits {
		f := c.Sums.Fastener(l)
		torque, ok := aimOf(l)
		if f == nil || !ok {
			continue
		}
		if why, _ := implausible(f, torque); why != "" || c.isLimitSuspect(l) {
			told[l] = source.Error // as another finding
			continue
		}
		if s, ok := strain(f, torque, torque, bears); ok {
			message, do := say(s, "the limit `"+l.Path+"` asks for "+showTorque(torque, l.Unit))
			c.report(source.Finding{Severity: s.severity(), At: figureAt(l), Subject: l.Path, Message: message, Do: do + "; look the figure, the thread and its state up again"}, -1)
			told[l] = s.severity()
		}
	}
	for _, v := range c.Journal.Values {
		f := c.fastenerAt(v)
		if f == nil || c.toldBy(v) == slipRule || len(c.mistypings(v)) > 0 {
			continue
		}
		s, ok := strain(f, v.Quantity.LowSI(), v.Quantity.HighSI(), bears)
		if severity, is := told[f.Limit]; !ok || is && severity >= s.severity() && v.Verdict != model.Out {
			continue
		}
		message, do := say(s, "`"+v.Path+"` is "+shown(v))
		c.value(v, s.severity(), message, do, limitNote(f.Limit)...)
	}
}

// fastenerAt returns the fastener that a torque was set on, as its limit of that moment describes it; nil for another value.
func (c *Context) fastenerAt(v *model.Value) *derive.Fastener {
	q := v.Quantity
	if v.Origin != model.Set || !v.Counts || q.Unit == nil || q.Unit.Dimension != quantity.Torque || math.IsInf(q.LowSI(), 0) || math.IsInf(q.HighSI(), 0) || !(q.LowSI() > 0) {
		return nil
	}
	l := v.Limit
	if l == nil {
		l = c.Journal.LimitAt(v.Path, v.Entry)
	}
	if l == nil {
		return nil
	}
	return c.Sums.Fastener(l)
}

func showTorque(si float64, u *quantity.Unit) string {
	return quantity.Show(si, u, quantity.TwoFigures(u.FromSI(si))/10*u.Factor).String()
}

// showPull shows a pull to three figures, in the builder's unit or kN.
func (c *Context) showPull(si float64) string {
	u := c.Journal.Units.Lead[quantity.Force]
	if u == nil {
		u = quantity.UnitShown("kN")
	}
	return quantity.Show(si, u, quantity.TwoFigures(u.FromSI(si))/10*u.Factor).String()
}
