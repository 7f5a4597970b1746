package chart

import (
	"math"
	"strconv"
	"time"

	"example.org/locknut/journal/quantity"
)

// axis places figures between two px: lo stands at from, hi at to. hi is above lo.
type axis struct {
	lo, hi, from, to float64
}

func (a axis) at(x float64) float64 {
	return a.from + (x/2-a.lo/2)/(a.hi/2-a.lo/2)*(a.to-a.from)
}

// place is where a figure stands, pinned to the end that it lies beyond; off is −1 below the axis, +1 above it.
func (a axis) place(x float64) (at float64, off int) {
	tiny := (a.hi/2 - a.lo/2) * 1e-9
	switch {
	case x < a.lo-tiny:
		return a.from, -1
	case x > a.hi+tiny:
		return a.to, 1
	}
	return a.at(x), 0
}

// span returns the least and the greatest of some figures, set apart by four steps if they are as good as one: by 4 % where there is no step.
func span(figures []float64, step float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, x := range figures {
		if isDrawn(x) {
			lo, hi = min(lo, x), max(hi, x)
		}
	}
	if lo > hi {
		return 0, 0, false
	}
	if size := max(math.Abs(lo), math.Abs(hi)); hi/2-lo/2 <= 1e-9*size {
		apart := max(2*step, size*1e-6)
		if !(step > 0) || !isDrawn(step) {
			apart = size * 0.02
		}
		if apart == 0 {
			apart = 1
		}
		lo, hi = lo-apart, hi+apart
	}
	return lo, hi, true
}

// ticks returns round figures on an axis, about as many as asked for, and how far apart they are: one, two or five of a power of ten.
func (a axis) ticks(about int) (at []float64, step float64) {
	rough := (a.hi/2 - a.lo/2) / float64(max(about, 1)) * 2
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range []float64{1, 2, 5, 10} {
		if step = m * power; step >= rough*0.7 {
			break
		}
	}
	if !(step > 0) || !isDrawn(step) {
		return nil, 0
	}
	first := math.Ceil(a.lo/step - 1e-9)
	for i := range 4 * about {
		x := (first + float64(i)) * step
		if x > a.hi+step*1e-9 {
			break
		}
		if x >= a.lo-step*1e-9 {
			at = append(at, x)
		}
	}
	return at, step
}

// tickLabel is the number at a tick, with as many digits as the step between ticks needs.
func tickLabel(x, step float64, u *quantity.Unit) string {
	return quantity.Show(u.SI(x), u, u.StepSI(step, x)).Number
}

// Day returns the place of a civil day on an axis of days.
func Day(year, month, day int) float64 {
	return float64(time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC).Unix() / 86400)
}

func dateAt(day float64) time.Time { return time.Unix(int64(math.Floor(day))*86400, 0).UTC() }

// dateText writes a day as the site does.
func dateText(day float64) string { return dateAt(day).Format(time.DateOnly) }

// isDay reports whether a place is a day of a calendar with four figures to the year.
func isDay(x float64) bool { return x >= Day(1, 1, 1) && x < Day(10000, 1, 1) }

// dateTick is one tick of an axis of days.
type dateTick struct {
	at    float64
	label string
	year  string // below the label, where a year begins to be spoken of
}

// dateTicks returns ticks at round days, months or years, no more than asked for. A year stands below the first tick that lies in it.
func (a axis) dateTicks(most int) []dateTick {
	for _, days := range []int{1, 2, 7, 14} {
		if (a.hi-a.lo)/float64(days) > float64(most) {
			continue
		}
		var ticks []dateTick
		for day := math.Ceil(a.lo/float64(days)) * float64(days); day <= a.hi; day += float64(days) {
			ticks = append(ticks, dateTick{at: day, label: dateAt(day).Format("2 Jan")})
		}
		return named(ticks)
	}
	for _, months := range []int{1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 2400, 6000, 12000} {
		if (a.hi-a.lo)/30.4369/float64(months) > float64(most) {
			continue
		}
		return named(a.monthTicks(months))
	}
	return nil
}

func (a axis) monthTicks(months int) []dateTick {
	first := dateAt(a.lo)
	month := (first.Year()*12 + int(first.Month()) - 1) / months * months
	var ticks []dateTick
	for ; ; month += months {
		day := Day(month/12, month%12+1, 1)
		switch {
		case day > a.hi:
			return ticks
		case day < a.lo:
		case months >= 12:
			ticks = append(ticks, dateTick{at: day, label: strconv.Itoa(month / 12)})
		default:
			ticks = append(ticks, dateTick{at: day, label: dateAt(day).Format("Jan")})
		}
	}
}

// named puts the year below the first tick of each, where the labels don't name it.
func named(ticks []dateTick) []dateTick {
	last := ""
	for i := range ticks {
		year := strconv.Itoa(dateAt(ticks[i].at).Year())
		if year != last && ticks[i].label != year {
			ticks[i].year = year
		}
		last = year
	}
	return ticks
}
