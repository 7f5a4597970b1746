package parse

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"example.org/locknut/journal/source"
)

var (
	isoDate   = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})(?:[Tt ](\d{2}:\d{2}(?::\d{2})?)(?:\.\d+)?)?([Zz]|[+-]\d{2}:\d{2})?$`)
	slashDate = regexp.MustCompile(`^(\d{1,4})[/.](\d{1,2})[/.](\d{1,4})$`)
	nameDate  = regexp.MustCompile(`^(\d{4})-(\d{2})-(\d{2})(?:[^\d]|$)`)
)

// date decodes a civil date: as TOML writes it, or the same in quotes. Where the text has a zone the day is unclear: a finding.
func (d *decoder) date(f *Field, n *node) bool {
	if n.kind != nodeTime && !n.isString() {
		return d.wrongKind(f, n)
	}
	text := strings.TrimSpace(n.text)
	m := isoDate.FindStringSubmatch(text)
	if m == nil {
		return d.notADate(f, n, text)
	}
	if m[5] != "" {
		d.report("bad-date", source.Error, n.at, f.Key.Name, fmt.Sprintf("`%s` has a time zone; a journal keeps the date on the wall", text), "write `"+text[:10]+"`, with a time of day if it matters",
			source.Replace("take the zone off", n.at, strings.TrimSuffix(text, m[5])))
		return false
	}
	date := Date{Time: m[4], At: n.at}
	date.Year, date.Month, date.Day = atoi(m[1]), atoi(m[2]), atoi(m[3])
	if !date.exists() {
		d.report("bad-date", source.Error, n.at, f.Key.Name, fmt.Sprintf("there is no day `%s`", text), "write the day as year-month-day")
		return false
	}
	if date.Time != "" && !isTimeOfDay(date.Time) {
		d.report("bad-date", source.Error, n.at, f.Key.Name, fmt.Sprintf("there is no time of day `%s`", date.Time), "write hours and minutes, as in `19:30`")
		return false
	}
	f.Dates = append(f.Dates, date)
	return true
}

func (d *decoder) notADate(f *Field, n *node, text string) bool {
	m := slashDate.FindStringSubmatch(text)
	if m == nil {
		d.report("bad-date", source.Error, n.at, f.Key.Name, fmt.Sprintf("`%s` is not a date", text), "write it as year-month-day: `2026-04-18`")
		return false
	}
	message, do, fixes := slashDay(n.at, text, m)
	d.report("slash-date", source.Error, n.at, f.Key.Name, message, do, fixes...)
	return false
}

// slashDay says what is wrong with a day that is written with strokes or dots, and offers the days that it can be.
func slashDay(at source.Range, text string, m []string) (message, do string, fixes []source.Fix) {
	var days []string
	for _, order := range [][3]int{{3, 2, 1}, {3, 1, 2}, {1, 2, 3}} {
		day := Date{Year: atoi(m[order[0]]), Month: atoi(m[order[1]]), Day: atoi(m[order[2]])}
		if len(m[order[0]]) != 4 || !day.exists() || len(days) > 0 && days[0] == "`"+day.String()+"`" {
			continue
		}
		days = append(days, "`"+day.String()+"`")
		fixes = append(fixes, source.Replace("write "+days[len(days)-1], at, day.String()))
	}
	switch len(days) {
	case 0:
		return fmt.Sprintf("`%s` is no day that can be told", text), "write it as year-month-day, without quotes: `2026-04-18`", nil
	case 1:
		message = fmt.Sprintf("`%s` is not written as year-month-day", text)
	default:
		message = fmt.Sprintf("`%s` can be read as two days", text)
	}
	return message, "write it as year-month-day, without quotes: " + strings.Join(days, " or "), fixes
}

func atoi(digits string) int {
	n, _ := strconv.Atoi(digits) // the callers' expressions let only digits through
	return n
}

// isTimeOfDay reports whether a clock shows that time, `19:30` or `19:30:05`.
func isTimeOfDay(text string) bool {
	_, err := time.Parse(time.TimeOnly, (text + ":00")[:len(time.TimeOnly)])
	return err == nil
}

// exists reports whether the calendar has that day.
func (d Date) exists() bool {
	t := time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
	return d.Year >= 1 && t.Year() == d.Year && int(t.Month()) == d.Month && t.Day() == d.Day
}

// ParseDate reads a day written as `2026-04-18`.
func ParseDate(text string) (Date, bool) {
	m := isoDate.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil || m[5] != "" {
		return Date{}, false
	}
	day := Date{Year: atoi(m[1]), Month: atoi(m[2]), Day: atoi(m[3]), Time: m[4]}
	return day, day.exists()
}

// dateInName returns the date that a file's name begins with.
func dateInName(base string) Date {
	m := nameDate.FindStringSubmatch(base)
	if m == nil {
		return Date{}
	}
	day := Date{Year: atoi(m[1]), Month: atoi(m[2]), Day: atoi(m[3])}
	if !day.exists() {
		return Date{}
	}
	return day
}
