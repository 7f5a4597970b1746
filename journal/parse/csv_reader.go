package parse

import (
	"strings"

	"example.org/locknut/journal/source"
)

// csvReader reads the cells of a CSV file, row by row.
type csvReader struct {
	*decoder
	separator byte
	at        int
}

func (r *csvReader) done() bool { return r.at >= len(r.file.Text) }

// row reads one row, and appends its cells; a quoted one may run over several lines.
func (r *csvReader) row(row []Cell) []Cell {
	for {
		cell, last := r.cell()
		row = append(row, cell)
		if last {
			return row
		}
	}
}

// cell reads one cell and what ends it.
func (r *csvReader) cell() (cell Cell, last bool) {
	text := r.file.Text
	if r.at < len(text) && text[r.at] == '"' {
		return r.quoted()
	}
	start := r.at
	r.toEnd()
	end := r.at
	for start < end && isBlank(text[start]) {
		start++
	}
	for start < end && isBlank(text[end-1]) {
		end--
	}
	return Cell{Text: text[start:end], At: r.file.At(start, end), base: start}, r.next()
}

// next steps over what ends a cell and reports whether it ended the row.
func (r *csvReader) next() bool {
	if r.done() {
		return true
	}
	text := r.file.Text
	r.at++
	if text[r.at-1] == '\r' && r.at < len(text) && text[r.at] == '\n' {
		r.at++
	}
	return text[r.at-1] != r.separator
}

// toEnd moves to what ends a cell: a separator or a line end, which may be that of an old file, a carriage return alone.
func (r *csvReader) toEnd() {
	text := r.file.Text
	for r.at < len(text) && text[r.at] != r.separator && text[r.at] != '\n' && text[r.at] != '\r' {
		r.at++
	}
}

func (r *csvReader) quoted() (cell Cell, last bool) {
	text, start := r.file.Text, r.at
	r.at++
	content := r.at
	for r.at < len(text) {
		if text[r.at] != '"' {
			r.at++
			continue
		}
		if r.at+1 < len(text) && text[r.at+1] == '"' {
			r.at += 2
			continue
		}
		cell = Cell{Text: strings.ReplaceAll(text[content:r.at], `""`, `"`), At: r.file.At(start, r.at+1), base: content}
		r.at++
		junk := r.at
		r.toEnd()
		if strings.TrimSpace(text[junk:r.at]) != "" {
			r.report("bad-csv", source.Error, r.file.At(junk, r.at), r.file.Name, "text follows the closing quote of a cell", "put the whole cell in quotes, and double the quotes inside it")
		}
		return cell, r.next()
	}
	r.report("bad-csv", source.Error, r.file.At(start, start+1), r.file.Name, "the quote that opens this cell is never closed", "close it with `\"`")
	return Cell{Text: text[content:], At: r.file.At(start, len(text)), base: content}, true
}
