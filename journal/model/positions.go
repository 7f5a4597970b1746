package model

import (
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
)

// Positions are the places that values can stand at: the deepest paths that the cylinders, the limits and all readings name. A path
// above speaks for every position below it.
type Positions struct {
	leaves []string            // sorted so that those below a path stand together
	each   map[string][]string // of a path that stands for the valve, or the ring, of a name in every cylinder: the paths of each
}

func newPositions(paths map[string]bool, cylinders []string) *Positions {
	all := map[string]bool{}
	for path := range paths {
		all[path] = true
		for up := path; up != ""; up = parse.Above(up) {
			for _, deeper := range byCylinder(up, cylinders) {
				all[deeper] = true
			}
		}
	}
	inner := map[string]bool{}
	for path := range all {
		for up := parse.Above(path); up != ""; up = parse.Above(up) {
			inner[up] = true
		}
	}
	p := &Positions{}
	for path := range all {
		if !inner[path] {
			p.leaves = append(p.leaves, path)
		}
	}
	slices.SortFunc(p.leaves, comparePaths)
	return p
}

// byCylinder returns the paths of the single cylinders, where the path table has the cylinder follow at once.
func byCylinder(path string, cylinders []string) []string {
	pattern := parse.FindPattern(path)
	if pattern == nil || len(cylinders) == 0 {
		return nil
	}
	depth, ok := pattern.Cylinders()
	if !ok || strings.Count(path, ".")+1 != depth {
		return nil
	}
	deeper := make([]string, len(cylinders))
	for i, c := range cylinders {
		deeper[i] = path + "." + c
	}
	return deeper
}

// comparePaths orders paths segment by segment, so that a path stands right before those below it.
func comparePaths(a, b string) int {
	for i := range min(len(a), len(b)) {
		if x, y := a[i], b[i]; x != y {
			switch {
			case x == '.':
				return -1
			case y == '.':
				return 1
			}
			return int(x) - int(y)
		}
	}
	return len(a) - len(b)
}

// Below returns the positions at and below a path: the path itself if nothing names a deeper one. Of the path of a limit for every cylinder they are those of each.
func (p *Positions) Below(path string) []string {
	if each := p.each[path]; len(each) > 0 {
		var positions []string
		for _, of := range each {
			positions = append(positions, p.Below(of)...)
		}
		return positions
	}
	start, _ := slices.BinarySearchFunc(p.leaves, path, comparePaths)
	end := start
	for end < len(p.leaves) && parse.IsAtOrBelow(p.leaves[end], path) {
		end++
	}
	if start == end {
		return []string{path}
	}
	return p.leaves[start:end:end]
}

// has reports whether a path is a position itself.
func (p *Positions) has(path string) bool {
	_, ok := slices.BinarySearchFunc(p.leaves, path, comparePaths)
	return ok
}

// All returns every position, those below one path together.
func (p *Positions) All() []string { return p.leaves }

// Spots returns the positions at and below a path as they will be once it is read: those of each cylinder, where nothing has named any yet.
func (j *Journal) Spots(path string) []string {
	below := j.Positions.Below(path)
	if len(below) == 1 && below[0] == path {
		if each := j.EachCylinder(path); len(each) > 0 {
			return each
		}
	}
	return below
}

// EachCylinder returns the paths of the single cylinders right below a path, where the path table has them there; nil elsewhere, and for an engine of one.
func (j *Journal) EachCylinder(path string) []string { return byCylinder(path, j.Cylinders) }
