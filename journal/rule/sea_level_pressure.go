package rule

import (
	"fmt"
	"slices"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// highWeather is how far above the standard atmosphere weather hardly ever takes the pressure at a place. Common practice, no source.
const highWeather = 1.035

// seaLevelPressure reports air pressures that can't be those at the place: as a weather report gives them, reduced to sea level, or more or less than there is.
func seaLevelPressure(c *Context) {
	for _, e := range c.Journal.Entries {
		var told []float64 // pressures that pulls of the entry share
		for _, p := range e.Pulls {
			if p.Air == nil || p.Air.Pressure == nil || slices.Contains(told, p.Air.Pressure.Estimate.Value) {
				continue
			}
			v := p.Air.Pressure
			si := v.Estimate.Value
			what, do := "", "write the pressure that a barometer at the place shows; one from a report as `sea-level`, with the `altitude` of the place"
			var notes []source.Remark
			switch height := p.Air.Altitude; {
			case p.Air.SeaLevel != nil && height != nil:
				what, notes = c.reportDisagrees(si, p.Air.SeaLevel.Estimate.Value, height.Estimate.Value), []source.Remark{{At: p.Air.SeaLevel.At(), Message: "the report"}, {At: height.At(), Message: "the height"}}
			case height != nil:
				standard, err := calc.StandardPressure(height.Estimate.Value)
				if err == nil && si > standard*highWeather {
					what = fmt.Sprintf("at %s some %s is to be expected: it looks like one that is reduced to sea level", height.Quantity.Shown(), showPressure(standard))
					notes = []source.Remark{{At: height.At(), Message: "the height"}}
				}
			}
			if what != "" {
				c.value(v, source.Warning, fmt.Sprintf("an air pressure of %s: %s", v.Quantity.Shown(), what), do, notes...)
				told = append(told, si)
			}
		}
	}
}

// apart is how far a report and a barometer may be from each other, in Pa: a few hours, some ten kilometres. Common practice, no source.
const apart = 800.0

// reportDisagrees says that a report and a height give another pressure than the one that was written; empty where they agree.
func (c *Context) reportDisagrees(station, seaLevel, height float64) string {
	by, err := calc.StationPressure(seaLevel, height)
	if err != nil || station > by-apart && station < by+apart {
		return ""
	}
	return fmt.Sprintf("the report and the height make it %s", showPressure(by))
}

func showPressure(si float64) quantity.Shown {
	return quantity.Show(si, quantity.UnitShown("kPa abs"), 100)
}
