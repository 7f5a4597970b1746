package parse

import (
	"slices"
	"strings"

	"example.org/locknut/journal/quantity"
)

// workedByFirst are the rows of the table of worked-out numbers by their first segment, which is one word or a few.
var workedByFirst = func() map[string][]*Pattern {
	rows := map[string][]*Pattern{}
	for i := range Worked {
		for _, word := range Worked[i].segments[0].words {
			rows[word] = append(rows[word], &Worked[i])
		}
	}
	return rows
}()

// FindWorked returns the row of the table of worked-out numbers that a path fits in full; nil for none.
func FindWorked(path string) *Pattern {
	first, _, _ := strings.Cut(path, ".")
	rows := workedByFirst[first]
	if len(rows) == 0 {
		return nil
	}
	for _, row := range rows {
		if row.Fits(path) {
			return row
		}
	}
	return nil
}

// IsWorked reports whether a path is that of a worked-out number.
func IsWorked(path string) bool { return FindWorked(path) != nil }

// IsAboveWorked reports whether a path, or what lies below it, is that of a worked-out number.
func IsAboveWorked(path string) bool {
	words := strings.Split(path, ".")
	return slices.ContainsFunc(workedByFirst[words[0]], func(row *Pattern) bool { return row.fits(words) })
}

// IsNeverRead reports whether a path is that of worked-out numbers, or stands above such alone.
func IsNeverRead(path string) bool {
	return IsWorked(path) || FindPattern(path) == nil && IsAboveWorked(path)
}

// IsOfMixture reports whether a path is read by a log of the mixture, and never written down.
func IsOfMixture(path string) bool { return IsAtOrBelow(path, "fuelling") }

// SourceOf returns the path that a number at a path, which fits the row, is worked out from; "" where it is worked out from others.
func (p *Pattern) SourceOf(path string) string {
	if p.From == "" {
		return ""
	}
	rest := strings.Split(path, ".")
	for _, s := range p.segments {
		if s.kind == 'w' {
			rest = rest[1:]
		}
	}
	return strings.Join(append([]string{p.From}, rest...), ".")
}

// WorkedAt returns the words that the table of worked-out numbers has at a place of a path whose other segments fit.
func WorkedAt(words []string, at int) []string { return segmentsAt(Worked, words, at) }

// FindHeld returns the row for what a limit, or a goal, at a path holds: readings by the path table, else the numbers that are worked out there or
// below. It is nil for a free path.
func FindHeld(path string) *Pattern {
	read := FindPattern(path)
	if read != nil && (read.Words || len(read.Dimensions) > 0) {
		return read
	}
	words := strings.Split(path, ".")
	held := &Pattern{Path: path}
	for _, row := range workedByFirst[words[0]] {
		if !row.fits(words) {
			continue
		}
		for _, d := range row.Dimensions {
			if !slices.Contains(held.Dimensions, d) {
				held.Dimensions = append(held.Dimensions, d)
			}
		}
	}
	if len(held.Dimensions) == 0 {
		return read
	}
	held.Ratio = slices.Contains(held.Dimensions, quantity.Pure)
	return held
}

// Fits reports whether a path has all segments of the row.
func (p *Pattern) Fits(path string) bool {
	words := strings.Split(path, ".")
	return p.fits(words) && len(words) >= len(p.segments)
}

// IsFree reports whether a path that fits the row goes on with names that the row leaves open.
func (p *Pattern) IsFree(path string) bool {
	last := len(p.segments) - 1
	return last >= 0 && p.segments[last].kind == 'r' && strings.Count(path, ".") >= last
}

// NamesBelowCylinder reports whether the path table has a name right below the cylinder's: of a valve, or of a ring.
func (p *Pattern) NamesBelowCylinder() bool {
	depth, ok := p.Cylinders()
	return ok && depth+1 < len(p.segments) && p.segments[depth+1].kind == 'n'
}

// EndsInCylinder reports whether nothing stands below the cylinder's name in the path table.
func (p *Pattern) EndsInCylinder() bool {
	depth, ok := p.Cylinders()
	return ok && depth == len(p.segments)-1
}

// IsFeeder reports whether a path that fits the row is read for a number that comes from it, or held to a target, and needs no limit of its own.
func (p *Pattern) IsFeeder(path string) bool {
	return p.Feeds || p.Apart || slices.Contains(p.Feeders, LastSegment(path))
}
