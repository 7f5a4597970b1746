package parse

import (
	"fmt"
	"iter"
	"strings"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// CSV is a file of comma-separated values (RFC 4180) as people have them: separated by tab, semicolon or comma, with a decimal comma
// where the separator is another, and units in the heads or in the row below them.
type CSV struct {
	File         *source.File
	Separator    byte
	DecimalComma bool
	Ragged       int // rows left out because they are longer or shorter than the head
	Heads        []Head

	starts []int32 // where each row begins in the text: a log of half a million rows is not kept as cells
}

// Head is the head of one column: its name and unit, where it has one.
type Head struct {
	Cell Cell
	Name string // what stands before the unit, as typed
	Unit string // as typed; empty if none is given

	UnitAt source.Range // of a unit in the row below; none of one in the head
}

// maxRagged is how many rows of another length than the head are told of one by one.
const maxRagged = 3

// DecodeCSV takes a CSV file apart. Rows that don't fit are reported and left out.
func DecodeCSV(file *source.File) (*CSV, []source.Finding) {
	d := &decoder{file: file}
	c := &CSV{File: file}
	if !d.readable(MaxCSV) {
		return nil, d.findings
	}
	start := d.body()
	if strings.TrimSpace(file.Text[start:]) == "" {
		d.report("bad-csv", source.Error, file.Whole(), file.Name, "the file is empty", "the first row holds the heads of the columns")
		return nil, d.findings
	}
	c.Separator = separatorOf(file.Text[start:])
	reader := csvReader{decoder: d, separator: c.Separator, at: start}
	for _, cell := range reader.row(nil) {
		name, unit := splitHead(cell.Text)
		c.Heads = append(c.Heads, Head{Cell: cell, Name: name, Unit: unit})
	}
	d.headsTwice(c)
	first, commas := true, false
	var row []Cell
	for !reader.done() {
		begin := reader.at
		row = reader.row(row[:0])
		if isEmpty(row) {
			continue
		}
		if len(row) != len(c.Heads) {
			if c.Ragged++; c.Ragged <= maxRagged {
				d.report("bad-csv", source.Error, row[0].At.To(row[len(row)-1].At), file.Name,
					fmt.Sprintf("this row has %d cells; the head row has %d", len(row), len(c.Heads)), raggedAdvice(c, row))
			}
			continue
		}
		if first && c.unitRow(row) {
			first = false
			continue
		}
		first = false
		c.starts = append(c.starts, int32(begin))
		commas = commas || c.Separator != ',' && hasDecimalComma(row)
	}
	if more := c.Ragged - maxRagged; more > 0 {
		d.report("bad-csv", source.Error, file.Whole(), file.Name, fmt.Sprintf("%d rows more have another length than the head row", more), "mend the file: it may be torn, or have another head")
	}
	c.DecimalComma = commas
	return c, d.findings
}

// Len returns how many rows there are below the head.
func (c *CSV) Len() int { return len(c.starts) }

// Row returns one row, as wide as Heads.
func (c *CSV) Row(i int) []Cell { return c.row(i, nil) }

// Rows returns all rows with their numbers, from nought. A row's slice holds the next row afterwards.
func (c *CSV) Rows() iter.Seq2[int, []Cell] {
	return func(yield func(int, []Cell) bool) {
		var row []Cell
		for i := range c.starts {
			row = c.row(i, row[:0])
			if !yield(i, row) {
				return
			}
		}
	}
}

// row appends a row's cells. What is to be said of it was said when the file was taken apart.
func (c *CSV) row(i int, row []Cell) []Cell {
	reader := csvReader{decoder: &decoder{file: c.File}, separator: c.Separator, at: int(c.starts[i])}
	return reader.row(row)
}

// hasDecimalComma reports whether a cell of a row is a number with a decimal comma. Then a point in another can only part thousands.
func hasDecimalComma(row []Cell) bool {
	for _, cell := range row {
		if i := strings.IndexByte(cell.Text, ','); i > 0 && i+1 < len(cell.Text) && isDigit(cell.Text[i-1]) && isDigit(cell.Text[i+1]) {
			return true
		}
	}
	return false
}

// PartsThousands reports whether a cell holds a point though the file's decimal sign is a comma.
func (c *CSV) PartsThousands(cell Cell) bool {
	return c.DecimalComma && strings.Contains(cell.Text, ".") && !strings.Contains(cell.Text, "..")
}

// raggedAdvice says what to do about a row of another length than the head.
func raggedAdvice(c *CSV, row []Cell) string {
	if c.Separator == ',' && len(row) > len(c.Heads) {
		return "mend the row; where the decimal sign is a comma, part the cells by semicolons"
	}
	return "mend the row, or the heads"
}

// isEmpty reports whether nothing stands in a row: spreadsheets write such rows below the last one.
func isEmpty(row []Cell) bool {
	for _, cell := range row {
		if strings.TrimSpace(cell.Text) != "" {
			return false
		}
	}
	return true
}

func (d *decoder) headsTwice(c *CSV) {
	seen := map[string]Head{}
	for _, h := range c.Heads {
		name := strings.ToLower(h.Cell.Text)
		if first, twice := seen[name]; twice && name != "" {
			d.report("bad-csv", source.Error, h.Cell.At, c.File.Name, fmt.Sprintf("the head `%s` stands twice", h.Cell.Text), "give each column a head of its own")
			d.note(first.Cell.At, "the first one")
		}
		seen[name] = h
	}
}

// unitRow takes a row of units below the heads: no cell is a figure, and at least one is a unit.
func (c *CSV) unitRow(row []Cell) bool {
	any := false
	for _, cell := range row {
		unit := strings.Trim(strings.TrimSpace(cell.Text), "[]()")
		if unit == "" || unit == "-" {
			continue
		}
		if len(quantity.UnitsSpelled(unit)) == 0 {
			return false
		}
		any = true
	}
	if !any {
		return false
	}
	for i, cell := range row {
		if unit := strings.Trim(strings.TrimSpace(cell.Text), "[]()"); unit != "" && unit != "-" {
			c.Heads[i].Unit, c.Heads[i].UnitAt = unit, cell.At
		}
	}
	return true
}

// separatorOf returns what separates the cells of a text, as its head row shows: tab, else semicolon, else comma.
func separatorOf(text string) byte {
	semicolon, quoted := false, false
	for i := 0; i < len(text); i++ {
		switch c := text[i]; {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '\t':
			return c
		case c == ';':
			semicolon = true
		case c == '\n' || c == '\r':
			i = len(text)
		}
	}
	if semicolon {
		return ';'
	}
	return ','
}

// csvCell returns a text as a cell that holds it: in quotes where it must be.
func csvCell(text string) string {
	if strings.ContainsAny(text, ",;\t\"\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// splitHead splits `P [hp]` or `P (hp)` into its name and its unit.
func splitHead(text string) (name, unit string) {
	text = strings.TrimSpace(text)
	for _, brackets := range []string{"[]", "()"} {
		open := strings.IndexByte(text, brackets[0])
		if open >= 0 && strings.HasSuffix(text, brackets[1:]) {
			return strings.TrimSpace(text[:open]), strings.TrimSpace(text[open+1 : len(text)-1])
		}
	}
	return text, ""
}

// Column returns the column whose head, or the name in it, is that word, whatever its case; -1 if there is none.
func (c *CSV) Column(word string) int {
	for i, h := range c.Heads {
		if strings.EqualFold(h.Cell.Text, word) || strings.EqualFold(h.Name, word) {
			return i
		}
	}
	return -1
}

// Value decodes a cell as a value. Where the file's decimal sign is a comma it is read as one.
func (c *CSV) Value(cell Cell) (Value, *quantity.Slip) {
	value := Value{At: cell.At, Text: cell.Text, base: int32(cell.base), home: inCSV}
	if c.DecimalComma {
		value.Text = decimalPoint(cell.Text)
	}
	written, slip := quantity.Parse(value.Text)
	value.Kind = written.Kind
	return value, slip
}

// decimalPoint puts points in the place of the commas between digits; nothing moves.
func decimalPoint(text string) string {
	if strings.IndexByte(text, ',') < 0 {
		return text
	}
	bytes := []byte(text)
	for i := 1; i+1 < len(bytes); i++ {
		if bytes[i] == ',' && isDigit(bytes[i-1]) && isDigit(bytes[i+1]) {
			bytes[i] = '.'
		}
	}
	return string(bytes)
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// Readings decodes a CSV file of readings: columns `path`, and `found` or `set` or both; `with`, `engine-temp` and `note` may follow.
func (c *CSV) Readings() ([]Reading, []source.Finding) {
	d := &decoder{file: c.File}
	columns := map[string]int{}
	for i, h := range c.Heads {
		name := Fold(h.Name)
		first, twice := columns[name]
		switch {
		case twice && !strings.EqualFold(h.Cell.Text, c.Heads[first].Cell.Text):
			d.report("bad-csv", source.Error, h.Cell.At, c.File.Name, fmt.Sprintf("the column `%s` stands twice", name), "keep one of the two, or write the unit in each cell")
			d.note(c.Heads[first].Cell.At, "the first one")
			return nil, d.findings
		case twice: // reported with the heads
		case name == "path", name == "found", name == "set", name == "with", name == "engine-temp", name == "note":
			columns[name] = i
		default:
			d.report("bad-csv", source.Warning, h.Cell.At, c.File.Name, fmt.Sprintf("`%s` is not a column of readings", h.Cell.Text), "columns are path, found, set, with, engine-temp, note")
		}
	}
	path, ok := columns["path"]
	_, found := columns["found"]
	_, set := columns["set"]
	if !ok || !found && !set {
		d.report("bad-csv", source.Error, c.Heads[0].Cell.At.To(c.Heads[len(c.Heads)-1].Cell.At), c.File.Name, "a file of readings has a column `path`, and `found` or `set`", "mend the head row")
		return nil, d.findings
	}
	var readings []Reading
	for _, row := range c.Rows() {
		if !d.goodHead(row[path]) {
			continue
		}
		for _, state := range []State{InFound, InSet} {
			i, has := columns[state.String()]
			if !has || row[i].Text == "" {
				continue
			}
			r, ok := c.reading(d, row, columns, state)
			r.Unread = !ok
			readings = append(readings, r)
		}
	}
	for _, state := range []State{InFound, InSet} {
		tree := &readingTree{decoder: d}
		at := map[string]int{}
		for _, r := range readings {
			if _, twice := at[r.Path]; r.State == state && !twice { // one that stands twice in its entry the model reports
				at[r.Path] = len(tree.readings)
				tree.readings = append(tree.readings, r)
			}
		}
		tree.checkDeeper(at)
	}
	return readings, d.findings
}

func (c *CSV) reading(d *decoder, row []Cell, columns map[string]int, state State) (Reading, bool) {
	path := row[columns["path"]]
	cell := row[columns[state.String()]]
	r := Reading{Path: FoldPath(path.Text), PathAt: path.At, State: state}
	value, slip := c.Value(cell)
	if slip != nil {
		d.slip(&value, slip, r.Path)
		return r, false
	}
	if unit := c.Heads[columns[state.String()]].Unit; unit != "" && len(value.Written().Units) == 0 {
		value.column = columnIn(unit)
	}
	r.Value = value
	details := Details{At: path.At.To(cell.At)}
	for name, i := range columns {
		if row[i].Text == "" {
			continue
		}
		switch name {
		case "with":
			details.With = Name{Name: Fold(row[i].Text), Typed: row[i].Text, At: row[i].At}
		case "note":
			details.Note = Text{Text: row[i].Text, At: row[i].At}
		case "engine-temp":
			temp, slip := c.Value(row[i])
			if slip == nil {
				temp.column = columnIn(c.Heads[i].Unit)
				_, slip = temp.Resolve(quantity.Want{Dimensions: dims(quantity.Temperature)})
			}
			if slip != nil {
				d.slip(&temp, slip, r.Path)
				return r, false // without it the reading would be judged by the entry's
			}
			details.EngineTemp = &temp
		}
	}
	if !details.With.IsZero() || !details.Note.IsZero() || details.EngineTemp != nil {
		r.Value.Details = &details
	}
	return r, true
}
