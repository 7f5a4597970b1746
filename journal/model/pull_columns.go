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

// areUnitsSwapped reports two columns of a pull of which each has the unit of the other: in the row below the heads they are easily set so.
func (l *linker) areUnitsSwapped(csv *parse.CSV) bool {
	named := func(c *dataColumn) *parse.Head {
		for _, word := range c.heads {
			if at := csv.Column(word); at >= 0 && len(word) > 1 && csv.Heads[at].Unit != "" {
				return &csv.Heads[at]
			}
		}
		return nil
	}
	for i := range pullColumns {
		for j := range i {
			a, b := &pullColumns[j], &pullColumns[i]
			first, second := named(a), named(b)
			if first == nil || second == nil || !isOfAnother(first.Unit, a.dimension) || !isOfAnother(second.Unit, b.dimension) || columnUnit(*first, b.dimension) == nil || columnUnit(*second, a.dimension) == nil {
				continue
			}
			at := first.UnitAt
			if at.IsZero() {
				at = first.Cell.At
			}
			l.report("bad-csv", source.Error, at, csv.File.Name, fmt.Sprintf("`%s` is in `%s` here, and `%s` in `%s`: the units are swapped", first.Name, first.Unit, second.Name, second.Unit), "write each unit with its own column")
			return true
		}
	}
	return false
}

// sameColumn is the share by which two columns of one figure may differ by rounding.
const sameColumn = 0.01

// secondColumns notes, once a session's entry, a further column of power or torque that has other figures than the one that is read, where nothing but its head says which that is.
func (l *linker) secondColumns(e *Entry, csv *parse.CSV, at [3]int, columns *parse.Fields) {
	for i := range at {
		c := &pullColumns[i]
		if i == 0 || at[i] < 0 || !columns.Text(c.name).IsZero() {
			continue
		}
		taken := csv.Heads[at[i]]
		for j, head := range csv.Heads {
			spelling := head.Unit
			if spelling == "" {
				spelling = head.Name
			}
			unit := quantity.UnitOf(spelling, c.dimension)
			if strings.EqualFold(head.Cell.Text, taken.Cell.Text) {
				continue // that one head stands twice was reported with the heads
			}
			if slices.Contains(at[:], j) || spelling == "" || unit == nil {
				continue
			}
			if differ, _ := compare(csv, at[i], j, columnUnit(taken, c.dimension), unit); !differ {
				continue
			}
			if key := e.Path + "\x00" + head.Cell.Text; !l.secondTold[key] {
				l.secondTold[key] = true
				l.report("second-column", source.Note, head.Cell.At, csv.File.Name, fmt.Sprintf("`%s` is of %s too, and has other figures than `%s`, which is read", head.Cell.Text, c.dimension, taken.Cell.Text),
					fmt.Sprintf("say which one is meant in `columns`: { %s = \"%s\" }", c.name, taken.Cell.Text), source.Remark{At: taken.Cell.At, Message: "the one that is read"}).Entry = e.Path
			}
			break
		}
	}
}

// compare reports whether two columns hold other figures, in any row that holds both, and whether there is such a row. What can't be read is no figure.
func compare(csv *parse.CSV, a, b int, of, other *quantity.Unit) (differ, compared bool) {
	for _, row := range csv.Rows() {
		x, ok := bareNumber(csv, row[a])
		y, too := bareNumber(csv, row[b])
		if !ok || !too {
			continue
		}
		compared = true
		if x, y = of.SI(x), other.SI(y); math.Abs(x-y) > sameColumn*max(math.Abs(x), math.Abs(y)) {
			return true, true
		}
	}
	return false, compared
}

// bareNumber reads a cell quietly.
func bareNumber(csv *parse.CSV, cell parse.Cell) (float64, bool) {
	text := strings.TrimSpace(cell.Text)
	if csv.DecimalComma {
		text = strings.Replace(text, ",", ".", 1)
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && !math.IsNaN(x) && !math.IsInf(x, 0)
}
