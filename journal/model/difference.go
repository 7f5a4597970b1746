package model

import (
	"fmt"
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/quantity"
	"example.org/locknut/journal/source"
)

// Of returns the two paths whose difference the limit is held by; none where it isn't held by one, or it can't be told by which.
func (l *Limit) Of() []string {
	if l.ofLost {
		return nil
	}
	var paths []string
	for _, name := range l.Fields.Names("of") {
		paths = append(paths, name.Name)
	}
	return paths
}

// enclosing says which of two measured sizes lies around the other: by the first words of their paths, the inner ones first.
var enclosing = map[string]int{"pin": 1, "journal": 1, "piston": 2, "bearing": 3, "bore": 3}

// IsInsideOut reports whether the two paths of a difference stand the wrong way about, by what the path table says of them: a piston less its bore.
func (l *Limit) IsInsideOut() bool {
	of := l.Of()
	if len(of) != 2 {
		return false
	}
	first, _, _ := strings.Cut(of[0], ".")
	second, _, _ := strings.Cut(of[1], ".")
	return enclosing[first] > 0 && enclosing[first] < enclosing[second]
}

// difference checks that what a limit is the difference of is of one dimension, and the limit too.
func (l *linker) difference(limit *Limit) {
	of := limit.Fields.Names("of")
	limit.ofLost = limit.Fields.IsBad("of")
	if len(of) != 2 {
		return
	}
	first, second := readIn(of[0].Name), readIn(of[1].Name)
	if len(first)+len(second) == 0 {
		return
	}
	if len(first) > 0 && len(second) > 0 && !meet(first, second) {
		limit.ofLost = true
		l.report("wrong-dimension", source.Error, of[1].At, limit.Path, fmt.Sprintf("`%s` is a figure of %s, `%s` one of %s: the one can't be taken from the other", of[0].Typed, first[0], of[1].Typed, second[0]),
			"name two sizes that have a clearance between them")
		return
	}
	held := known(limit.Dimension)
	if pattern := parse.FindHeld(limit.Path); pattern != nil && len(held) == 0 {
		held = pattern.Dimensions
	}
	for i, dimensions := range [][]quantity.Dimension{first, second} {
		if len(dimensions) > 0 && len(held) > 0 && !meet(dimensions, held) {
			limit.ofLost = true
			l.report("wrong-dimension", source.Error, of[i].At, limit.Path, fmt.Sprintf("`%s` is a figure of %s; the limit `%s` is for %s", of[i].Typed, dimensions[0], limit.Path, held[0]), "name two sizes of what the limit is for, or mend its figures")
			return
		}
	}
}

// readIn returns the dimensions that readings at a path have by the path table; none where it leaves them open.
func readIn(path string) []quantity.Dimension {
	if pattern := parse.FindPattern(path); pattern != nil {
		return pattern.Dimensions
	}
	return nil
}

func meet(a, b []quantity.Dimension) bool {
	return slices.ContainsFunc(a, func(d quantity.Dimension) bool { return slices.Contains(b, d) })
}

// lostDifferences notes, for limits that are held by a difference of nobody knows what, that it may have been measured.
func (l *linker) lostDifferences() {
	for _, limit := range l.journal.Limits {
		if limit.ofLost {
			l.unread(limit.Path, l.journal.end())
		}
	}
}
