package model_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// pullFile is how a program writes pulls: what parts the cells, its decimal sign, and where units stand.
type pullFile struct {
	name, separator, decimal string
	heads                    []string // rows
	quoted                   bool
}

var pullFiles = []pullFile{
	{"comma, units in brackets", ",", ".", []string{"time [s],rpm,P [hp],lambda"}, false},
	{"comma, quoted, units in the next row", ",", ".", []string{"time,rpm,power,lambda", "s,1/min,hp,-"}, true},
	{"semicolon, decimal comma", ";", ",", []string{"time (s);n (1/min);P (hp);lambda"}, false},
	{"semicolon, units in the next row", ";", ",", []string{"time;speed;power;lambda", "s;rpm;hp;-"}, false},
	{"semicolon, decimal point", ";", ".", []string{"t [s];n [rpm];p [hp];λ"}, false},
	{"tab, decimal comma", "\t", ",", []string{"time [s]\trpm\tP [hp]\tlambda"}, false},
	{"tab, units in the next row", "\t", ".", []string{"time\trpm\tpower\tlambda", "s\trpm\thp\t-"}, false},
	{"tab, thousands", "\t", ",", []string{"time\tn\tpower\tAFR", "s\t1000/min\thp\t-"}, false},
}

// row writes a row; speeds in a file of thousands have three decimals more.
func (f pullFile) row(time int, rpm, power string) []string {
	if strings.Contains(strings.Join(f.heads, ""), "1000") {
		if x, err := strconv.ParseFloat(rpm, 64); err == nil {
			rpm = strconv.FormatFloat(x/1000, 'f', 3, 64)
		}
	}
	cells := []string{fmt.Sprintf("%d.%d", time/10, time%10), rpm, power, "0.88"}
	for i, c := range cells {
		cells[i] = strings.Replace(c, ".", f.decimal, 1)
		if f.quoted {
			cells[i] = `"` + cells[i] + `"`
		}
	}
	return cells
}

// What is wrong with a row is told at its cell, in whatever way the file is written: the place is counted anew from the text that was written.
func TestRowsOfAPullAreToldInTheirPlace(t *testing.T) {
	for _, c := range []struct {
		name, rule string
		row, cell  int                                            // that it is told at, counted from 0
		spoil      func(rpm, power []string) ([]string, []string) // of ten rows from 4000 to 8500 rpm and from 8 to 17 hp
	}{
		{"not a number", "bad-csv", 3, 2, func(rpm, power []string) ([]string, []string) { power[3] = "n/a"; return rpm, power }},
		{"a speed that is none", "bad-csv", 4, 1, func(rpm, power []string) ([]string, []string) { rpm[4] = "-1"; return rpm, power }},
		{"an empty cell", "bad-csv", 5, 2, func(rpm, power []string) ([]string, []string) { power[5] = ""; return rpm, power }},
		{"two rows changed places", "falling-speed", 5, 1, func(rpm, power []string) ([]string, []string) {
			rpm[4], rpm[5], power[4], power[5] = rpm[5], rpm[4], power[5], power[4]
			return rpm, power
		}},
		{"the throttle was shut", "falling-speed", 10, 1, func(rpm, power []string) ([]string, []string) {
			return append(rpm, "7000", "6000"), append(power, "3.0", "2.0")
		}},
		{"sorted the other way", "falling-speed", 1, 1, func(rpm, power []string) ([]string, []string) {
			slices.Reverse(rpm)
			slices.Reverse(power)
			return rpm, power
		}},
		{"a speed stands twice", "repeated-speed", 5, 1, func(rpm, power []string) ([]string, []string) { rpm[5] = rpm[4]; return rpm, power }},
		{"rows are missing", "pull-gap", 8, 1, func(rpm, power []string) ([]string, []string) {
			rpm[8], rpm[9] = "11000", "11500"
			return rpm, power
		}},
		{"a spike", "pull-spike", 6, 2, func(rpm, power []string) ([]string, []string) { power[6] = "41.5"; return rpm, power }},
	} {
		for _, f := range pullFiles {
			t.Run(c.name+", "+f.name, func(t *testing.T) {
				var rpm, power []string
				for i := range 10 {
					rpm, power = append(rpm, strconv.Itoa(4000+500*i)), append(power, fmt.Sprintf("%d.25", 8+i))
				}
				rpm, power = c.spoil(rpm, power)
				lines := slices.Clone(f.heads)
				column := 0
				for i := range rpm {
					cells := f.row(i, rpm[i], power[i])
					if i == c.row {
						column = len([]rune(strings.Join(cells[:c.cell], f.separator))) + 2
					}
					lines = append(lines, strings.Join(cells, f.separator))
				}
				r := compile(t, "-- data/p.csv --\n"+strings.Join(lines, "\n")+"\n-- 2026-01-01.md --\n[[pulls]]\ndata = \"data/p.csv\"\n", "")
				var got []string
				for _, found := range r.Findings {
					line, at, _, _ := found.At.Position()
					got = append(got, fmt.Sprintf("%s %s:%d:%d", found.Rule, found.At.File.Name, line, at))
				}
				if want := []string{fmt.Sprintf("%s data/p.csv:%d:%d", c.rule, len(f.heads)+c.row+1, column)}; !slices.Equal(got, want) {
					t.Errorf("found %q, want %q in\n%s", got, want, strings.Join(lines, "\n"))
				}
			})
		}
	}
}
