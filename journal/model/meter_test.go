package model_test

import (
	"fmt"
	"strings"
	"testing"

	"example.org/locknut/journal/parse"

	"example.org/locknut/journal/model"
)

// By hand: 1,000 km a day, and five times what was run in all else; of hours 24 a day.
func TestMetersThatLeap(t *testing.T) {
	for _, c := range []struct{ what, unit, read, want string }{
		{"one digit too many", "km", "2026-01-01 41200, 2026-02-01 41650, 2026-03-01 416800", "41200 41650 41650!"},
		{"the same, from the first", "km", "2026-01-01 41200, 2026-02-01 416500", "41200 41200!"},
		{"it comes down again", "km", "2026-01-01 41200, 2026-02-01 416500, 2026-03-01 41900", "41200 41200! 41900"},
		{"it lasts", "km", "2026-01-01 41200, 2026-01-08 41250, 2026-02-01 416500, 2026-03-01 416900", "41200 41250 416500! 416900"},
		{"the first is one digit short", "km", "2026-01-01 4120, 2026-01-08 41250, 2026-02-01 41500", "! 41250 41500"},
		{"one in between is short", "km", "2026-01-01 41200, 2026-02-01 4165, 2026-02-03 41900", "41200 41200 41900"},
		{"back, and on from there", "km", "2026-01-01 41200, 2026-02-01 150, 2026-03-01 300", "41200 150 300"},
		{"as far as can be", "km", "2026-01-01 1000, 2026-01-10 11000", "1000 11000"},
		{"a little further", "km", "2026-01-01 1000, 2026-01-10 11001", "1000 1000!"},
		{"no five times all else", "km", "2026-01-01 1000, 2026-02-01 5000, 2026-02-02 24999", "1000 5000 24999"},
		{"five times all else", "km", "2026-01-01 1000, 2026-02-01 5000, 2026-02-02 25000", "1000 5000 5000!"},
		{"hours", "h", "2026-01-01 38, 2026-01-03 110", "38 110"},
		{"more hours than there were", "h", "2026-01-01 38, 2026-01-03 111", "38 38!"},
		{"on one day", "km", "2026-01-01 1000, 2026-01-01 2001", "1000 1000!"},
		{"changed", "km", "2026-01-01 1000, 2026-01-02 90000 meter-was=1010, 2026-01-03 90100", "1000 90000 90100"},
	} {
		files := "-- build.toml --\n[machine]\nmeter = \"" + c.unit + "\"\n"
		for i, read := range strings.Split(c.read, ", ") {
			day, meter, _ := strings.Cut(read, " ")
			meter, was, _ := strings.Cut(meter, " ")
			files += fmt.Sprintf("-- %s-%d.md --\nmeter = %s\n%s\n", day, i, meter, strings.ReplaceAll(was, "=", " = "))
		}
		var got []string
		for _, e := range compile(t, files, "").Journal.Entries {
			word := ""
			if e.MeterThen != nil {
				word = e.MeterThen.Shown().Number
			}
			if e.LeapFrom != nil {
				word += "!"
			}
			got = append(got, word)
		}
		if told := strings.Join(got, " "); told != c.want {
			t.Errorf("%s: %s, want %s", c.what, told, c.want)
		}
	}
}

// By the calendar: 365 days a year and 97 leap days in four hundred.
func TestDaysBetween(t *testing.T) {
	for _, c := range []struct {
		from, to parse.Date
		want     float64
	}{
		{parse.Date{Year: 2026, Month: 2, Day: 28}, parse.Date{Year: 2026, Month: 3, Day: 1}, 1},
		{parse.Date{Year: 2024, Month: 3, Day: 1}, parse.Date{Year: 2024, Month: 2, Day: 28}, -2},
		{parse.Date{Year: 1600, Month: 1, Day: 1}, parse.Date{Year: 2000, Month: 1, Day: 1}, 400*365 + 97},
	} {
		if got := model.DaysBetween(c.from, c.to); got != c.want {
			t.Errorf("from %s to %s there are %g days, want %g", c.from, c.to, got, c.want)
		}
	}
}
