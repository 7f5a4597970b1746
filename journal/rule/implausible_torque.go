package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// leastShare is the share of its proof load below which a torque is no tightening of a bolt whose class somebody wrote down: common practice, no source.
const leastShare = 0.05

// strongest is the class of which no metric bolt is stronger.
const strongest = "12.9"

// implausibleTorque reports limits with a torque that no bolt of their size and class can want: one that breaks it whatever the friction, or leaves it as good
// as loose.
func implausibleTorque(c *Context) { c.tellCauses() }

// impossibleTorques finds them. What `also` says otherwise is told with it. A reading that the bolt can't want either is held to the limit all the same: then it may be the thread that is mistyped.
func (c *Context) impossibleTorques() []*cause {
	var found []*cause
	for _, l := range c.Journal.Limits {
		torque, ok := aimOf(l)
		if !ok {
			continue
		}
		if k := wideTolerance(l, torque); k != nil {
			found = append(found, k)
		}
		f := c.Sums.Fastener(l)
		if f == nil {
			continue
		}
		why, pull := implausible(f, torque)
		if why == "" {
			continue
		}
		k := &cause{report: report{source.Finding{Severity: source.Error, At: figureAt(l), Subject: l.Path,
			Message: fmt.Sprintf("%s on %s: a pull of %s %s", showTorque(torque, l.Unit), l.Key("thread").Text, c.showPull(pull), why),
			Do:      "look the figure and its unit up again, and the thread: a digit, in-lb for ft-lb, or another row of the table"}, -1}}
		if main, differs := differs(l); differs {
			k.report.Message += fmt.Sprintf("; its second figure, `also`, is %s", l.Also.ShownIn(main.Unit))
			k.report.Notes = []source.Remark{{At: l.Fields.Value("also").At, Message: "the second figure"}}
		}
		if c.isOutUnder(l, func(v *model.Value) bool { return c.isImpossible(f, v) }) {
			k.unsure = []*model.Limit{l}
		} else {
			k.limits = []*model.Limit{l}
		}
		found = append(found, k)
	}
	return found
}

// wideTolerance is what is told of a torque whose tolerances go over more than the torque itself, one half to each side: common practice, no source. Nil for none.
func wideTolerance(l *model.Limit, torque float64) *cause {
	if l.Nominal == nil || !l.Low.Is || !l.High.Is || quantity.Compare(l.High.SI-l.Low.SI, torque, torque) <= 0 {
		return nil
	}
	at := figureAt(l)
	for _, name := range []string{"tolerance", "plus", "minus"} {
		if v := l.Fields.Value(name); v != nil {
			at = v.At
			break
		}
	}
	return &cause{report: report{source.Finding{Severity: source.Warning, At: at, Subject: l.Path,
		Message: fmt.Sprintf("`%s` is %s, %s: the tolerance is more than half of the torque, and lets everything pass", l.Path, showTorque(torque, l.Unit), l.BoundsText()),
		Do:      "look the tolerance up again, its point and its unit"}, -1}}
}

// isImpossible reports whether a torque is one that the fastener can't want.
func (c *Context) isImpossible(f *derive.Fastener, v *model.Value) bool {
	if v.Quantity.Unit == nil || v.Quantity.Unit.Dimension != quantity.Torque || v.Quantity.IsOpenEnded() {
		return true
	}
	why, _ := implausible(f, v.Quantity.SI())
	return why != ""
}

// isOutUnder reports whether a reading under a limit is out, and something holds of it.
func (c *Context) isOutUnder(l *model.Limit, holds func(*model.Value) bool) bool {
	return slices.ContainsFunc(c.Journal.Values, func(v *model.Value) bool { return v.Limit == l && v.Verdict == model.Out && holds(v) })
}

// implausible says why no bolt of the fastener's size and class can want a torque (N·m), and the pull that it makes; "" where one can.
func implausible(f *derive.Fastener, torque float64) (why string, pull float64) {
	least, most, err := f.Preloads(torque)
	if err != nil || f.Thread.Form != parse.MetricThread {
		return "", 0
	}
	class, whose := f.Class, "class "+f.Class
	if class == "" {
		class, whose = strongest, "even class "+strongest
	}
	if breaks, err := calc.BreakingLoad(class, f.Thread.Diameter, f.Thread.Pitch); err == nil && least > breaks {
		return "or more breaks " + whose, least
	}
	if proof, err := f.ProofLoad(); err == nil && most < leastShare*proof {
		return "or less leaves class " + f.Class + " as good as loose", most
	}
	return "", 0
}
