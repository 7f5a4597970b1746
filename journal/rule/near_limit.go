package rule

import (
	"slices"
	"strings"

	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// wrongLimits returns the limits at a path that is nearly another, the first of those that one mistyped table holds, and learns the others.
func (c *Context) wrongLimits(known map[string]bool) []misnamed {
	var wrong []misnamed
	said := map[source.Range]bool{}
	for _, l := range c.Journal.Limits {
		right := c.rightLimit(l.Path)
		if l.EachCylinder {
			right = c.rightName(l.Path)
		}
		if right == "" {
			learn(known, l.Path)
			continue
		}
		at := l.Places[differsAt(l.Path, right)]
		if l.Unread || said[at] {
			continue
		}
		said[at] = true
		wrong = append(wrong, misnamed{Name: parse.Name{Name: l.Path, At: at}, right: right})
	}
	return wrong
}

// differsAt returns the place of the segment that tells two paths of as many segments apart; of several the last, where all of them stand in another order.
func differsAt(path, right string) int {
	a, b := strings.Split(path, "."), strings.Split(right, ".")
	at := len(a) - 1
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] && slices.Equal(a[i+1:], b[min(i+1, len(b)):]) {
			return i
		}
	}
	return at
}

// rightLimit returns the path that a limit's is nearly, by the path table and that of the numbers that are worked out; "" where it is right itself or nothing is
// near. What is read below a free path is no slip for a number that is called nearly so.
func (c *Context) rightLimit(path string) string {
	if parse.IsAboveWorked(path) {
		return ""
	}
	words := strings.Split(path, ".")
	pattern := parse.FindPattern(path)
	if pattern == nil {
		if right := c.firstNear(words, parse.SegmentsAt); right != "" {
			return right
		}
		if right := reordered(words, func(order []string) bool {
			return parse.FitsNamed(order, c.Journal.Cylinders) || parse.IsWorked(strings.Join(order, "."))
		}); right != "" {
			return right
		}
	}
	if pattern != nil && !pattern.IsFree(path) {
		return ""
	}
	right := c.firstNear(words, func(words []string, at int) []string {
		return slices.DeleteFunc(parse.WorkedAt(words, at), func(word string) bool { return len(word) < shortestWorked })
	})
	if right != "" && c.isToldBelow(path) {
		return ""
	}
	return right
}

// rightName returns the path of a limit for every cylinder with the name of a valve, or a ring, that is read and that its own is nearly; "" where it is read itself or none is
// near.
func (c *Context) rightName(path string) string {
	above, name := parse.Above(path), parse.LastSegment(path)
	names := c.Journal.NamesBelow(parse.FindPattern(path))
	i := slices.IndexFunc(names, func(read string) bool { return c.isNearWord(name, read) })
	if i < 0 || slices.Contains(names, name) {
		return ""
	}
	return above + "." + names[i]
}

// shortestWorked is how long a word of a worked-out number's path is for another word to pass for it: `gain` is too near to too many. Our own choice, no source.
const shortestWorked = 5

// firstNear returns the first path that differs from the given one in one segment, by a letter, where the tables have that segment.
func (c *Context) firstNear(words []string, segmentsAt func(words []string, at int) []string) string {
	for i, word := range words {
		for _, near := range segmentsAt(words, i) {
			if c.isNearWord(word, near) {
				right := slices.Clone(words)
				right[i] = near
				return strings.Join(right, ".")
			}
		}
	}
	return ""
}

// isToldBelow reports whether anything was read, brought or written in the sheet at or below a path.
func (c *Context) isToldBelow(path string) bool {
	for _, position := range c.Journal.Positions.Below(path) {
		if len(c.Journal.History(position)) > 0 {
			return true
		}
	}
	return false
}

// eventWords are what cam cards call the events of a valve.
var eventWords = map[string]string{"ivo": "opens", "ivc": "closes", "evo": "opens", "evc": "closes"}

// rightBrought returns the path that one which a part brings a value at is nearly, by the path table; "" where it is right itself or nothing is near.
func (c *Context) rightBrought(path string, known map[string]bool) string {
	if known[path] || parse.FindPattern(path) != nil {
		return ""
	}
	words := strings.Split(path, ".")
	last := len(words) - 1
	if event := eventWords[words[last]]; event != "" {
		right := strings.Join(append(slices.Clone(words[:last]), event), ".")
		if parse.FindPattern(right) != nil {
			return right
		}
	}
	return c.firstNear(words, parse.SegmentsAt)
}
