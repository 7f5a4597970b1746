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

// What air and peaks are held to. All of it is common practice, no source.
const (
	leastHumidity = 0.05                 // there is less in deserts alone
	lowHumidity   = 0.10                 // is little where all other sessions had more than twice as much
	besideHumid   = 0.20                 // that
	overRedline   = 1.1                  // times the redline at which power may peak
	anyRevs       = 20000 * math.Pi / 30 // rad/s that it may, where no redline is known
	leastRevs     = 1000 * math.Pi / 30  // rad/s at which torque may peak
	leastDuty     = 0.1                  // of injectors at the greatest power
)

// humidities are those of most days, and duties those of injectors that are chosen for their engine.
var (
	humidities = quantity.Span{Low: 0.2, High: 1}
	duties     = quantity.Span{Low: 0.3, High: 1}
)

// oddHumidities finds humidities of the air of pulls that are those of a desert, where a share that was written as per cent is likelier.
func (c *Context) oddHumidities() []*cause {
	var low, all []*model.Value
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if p.Air == nil || p.Air.Humidity == nil || p.Air.DewPoint != nil || p.Air.Humidity.Quantity.Kind == quantity.Interval || !(p.Air.Humidity.Quantity.SI() > 0) {
				continue // by a dew point it is held to that; and nought is dry air, as sums have it
			}
			v := p.Air.Humidity
			if all = append(all, v); quantity.Compare(v.Quantity.SI(), lowHumidity, 0) < 0 {
				low = append(low, v)
			}
		}
	}
	isDry := len(low) == len(all) || len(all)-len(low) < 2 || slices.ContainsFunc(all, func(v *model.Value) bool { return v.Quantity.SI() < besideHumid && !slices.Contains(low, v) })
	var found []*cause
	for _, v := range low {
		if isDry && quantity.Compare(v.Quantity.SI(), leastHumidity, 0) >= 0 {
			continue
		}
		report := reportAbout(v, source.Warning, fmt.Sprintf("a relative humidity of %s: hardly any air is so dry", v.Quantity.Shown()), "look at its point, and whether it is in per cent")
		if meant, ok := quantity.TheOne(v.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces), func(q quantity.Quantity) bool { return humidities.Holds(q.SI()) }); ok {
			text := meant.Shown().String()
			report.Do = fmt.Sprintf("%s? if so write `%s`; if it was so dry, accept it", meant.Why, text)
			report.Fixes = []source.Fix{source.Replace(fmt.Sprintf("write `%s`", text), v.Written.Span(0, len(v.Written.Text)), text)}
		}
		found = append(found, &cause{report: report, against: []*model.Value{v}, weight: doubted})
	}
	return found
}

// oddInjectors finds a flow of injectors that are hardly open at the power of now, where its point elsewhere makes it one that was chosen for the engine.
func (c *Context) oddInjectors() []*cause {
	n := c.numberAt("injector.duty.now")
	if n == nil || n.Reason != "" || !(n.Estimate.Value > 0) || quantity.Compare(n.Estimate.Value, leastDuty, 0) >= 0 || restsOn(n, c.isDoubted) {
		return nil
	}
	v := n.Inputs[len(n.Inputs)-1].Value
	if v == nil {
		return nil
	}
	meant, ok := quantity.TheOne(v.Quantity.OtherReadings(quantity.OnePlace), func(q quantity.Quantity) bool {
		return duties.Holds(n.Estimate.Value * v.Quantity.SI() / q.SI())
	})
	if !ok {
		return nil
	}
	return []*cause{{report: reportAbout(v, source.Note, fmt.Sprintf("injectors of %s are open for %s of the time at the most power that was measured: nobody fits such large ones", v.Quantity.Shown(), n.Shown()),
		fmt.Sprintf("look at its digits and its unit again: %s would fit", meant.Shown())), against: []*model.Value{v}, weight: doubted}}
}

// powerTorqueDisagree reports peaks off a screen that contradict each other; the rows of files are looked at where they are read.
func powerTorqueDisagree(c *Context) { c.tellCauses() }

// screensApart finds sessions with a file whose power and torque contradict each other, which was told where it is read, and those whose peaks of power and torque, read off a screen, no engine has together: power over torque is an engine speed that lies between those of the two peaks.
func (c *Context) screensApart() []*cause {
	most, limit := anyRevs, (*model.Value)(nil)
	if v := c.figureNow("engine.redline"); v != nil && v.Estimate.Value >= quantity.UnitShown("rpm").SI(redlines.Low) && !c.isDoubted(v) {
		most, limit = overRedline*v.Estimate.Value, v
	}
	var found []*cause
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if i := slices.IndexFunc(p.Runs, func(run model.Run) bool { return run.Torn }); i >= 0 {
				found = append(found, &cause{report: report{source.Finding{Subject: p.Runs[i].File.Name, Entry: e.Path}, p.Order}, against: peaksOf(p), weight: suspect})
			}
			if len(p.Runs) > 0 || p.Peak == nil || p.Torque == nil || c.isDoubted(p.Peak) || c.isDoubted(p.Torque) || !(p.Peak.Estimate.Value > 0) || !(p.Torque.Estimate.Value > 0) {
				continue
			}
			if speed := p.Peak.Estimate.Value / p.Torque.Estimate.Value; quantity.Compare(speed, most, 0) > 0 || quantity.Compare(speed, leastRevs, 0) < 0 {
				found = append(found, c.screenApart(p, speed, limit))
			}
		}
	}
	return found
}

// screenApart is screensApart of one session, told at the torque; at the power, where the torque is one that an engine of this size has.
func (c *Context) screenApart(p *model.Pulls, speed float64, redline *model.Value) *cause {
	rpm := quantity.UnitShown("rpm")
	odd, beside, key := p.Torque, p.Peak, "torque"
	oddly := func(q quantity.Quantity) float64 { return p.Peak.Estimate.Value / q.SI() }
	if c.isTorqueOfSize(p.Torque.Estimate.Value) && !c.isTorqueOfSize(p.Peak.Estimate.Value/quantity.UnitShown("rpm").SI(mostRevs/2)) {
		odd, beside, key = p.Peak, p.Torque, "peak"
		oddly = func(q quantity.Quantity) float64 { return q.SI() / p.Torque.Estimate.Value }
	}
	message := fmt.Sprintf("a peak of %s with %s of torque at the most takes %s", p.Peak.Quantity.Shown(), p.Torque.Quantity.Shown(), quantity.Show(speed, rpm, rpm.Factor*100))
	within := quantity.Span{Low: 2 * leastRevs, High: anyRevs}
	switch {
	case speed < leastRevs:
		message = fmt.Sprintf("a torque of %s makes more than the peak of %s from %s on", p.Torque.Quantity.Shown(), p.Peak.Quantity.Shown(), quantity.Show(speed, rpm, rpm.Factor*10))
	case redline != nil:
		message += fmt.Sprintf(", and the redline is %s", redline.Quantity.Shown())
	}
	if redline != nil {
		within.High = overRedline * redline.Estimate.Value
	}
	do := "power is torque times engine speed: look at the digits and the units of both"
	if meant, ok := quantity.TheOne(odd.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces), func(q quantity.Quantity) bool { return within.Holds(oddly(q)) }); ok {
		do += fmt.Sprintf("; a `%s` of %s would fit", key, meant.Shown())
	}
	k := &cause{report: reportAbout(odd, source.Error, message, do), against: []*model.Value{odd, beside}, weight: suspect}
	k.report.State = source.Open // a later session doesn't mend it
	if table := pullsTable(p); table != nil {
		if values := table.Values(key); len(values) > 0 {
			k.report.At = values[0].At
		}
	}
	return k
}

// isTorqueOfSize reports whether an engine of this size, if that is known, has such a torque.
func (c *Context) isTorqueOfSize(torque float64) bool {
	size := c.soundNumberAt("engine.displacement")
	if size == nil || restsOn(size, c.isDoubted) || !(size.Estimate.Value > 0) {
		return false
	}
	for turns := 1.0; turns <= 2; turns++ {
		if meanPressures.Holds(torque * 2 * math.Pi * turns / size.Estimate.Value) {
			return true
		}
	}
	return false
}

// pullsTable returns the table of an entry that a session stands in.
func pullsTable(p *model.Pulls) *parse.Fields {
	tables := p.Entry.Fields.Tables("pulls")
	i := slices.IndexFunc(tables, func(t parse.Fields) bool { return t.At == p.At })
	if i < 0 {
		return nil
	}
	return &tables[i]
}
