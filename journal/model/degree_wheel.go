package model

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/locknut/journal/calc"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// liftColumns are the columns of a degree-wheel file.
var liftColumns = [...]dataColumn{
	{name: "angle", dimension: quantity.Angle, heads: []string{"crank", "angle", "crank angle", "wheel", "degrees", "deg"}},
	{name: "lift", dimension: quantity.Length, heads: []string{"lift", "valve lift", "cam lift", "dial"}},
}

// curve reads the file and makes a curve of it that is counted from the top dead centre of overlap.
func (l *linker) curve(d *Degreeing, table *parse.Fields) bool {
	csv := l.data(d.Name)
	if csv == nil {
		return false
	}
	d.File = csv.File
	points, rows, at, ok := l.liftPoints(d, csv, table)
	if !ok || l.isTooHigh(d, csv, points, at[1]) {
		return false
	}
	zero, period, ok := l.wheelZero(d, table.Text("zero"))
	if !ok {
		return false
	}
	d.zero = zero.Shares
	throughNought(points)
	if d.fault(l, csv, points, rows, at) {
		return false
	}
	middle, err := d.Curve.Middle()
	if err != nil {
		return true // it is reported when the middle is told
	}
	usual := UsualMiddle(strings.TrimPrefix(d.Of, "cam."))
	shift := zero.Value + period*math.Round((usual-zero.Value-middle.Angle)/period)
	if off := middle.Angle + shift - usual; math.Abs(off) > farFromMiddle {
		l.elsewhere = append(l.elsewhere, lobeElsewhere{d, table.Name("of").At, middle.Angle + zero.Value})
		return false
	}
	for i := range points {
		points[i].Angle += shift
	}
	if d.Curve, err = calc.NewLiftCurve(points); err != nil {
		l.notDegreed(d, err.Error(), "look at the figures of the file")
		return false
	}
	return true
}

// fault makes the curve, and reports what it is refused for at its cell.
func (d *Degreeing) fault(l *linker, csv *parse.CSV, points []calc.LiftPoint, rows []int, at [2]int) bool {
	curve, err := calc.NewLiftCurve(points)
	if err == nil {
		d.Curve = curve
		return false
	}
	where, message, do := csv.File.Whole(), err.Error(), "measure the whole lobe, every 5° or closer"
	var fault *calc.LiftFault
	if errors.As(err, &fault) && fault.Point >= 0 {
		column := at[0]
		if fault.Lift {
			column = at[1]
		}
		where, do = csv.Row(rows[fault.Point])[column].At, "mend the cell, or take its row out"
	}
	if fault != nil && fault.Shut {
		off := d.shown(points[fault.Point].Lift)
		message = fmt.Sprintf("%s: it stands at %s where the valve is shut", message, off)
		do = fmt.Sprintf("set it to nought there and measure again; if it was off by that throughout, take %s off every lift", off)
	}
	l.misread(d, csv, where, message, do)
	return true
}

// misread reports what is wrong with a file where it stands in it.
func (l *linker) misread(d *Degreeing, csv *parse.CSV, at source.Range, message, do string) {
	l.report("bad-degreeing", source.Error, at, csv.File.Name, message, do, source.Remark{At: d.name, Message: "named here"}).Entry = d.Entry.Path
}

// Lifts are those of the valves, in m, of engines that are degreed on a bench. Common practice, no source.
var Lifts = quantity.Span{Low: 2e-3, High: 40e-3}

// RockerRatios are those of rockers, valve movement over cam movement, with a follower on the valve itself. Common practice, no source.
var RockerRatios = quantity.Span{Low: 0.8, High: 2.2}

// UsualMiddle returns where the middle of a lobe usually stands, `intake` or `exhaust`, in rad of the crank after the top dead centre of overlap. Common practice, no source.
func UsualMiddle(side string) float64 {
	if side == "exhaust" {
		return -usualMiddle
	}
	return usualMiddle
}

const (
	usualMiddle   = 110 * math.Pi / 180
	farFromMiddle = math.Pi / 2 // from there: no lobe's is
)

// StrokesOverBores are what the stroke of an engine is over its bore. Common practice, no source.
var StrokesOverBores = quantity.Span{Low: 1. / 3, High: 2.5}

// isBoreAbsurd reports whether a bore goes with no stroke, so that nothing is concluded from it.
func (l *linker) isBoreAbsurd(bore *Value, e *Entry) bool {
	stroke := figureOf(l.journal.at("engine.stroke", orderOf(e.Index, momentDegreed)))
	return stroke != nil && bore.Estimate.Value > 0 && !StrokesOverBores.Holds(stroke.Estimate.Value/bore.Estimate.Value)
}

// isTooHigh reports, at the head of their column, lifts that no valve has: they are of another unit than their head says. None opens by half of the bore.
func (l *linker) isTooHigh(d *Degreeing, csv *parse.CSV, points []calc.LiftPoint, column int) bool {
	most, peak := Lifts.High, 0.0
	bore := figureOf(l.journal.at("engine.bore", orderOf(d.Entry.Index, momentDegreed)))
	if bore != nil && !l.isBoreAbsurd(bore, d.Entry) {
		most = min(most, bore.Estimate.Value/2)
	}
	over := 0
	for _, p := range points {
		peak = max(peak, p.Lift)
		if p.Lift > most {
			over++
		}
	}
	if over < 2 { // none, or one that stands far above the two beside it
		return false
	}
	message, do := fmt.Sprintf("the greatest lift would be %s, and no valve opens so far", quantity.Show(peak, d.heights, dialStep)), "look at the head of the column: at its unit, and whether these are the lifts"
	if mm := quantity.UnitOf("mm", quantity.Length); d.heights != mm {
		message = fmt.Sprintf("the greatest lift would be %s, which is %s, and no valve opens so far", quantity.Show(peak, d.heights, dialStep), quantity.Show(peak, mm, dialStep))
		do = "mend the unit in the head of the column: these are millimetres, by the look of them"
		if d.heights.FromSI(peak) > mm.FromSI(most) {
			do = "look at the head of the column: at its unit, and whether these are the lifts"
		}
	}
	l.misread(d, csv, csv.Heads[column].Cell.At, message, do)
	return true
}

// liftPoints reads the rows of a file, in SI, and which row each point comes from.
func (l *linker) liftPoints(d *Degreeing, csv *parse.CSV, table *parse.Fields) (points []calc.LiftPoint, rows []int, at [2]int, ok bool) {
	var units [2]*quantity.Unit
	for i, c := range liftColumns {
		column, good := l.column(csv, c, table.Table("columns"))
		if !good {
			return nil, nil, at, false
		}
		if column < 0 {
			l.report("bad-csv", source.Error, csv.Heads[0].Cell.At.To(csv.Heads[len(csv.Heads)-1].Cell.At), csv.File.Name,
				"a degree-wheel file needs a column of crank angle and one of lift, with their units", "name them in the head row, as in `crank [°],lift [mm]`, or in `columns`")
			return nil, nil, at, false
		}
		at[i], units[i] = column, columnUnit(csv.Heads[column], c.dimension)
	}
	d.heights = units[1]
	bad, cells := csv.Ragged, l.cells(csv)
	for r, row := range csv.Rows() {
		angle, good := cells.number(row, at[0])
		lift, too := cells.number(row, at[1])
		if good && too {
			points, rows = append(points, calc.LiftPoint{Angle: units[0].SI(angle), Lift: units[1].SI(lift)}), append(rows, r)
			continue
		}
		if bad++; bad == maxBadRows && r < csv.Len()-1 {
			l.report("bad-csv", source.Error, csv.File.Whole(), csv.File.Name, fmt.Sprintf("%d rows can't be read; the rest is left unread", bad), "mend the file: these are not the lifts of a cam")
			return nil, nil, at, false
		}
	}
	cells.end()
	return points, rows, at, bad == 0 // with a row left out a slip beside it would not be seen
}

// throughNought lets a wheel of 360° run on where it goes through its nought once: what stands before that is before nought.
func throughNought(points []calc.LiftPoint) {
	back := 0
	for i := 1; i < len(points); i++ {
		if points[i].Angle < points[i-1].Angle-3*math.Pi/2 {
			if back > 0 {
				return
			}
			back = i
		}
	}
	for i := range points {
		if points[i].Angle < 0 || points[i].Angle > 2*math.Pi {
			return
		}
	}
	for i := range back {
		points[i].Angle -= 2 * math.Pi
	}
}

// wheelZero returns where the wheel's nought stands, in rad after the top dead centre of overlap, and what it may be off by: by whole periods (rad), because a wheel on the
// crank can't tell one top dead centre from the other; that of the two turns of a cycle where the builder says which.
func (l *linker) wheelZero(d *Degreeing, text parse.Text) (zero quantity.Estimate, period float64, ok bool) {
	zero.Dimension = quantity.Angle
	bottom := math.Pi
	if d.Of == "cam.exhaust" {
		bottom = -bottom
	}
	cycle := 4 * math.Pi
	switch FoldWords(text.Text) {
	case "stop":
		zero, ok = l.stopZero(d, text)
		return zero, cycle / 2, ok
	case "", "tdc", "overlap tdc", "top dead centre", "overlap top dead centre":
		return zero, cycle, true
	case "firing tdc", "compression tdc", "firing top dead centre", "compression top dead centre":
		zero.Value = 2 * math.Pi
		return zero, cycle, true
	case "bdc", "bottom dead centre":
		zero.Value = bottom
		return zero, cycle, true
	}
	written, slip := quantity.Parse(text.Text)
	if slip == nil {
		q, refused := written.Resolve(quantity.Want{Dimensions: []quantity.Dimension{quantity.Angle}})
		if angle, told := OverlapAngle(d.Of+".centre", q); refused == nil && told && q.Kind == quantity.Figure {
			zero.Value = angle
			return zero, cycle, true
		}
	}
	l.report("unknown-word", source.Error, text.At, d.Of, fmt.Sprintf("`%s` doesn't say where the wheel's nought is", text.Text), "write `overlap TDC`, `firing TDC`, `BDC`, an angle from a dead centre, as in `2° ATDC`, or `stop`")
	return zero, 0, false
}
