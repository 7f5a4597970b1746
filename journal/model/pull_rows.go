package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// pullRows is a pull while its rows are looked at: the points in the order of the file.
type pullRows struct {
	l     *linker
	csv   *parse.CSV
	at    [3]int // columns of engine speed, power and torque; −1 for none
	name  parse.Text
	entry *Entry
	run   *Run
	lost  int // rows that can't be read
}

// What rows of a pull are held to. Common practice, no source.
const (
	jitter       = 0.005              // of the engine speed: as much as a pick-up may tremble
	gapSteps     = 5                  // usual steps from row to row make a gap
	leastGap     = 250 * math.Pi / 30 // rad/s
	spikeShare   = 0.15               // of the peak, beside the line between the two neighbours
	agreement    = 0.01               // of the power: what rounding may leave between power and torque
	shortest     = 500 * math.Pi / 30 // rad/s from the first to the last row
	slowest      = 500 * math.Pi / 30 // rad/s that the greatest engine speed of a pull may have
	fastest      = 1e5 * math.Pi / 30
	judgeable    = 5 // rows, from which on gaps and spikes can be told
	mostPointers = 3 // findings of one kind in one file
)

// look finds what is wrong with the rows, and leaves out what can't belong to the pull.
func (p *pullRows) look() {
	p.fall()
	p.negative()
	p.disagree()
	p.repeat()
	p.spikes()
	p.gaps()
	p.short()
}

// turns reports whether the engine speeds are those of an engine. Thousands of rpm that don't say so are told, and make no pull.
func (p *pullRows) turns() bool {
	top := p.run.Points[0]
	for _, pt := range p.run.Points {
		if pt.Speed > top.Speed {
			top = pt
		}
	}
	do := neverTurns(top.Speed)
	if do != "" {
		p.report("bad-csv", source.Error, p.cell(top, 0).At, fmt.Sprintf("an engine that turns at %s at most makes no pull", showSpeed(top.Speed)), do)
	}
	return do == ""
}

// neverTurns says what to look at where the greatest engine speed of a file is that of no engine; nothing where it may be.
func neverTurns(top float64) string {
	switch {
	case top < slowest:
		return "if these are thousands, say so in the head: `rpm x1000`"
	case top > fastest:
		return "see whether it is the engine's speed, and in which unit"
	}
	return ""
}

// cell returns a point's cell in a column: of engine speed, or of the figure that there is.
func (p *pullRows) cell(pt Point, column int) parse.Cell {
	if p.at[column] < 0 {
		column = 3 - column
	}
	return p.csv.Row(pt.Row)[p.at[column]]
}

func (p *pullRows) report(rule string, severity source.Severity, at source.Range, message, do string, notes ...source.Remark) {
	notes = append(notes, source.Remark{At: p.name.At, Message: "named here"})
	p.l.report(rule, severity, at, p.csv.File.Name, message, do, notes...).Entry = p.entry.Path
}

func showSpeed(si float64) quantity.Shown {
	return quantity.Show(si, parse.UnitSpelled("rpm"), math.Pi/30)
}

// pulls reports whether there is power, or torque, in any row. A file without makes no pull.
func (p *pullRows) pulls() bool {
	for _, pt := range p.run.Points {
		if pt.Power > 0 && pt.Torque > 0 {
			return true
		}
	}
	cell := p.cell(p.run.Points[0], 1)
	p.report("negative-power", source.Error, cell.At, fmt.Sprintf("no row has %s above nought: this is no pull", p.figures()), "see whether the sign is turned, and which column it is")
	return false
}

// figures names what the file holds of power and torque.
func (p *pullRows) figures() string {
	switch {
	case p.at[1] < 0:
		return "a torque"
	case p.at[2] < 0:
		return "a power"
	}
	return "a power and a torque"
}

// negative leaves out rows in which the engine is driven: a power or a torque below nought is none that it makes.
func (p *pullRows) negative() {
	first, n := Point{}, 0
	isDriven := func(pt Point) bool { return pt.Power < 0 || pt.Torque < 0 }
	for _, pt := range p.run.Points {
		if isDriven(pt) {
			if n++; n == 1 {
				first = pt
			}
		}
	}
	if n == 0 {
		return
	}
	column := 1
	if first.Power >= 0 {
		column = 2
	}
	cell := p.cell(first, column)
	p.report("negative-power", source.Warning, cell.At, fmt.Sprintf("`%s` at %s is below nought, and left out: %s in all", cell.Text, showSpeed(first.Speed), countRows(n)), "take out rows of a shut throttle; mend a sign that is turned")
	p.run.Points = slices.DeleteFunc(slices.Clone(p.run.Points), isDriven)
}

// disagree finds rows whose power and torque contradict each other: P = M·ω. A few of many are left out.
func (p *pullRows) disagree() {
	if p.at[1] < 0 || p.at[2] < 0 {
		return
	}
	peak := 0.0
	for _, pt := range p.run.Points {
		peak = max(peak, math.Abs(pt.Power))
	}
	agrees := func(pt Point) bool {
		return math.Abs(pt.Power-pt.Torque*pt.Speed) <= agreement*max(math.Abs(pt.Power), peak/4)
	}
	var bad []Point
	for _, pt := range p.run.Points {
		if !agrees(pt) {
			bad = append(bad, pt)
		}
	}
	if len(bad) == 0 {
		return
	}
	words := rowsWords(len(bad))
	if len(bad) <= len(p.run.Points)/10 {
		words += ", and " + map[bool]string{true: "it is", false: "they are"}[len(bad) == 1] + " left out" // nobody knows which of the two is wrong
		p.run.Points = slices.DeleteFunc(slices.Clone(p.run.Points), func(pt Point) bool { return !agrees(pt) })
	} else {
		p.run.Torn = true
	}
	pt := bad[0]
	unit := columnUnit(p.csv.Heads[p.at[1]], quantity.Power)
	p.report("power-torque-disagree", source.Error, p.csv.Row(pt.Row)[p.at[1]].At,
		fmt.Sprintf("%s at %s, and the torque beside it makes %s: %s", quantity.Show(pt.Power, unit, unit.Factor*0.01), showSpeed(pt.Speed), quantity.Show(pt.Torque*pt.Speed, unit, unit.Factor*0.01), words),
		"power is torque times engine speed: see what units the two columns are in, and whether one is at the wheel or corrected and the other not"+p.wouldAgree(), source.Remark{At: p.csv.Row(pt.Row)[p.at[2]].At, Message: "the torque"})
}

// wouldAgree says in which units the columns would agree, of power or of torque; nothing where no other makes them.
func (p *pullRows) wouldAgree() string {
	if !p.run.Torn {
		return "" // it is single cells
	}
	var found []string
	for i, c := range figureColumns {
		column, other := 1+i, 2-i
		at := p.at
		at[column] = -1
		units := [3]*quantity.Unit{columnUnit(p.csv.Heads[at[0]], quantity.Rotation)}
		units[other] = columnUnit(p.csv.Heads[at[other]], figureColumns[1-i].dimension)
		if unit, _ := p.l.unitBeside(p.csv, p.at[column], at, units); unit != nil {
			found = append(found, fmt.Sprintf("the %s in %s", c.dimension, unit.Symbol))
		}
	}
	if len(found) == 0 {
		return ""
	}
	return ": they agree with " + strings.Join(found, ", or with ")
}

// rowsWords says in how many rows two figures contradict each other.
func rowsWords(n int) string {
	if n == 1 {
		return "in this row alone they contradict each other"
	}
	return fmt.Sprintf("in %d rows they contradict each other", n)
}

// fall finds where the engine speed falls. What stands after the greatest speed is not of the pull, and is left out.
func (p *pullRows) fall() {
	points := p.run.Points
	if len(points) < judgeable {
		return
	}
	top := 0
	for i, pt := range points {
		if pt.Speed > points[top].Speed {
			top = i
		}
	}
	least := points[top].Speed * (1 - jitter)
	down := slices.IndexFunc(points[top:], func(pt Point) bool { return pt.Speed < least })
	switch {
	case down < 0:
	case top < len(points)/10:
		p.report("falling-speed", source.Warning, p.cell(points[top+down], 0).At, fmt.Sprintf("the engine speed falls from row to row, from %s to %s", showSpeed(points[top].Speed), showSpeed(points[len(points)-1].Speed)),
			"nothing need be done if the rows were only sorted so; what an engine makes while it runs down is no power")
		return
	default:
		p.report("falling-speed", source.Warning, p.cell(points[top+down], 0).At,
			fmt.Sprintf("here the engine speed has fallen to %s, from %s: what stands after the greatest is left out, %s", showSpeed(points[top+down].Speed), showSpeed(points[top].Speed), countRows(len(points)-1-top)),
			"end the file where the throttle was shut")
		p.run.Points = points[:top+1]
	}
	p.behind(points[:top+1])
}

// behind finds rows that stand after one of a greater speed, on the way up.
func (p *pullRows) behind(points []Point) {
	greatest, n, first := 0.0, 0, Point{}
	was := 0.0
	for _, pt := range points {
		if pt.Speed < greatest*(1-jitter) {
			if n++; n == 1 {
				first, was = pt, greatest
			}
		}
		greatest = max(greatest, pt.Speed)
	}
	if n == 0 {
		return
	}
	p.report("falling-speed", source.Warning, p.cell(first, 0).At, fmt.Sprintf("the engine speed falls from %s to %s here, and in %s in all: the rows are read by their speed", showSpeed(was), showSpeed(first.Speed), countRows(n)),
		"see whether two pulls stand in one file, or rows are out of order")
}

func countRows(n int) string {
	if n == 1 {
		return "1 row"
	}
	return fmt.Sprintf("%d rows", n)
}

// repeat finds rows of one engine speed and different figures.
func (p *pullRows) repeat() {
	first, n := -1, 0
	for i := 1; i < len(p.run.Points); i++ {
		if a, b := p.run.Points[i-1], p.run.Points[i]; a.Speed == b.Speed && a.Power != b.Power {
			if n++; first < 0 {
				first = i
			}
		}
	}
	if n == 0 || n > len(p.run.Points)/4 { // a fast logger shows every speed several times
		return
	}
	p.report("repeated-speed", source.Warning, p.cell(p.run.Points[first], 0).At, fmt.Sprintf("%s stands here again with another figure, and so in %s in all: their mean is taken", showSpeed(p.run.Points[first].Speed), countRows(n)),
		"take out the rows that don't belong to this pull")
}

// spikes leaves out rows that stand far off the line between their neighbours.
func (p *pullRows) spikes() {
	points := p.run.Points
	if len(points) < judgeable {
		return
	}
	sorted := make([]float64, len(points))
	for i, pt := range points {
		sorted[i] = pt.Power
	}
	slices.Sort(sorted)
	usual := sorted[len(sorted)*9/10] // nearly the peak, and no spike
	var bad []int
	for i, pt := range points {
		j, k := i-1, i+1
		if i == 0 {
			j, k = 1, 2
		}
		if i == len(points)-1 {
			j, k = i-2, i-1
		}
		a, b := points[j], points[k]
		between := (a.Power + b.Power) / 2
		if a.Speed != b.Speed {
			between = a.Power + (b.Power-a.Power)*(pt.Speed-a.Speed)/(b.Speed-a.Speed)
		}
		if off := math.Abs(pt.Power - between); off > spikeShare*usual && off > 2*math.Abs(a.Power-b.Power) && !(len(bad) > 0 && bad[len(bad)-1] == i-1) {
			bad = append(bad, i)
		}
	}
	if len(bad) == 0 || len(bad) > len(points)/10+1 {
		return
	}
	for _, i := range bad[:min(len(bad), mostPointers)] {
		cell := p.cell(points[i], 1)
		p.report("pull-spike", source.Warning, cell.At, fmt.Sprintf("`%s` at %s stands far off its neighbours, and is left out", cell.Text, showSpeed(points[i].Speed)), "mend the cell, or take its row out")
	}
	kept := make([]Point, 0, len(points)-len(bad))
	from := 0
	for _, i := range bad { // in order
		kept = append(kept, points[from:i]...)
		from = i + 1
	}
	p.run.Points = append(kept, points[from:]...)
}

// gaps finds steps of the engine speed that are far wider than the others.
func (p *pullRows) gaps() {
	points := p.run.Points
	if len(points) < judgeable {
		return
	}
	var steps []float64
	for i := 1; i < len(points); i++ {
		if step := points[i].Speed - points[i-1].Speed; step > 0 {
			steps = append(steps, step)
		}
	}
	if len(steps) == 0 {
		return
	}
	slices.Sort(steps)
	usual := steps[len(steps)/2]
	told := 0
	for i := 1; i < len(points) && told < mostPointers; i++ {
		if step := points[i].Speed - points[i-1].Speed; step > gapSteps*usual && step > leastGap {
			told++
			p.report("pull-gap", source.Warning, p.cell(points[i], 0).At, fmt.Sprintf("nothing was written down from %s to %s: the curve is straight there", showSpeed(points[i-1].Speed), showSpeed(points[i].Speed)), "see whether rows are missing")
		}
	}
}

// short finds pulls that hardly cover anything.
func (p *pullRows) short() {
	low, high := p.run.Span()
	if high-low < shortest && p.lost == 0 {
		p.report("short-pull", source.Warning, p.csv.File.Whole(), fmt.Sprintf("the pull goes from %s to %s: its peak may be anywhere", showSpeed(low), showSpeed(high)), "pull from well below the peak to well above it, or write the figure of the screen as `peak`")
	}
}
