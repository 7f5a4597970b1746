package rule

import (
	"fmt"
	"math"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/model"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// What pressures of the air at a place are held to. Common practice, no source.
const (
	highWeather   = 1.035 // times the standard atmosphere, above which weather hardly ever takes the pressure at a place
	reportApart   = 800.0 // Pa that a report and a barometer may be from each other: a few hours, some ten kilometres
	dynoPressures = 3e3   // Pa that the pressure at a dyno may be from the middle of those of other days
	leastDays     = 2     // other entries that it takes to tell
	heightsApart  = 60.0  // m that a place may be from where it was on other days: a map, or a phone
	shutPressure  = 1e3   // Pa from that middle that another reading of a figure must come to
)

// usualSeaLevel is what weather reports usually tell, in Pa. Common practice, no source.
var usualSeaLevel = quantity.Span{Low: 96e3, High: 105e3}

// seaLevelPressure reports air pressures that can't be those at the place: as a weather report gives them, reduced to sea level, more or less than there is, or not those that the place of the dyno had on other days.
func seaLevelPressure(c *Context) { c.tellCauses() }

// dynoDay is what the air at a dyno pressed in one session.
type dynoDay struct {
	pulls   *model.Pulls
	station float64 // Pa
	read    bool
}

// offPressures finds them. What rests on the power of such a session waits.
func (c *Context) offPressures() []*cause {
	var found []*cause
	var days []dynoDay
	told := map[*model.Pulls]bool{}
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			if p.Air == nil || p.Air.Unread {
				continue
			}
			if k := c.offHeight(p); k != nil {
				told[p] = true
				found = addPressure(found, k, p)
				continue
			}
			if s := c.Sums.Session(p); s != nil && p.Dyno != nil {
				station, ok := s.Station()
				days = append(days, dynoDay{p, station, ok})
			}
		}
	}
	byDyno := map[*model.Tool][]dynoDay{}
	for _, d := range days {
		byDyno[d.pulls.Dyno] = append(byDyno[d.pulls.Dyno], d)
	}
	for _, d := range days { // in order of time
		if of := byDyno[d.pulls.Dyno]; len(of) > 1 && of[0] == d {
			for _, k := range offDays(of) {
				told[k.pulls] = true
				found = addPressure(found, k.cause, k.pulls)
			}
		}
	}
	for _, e := range c.Journal.Entries {
		for _, p := range e.Pulls {
			s := c.Sums.Session(p)
			if s == nil || p.Air == nil || p.Air.SeaLevel == nil || told[p] {
				continue
			}
			if _, ok := s.Station(); !ok && p.Air.Altitude != nil {
				continue // the two make no pressure at all, which is told otherwise
			}
			if k := oddWeather(p); k != nil {
				found = addPressure(found, k, p)
			}
		}
	}
	return found
}

// addPressure adds a cause against a session, or the session to the cause of another one of the entry at the same figures.
func addPressure(found []*cause, k *cause, p *model.Pulls) []*cause {
	k.against, k.weight = append(k.against, peaksOf(p)...), suspect
	if len(found) > 0 {
		last := found[len(found)-1]
		if last.report.Entry == k.report.Entry && last.report.Message == k.report.Message {
			last.against = append(last.against, k.against...)
			return found
		}
	}
	return append(found, k)
}

// offHeight makes the cause of a pressure that is not that of its height, or of the report; nil for nothing.
func (c *Context) offHeight(p *model.Pulls) *cause {
	v := p.Air.Pressure
	if v == nil {
		return nil
	}
	si := v.Estimate.Value
	what, do := "", "write the pressure that a barometer at the place shows; one from a report as `sea-level`, with the `altitude` of the place"
	var notes []source.Remark
	switch height := p.Air.Altitude; {
	case p.Air.SeaLevel != nil && height != nil:
		what, notes = reportDisagrees(si, p.Air.SeaLevel.Estimate.Value, height.Estimate.Value), []source.Remark{{At: p.Air.SeaLevel.At(), Message: "the report"}, {At: height.At(), Message: "the height"}}
	case height != nil:
		standard, err := calc.StandardPressure(height.Estimate.Value)
		if err == nil && si > standard*highWeather {
			what = fmt.Sprintf("at %s some %s is to be expected: it looks like one that is reduced to sea level", height.Quantity.Shown(), showPressure(standard))
			notes = []source.Remark{{At: height.At(), Message: "the height"}}
		}
	}
	if what == "" {
		return nil
	}
	return &cause{report: reportAbout(v, source.Warning, fmt.Sprintf("an air pressure of %s: %s", v.Quantity.Shown(), what), do, notes...), against: []*model.Value{v}}
}

// reportDisagrees says that a report and a height give another pressure than the one that was written; empty where they agree.
func reportDisagrees(station, seaLevel, height float64) string {
	by, err := calc.StationPressure(seaLevel, height)
	if err != nil || station > by-reportApart && station < by+reportApart {
		return ""
	}
	return fmt.Sprintf("the report and the height make it %s", showPressure(by))
}

// offDay is a session whose air is not that of the place.
type offDay struct {
	pulls *model.Pulls
	cause *cause
}

// offDays finds the sessions of one dyno in whose air the place of the others doesn't lie: a dyno stays where it is.
func offDays(days []dynoDay) []offDay {
	var stations []float64
	entries := map[*model.Entry]bool{}
	for _, d := range days {
		if d.read {
			stations = append(stations, d.station)
			entries[d.pulls.Entry] = true
		}
	}
	slices.Sort(stations)
	height := usualHeight(days)
	var off []offDay
	for _, d := range days {
		switch a := d.pulls.Air; {
		case d.read && len(entries) > leastDays && math.Abs(d.station-middleWithout(stations, d.station)) > dynoPressures:
			off = append(off, offDay{d.pulls, offPlace(d, middleWithout(stations, d.station), height)})
		case height != nil && a.Altitude != nil && math.Abs(a.Altitude.Estimate.Value-height.Estimate.Value) > heightsApart:
			k := &cause{report: reportAbout(a.Altitude, source.Warning, fmt.Sprintf("`%s` stands at %s here, and at %s before", d.pulls.Dyno.Name, a.Altitude.Quantity.Shown(), height.Quantity.Shown()),
				"a dyno stays where it is: look the height up again; where there are two of them, name them apart", source.Remark{At: height.At(), Message: "the height before"})}
			k.against = []*model.Value{a.Altitude}
			off = append(off, offDay{d.pulls, k})
		}
	}
	return off
}

// usualHeight returns the height of the place that most sessions tell, and of as many the first; nil where none tells it.
func usualHeight(days []dynoDay) *model.Value {
	var usual *model.Value
	most := 0
	counts := map[float64]int{}
	for _, d := range days {
		if a := d.pulls.Air.Altitude; a != nil {
			counts[math.Round(a.Estimate.Value/heightsApart)]++
		}
	}
	for _, d := range days {
		if a := d.pulls.Air.Altitude; a != nil && counts[math.Round(a.Estimate.Value/heightsApart)] > most {
			usual, most = a, counts[math.Round(a.Estimate.Value/heightsApart)]
		}
	}
	return usual
}

// middleWithout returns the median of a sorted list without one that is in it.
func middleWithout(sorted []float64, one float64) float64 {
	at, _ := slices.BinarySearch(sorted, one)
	of := func(i int) float64 {
		if i >= at {
			i++
		}
		return sorted[i]
	}
	n := len(sorted) - 1
	return (of(n/2) + of((n-1)/2)) / 2
}

// offPlace makes the cause of a session whose air presses otherwise than that of the place, at the figure that is likeliest wrong.
func offPlace(d dynoDay, middle float64, height *model.Value) *cause {
	a := d.pulls.Air
	at, what := a.Pressure, ""
	pressure := func(q quantity.Quantity) float64 { return q.SI() }
	if at != nil {
		what = fmt.Sprintf("an air pressure of %s", at.Quantity.Shown())
	} else {
		bySea := func(q quantity.Quantity) float64 { return stationOf(q.SI(), a.Altitude.Estimate.Value) }
		byHeight := func(q quantity.Quantity) float64 { return stationOf(a.SeaLevel.Estimate.Value, q.SI()) }
		at, pressure = a.Altitude, byHeight
		isSame := height != nil && height != a.Altitude && math.Abs(height.Estimate.Value-a.Altitude.Estimate.Value) <= heightsApart
		if isSame || !usualSeaLevel.Holds(a.SeaLevel.Quantity.SI()) {
			at, pressure = a.SeaLevel, bySea
		}
		what = fmt.Sprintf("%s at sea level make %s at %s", a.SeaLevel.Quantity.Shown(), showPressure(d.station), a.Altitude.Quantity.Shown())
	}
	k := &cause{report: reportAbout(at, source.Warning, fmt.Sprintf("%s, and the middle of the other days at `%s` is %s: a dyno stays where it is", what, d.pulls.Dyno.Name, showPressure(middle)),
		"see whether a digit is mistyped, or a report's pressure stands for that of the place; accept this after a day of such weather"), against: []*model.Value{at}}
	isLike := func(q quantity.Quantity) bool { return math.Abs(pressure(q)-middle) <= shutPressure }
	if meant, ok := quantity.TheOne(at.Quantity.OtherReadings(quantity.OnePlace|quantity.TwoPlaces|quantity.SwappedDigits), isLike); ok {
		k.report.Do = fmt.Sprintf("%s? `%s` would agree; if that is not it, %s", meant.Why, meant.Shown(), k.report.Do)
	}
	return k
}

// stationOf returns the pressure at a height, in Pa; no number where there is none.
func stationOf(seaLevel, height float64) float64 {
	p, err := calc.StationPressure(seaLevel, height)
	if err != nil {
		return math.NaN()
	}
	return p
}

// oddWeather makes the cause of a pressure at sea level that weather hardly ever has; nil for a usual one.
func oddWeather(p *model.Pulls) *cause {
	v := p.Air.SeaLevel
	if usualSeaLevel.Holds(v.Quantity.SI()) {
		return nil
	}
	unit := v.Quantity.Unit
	r := reportAbout(v, source.Note, fmt.Sprintf("%s at sea level: weather hardly ever leaves %s", v.Quantity.Shown(), quantity.Between(quantity.Show(usualSeaLevel.Low, unit, 100), quantity.Show(usualSeaLevel.High, unit, 100))), "look it up again; accept this if it was such a day")
	return &cause{report: r, against: []*model.Value{v}}
}

func showPressure(si float64) quantity.Shown {
	return quantity.Show(si, quantity.UnitShown("kPa abs"), 100)
}
