// Package quantity hides how builders write figures: numbers, units, intervals, spreads, ratios, crank events and money. In goes one
// string, such as "0.08 ± 0.02 mm", and what its place wants; out comes a Quantity, or a Slip that says what is wrong with which
// bytes and offers the text that was meant. It also compares, converts and prints figures, and carries uncertainty through sums.
//
// Its one invariant: nothing is guessed. A figure has exactly one unit, that its text and its place leave no doubt about, and what is
// printed parses back to the same figure.
package quantity

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"sync"
)

// Unit is one unit of one dimension.
type Unit struct {
	Symbol     string    // what the site shows: "N·m"; empty for a plain number
	Plural     string    // shown instead of the symbol for other than one, where the symbol is a word: "turns"
	Name       string    // "newton metre"
	Dimension  Dimension // what it measures
	Factor     float64   // SI units in one of it
	Offset     float64   // added before the factor: only temperatures have one
	Reciprocal bool      // distance by fuel, for a dimension that is fuel by distance
	Spellings  []string  // what people type for it, the symbol among them; blanks, dots, hyphens and `·` are alike
	OnlyWhere  []string  // spellings that mean it only where its dimension is asked for: `lb` for a force
	Currency   string    // ISO 4217 code of money, else empty
	Exact      bool      // the factor is so by definition, neither measured nor rounded
	Source     string    // where the factor comes from
}

// SI returns a figure in u in the SI unit of the dimension: (x+Offset)*Factor, or Factor/x for a reciprocal unit.
func (u *Unit) SI(x float64) float64 {
	if u.Reciprocal {
		return u.Factor / x
	}
	return (x + u.Offset) * u.Factor
}

// IsCalendar reports whether time in the unit goes by the calendar: days and longer. Hours and shorter are counted while something runs.
func (u *Unit) IsCalendar() bool {
	return u.Dimension == Calendar || u.Dimension == Duration && u.Factor >= 24*3600
}

// FromSI undoes SI.
func (u *Unit) FromSI(si float64) float64 {
	if u.Reciprocal {
		return u.Factor / si
	}
	return si/u.Factor - u.Offset
}

// StepSI returns the size in SI of a small step in u beside the figure at, also in u. The offset plays no part: a difference of 9 °F is
// 5 K.
func (u *Unit) StepSI(step, at float64) float64 {
	if u.Reciprocal {
		return math.Abs(u.Factor / (at * at) * step)
	}
	return step * u.Factor
}

// StepFromSI undoes StepSI; at is in u.
func (u *Unit) StepFromSI(step, at float64) float64 {
	if u.Reciprocal {
		return math.Abs(at * at / u.Factor * step)
	}
	return step / u.Factor
}

// ConvertsTo reports whether figures in u can be had in other: the same dimension, and for money the same currency.
func (u *Unit) ConvertsTo(other *Unit) bool {
	return u.Dimension == other.Dimension && u.Currency == other.Currency
}

// Units returns all units, sorted by dimension, then by size, then by symbol. The slice is the caller's; the units are shared and must
// not be changed.
func Units() []*Unit { return slices.Clone(table().units) }

// UnitsOf returns the units of a dimension, by size, then by symbol. The slice is shared and must not be changed.
func UnitsOf(d Dimension) []*Unit { return table().ofDimension[d] }

// UnitsSpelled returns every unit that a spelling may mean, those that it means without being asked first. It returns none for an
// unknown spelling.
func UnitsSpelled(spelling string) []*Unit {
	return slices.Clone(lookUp(spelling).units)
}

// UnitShown returns the unit with that symbol, or nil. Where two dimensions share a symbol, as temperatures and their differences do,
// it is the one that the symbol means without being asked.
func UnitShown(symbol string) *Unit {
	for _, u := range lookUp(symbol).units {
		if u.Symbol == symbol {
			return u
		}
	}
	return nil
}

// UnitOf returns the unit of a dimension that a spelling may mean, nil if it means none.
func UnitOf(spelling string, d Dimension) *Unit {
	for _, u := range UnitsSpelled(spelling) {
		if u.Dimension == d {
			return u
		}
	}
	return nil
}

// spelled is what one spelling may mean.
type spelled struct {
	units []*Unit
	plain int // how many of them, from the first, it means without being asked
}

// table is all that is known of units. It takes two milliseconds to put together, and some commands need none of it.
var table = sync.OnceValue(func() *unitTable {
	t := &unitTable{units: sortedUnits()}
	t.index = newUnitIndex(t.units)
	t.ofDimension = byDimension(t.units)
	t.number, t.percent, t.toOne = t.index.lookUp("").units[0], t.index.lookUp("%").units[0], t.index.lookUp(":1")
	return t
})

type unitTable struct {
	units       []*Unit
	index       unitIndex
	ofDimension map[Dimension][]*Unit

	number, percent *Unit
	toOne           spelled
}

// One returns the unit of a pure number.
func One() *Unit { return table().number }

func sortedUnits() []*Unit {
	all := slices.Concat(lengthUnits(), massUnits(), forceUnits(), pressureUnits(), motionUnits(), fuelUnits(), otherUnits(), moneyUnits())
	slices.SortStableFunc(all, func(a, b *Unit) int {
		return cmp.Or(cmp.Compare(a.Dimension, b.Dimension), cmp.Compare(a.Factor, b.Factor), cmp.Compare(a.Symbol, b.Symbol))
	})
	return all
}

func byDimension(all []*Unit) map[Dimension][]*Unit {
	of := map[Dimension][]*Unit{}
	for _, u := range all {
		of[u.Dimension] = append(of[u.Dimension], u)
	}
	return of
}

// unitIndex finds units by folded spelling. Symbols are found by their exact case (`mN` is not `MN`), words in any.
type unitIndex struct {
	exact   map[string]spelled
	anyCase map[string]spelled
}

func newUnitIndex(all []*Unit) unitIndex {
	x := unitIndex{make(map[string]spelled, 3*len(all)), make(map[string]spelled, 5*len(all))}
	for _, u := range all {
		for _, s := range u.Spellings {
			x.add(s, u, true)
		}
	}
	for _, u := range all {
		for _, s := range u.OnlyWhere {
			x.add(s, u, false)
		}
	}
	return x
}

func (x unitIndex) add(spelling string, u *Unit, plain bool) {
	var room [48]byte
	key := string(foldUnit(room[:0], spelling))
	into := x.exact
	if caseFree(key) {
		key, into = strings.ToLower(key), x.anyCase
	}
	s := into[key]
	if slices.Contains(s.units, u) {
		return
	}
	s.units = append(s.units, u)
	if plain {
		s.plain++
	}
	into[key] = s
}

// caseFree reports whether case says nothing in a spelling: words and trade abbreviations of three letters and more that hold no
// upper-case letter. Symbols with a prefix (kPa, mN·m, MΩ) keep theirs.
func caseFree(key string) bool {
	letters := 0
	for _, r := range key {
		switch {
		case r >= 'A' && r <= 'Z', r > 0x7f && r != '·':
			return false
		case r >= 'a' && r <= 'z':
			letters++
		}
	}
	return letters >= 3
}

func lookUp(spelling string) spelled { return table().index.lookUp(spelling) }

// lookUp finds what a spelling means without allocating.
func (x unitIndex) lookUp(spelling string) spelled {
	var room [48]byte
	key := foldUnit(room[:0], spelling)
	if s, ok := x.exact[string(key)]; ok {
		return s
	}
	for i, c := range key {
		if c >= 'A' && c <= 'Z' {
			key[i] = c + 'a' - 'A'
		}
	}
	return x.anyCase[string(key)]
}
