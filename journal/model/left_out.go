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

// alike is a finding that several files would have in one and the same words: it is reported once, at the first of them.
type alike struct {
	at      int      // among the findings
	message string   // of the first file
	files   []string // that have it
}

// again reports whether a finding of a file was reported for another, by a key that those have in common. If so it says there how many files have it.
func (l *linker) again(key, file, more string) bool {
	was := l.alike[key]
	if was == nil {
		return false
	}
	if !slices.Contains(was.files, file) {
		was.files = append(was.files, file)
		l.findings[was.at].Message = was.message + fmt.Sprintf(more, quantity.Counted(len(was.files)-1, "file"))
	}
	return true
}

// first notes that the finding which was reported last stands for all files of a key.
func (l *linker) first(key, file string) {
	at := len(l.findings) - 1
	l.alike[key] = &alike{at: at, message: l.findings[at].Message, files: []string{file}}
}

// noColumn reports a head that `columns` or `paths` names and a file lacks: once for all files of the list.
func (l *linker) noColumn(told parse.Text, csv *parse.CSV, notes ...source.Remark) {
	key := fmt.Sprintf("%s\x00%d", told.At.File.Name, told.At.Start)
	if l.again(key, csv.File.Name, ", nor have %s more") {
		return
	}
	do := "write the head as it stands in the file"
	var names []string
	for _, head := range csv.Heads {
		names = append(names, head.Cell.Text, head.Name)
	}
	if near := source.Nearest(told.Text, names); near != "" {
		do = fmt.Sprintf("did you mean `%s`?", near)
	}
	l.report("bad-csv", source.Error, told.At, csv.File.Name, fmt.Sprintf("`%s` has no column headed `%s`", csv.File.Name, told.Text), do, notes...)
	l.first(key, csv.File.Name)
}

// figureColumns are power and torque, of which one tells the other.
var figureColumns = [...]*dataColumn{&pullColumns[1], &pullColumns[2]}

// isHeaded reports whether a head is one of the words of a column.
func (c *dataColumn) isHeaded(head parse.Head) bool {
	return slices.ContainsFunc(c.heads, func(word string) bool { return strings.EqualFold(head.Name, word) })
}

// headsContradict reports the one column of power or torque of a file whose head says one and whose unit is of the other, once for all files of an entry: which of the two it is can't be told.
func (l *linker) headsContradict(e *Entry, csv *parse.CSV, columns *parse.Fields) bool {
	for i, c := range figureColumns {
		other := figureColumns[1-i]
		if !columns.Text(other.name).IsZero() {
			continue
		}
		isOther := func(head parse.Head) bool {
			return head.Unit != "" && quantity.UnitOf(head.Unit, other.dimension) != nil
		}
		at := slices.IndexFunc(csv.Heads, func(head parse.Head) bool { return c.isHeaded(head) && isOther(head) })
		if at < 0 || slices.ContainsFunc(csv.Heads, func(head parse.Head) bool { return !c.isHeaded(head) && isOther(head) }) {
			continue // there is another column of what the unit is of
		}
		head := csv.Heads[at]
		if key := e.Path + "\x00" + head.Cell.Text + "\x00contradicts"; !l.again(key, csv.File.Name, ", and so in %s more") {
			l.report("bad-csv", source.Error, head.Cell.At, csv.File.Name, fmt.Sprintf("this column is headed `%s`, which is %s, and `%s` is a unit of %s", head.Name, c.dimension, head.Unit, other.dimension),
				fmt.Sprintf("mend the head or its unit; or say in `columns` what it is: { %s = \"%s\" }", other.name, head.Name))
			l.first(key, csv.File.Name)
		}
		return true
	}
	return false
}

// unreadFigures reports a column headed power, or torque, that is left out beside a good one of the other since it has no unit of what it is: once for all files of an entry. A head of one letter may be of anything, as
// `t [s]` and `P [bar]` are: it is taken for what its figures are, by those beside it.
func (l *linker) unreadFigures(e *Entry, csv *parse.CSV, at [3]int, units [3]*quantity.Unit) {
	for i, c := range figureColumns {
		read, lacks := 2-i, 1+i
		if at[lacks] >= 0 || at[read] < 0 || at[0] < 0 {
			continue
		}
		for j, head := range csv.Heads {
			if slices.Contains(at[:], j) || !c.isHeaded(head) {
				continue
			}
			unit, proportional := l.unitBeside(csv, j, at, units)
			if !proportional && len(head.Name) == 1 {
				continue
			}
			key := e.Path + "\x00" + head.Cell.Text + "\x00unread"
			if l.again(key, csv.File.Name, ", and so in %s more") {
				return
			}
			message := fmt.Sprintf("`%s` has no unit, and is not read", head.Cell.Text)
			if head.Unit != "" {
				message = fmt.Sprintf("`%s` is not a unit of %s: the column `%s` is not read", head.Unit, c.dimension, head.Cell.Text)
			}
			do := "write the unit in brackets after the head"
			if unit != nil {
				do = fmt.Sprintf("write `%s [%s]`: that is what the %s beside it makes", head.Name, unit.Symbol, figureColumns[1-i].dimension)
			}
			l.report("unread-column", source.Warning, head.Cell.At, csv.File.Name, message, do, source.Remark{At: csv.Heads[at[read]].Cell.At, Message: "what is read"}).Entry = e.Path
			l.first(key, csv.File.Name)
			return
		}
	}
}

const (
	sameUnit  = 0.006 // by which the figures of a column may be off a unit in the middle: PS and hp are 1.4 % apart
	oneFactor = 0.03  // by which they may be off that in single rows. Common practice, no source
)

// besideUnits are the units in which power and torque are written.
var besideUnits = map[quantity.Dimension][]string{quantity.Power: {"kW", "hp", "PS", "W"}, quantity.Torque: {"N·m", "lbf·ft", "kgf·m", "lbf·in"}}

// unitBeside reports whether the figures of a column are so many times what is worked out from those that are read, in nine rows of ten, and which unit makes them so; nil for none.
func (l *linker) unitBeside(csv *parse.CSV, column int, at [3]int, units [3]*quantity.Unit) (unit *quantity.Unit, is bool) {
	var ratios []float64
	d := quantity.Torque
	for _, row := range csv.Rows() {
		x, ok := bareNumber(csv, row[column])
		speed, turns := bareNumber(csv, row[at[0]])
		if !ok || !turns || x <= 0 || speed <= 0 {
			continue
		}
		speed = units[0].SI(speed)
		if at[1] >= 0 {
			if power, good := bareNumber(csv, row[at[1]]); good {
				ratios = append(ratios, units[1].SI(power)/speed/x)
			}
			continue
		}
		d = quantity.Power
		if torque, good := bareNumber(csv, row[at[2]]); good {
			ratios = append(ratios, units[2].SI(torque)*speed/x)
		}
	}
	if len(ratios) < judgeable {
		return nil, false
	}
	slices.Sort(ratios)
	middle, near := ratios[len(ratios)/2], 0
	for _, ratio := range ratios {
		if math.Abs(ratio-middle) <= oneFactor*math.Abs(middle) {
			near++
		}
	}
	if 10*near < 9*len(ratios) {
		return nil, false
	}
	for _, symbol := range besideUnits[d] {
		if u := quantity.UnitOf(symbol, d); math.Abs(middle-u.Factor) <= sameUnit*u.Factor {
			return u, true
		}
	}
	return nil, true
}
