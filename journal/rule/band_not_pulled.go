package rule

import (
	"fmt"
	"math"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// bandNotPulled reports a band of engine speeds that the pulls of no session cover, so that no mean over it can be told.
func bandNotPulled(c *Context) {
	power := c.Journal.Build.Fields.Table("power")
	v := power.Value("band")
	if v == nil {
		return
	}
	band, slip := v.Resolve(power.Get("band").Key.Want())
	if slip != nil || band.Kind != quantity.Interval || band.IsOpenEnded() {
		return
	}
	least, most := math.Inf(1), 0.0
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if low, high, ok := coveredBy(p); ok {
				if covers(low, high, band) {
					return
				}
				least, most = min(least, low), max(most, high)
			}
		}
	}
	if !(most > least) {
		return // no files of pulls, which alone tell it
	}
	rpm := parse.UnitSpelled("rpm")
	f := source.Finding{Severity: source.Warning, At: v.At, Subject: "power.band", Message: fmt.Sprintf("the pulls of no session cover the band of %s: they go from %s to %s", band.Shown(), quantity.Show(least, rpm, rpm.Factor), quantity.Show(most, rpm, rpm.Factor)),
		Do: "name a band that the pulls cover, or pull over all of it; until then no mean over it can be told"}
	if meant, ok := quantity.TheOne(band.OtherReadings(quantity.OnePlace|quantity.TwoPlaces|quantity.ThreePlaces), func(q quantity.Quantity) bool { return covers(least, most, q) }); ok {
		f.Do = fmt.Sprintf("%s? if so write `%s`; if not, name a band that the pulls cover", meant.Why, meant.Shown())
	}
	c.report(f, 0)
}

// coveredBy returns the engine speeds that all pulls of a session cover; false where there are no curves.
func coveredBy(sessions ...*model.Pulls) (least, most float64, ok bool) {
	most = math.Inf(1)
	for _, p := range sessions {
		if len(p.Runs) == 0 {
			return 0, 0, false
		}
		for _, run := range p.Runs {
			low, high := run.Span()
			least, most = max(least, low), min(most, high)
		}
	}
	return least, most, most > least
}

// covers reports whether engine speeds cover a band.
func covers(least, most float64, band quantity.Quantity) bool {
	return quantity.Compare(band.LowSI(), least, 0) >= 0 && quantity.Compare(band.HighSI(), most, 0) <= 0
}
