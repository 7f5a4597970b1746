package upkeep

import (
	"math"
	"time"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// clock tells how far the machine had run by each entry, whatever its meter was changed for.
type clock struct {
	run  []float64 // since the meter's first figure, in SI, by index of the entry; NaN before that
	unit *quantity.Unit
}

// newClock reads the meters of the dated entries that count. Where a meter was changed, `meter-was` is what the old one showed last. One that runs
// backwards stands still, and one that leaps too, since a rule says so where it is written.
func newClock(j *model.Journal, counts func(*model.Entry) bool) clock {
	c := clock{run: make([]float64, len(j.Entries)), unit: j.Meter}
	run, shown := math.NaN(), 0.0 // how far by now, and what the meter showed then
	for i, e := range j.Entries {
		if counts(e) && !e.Plan && e.Meter != nil {
			until := e.Meter.SI()
			if e.MeterWas != nil {
				until = e.MeterWas.SI()
			}
			switch {
			case math.IsNaN(run):
				run = 0
			case e.LeapFrom == nil: // what it leapt it did not run
				run += max(0, until-shown)
			}
			shown = e.Meter.SI()
		}
		c.run[i] = run
	}
	return c
}

// at returns how far the machine had run by an entry; nil is the beginning.
func (c clock) at(e *model.Entry) float64 {
	if e == nil {
		return 0
	}
	return c.run[e.Index]
}

// addMonths returns the day so many months after another: the same day of the month, or the month's last where it has no such day. A part
// of a month is that part of thirty days.
func addMonths(day parse.Date, months float64) parse.Date {
	whole := math.Floor(months)
	first := time.Date(day.Year, time.Month(day.Month)+time.Month(whole), 1, 0, 0, 0, 0, time.UTC)
	last := first.AddDate(0, 1, -1).Day()
	t := first.AddDate(0, 0, min(day.Day, last)-1+int(math.Round((months-whole)*30)))
	return parse.Date{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}
}

// CalibrationAt returns the calibration that speaks for a tool on a day, the newest up to then, and until when it holds; the zero day where there is none,
// or where nobody says how long it holds.
func CalibrationAt(t *model.Tool, day parse.Date) (of, until parse.Date) {
	if f := t.Fields.Get("calibrated"); f != nil {
		for _, d := range f.Dates {
			if d.CompareDay(day) <= 0 && (of.IsZero() || d.CompareDay(of) > 0) {
				of = d
			}
		}
	}
	if v := t.Fields.Value("calibrate-every"); v != nil && !of.IsZero() {
		if q, slip := v.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Calendar, quantity.Duration}}); slip == nil && q.Value > 0 {
			until = after(of, q)
		}
	}
	return of, until
}

// after returns the day on which an interval by the calendar is up.
func after(day parse.Date, q quantity.Quantity) parse.Date {
	if q.Unit.Dimension == quantity.Calendar {
		return addMonths(day, q.SI())
	}
	return addDays(day, q.SI()/86400)
}

// addDays returns the day so many days after another.
func addDays(day parse.Date, days float64) parse.Date {
	t := civil(day).AddDate(0, 0, int(math.Round(days)))
	return parse.Date{Year: t.Year(), Month: int(t.Month()), Day: t.Day()}
}

func civil(day parse.Date) time.Time {
	return time.Date(day.Year, time.Month(day.Month), day.Day, 0, 0, 0, 0, time.UTC)
}
