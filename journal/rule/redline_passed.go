package rule

import (
	"fmt"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// How far pulls go beyond the redline, as a share of it. Common practice, no source.
const (
	overRevved  = 0.03 // a needle and a limiter may be so far apart
	neverRevved = 0.25 // no engine is: the figure is wrong
	aboveRevs   = 1.4  // times the greatest speed of the pulls that a redline may be
)

// overRev is the farthest that pulls go beyond one redline.
type overRev struct {
	redline *model.Value
	pulls   *model.Pulls
	run     *model.Run
	top     float64 // rad/s
}

// redlinesPassed finds redlines that pulls go beyond, one finding for each.
func (c *Context) redlinesPassed() []*cause {
	var all []*overRev
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if len(p.Runs) == 0 {
				continue
			}
			redline := c.Journal.At("engine.redline", e)
			if redline == nil || redline.Quantity.Unit == nil || redline.Quantity.IsOpenEnded() || c.isDoubted(redline) || !(redline.Estimate.Value > 0) {
				continue
			}
			for i := range p.Runs {
				if _, top := p.Runs[i].Span(); top > redline.Estimate.Value*(1+overRevved) {
					all = farthest(all, overRev{redline, p, &p.Runs[i], top})
				}
			}
		}
	}
	var found []*cause
	for _, one := range all {
		found = append(found, one.cause())
	}
	return found
}

// farthest keeps the farthest of each redline.
func farthest(all []*overRev, one overRev) []*overRev {
	for _, k := range all {
		if k.redline == one.redline {
			if one.top > k.top {
				*k = one
			}
			return all
		}
	}
	return append(all, &one)
}

// cause says what is told of it.
func (p *overRev) cause() *cause {
	rpm := quantity.UnitShown("rpm")
	v := p.redline
	r := reportAbout(v, source.Note, fmt.Sprintf("the redline is %s, and a pull goes to %s", v.Quantity.Shown(), quantity.Show(p.top, rpm, rpm.Factor)),
		"set the limiter lower, or write the redline that this engine is built for", source.Remark{At: p.run.Named, Message: "that pull"})
	r.State = source.Open
	k := &cause{report: r}
	if p.top > v.Estimate.Value*(1+neverRevved) {
		k.report.Severity, k.report.Do = source.Warning, "look at the redline again, for its digits; else at the engine speed of the pull"
		k.against, k.weight = []*model.Value{v}, suspect
	}
	fits := func(q quantity.Quantity) bool { return q.SI()*(1+overRevved) >= p.top && q.SI() <= p.top*aboveRevs }
	if meant, ok := quantity.TheOne(v.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces|quantity.SwappedDigits), fits); ok {
		k.report.Do = fmt.Sprintf("%s? if so write `%s`; if not, %s", meant.Why, meant.Shown(), k.report.Do)
	}
	return k
}
