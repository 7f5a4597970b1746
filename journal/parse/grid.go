package parse

import (
	"fmt"
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Grid is a string of several lines that holds a table of figures: one head a column, one a row, and a unit in the corner.
type Grid struct {
	At      source.Range
	Corner  Cell
	Columns []Cell
	Rows    []Cell
	Cells   [][]Cell // by row, then column
}

// Cell is one word of a grid, or one cell of a CSV file, with its place.
type Cell struct {
	Text string
	At   source.Range

	node *node
	base int
}

// grid decodes a grid of readings: a path for each cell.
func (t *readingTree) grid(n *node, path string) {
	g := t.splitGrid(n, path)
	if g == nil {
		t.lost(n, path)
		return
	}
	unit := &column{key: dotted(n.keyAt), words: strings.Count(path, ".") + 1}
	if g.Corner.Text != "" {
		unit.units = quantity.UnitsSpelled(g.Corner.Text)
		if len(unit.units) == 0 {
			t.lost(n, path)
			t.report("unknown-unit", source.Error, g.Corner.At, path, fmt.Sprintf("`%s` is not a unit: the corner of a grid holds the unit of its cells", g.Corner.Text),
				"write the unit there, or leave the corner out and give each cell its own")
			return
		}
	}
	unitless := false // said once for the whole grid
	bad := map[source.Range]bool{}
	for _, head := range append(g.Rows[:len(g.Rows):len(g.Rows)], g.Columns...) {
		if !t.goodHead(head) {
			bad[head.At] = true
		}
	}
	if len(bad) > 0 {
		t.lost(n, path)
	}
	for i, row := range g.Rows {
		for j, column := range g.Columns {
			if bad[row.At] || bad[column.At] {
				continue
			}
			cell := g.Cells[i][j]
			reading := Reading{PathAt: cell.At, State: t.state, Path: below(path, FoldPath(row.Text)+"."+FoldPath(column.Text))}
			value, ok := t.cell(cell, unit, reading.Path, &unitless)
			reading.Value, reading.Unread = value, !ok
			t.readings = append(t.readings, reading)
		}
	}
}

// dotted returns the place of a key with the segments that are typed before it.
func dotted(key source.Range) source.Range {
	start := key.Start
	for start > 0 && (key.File.Text[start-1] == '.' || key.File.Text[start-1] >= 0x80 || isNameRune(rune(key.File.Text[start-1]))) {
		start--
	}
	return key.File.At(start, key.End)
}

// lost notes that a grid, or some of it, can't be read: anything below its path may have been measured there.
func (t *readingTree) lost(n *node, path string) {
	t.readings = append(t.readings, Reading{Path: path, PathAt: n.keyAt, State: t.state, Unread: true})
}

// goodHead reports whether the head of a row or column may be a path.
func (d *decoder) goodHead(head Cell) bool {
	for _, word := range strings.Split(head.Text, ".") {
		if !d.goodName(word, head.At, nil) || !d.goodSegment(word, head.At) {
			return false
		}
	}
	return true
}

// cell decodes one cell of a grid as a value in the grid's unit, or its own.
func (t *readingTree) cell(cell Cell, unit *column, subject string, unitless *bool) (Value, bool) {
	value := Value{At: cell.At, Text: cell.Text, home: inGrid, column: unit}
	value.stand(cell.node, cell.base)
	written, slip := quantity.Parse(cell.Text)
	value.Kind = written.Kind
	if slip != nil {
		t.slip(&value, slip, subject)
		return value, false
	}
	switch {
	case written.Kind == quantity.Words:
		t.report("bad-quantity", source.Error, cell.At, subject, fmt.Sprintf("`%s` is not a figure; words never stand in a grid", cell.Text), "write a figure, or `-` where nothing was measured")
		return value, false
	case written.Kind != quantity.Blank && len(written.Units) == 0:
		if len(unit.units) == 0 && *unitless {
			return value, false
		}
		if len(unit.units) == 0 {
			*unitless = true
			t.report("missing-unit", source.Error, cell.At, subject, fmt.Sprintf("`%s` has no unit, and neither has the grid's corner", cell.Text), "write the unit first in the head row")
			return value, false
		}
	}
	return value, true
}

// splitGrid takes a grid apart and reports rows that don't fit their head. It returns nil if it isn't one.
func (d *decoder) splitGrid(n *node, subject string) *Grid {
	var lines [][]Cell
	for start := 0; start < len(n.text); {
		end := len(n.text)
		if i := strings.IndexByte(n.text[start:], '\n'); i >= 0 {
			end = start + i
		}
		if words := splitWords(n, start, end); len(words) > 0 {
			lines = append(lines, words)
		}
		start = end + 1
	}
	if len(lines) < 2 {
		d.report("bad-grid", source.Error, n.at, subject, "a grid needs a head row and at least one row of figures", "first row: the unit, then a head for each column; then a row for each row head")
		return nil
	}
	g := &Grid{At: n.at, Columns: lines[0]}
	width := usualWidth(lines)
	switch len(lines[0]) {
	case width:
		g.Corner, g.Columns = lines[0][0], lines[0][1:]
	case width - 1:
	default:
		d.report("bad-grid", source.Error, lines[0][0].At.To(lines[0][len(lines[0])-1].At), subject,
			fmt.Sprintf("the head row has %d words, a row below it %d: they should be as many, or one fewer where there is no unit in the corner", len(lines[0]), width),
			"write `-` for a cell that was not measured")
		return nil
	}
	for _, line := range lines[1:] {
		if len(line) != len(g.Columns)+1 {
			d.report("bad-grid", source.Error, line[0].At.To(line[len(line)-1].At), subject,
				fmt.Sprintf("this row has %s; the head has %s", countOf(len(line)-1, "cell"), countOf(len(g.Columns), "column")), "write `-` for a cell that was not measured")
			return nil
		}
		g.Rows = append(g.Rows, line[0])
		g.Cells = append(g.Cells, line[1:])
	}
	if !d.headsOnce(g.Columns, subject) || !d.headsOnce(g.Rows, subject) {
		return nil
	}
	return g
}

// usualWidth returns how many words most rows below the head have, of several as frequent as many as the head, else the first: the odd row is the one that
// is wrong.
func usualWidth(lines [][]Cell) int {
	rows := map[int]int{}
	best := len(lines[0])
	for _, line := range lines[1:] {
		rows[len(line)]++
	}
	if rows[best] == 0 {
		best = len(lines[1])
	}
	for _, line := range lines[1:] {
		if rows[len(line)] > rows[best] {
			best = len(line)
		}
	}
	return best
}

func (d *decoder) headsOnce(heads []Cell, subject string) bool {
	seen := map[string]Cell{}
	for _, head := range heads {
		name := FoldPath(head.Text)
		if first, twice := seen[name]; twice {
			d.report("bad-grid", source.Error, head.At, subject, fmt.Sprintf("the head `%s` stands twice", head.Text), "give each row and column a head of its own")
			d.note(first.At, "the first one")
			return false
		}
		seen[name] = head
	}
	return true
}

func splitWords(n *node, start, end int) []Cell {
	var words []Cell
	for i := start; i < end; {
		if isBlank(n.text[i]) {
			i++
			continue
		}
		j := i
		for j < end && !isBlank(n.text[j]) {
			j++
		}
		words = append(words, Cell{Text: n.text[i:j], At: n.span(i, j), node: n, base: i})
		i = j
	}
	return words
}

func isBlank(b byte) bool { return b == ' ' || b == '\t' || b == '\r' }

// targetGrid decodes a grid of target figures, which stays a grid.
func (d *decoder) targetGrid(f *Field, n *node) bool {
	if !n.isString() {
		return d.wrongKind(f, n)
	}
	f.Grid = d.splitGrid(n, f.Key.Name)
	if f.Grid == nil {
		return false
	}
	good := d.targetCorner(f)
	for i, row := range append([][]Cell{f.Grid.Rows, f.Grid.Columns}, f.Grid.Cells...) {
		for _, cell := range row {
			written, slip := quantity.Parse(cell.Text)
			if slip == nil && written.Kind == quantity.Blank && i > 1 {
				continue // nothing is wanted there
			}
			if slip == nil && written.Kind == quantity.Figure && len(written.Units) == 0 {
				continue
			}
			d.report("bad-grid", source.Error, cell.At, f.Key.Name, fmt.Sprintf("`%s` is not a plain number", cell.Text), "heads are throttle in percent and engine speed in rpm, cells are lambda or AFR, or `-` where nothing is wanted")
			good = false
		}
	}
	return good
}

func (d *decoder) targetCorner(f *Field) bool {
	corner := f.Grid.Corner
	if word := strings.ToLower(corner.Text); word == "lambda" || word == "λ" || word == "afr" {
		return true
	}
	at := corner.At
	if at.IsZero() {
		at = f.Grid.At
	}
	d.report("bad-grid", source.Error, at, f.Key.Name, "the corner of the target grid says what its cells are: `lambda` or `AFR`", "rows are throttle in percent, columns engine speed in rpm")
	return false
}
