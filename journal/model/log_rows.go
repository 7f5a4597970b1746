package model

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// logFile is one file of a log while it is read.
type logFile struct {
	name     parse.Text
	csv      *parse.CSV
	cells    *cells
	pulled   []Point // of a pull: its points in the order of their rows, from the next one; nil of other logs, of which every row counts
	point    *Point  // of a pull: that of the row that is read
	time     logColumn
	speed    logColumn
	throttle logColumn
	lambda   logColumn
	courses  []logColumn
	figures  []float64 // of the courses in the row that is read
	scale    scale
	top      Peak    // the greatest engine speed
	second   float64 // the greatest but for that one row, rad/s
	run      int     // rows in which the engine ran
	fast     int     // of them, those in which it turned fast
	swift    float64 // rad/s that this is
	open     Peak    // the widest throttle
	shut     Peak    // the least
	clock    clock
	begins   float64  // the log's time where the file begins
	held     []sample // rows of one time stamp: they share what it counts for
	counts   float64  // that
	span     float64  // s for which it logged, or rows
}

// rows reads the rows of a file. It is false where they are no log's.
func (r *logReader) rows(f *logFile) bool {
	bad := 0
	f.cells = r.cells(f.csv)
	redline := r.redline()
	f.swift = swift
	if redline > 0 {
		f.swift = swiftShare * redline
	}
	for i, row := range f.csv.Rows() {
		if !f.turn(i) {
			continue
		}
		if !r.row(f, row) {
			bad++
		}
		if bad == maxBadRows {
			r.report("bad-csv", source.Error, f.csv.File.Whole(), f.csv.File.Name, fmt.Sprintf("%d rows can't be read; the rest is left unread", bad), "mend the file")
			return false
		}
	}
	f.cells.end()
	r.flush(f)
	if f.csv.Len() == 0 && f.csv.Ragged == 0 {
		r.report("bad-csv", source.Error, f.csv.File.Whole(), f.csv.File.Name, "the log has no row that could be read", "mend its rows")
		return false
	}
	if f.clock.back > 0 {
		r.report("falling-time", source.Warning, f.clock.backAt, f.csv.File.Name, fmt.Sprintf("the time steps back here%s", alsoBack(f.clock.back-1)),
			"split the file where another log begins, and name both in `data`; what lies between two such rows counts for nothing", source.Remark{At: f.name.At, Message: "named here"})
	}
	return r.turns(f) && r.opens(f) && r.ticks(f) && r.isOneScale(f)
}

// turn reports whether it is a row's turn to be read: every one's, or, of a pull, one that makes it.
func (f *logFile) turn(row int) bool {
	if f.pulled == nil {
		return true
	}
	if len(f.pulled) == 0 || f.pulled[0].Row != row {
		return false
	}
	f.point, f.pulled = &f.pulled[0], f.pulled[1:]
	return true
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

// What the throttle of a log is held to. Common practice, no source.
const (
	leastOpening = 0.011               // a log that never opens it further holds shares of one, or only idles
	mostOpening  = 1.1                 // sensors run a little over
	leastShut    = -0.1                // and under
	revved       = 3000 * math.Pi / 30 // rad/s from which on an engine does more than idle
	mostVolts    = 0.055               // what a sensor of 5 V shows at most where its volts stand as per cent
	swift        = 5000 * math.Pi / 30 // rad/s that no engine keeps up with the throttle all but shut, where no redline is given
	swiftShare   = 0.6                 // of the redline, of which that holds
	oftenSwift   = 0.1                 // of the rows in which the engine runs
)

// opens reports whether the throttle openings are such, in per cent.
func (r *logReader) opens(f *logFile) bool {
	at, message := f.open, ""
	switch {
	case f.open.SI > mostOpening:
		message = fmt.Sprintf("a throttle can't be open by %s", quantity.Show(at.SI, parse.UnitSpelled("%"), 0.01))
	case f.shut.SI < leastShut:
		at = f.shut
		message = fmt.Sprintf("a throttle can't be open by %s", quantity.Show(at.SI, parse.UnitSpelled("%"), 0.01))
	case f.open.SI > 0 && f.open.SI <= leastOpening && f.top.SI >= revved, f.open.SI > 0 && f.open.SI <= mostVolts && float64(f.fast) >= oftenSwift*float64(f.run) && f.fast > 0:
		message = fmt.Sprintf("the throttle is never open by more than %s, at up to %s", quantity.Show(at.SI, parse.UnitSpelled("%"), 0.001), showSpeed(f.top.SI))
	default:
		return true
	}
	r.report("bad-csv", source.Error, at.Cell, f.csv.File.Name, message, "the column must hold per cent of full throttle, from 0 to 100: neither shares of one, nor volts, nor what the sensor counts")
	return false
}

// Steps of time from row to row that loggers have. Common practice, no source.
var loggable = quantity.Span{Low: 0.0005, High: 10} // s

// The same of loggers of other things, and of such as log temperatures alone, which change slowly; and how long one of them runs at a stretch. Common practice, no source.
var (
	loggableBeside = quantity.Span{Low: 0.0001, High: 600} // s
	loggableHeat   = quantity.Span{Low: 0.005, High: 600}  // s
)

const longestLog = 24 * 3600 // s

// ticks reports whether the rows follow each other as those of a logger do.
func (r *logReader) ticks(f *logFile) bool {
	if f.csv.Len() < judgeable || !(f.clock.elapsed > 0) || r.log.Mixture == nil && r.log.Pulls != nil {
		return true
	}
	step := f.clock.elapsed / float64(f.csv.Len()-1)
	span, of := loggable, "a mixture"
	switch {
	case r.log.Mixture != nil:
	case slices.ContainsFunc(f.courses, func(c logColumn) bool { return c.unit.Dimension != quantity.Temperature }):
		span, of = loggableBeside, "such figures"
	default:
		span, of = loggableHeat, "temperatures"
	}
	second := parse.UnitSpelled("s")
	message := fmt.Sprintf("by this column there is a row every %s: no logger of %s is so slow, or so fast", quantity.Show(step, second, quantity.TwoFigures(step)), of)
	if span.Holds(step) {
		if r.log.Mixture != nil || f.span <= longestLog {
			return true
		}
		hours := quantity.UnitOf("h", quantity.Duration)
		message = fmt.Sprintf("by this column the log goes on for %s, with a row every %s: nobody runs an engine for so long", quantity.Show(f.span, hours, 3600), quantity.Show(step, second, quantity.TwoFigures(step)))
	}
	r.report("bad-csv", source.Error, f.csv.Heads[f.time.at].Cell.At, f.csv.File.Name, message, "see whether its unit is `s` or `ms`")
	return false
}

// row takes in one row; what a cell doesn't hold was not seen in it. It is false, and the row counts for nothing, where a cell can't be read.
func (r *logReader) row(f *logFile, row []parse.Cell) bool {
	time, good := r.cell(f, row, f.time)
	f.figures = f.figures[:0]
	for _, c := range f.courses {
		x, read := r.cell(f, row, c)
		f.figures, good = append(f.figures, x), good && read
	}
	var si [3]float64
	if r.log.Mixture != nil {
		for i, c := range [...]logColumn{f.speed, f.throttle, f.lambda} {
			x, read := r.cell(f, row, c)
			si[i], good = x, good && read
		}
		if f.throttle.unit == nil {
			si[1] = 1 // a pull is made with the throttle open
		}
	}
	if !good || r.log.Timed && math.IsNaN(time) {
		return good // nobody knows when that was
	}
	now := r.log.Span
	switch {
	case !r.log.Timed:
		r.next(f, 1)
	case f.clock.tick(time, row[f.time.at].At):
		r.next(f, f.clock.step)
		fallthrough
	default:
		now = f.begins + f.clock.elapsed
	}
	for i, c := range f.courses {
		if !math.IsNaN(f.figures[i]) {
			c.course.add(now, f.figures[i], c.unit, row[c.at])
		}
	}
	if r.log.Mixture != nil {
		f.mixture(si, row)
	}
	return true
}

// mixture takes in what a row says of the mixture.
func (f *logFile) mixture(si [3]float64, row []parse.Cell) {
	f.turning(si[0], row)
	if si[1] > f.open.SI && f.throttle.unit != nil {
		f.open = Peak{SI: si[1], Cell: row[f.throttle.at].At}
	}
	if si[1] < f.shut.SI {
		f.shut = Peak{SI: si[1], Cell: row[f.throttle.at].At}
	}
	if !math.IsNaN(si[2]) {
		f.scale.add(si[2])
	}
	if lambda := si[2] / f.scale.ratio; f.point != nil && burning.Holds(lambda) {
		f.point.Lambda = lambda
	}
	if !math.IsNaN(si[0] + si[1] + si[2]) {
		f.held = append(f.held, sample{si[0], si[1], si[2] / f.scale.ratio, row[f.lambda.at].At})
	}
}

// next begins a time stamp that counts for so long.
func (r *logReader) next(f *logFile, counts float64) {
	r.flush(f)
	f.counts = counts
	r.log.Span += counts
	f.span += counts
}

// flush counts the rows of the last time stamp.
func (r *logReader) flush(f *logFile) {
	for _, s := range f.held {
		counts := f.counts / float64(len(f.held))
		if r.log.Pulls != nil {
			counts = 1 // a pull runs through its squares: how fast says nothing of how well they were seen
		}
		r.log.Mixture.add(s, counts)
	}
	f.held = f.held[:0]
}

// cell reads a cell in SI; a column that isn't there, and a cell that holds nothing, are NaN.
func (r *logReader) cell(f *logFile, row []parse.Cell, c logColumn) (float64, bool) {
	if c.unit == nil {
		return math.NaN(), true
	}
	switch row[c.at].Text {
	case "", "-", "–", "NaN", "nan", "n/a":
		return math.NaN(), true
	}
	x, good := f.cells.number(row, c.at)
	return c.unit.SI(x), good
}

// add takes in one figure of a course, in SI; its digits are those of the cell, in the unit.
func (c *Course) add(now, si float64, u *quantity.Unit, cell parse.Cell) {
	first := len(c.Trace.Stretches) == 0
	if first || si > c.Greatest.SI {
		c.Greatest = Peak{si, now, cell.At}
	}
	if first || si < c.Least.SI {
		c.Least = Peak{si, now, cell.At}
	}
	if step := u.StepSI(stepOf(cell.Text), u.FromSI(si)); first || step < c.step {
		c.step = step
	}
	c.End = now
	c.Trace.Add(now, si)
}

// stepOf returns the place of the last digit of a number: 0.1 of 12.5 and of 1.25e1.
func stepOf(text string) float64 {
	mantissa, power, _ := strings.Cut(strings.ToLower(text), "e")
	exponent, _ := strconv.Atoi(power)
	if i := strings.IndexAny(mantissa, ".,"); i >= 0 {
		exponent += i + 1 - len(mantissa)
	}
	return math.Pow10(exponent)
}

// pause is how many times its usual step a log's time may go on before the logger must have been off: common practice, no source.
const pause = 10

// clock is the time of a file. A time stamp counts for the time since the one before; where the logger was off between them, for as long as they usually do.
type clock struct {
	last, usual float64
	step        float64 // that the last stamp counts for
	elapsed     float64 // s since the file began
	running     bool
	paused      bool
	back        int // how often it went back
	backAt      source.Range
}

// tick takes the time of a row, and reports whether it is another than that of the row before.
func (c *clock) tick(time float64, at source.Range) bool {
	step := time - c.last
	if c.running && step == 0 {
		return false
	}
	c.last, c.step = time, 0
	switch {
	case !c.running:
		c.running = true
	case step < 0:
		if c.back++; c.back == 1 {
			c.backAt = at
		}
	case c.usual > 0 && step > pause*c.usual && !c.paused:
		c.elapsed += step
		c.paused, c.step = true, c.usual
	default:
		c.elapsed += step
		c.paused, c.usual, c.step = false, step, step
	}
	return true
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

// mostUnburnt is the share of the time for which an engine ran that lambda may show nothing burning, over a whole log: common practice, no source.
const mostUnburnt = 0.95

// emptiness reports a log that tells nothing of the mixture, and why: where lambda can't be one, at its column.
func (r *logReader) emptiness(m *Mixture) {
	message, do := "", "see whether its columns are the right ones"
	at, file := r.log.At, r.log.Files[0].Name
	switch {
	case !(r.log.Span > 0) || m.Unburnt > 0 && m.Unburnt <= mostUnburnt*m.Ran || m.Unburnt == 0 && m.All.Seen > 0:
		return
	case m.Unburnt > 0:
		message = fmt.Sprintf("this log holds no mixture that can burn: lambda lies outside %s to %s", ShowLambda(burning.Low), ShowLambda(burning.High))
		if m.Unburnt < m.Ran {
			message = fmt.Sprintf("this log holds hardly any mixture that can burn: for %s of the time lambda lies outside %s to %s", quantity.Show(m.Unburnt/m.Ran, parse.UnitSpelled("%"), 0.001), ShowLambda(burning.Low), ShowLambda(burning.High))
		}
		if m.Ratio > 0 {
			message += fmt.Sprintf(", by a ratio of %s for lambda 1", quantity.Show(m.Ratio, parse.UnitSpelled("AFR"), 0.01))
			do = "see whether `ratio` is what this meter shows at lambda 1"
		} else {
			at, do = r.heads, "see whether this is the column of lambda, and what its figures are"
		}
	case r.log.Pulls != nil:
		return // its power speaks
	default:
		message = "in no row of this log the engine ran and lambda was read"
	}
	m.TellsNothing = true
	r.report("empty-log", source.Warning, at, file, message, do).Entry = r.log.Entry.Path
}
