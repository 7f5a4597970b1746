package model

import (
	"fmt"
	"math"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// logFile is one file of a log while it is read.
type logFile struct {
	csv      *parse.CSV
	time     logColumn
	speed    logColumn
	throttle logColumn
	lambda   logColumn
	courses  []logColumn
	scale    scale
	top      Peak    // the greatest engine speed
	ends     float64 // the log's time where the file begins
}

// file reads one file of the log, row by row.
func (r *logReader) file(name parse.Text) bool {
	csv := r.data(name)
	if csv == nil {
		return false
	}
	f := &logFile{csv: csv, ends: r.clock.elapsed}
	r.log.Files = append(r.log.Files, csv.File)
	if !r.columns(f, name) {
		return false
	}
	r.clock.start()
	for i, row := range csv.Rows() {
		if !r.row(f, row, i) {
			r.bad++
		}
		if r.bad == maxBadRows {
			r.report("bad-csv", source.Error, csv.File.Whole(), csv.File.Name, fmt.Sprintf("%d rows can't be read; the rest is left unread", r.bad), "mend the file")
			return false
		}
	}
	if r.clock.back > 0 {
		r.report("falling-time", source.Warning, r.clock.backAt, csv.File.Name, fmt.Sprintf("the time steps back here%s", alsoBack(r.clock.back-1)),
			"split the file where another log begins, and name both in `data`; what lies between two such rows counts for nothing", source.Remark{At: name.At, Message: "named here"})
	}
	return r.turns(f) && r.isOneScale(f)
}

// turns reports whether the engine speeds are those of an engine, or it stood still.
func (r *logReader) turns(f *logFile) bool {
	if !(f.top.SI > 0) {
		return true
	}
	do := neverTurns(f.top.SI)
	if do != "" {
		r.report("bad-csv", source.Error, f.top.Cell, f.csv.File.Name, fmt.Sprintf("an engine that turns at %s at most tells nothing of its mixture", showSpeed(f.top.SI)), do)
	}
	return do == ""
}

func alsoBack(more int) string {
	switch more {
	case 0:
		return ""
	case 1:
		return ", and once more"
	}
	return fmt.Sprintf(", and %d times more", more)
}

// row takes in one row; what a cell doesn't hold was not seen in it. It is false where a cell can't be read.
func (r *logReader) row(f *logFile, row []parse.Cell, number int) bool {
	time, good := r.cell(f, row, f.time, float64(number))
	if !good {
		return false
	}
	weight := 1.0
	if r.log.Timed {
		weight = r.clock.tick(time, row[max(f.time.at, 0)].At)
	}
	now := f.ends + r.clock.elapsed
	if !r.log.Timed {
		now = r.log.Span
	}
	r.log.Span += weight
	for _, c := range f.courses {
		x, good := r.cell(f, row, c, math.NaN())
		if !good {
			return false
		}
		if !math.IsNaN(x) {
			c.course.add(now, x, row[c.at])
		}
	}
	if r.log.Mixture == nil {
		return true
	}
	var si [3]float64
	for i, c := range [...]logColumn{f.speed, f.throttle, f.lambda} {
		if si[i], good = r.cell(f, row, c, math.NaN()); !good {
			return false
		}
	}
	if si[0] > f.top.SI {
		f.top = Peak{SI: si[0], Cell: row[f.speed.at].At}
	}
	if !math.IsNaN(si[2]) {
		f.scale.add(si[2])
	}
	if !math.IsNaN(si[0] + si[1] + si[2]) {
		r.log.Mixture.add(sample{si[0], si[1], si[2] / f.scale.ratio, weight, row[f.lambda.at].At})
	}
	return true
}

// cell reads a cell in SI. A column that isn't there, and a cell that holds nothing, give what is said.
func (r *logReader) cell(f *logFile, row []parse.Cell, c logColumn, nothing float64) (float64, bool) {
	if c.unit == nil {
		return nothing, true
	}
	switch row[c.at].Text {
	case "", "-", "–", "NaN", "nan", "n/a":
		return nothing, true
	}
	x, good := r.number(f.csv, row[c.at])
	if !good {
		return 0, false
	}
	return c.unit.SI(x), true
}

// add takes in one figure of a course.
func (c *Course) add(now, si float64, cell parse.Cell) {
	first := len(c.Trace.Stretches) == 0
	if first || si > c.Greatest.SI {
		c.Greatest = Peak{si, now, cell.At}
	}
	if first || si < c.Least.SI {
		c.Least = Peak{si, now, cell.At}
	}
	c.End = now
	c.Step = min(c.Step, stepOf(cell.Text))
	c.Trace.Add(now, si)
}

// stepOf returns the place of the last digit of a number.
func stepOf(text string) float64 {
	i := strings.IndexAny(text, ".,")
	if i < 0 {
		return 1
	}
	return math.Pow10(i + 1 - len(text))
}

// pause is how many times its usual step a log's time may go on before the logger must have been off: common practice, no source.
const pause = 10

// clock is the time of a log. A row counts for the time since the one before; where the logger was off between them, for as long as rows usually do.
type clock struct {
	last, usual float64
	elapsed     float64 // s since the file began
	running     bool
	paused      bool
	back        int // how often it went back
	backAt      source.Range
}

// start begins a file: its time has nothing to do with that of the one before.
func (c *clock) start() { *c = clock{} }

// tick takes the time of a row and returns what the row counts for; nought where that can't be told.
func (c *clock) tick(time float64, at source.Range) float64 {
	step := time - c.last
	if !c.running {
		c.running, c.last = true, time
		return 0
	}
	c.last = time
	if step < 0 {
		if c.back++; c.back == 1 {
			c.backAt = at
		}
		return 0
	}
	c.elapsed += step
	if c.usual > 0 && step > pause*c.usual && !c.paused {
		c.paused = true
		return c.usual
	}
	if step > 0 {
		c.usual, c.paused = step, false
	}
	return step
}

// scale is what the figures of a mixture are in: lambda, or air-fuel ratios.
type scale struct {
	ratio   float64 // that stands for lambda 1
	ratios  bool    // the column says that it holds air-fuel ratios
	seen    int     // figures
	lambdas int     // of them, those of a lambda at which fuels burn
	afrs    int     // those of an air-fuel ratio at which they do
}

// Air-fuel ratios at which fuels burn, from rich methanol to lean petrol: from memory.
var burningRatios = quantity.Span{Low: 3.5, High: 24}

// strays is the share of figures that may be of the other scale by chance: common practice, no source.
const strays = 0.05

func (s *scale) add(x float64) {
	s.seen++
	switch {
	case burning.Holds(x):
		s.lambdas++
	case burningRatios.Holds(x):
		s.afrs++
	}
}

// isOther reports whether the figures are of the other scale: most of them, and hardly any of their own. While the throttle is shut a meter may show anything.
func (s *scale) isOther() bool {
	own, other := s.lambdas, s.afrs
	if s.ratios {
		own, other = other, own
	}
	return 2*other > s.seen && float64(own) <= strays*float64(s.seen)
}

// isOneScale reports whether the figures of the mixture are what their column says.
func (r *logReader) isOneScale(f *logFile) bool {
	s := &f.scale
	if !s.isOther() {
		return true
	}
	head := f.csv.Heads[f.lambda.at].Cell
	message, do := fmt.Sprintf("the column `%s` is of lambda, and holds the figures of air-fuel ratios", head.Text), "head it `AFR`, and say in `ratio` what the meter shows at lambda 1"
	if s.ratios {
		message, do = fmt.Sprintf("the column `%s` is of air-fuel ratios, and holds the figures of lambda", head.Text), "head it `lambda`"
	}
	r.report("ratio-for-lambda", source.Error, head.At, f.csv.File.Name, message, do)
	return false
}
