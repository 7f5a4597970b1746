package model

import (
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// A limit at `gap.ring.top`, where the path table has a cylinder's name before that of a ring, holds for the top ring of every cylinder, as long as no cylinder is called `top`.

// cylinderless returns a path without its cylinder, where the path table has the name of a valve or a ring right below that; "" for any other path.
func cylinderless(path string) string {
	pattern := parse.FindPattern(path)
	if pattern == nil || !pattern.NamesBelowCylinder() {
		return ""
	}
	depth, _ := pattern.Cylinders()
	words := strings.Split(path, ".")
	if len(words) != depth+2 {
		return ""
	}
	return strings.Join(slices.Delete(words, depth, depth+1), ".")
}

// eachCylinder finds the limits that hold for every cylinder's valve or ring of a name.
func (l *linker) eachCylinder() {
	j := l.journal
	if len(j.Cylinders) == 0 {
		return
	}
	for _, limit := range j.Limits {
		named, pattern := unknownCylinder(limit.Path, j.Cylinders)
		if pattern == nil || named != limit.Path || !pattern.NamesBelowCylinder() {
			continue
		}
		if j.named == nil {
			j.named = l.namesBelowCylinders()
		}
		if !j.mayName(parse.LastSegment(named), pattern) {
			continue
		}
		limit.EachCylinder = true
		tree := j.sheetLimits
		if limit.Part != nil {
			tree = limit.Part.limits
		}
		tree.anyName = true
	}
}

func depthOf(pattern *parse.Pattern) int {
	depth, _ := pattern.Cylinders()
	return depth
}

// unknownCylinder returns a path up to what stands where the path table has a cylinder's name, and the row, if it is no cylinder's.
func unknownCylinder(path string, cylinders []string) (string, *parse.Pattern) {
	pattern := parse.FindPattern(path)
	for pattern == nil && path != "" { // deeper than the path table goes
		path = parse.Above(path)
		pattern = parse.FindPattern(path)
	}
	if pattern == nil {
		return "", nil
	}
	depth, ok := pattern.Cylinders()
	words := strings.Split(path, ".")
	if !ok || len(words) <= depth || slices.Contains(cylinders, words[depth]) {
		return "", nil
	}
	return strings.Join(words[:depth+1], "."), pattern
}

// UnknownCylinder returns a path up to what stands where the path table has a cylinder's name, if the engine has none of that name. Of an engine that is said to
// have one cylinder that is only where nothing but its name could stand.
func (j *Journal) UnknownCylinder(path string) (string, bool) {
	if len(j.Cylinders) > 0 {
		named, pattern := unknownCylinder(path, j.Cylinders)
		return named, pattern != nil
	}
	if n, told := j.Build.Fields.Table("engine").Whole("cylinders"); !told || n != 1 {
		return "", false
	}
	named, pattern := unknownCylinder(path, []string{"1"})
	return named, pattern != nil && pattern.EndsInCylinder()
}

// mayName reports whether a word that stands where a cylinder is due may be the name of a valve, or a ring: one that is read, or one of others that are; before
// anything is read any word that isn't nearly a cylinder's name, nor a number.
func (j *Journal) mayName(word string, pattern *parse.Pattern) bool {
	names := j.named[pattern]
	if slices.Contains(names, word) {
		return true
	}
	if strings.Trim(word, "0123456789") == "" {
		return false
	}
	for _, cylinder := range j.Cylinders {
		if max(len(word), len(cylinder)) >= 4 && source.Distance(word, cylinder) == 1 {
			return false
		}
	}
	return !slices.Contains(names, "") || len(names) > 1
}

// NamesBelow returns the names of valves, or of rings, that are read below a cylinder by a row of the path table, sorted; an empty one where a cylinder itself is read.
func (j *Journal) NamesBelow(pattern *parse.Pattern) []string { return j.named[pattern] }

// namesBelowCylinders finds out what is read right below a cylinder's name.
func (l *linker) namesBelowCylinders() map[*parse.Pattern][]string {
	seen := map[string]bool{}
	for _, e := range l.journal.Entries {
		for _, list := range [][]parse.Reading{e.Found, e.Set} {
			for _, r := range list {
				seen[r.Path] = true
			}
		}
	}
	for _, part := range l.journal.Parts {
		for _, r := range part.Brings {
			seen[r.Path] = true
		}
	}
	names := map[*parse.Pattern][]string{}
	for path := range seen {
		pattern := parse.FindPattern(path)
		if pattern == nil || !pattern.NamesBelowCylinder() {
			continue
		}
		words := append(strings.Split(path, "."), "")
		if depth := depthOf(pattern); len(words) > depth+1 && slices.Contains(l.journal.Cylinders, words[depth]) {
			names[pattern] = append(names[pattern], words[depth+1])
		}
	}
	for pattern, list := range names {
		slices.Sort(list)
		names[pattern] = slices.Compact(list)
	}
	return names
}

// spelledOut returns the paths that a limit for every cylinder stands for.
func (j *Journal) spelledOut(l *Limit) []string {
	above := parse.Above(l.Path)
	var paths []string
	for _, cylinder := range j.Cylinders {
		paths = append(paths, above+"."+cylinder+l.Path[len(above):])
	}
	return paths
}

// PlaceIn returns what tells a position from the others that a limit is for: the rest of its path; of a limit for every cylinder the cylinder's name. It is false for the
// limit's own path.
func (l *Limit) PlaceIn(position string) (string, bool) {
	if !l.EachCylinder {
		return strings.CutPrefix(position, l.Path+".")
	}
	above := parse.Above(l.Path)
	rest, ok := strings.CutPrefix(position, above+".")
	cylinder, named := strings.CutSuffix(rest, l.Path[len(above):])
	return cylinder, ok && named
}

// IsFor reports whether a limit is for a position, be it that a deeper one holds there.
func (l *Limit) IsFor(position string) bool {
	if l.EachCylinder {
		return cylinderless(position) == l.Path
	}
	return parse.IsAtOrBelow(position, l.Path)
}
