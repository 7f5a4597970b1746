package parse

import (
	"cmp"

	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Value is one value as it was written, with its place. It keeps its text alone: what the text says is read from it when it is asked for,
// which costs less than keeping it. What its unit is, where the spelling leaves that open, the model decides.
type Value struct {
	At      source.Range  // the value's text; for repeats the whole list, for a value with details the figure in it
	Text    string        // as typed, without quotes; of repeats nothing
	Kind    quantity.Kind // of what the text says
	home    home
	base    int32   // where Text begins: in the file, or in the strand's text
	Repeats []Value // more than one figure of one measurement
	Details *Details

	column *column // of a cell: what tells its unit where it doesn't itself
	strand *node   // the string that it stands in, where that isn't a plain copy of the file
}

// column is what bare figures may be in: the corner of their grid, or the head of their column.
type column struct {
	units []*quantity.Unit
	key   source.Range // of a grid: its path, as far as it is typed right there
	words int          // of the grid's path
}

// columnIn returns the column of a spelled unit, nil where it is none.
func columnIn(unit string) *column {
	units := quantity.UnitsSpelled(unit)
	if len(units) == 0 {
		return nil
	}
	return &column{units: units}
}

// GridKey returns where the path of its grid is typed, and how many words of the value's path it has; nowhere and none for a value that stands in no grid.
func (v *Value) GridKey() (at source.Range, words int) {
	if v.column == nil {
		return source.Range{}, 0
	}
	return v.column.key, v.column.words
}

// home is the sort of place that a value stands in.
type home uint8

const (
	inString home = iota
	inGrid        // a cell of a string of several lines
	inCSV
	inNumber // a bare number
	inWords  // the key `words`, where nothing is a figure
)

// Written reads what the text says.
func (v *Value) Written() quantity.Written {
	switch v.home {
	case inNumber:
		return quantity.Bare(v.Text)
	case inWords:
		return quantity.Written{Kind: quantity.Words, Text: v.Text, Words: v.Text}
	}
	written, _ := quantity.Parse(v.Text) // its slip was reported when the value was decoded
	return written
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
	case v.home == inNumber || len(v.Repeats) > 0 || v.At.IsZero():
		return v.At
	case v.home == inCSV:
		return v.At.File.At(v.inFile(start), v.inFile(end))
	case v.strand != nil:
		return v.strand.span(int(v.base)+start, int(v.base)+end)
	}
	start = max(0, min(start, len(v.Text)))
	end = max(start, min(end, len(v.Text)))
	return v.At.File.At(int(v.base)+start, int(v.base)+end)
}

// stand puts a value into the string that it was read from; its text begins at an offset of the string's.
func (v *Value) stand(n *node, offset int) {
	if len(n.runs) > 0 {
		v.strand, v.base = n.alone(), int32(offset)
		return
	}
	v.base = int32(n.inner + offset)
}

// inFile returns the offset in the file of a byte of a CSV cell's text: a quote inside a quoted cell is written twice.
func (v *Value) inFile(offset int) int {
	at := int(v.base)
	quoted := v.At.Start < at
	for ; offset > 0 && at < v.At.End; offset-- {
		if quoted && v.At.File.Text[at] == '"' {
			at++
		}
		at++
	}
	return at
}

// Resolve chooses the unit of the figure: its own, or its column's.
func (v *Value) Resolve(want quantity.Want) (quantity.Quantity, *quantity.Slip) {
	written := v.Written()
	return v.ResolveWritten(&written, want)
}

// ResolveWritten does what Resolve does with what [Value.Written] returned: for a caller that needs that as well.
func (v *Value) ResolveWritten(written *quantity.Written, want quantity.Want) (quantity.Quantity, *quantity.Slip) {
	if v.column != nil && len(v.column.units) > 0 {
		want.Bare = columnUnit(v.column.units, want.Dimensions)
	}
	return written.Resolve(want)
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
func (v *Value) IsBlank() bool { return len(v.Repeats) == 0 && v.Kind == quantity.Blank }

// IsWords reports whether the value is words.
func (v *Value) IsWords() bool { return len(v.Repeats) == 0 && v.Kind == quantity.Words }

// Figures returns the figures of the value: itself, or its repeats.
func (v *Value) Figures() []Value {
	if len(v.Repeats) > 0 {
		return v.Repeats
	}
	return []Value{*v}
}

// Text is a text with its place. Its zero value is no text.
type Text struct {
	Text   string
	At     source.Range
	strand *node // of a text whose places are asked for: the string
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

// State is the sort of table in which a reading stands.
type State uint8

// The states.
const (
	InFound State = iota
	InSet
	InBrings
	InGoals
)

// String returns the word that the builder writes.
func (s State) String() string { return [...]string{"found", "set", "brings", "goals"}[s] }

// stateOf returns the state of the readings that stand at a key.
func stateOf(key string) State {
	for s := InFound; s < InGoals; s++ {
		if s.String() == key {
			return s
		}
	}
	return InGoals
}

// Reading is a value at a path, in a table of readings, a grid, or a CSV file.
type Reading struct {
	Path   string       // folded, segments joined by dots
	PathAt source.Range // where the last segment of the path stands
	Value  Value
	State  State
	Unread bool // its value could not be read: it stands for nothing but that something was measured here
}

// Date is a civil date, with a time of day if one was given. Its zero value is no date.
type Date struct {
	Year, Month, Day int
	Time             string // `19:30` or `19:30:05`; empty if none was given
	At               source.Range
}

// IsZero reports whether there is no date.
func (d Date) IsZero() bool { return d.Year == 0 }

// CompareDay orders dates by day: negative where d comes first, zero on one day.
func (d Date) CompareDay(other Date) int {
	return cmp.Or(d.Year-other.Year, d.Month-other.Month, d.Day-other.Day)
}

// String returns the date as `2026-04-18`.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	text := [...]byte{9: 0}
	pad(text[0:4], d.Year)
	pad(text[5:7], d.Month)
	pad(text[8:10], d.Day)
	text[4], text[7] = '-', '-'
	return string(text[:])
}

// pad writes a number with as many digits as there is room for.
func pad(digits []byte, n int) {
	for i := len(digits) - 1; i >= 0; i-- {
		digits[i] = byte('0' + n%10)
		n /= 10
	}
}
