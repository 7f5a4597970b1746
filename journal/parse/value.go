package parse

import (
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Value is one value as it was written, with its place. What its unit is, where the spelling leaves that open, the model decides.
type Value struct {
	At      source.Range // the value's text; for repeats the whole list, for a value with details the figure in it
	Written quantity.Written
	Repeats []Value // more than one figure of one measurement; Written is then empty
	Details *Details
	Column  []*quantity.Unit // what a bare figure may be in: the corner of its grid, or the head of its column

	node *node // the string that it stands in, nil in a CSV file
	base int   // where the text of Written begins in the node's text, or in the file
	file *source.File
}

// Details are what a value written with details carries beside its figure.
type Details struct {
	At           source.Range // the whole table
	Words        bool         // the value is written as `words`
	With         Name
	EngineTemp   *Value
	Was          Text
	Note         Text
	Adapter      *Value
	AdapterAngle *Value
}

// Span returns the place in the file of the bytes from start to end of the value's text.
func (v *Value) Span(start, end int) source.Range {
	switch {
	case v.node != nil && v.node.kind == nodeString, v.node != nil && v.node.kind == nodeMultiline:
		return v.node.span(v.base+start, v.base+end)
	case v.node == nil && v.file != nil:
		return v.file.At(v.inFile(start), v.inFile(end))
	}
	return v.At
}

// inFile returns the offset in the file of a byte of a CSV cell's text: a quote inside a quoted cell is written twice.
func (v *Value) inFile(offset int) int {
	at := v.base
	quoted := v.At.Start < v.base
	for ; offset > 0 && at < v.At.End; offset-- {
		if quoted && v.file.Text[at] == '"' {
			at++
		}
		at++
	}
	return at
}

// Resolve chooses the unit of the figure: its own, or its column's.
func (v *Value) Resolve(want quantity.Want) (quantity.Quantity, *quantity.Slip) {
	if len(v.Column) > 0 {
		want.Bare = columnUnit(v.Column, want.Dimensions)
	}
	return v.Written.Resolve(want)
}

// columnUnit returns the unit of a column that is of the first wanted dimension that there is; the column's first where none is wanted.
func columnUnit(units []*quantity.Unit, dimensions []quantity.Dimension) *quantity.Unit {
	for _, d := range dimensions {
		for _, u := range units {
			if u.Dimension == d {
				return u
			}
		}
	}
	return units[0]
}

// IsBlank reports whether the value says that nothing was measured.
func (v *Value) IsBlank() bool { return len(v.Repeats) == 0 && v.Written.Kind == quantity.Blank }

// IsWords reports whether the value is words.
func (v *Value) IsWords() bool { return len(v.Repeats) == 0 && v.Written.Kind == quantity.Words }

// Figures returns the figures of the value: itself, or its repeats.
func (v *Value) Figures() []Value {
	if len(v.Repeats) > 0 {
		return v.Repeats
	}
	return []Value{*v}
}

// Text is a text with its place. Its zero value is no text.
type Text struct {
	Text string
	At   source.Range
	node *node
}

// IsZero reports whether there is no text.
func (t Text) IsZero() bool { return t.At.IsZero() }

// Name is a name that refers to something, folded, with what was typed and where.
type Name struct {
	Name  string // folded
	Typed string
	At    source.Range
}

// IsZero reports whether there is no name.
func (n Name) IsZero() bool { return n.At.IsZero() }

// Reading is a value at a path, in a table of readings, a grid, or a CSV file.
type Reading struct {
	Path    string       // folded, segments joined by dots
	Spelled string       // as typed, segments joined by dots
	PathAt  source.Range // where the last segment of the path stands
	Value   Value
	State   string // `found`, `set`, `brings` or `goals`
	Unread  bool   // its value could not be read: it stands for nothing but that something was measured here
}

// Date is a civil date, with a time of day if one was given. Its zero value is no date.
type Date struct {
	Year, Month, Day int
	Time             string // `19:30` or `19:30:05`; empty if none was given
	At               source.Range
}

// IsZero reports whether there is no date.
func (d Date) IsZero() bool { return d.Year == 0 }

// String returns the date as `2026-04-18`.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return pad(d.Year, 4) + "-" + pad(d.Month, 2) + "-" + pad(d.Day, 2)
}

func pad(n, width int) string {
	digits := make([]byte, width)
	for i := width - 1; i >= 0; i-- {
		digits[i] = byte('0' + n%10)
		n /= 10
	}
	return string(digits)
}
