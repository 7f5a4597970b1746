package model

import (
	"time"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
)

// What a machine is not believed to have run from one entry to the next: more than so far a day, and so many times all that it ran between the others. A meter
// that counts hours runs no faster than the clock. Common practice, no source.
const (
	farthestDay = 1e6 // metres
	longestDay  = 24 * 3600
	mostRuns    = 5
)

// doubtMeters finds the meters that leap: further than a machine runs in the days between, though nobody says that the meter was changed. One that comes down again, or
// is the newest, is not believed; nor is the first, where all that follow stand above it. Where the leap lasts, nothing was run in it. A meter that falls for
// one entry alone is not believed either.
func (l *linker) doubtMeters() {
	var read []*Entry
	for _, e := range l.journal.Entries {
		if !e.Plan && e.Meter != nil {
			read = append(read, e)
		}
	}
	ran := ranInAll(read)
	for i := 1; i < len(read); {
		before, e := read[i-1], read[i]
		var after *Entry
		if i+1 < len(read) && read[i+1].MeterWas == nil {
			after = read[i+1]
		}
		drop := i
		switch {
		case e.MeterWas == nil && after != nil && runs(before, e) < 0 && runs(before, after) >= 0 && !leaps(before, after, ran):
			e.doubtMeter()
		case e.MeterWas != nil || !leaps(before, e, ran):
			drop = -1
		case i == 1 && after != nil && runs(e, after) >= 0:
			before.LeapFrom, drop = e, 0
			before.doubtMeter()
		case after == nil && i+1 == len(read) || after != nil && runs(e, after) < 0:
			e.LeapFrom = before
			e.doubtMeter()
		default:
			e.LeapFrom, drop = before, -1
		}
		if drop < 0 {
			i++
			continue
		}
		read = append(read[:drop:drop], read[drop+1:]...)
	}
}

// doubtMeter takes what the entry's meter showed for a slip.
func (e *Entry) doubtMeter() { e.MeterDoubted, e.Meter = e.Meter, nil }

// ranInAll returns how far the machine ran from entry to entry, in SI, but for steps that are too long for their days.
func ranInAll(read []*Entry) float64 {
	ran := 0.0
	for i := 1; i < len(read); i++ {
		if step := runs(read[i-1], read[i]); read[i].MeterWas == nil && step > 0 && !isTooFar(read[i-1], read[i]) {
			ran += step
		}
	}
	return ran
}

// runs returns how far the meter went from one entry to another, in SI.
func runs(from, to *Entry) float64 { return to.Meter.SI() - from.Meter.SI() }

// leaps reports whether the meter went further from one entry to another than can be, beside what it ran in all.
func leaps(from, to *Entry, ran float64) bool {
	return isTooFar(from, to) && (to.Meter.Unit.Dimension == quantity.Duration || runs(from, to) >= mostRuns*ran)
}

// isTooFar reports whether the meter went further than a machine runs in the days between.
func isTooFar(from, to *Entry) bool {
	if from.DateBad || to.DateBad {
		return false
	}
	most := float64(farthestDay)
	if to.Meter.Unit.Dimension == quantity.Duration {
		most = longestDay
	}
	return runs(from, to) > most*(DaysBetween(from.Date, to.Date)+1)
}

// DaysBetween returns how many days lie between two days.
func DaysBetween(from, to parse.Date) float64 {
	seconds := func(day parse.Date) int64 {
		return time.Date(day.Year, time.Month(day.Month), day.Day, 0, 0, 0, 0, time.UTC).Unix()
	}
	return float64(seconds(to)-seconds(from)) / 86400
}
