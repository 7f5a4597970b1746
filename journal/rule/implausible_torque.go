package rule

import (
	"fmt"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/derive"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// leastShare is the share of its proof load below which a torque is no tightening of a bolt whose class somebody wrote down: common practice, no source.
const leastShare = 0.05

// strongest is the class of which no metric bolt is stronger.
const strongest = "12.9"

// implausibleTorque reports limits with a torque that no bolt of their size and class can want: one that breaks it whatever the friction, or leaves it as good
// as loose.
func implausibleTorque(c *Context) {
	for _, l := range c.Journal.Limits {
		f := c.Sums.Fastener(l)
		torque, ok := aimOf(l)
		if f == nil || !ok {
			continue
		}
		why, pull := implausible(f, torque)
		if why == "" {
			continue
		}
		c.report(source.Finding{Severity: source.Error, At: figureAt(l), Subject: l.Path,
			Message: fmt.Sprintf("%s on %s: a pull of %s %s", showTorque(torque, l.Unit), l.Key("thread").Text, c.showPull(pull), why),
			Do:      "look the figure and its unit up again, and the thread: a digit, in-lb for ft-lb, or another row of the table"}, -1)
	}
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
