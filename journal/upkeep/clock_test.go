package upkeep

import (
	"testing"
	"time"

	"example.org/locknut/journal/parse"
)

func day(text string) parse.Date {
	d, ok := parse.ParseDate(text)
	if !ok {
		panic(text)
	}
	d.At.File = nil
	return parse.Date{Year: d.Year, Month: d.Month, Day: d.Day}
}

// By hand, on a calendar.
func TestAddMonths(t *testing.T) {
	for _, c := range []struct {
		from   string
		months float64
		want   string
	}{
		{"2026-01-31", 1, "2026-02-28"}, {"2024-01-31", 1, "2024-02-29"}, {"2025-08-31", 6, "2026-02-28"}, {"2026-03-14", 12, "2027-03-14"},
		{"2024-02-29", 12, "2025-02-28"}, {"2026-11-30", 3, "2027-02-28"}, {"2026-12-15", 24, "2028-12-15"}, {"2026-01-01", 0.5, "2026-01-16"},
		{"2026-01-31", 1.5, "2026-03-15"}, {"1999-10-31", 4, "2000-02-29"}, {"1900-01-30", 1, "1900-02-28"},
	} {
		if got := addMonths(day(c.from), c.months); got.String() != c.want {
			t.Errorf("%v months after %s: %s, want %s", c.months, c.from, got, c.want)
		}
	}
}

// A second method: going on day by day until the month and the day are there, or the month is over.
func TestAddMonthsAgainstASecondMethod(t *testing.T) {
	for start := civil(day("2023-12-25")); start.Year() < 2025; start = start.AddDate(0, 0, 1) {
		for months := 1; months <= 26; months++ {
			month, year := int(start.Month())-1+months, start.Year()
			year, month = year+month/12, month%12+1
			at := start
			for at.Year() != year || int(at.Month()) != month {
				at = at.AddDate(0, 0, 1)
			}
			for at.Day() != start.Day() && at.AddDate(0, 0, 1).Month() == time.Month(month) {
				at = at.AddDate(0, 0, 1)
			}
			from := parse.Date{Year: start.Year(), Month: int(start.Month()), Day: start.Day()}
			if got := addMonths(from, float64(months)); !civil(got).Equal(at) {
				t.Fatalf("%d months after %s: %s, want %s", months, from, got, at.Format(time.DateOnly))
			}
		}
	}
}
