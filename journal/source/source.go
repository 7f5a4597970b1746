// Package source holds the text of a journal's files, byte ranges in that text, and the findings that point at it.
//
// It hides how a byte offset becomes a line and a column, and how a finding is told apart from another. Nothing here reads a
// file: text comes in, places and findings go out. The one invariant: a [Range] always lies inside its file, starts and ends
// on a character, and is never empty, save the range of a whole file, which has no place in the text at all.
package source

import (
	"sort"
	"strings"
	"sync"
	"unicode/utf8"
)

// BOM is the byte order mark that some editors put before a text. It is part of the file but not of its first line.
const BOM = "\uFEFF"

// File is one file of a journal: its name relative to the journal, with `/`, and its text. It does not change once made.
type File struct {
	Name string
	Text string
	Size int64 // in bytes, of a file that is too big for its text to be kept; else 0

	once  sync.Once
	lines []int // byte offset at which each line starts
}

// NewFile returns a file of that name and text.
func NewFile(name, text string) *File {
	return &File{Name: name, Text: text}
}

// Whole returns the range that stands for the file as a whole: for findings that no piece of text can be blamed for.
func (f *File) Whole() Range { return Range{File: f} }

// At returns the range from start to end, in bytes, half open. Offsets outside the file are drawn in, an empty range is widened
// to the character at its place (or the one before, at the end of the file), and both ends move outward to whole characters.
// In an empty file it is [File.Whole].
func (f *File) At(start, end int) Range {
	n := len(f.Text)
	if n == 0 {
		return f.Whole()
	}
	start, end = clamp(start, n), clamp(end, n)
	if end < start {
		start, end = end, start
	}
	if start == end {
		if start == n {
			start--
		} else {
			end++
		}
	}
	for start > 0 && !utf8.RuneStart(f.Text[start]) {
		start--
	}
	for end < n && !utf8.RuneStart(f.Text[end]) {
		end++
	}
	return Range{File: f, Start: start, End: end}
}

func clamp(x, n int) int { return max(0, min(x, n)) }

// Position returns the line and the column, both counted from 1, of a byte offset. Columns count characters; a tab is one, a
// byte order mark none.
func (f *File) Position(offset int) (line, column int) {
	offset = clamp(offset, len(f.Text))
	start := 0
	if offset < near {
		line = 1 + strings.Count(f.Text[:offset], "\n")
		start = strings.LastIndexByte(f.Text[:offset], '\n') + 1
	} else {
		starts := f.lineStarts()
		line = sort.SearchInts(starts, offset+1)
		start = starts[line-1]
	}
	if start == 0 && strings.HasPrefix(f.Text, BOM) {
		start = min(len(BOM), offset)
	}
	return line, utf8.RuneCountInString(f.Text[start:offset]) + 1
}

// Line returns the text of a line counted from 1, without its line end or a byte order mark, and the offset at which that text
// starts. A line that the file does not have is empty.
func (f *File) Line(n int) (text string, start int) {
	starts := f.lineStarts()
	if n < 1 || n > len(starts) {
		return "", len(f.Text)
	}
	start, end := starts[n-1], len(f.Text)
	if n < len(starts) {
		end = starts[n] - 1
	}
	text = strings.TrimSuffix(f.Text[start:end], "\r")
	if start == 0 && strings.HasPrefix(text, BOM) {
		text, start = text[len(BOM):], len(BOM)
	}
	return text, start
}

// near is so near to the beginning of a file that counting lines is quicker than keeping them: most heads end before it, and a journal has very many.
const near = 2048

func (f *File) lineStarts() []int {
	f.once.Do(func() {
		f.lines = append(f.lines, 0)
		for i := 0; ; {
			next := strings.IndexByte(f.Text[i:], '\n')
			if next < 0 {
				return
			}
			i += next + 1
			f.lines = append(f.lines, i)
		}
	})
	return f.lines
}

// Range is a piece of a file's text: two byte offsets, half open. The zero Range has no file and stands for no place; only
// values that come from no file at all (a worked-out number) carry it. Make ranges with [File.At] and [File.Whole].
type Range struct {
	File       *File
	Start, End int
}

// IsWhole reports whether the range stands for its file as a whole and not for a piece of text.
func (r Range) IsWhole() bool { return r.End == 0 }

// IsZero reports whether the range stands for no place.
func (r Range) IsZero() bool { return r.File == nil }

// Text returns the text of the range, nothing for a whole file.
func (r Range) Text() string {
	if r.File == nil {
		return ""
	}
	return r.File.Text[r.Start:r.End]
}

// Position returns the line and column of the start and of the end of the range (the end is the place after its last
// character), all zero for a whole file.
func (r Range) Position() (line, column, endLine, endColumn int) {
	if r.File == nil || r.IsWhole() {
		return 0, 0, 0, 0
	}
	line, column = r.File.Position(r.Start)
	endLine, endColumn = r.File.Position(r.End)
	return line, column, endLine, endColumn
}

// To returns the range from the start of r to the end of last, which must lie in the same file.
func (r Range) To(last Range) Range {
	if r.File == nil || r.File != last.File || r.IsWhole() || last.IsWhole() {
		return r
	}
	return r.File.At(min(r.Start, last.Start), max(r.End, last.End))
}
