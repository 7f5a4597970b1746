package parse

import (
	"example.org/locknut/journal/source"
)

// Field is one key of a file as it was decoded by its row of the key table. Which of its members holds something follows from the
// row's kind.
type Field struct {
	Key   *Key
	KeyAt source.Range // the key as it was typed
	At    source.Range // its value

	Texts    []Text   // text, texts, Markdown text, choices, order
	Names    []Name   // names and paths, folded
	Figures  []Value  // quantities, ratios
	Dates    []Date   // dates
	Whole    int      // whole numbers
	Table    *Fields  // tables
	Tables   []Fields // lists of tables
	Readings []Reading
	Limits   []*Limit
	Units    []UnitChoice
	Sizes    []float64 // in metres
	Grid     *Grid
}

// Fields are the keys of one table that could be decoded, in the order in which they were typed.
type Fields struct {
	At   source.Range // the table's header, or its braces
	List []*Field
	Bad  []string // keys whose value could not be read, or not all of it
}

// IsBad reports whether a key stands there whose value could not be read, so that nothing can be concluded from its absence.
func (t *Fields) IsBad(names ...string) bool {
	if t == nil {
		return false
	}
	for _, bad := range t.Bad {
		for _, name := range names {
			if bad == name {
				return true
			}
		}
	}
	return false
}

// Get returns the field of that name, nil if the table doesn't have it or it could not be read.
func (t *Fields) Get(name string) *Field {
	if t == nil {
		return nil
	}
	for _, f := range t.List {
		if f.Key.Name == name {
			return f
		}
	}
	return nil
}

// Text returns the text of a key, none if it has none.
func (t *Fields) Text(name string) Text {
	if f := t.Get(name); f != nil && len(f.Texts) > 0 {
		return f.Texts[0]
	}
	return Text{}
}

// Texts returns the texts of a key.
func (t *Fields) Texts(name string) []Text {
	if f := t.Get(name); f != nil {
		return f.Texts
	}
	return nil
}

// Value returns the figure of a key, nil if it has none.
func (t *Fields) Value(name string) *Value {
	if f := t.Get(name); f != nil && len(f.Figures) > 0 {
		return &f.Figures[0]
	}
	return nil
}

// Values returns the figures of a key.
func (t *Fields) Values(name string) []Value {
	if f := t.Get(name); f != nil {
		return f.Figures
	}
	return nil
}

// Readings returns the values by path that a key holds.
func (t *Fields) Readings(name string) []Reading {
	if f := t.Get(name); f != nil {
		return f.Readings
	}
	return nil
}

// Name returns the name that a key holds.
func (t *Fields) Name(name string) Name {
	if names := t.Names(name); len(names) > 0 {
		return names[0]
	}
	return Name{}
}

// Names returns the names, or paths, that a key holds.
func (t *Fields) Names(name string) []Name {
	if f := t.Get(name); f != nil {
		return f.Names
	}
	return nil
}

// Whole returns the whole number of a key.
func (t *Fields) Whole(name string) (n int, ok bool) {
	if f := t.Get(name); f != nil {
		return f.Whole, true
	}
	return 0, false
}

// Table returns the table of a key, nil if it has none.
func (t *Fields) Table(name string) *Fields {
	if f := t.Get(name); f != nil {
		return f.Table
	}
	return nil
}

// Tables returns the tables of a list.
func (t *Fields) Tables(name string) []Fields {
	if f := t.Get(name); f != nil {
		return f.Tables
	}
	return nil
}

// holds reports whether a list could be read in part.
func (f *Field) holds() bool {
	return len(f.Texts)+len(f.Names)+len(f.Figures)+len(f.Dates)+len(f.Tables) > 0
}
