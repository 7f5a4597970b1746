package model

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// cells reads the figures of one data file, which are bare numbers.
type cells struct {
	*linker
	csv *parse.CSV
	bad []int // how many of each column can't be used
}

// maxBadCells is how many cells of a column are told of one by one: a logger that writes one word through half a ride has one fault.
const maxBadCells = 3

func (l *linker) cells(csv *parse.CSV) *cells {
	return &cells{l, csv, make([]int, len(csv.Heads))}
}

// number reads the cell of a row in a column.
func (c *cells) number(row []parse.Cell, column int) (float64, bool) {
	text := row[column].Text
	if c.csv.PartsThousands(row[column]) {
		c.cant(row, column, "thousands", fmt.Sprintf("`%s` has a point, in a file whose decimal sign is a comma", text), "write thousands without a point")
		return 0, false
	}
	if c.csv.DecimalComma {
		text = strings.Replace(text, ",", ".", 1)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || x != x || x > 1e12 || x < -1e12 || strings.ContainsAny(text, "xXpP_") {
		message := fmt.Sprintf("`%s` is not a number", text)
		if strings.TrimSpace(text) == "" {
			message = "the cell is empty"
		}
		c.cant(row, column, "bad-csv", message, "mend the cell, or take its row out")
		return 0, false
	}
	return x, true
}

// cant reports a cell that can't be used, while it is one of the first of its column.
func (c *cells) cant(row []parse.Cell, column int, rule, message, do string) {
	if c.bad[column]++; c.bad[column] <= maxBadCells {
		c.report(rule, source.Error, row[column].At, c.csv.File.Name, message, do)
	}
}

// end tells, once all rows are read, of the cells that were passed over.
func (c *cells) end() {
	for i, n := range c.bad {
		if more := n - maxBadCells; more > 0 {
			c.report("bad-csv", source.Error, c.csv.Heads[i].Cell.At, c.csv.File.Name, moreBadCells(c.csv.Heads[i].Cell.Text, more),
				"mend the column, or take those rows out; a cell that holds nothing stays empty")
		}
	}
}

func moreBadCells(head string, more int) string {
	if more == 1 {
		return fmt.Sprintf("one cell more of `%s` can't be used", head)
	}
	return fmt.Sprintf("%d cells more of `%s` can't be used", more, head)
}
