package rule

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.org/locknut/journal/model"
	"example.org/locknut/journal/parse"
	"example.org/locknut/journal/source"
)

// nearPath reports readings at a path that is nearly, or in another order, one that is known: a mistyped path must never switch its check
// off. Where the right path has a limit it is an error.
func nearPath(c *Context) {
	known := c.knownPaths()
	meant := map[string]string{}
	for _, v := range c.Journal.Values {
		if !v.IsReading() {
			continue
		}
		right, done := meant[v.Path]
		if !done {
			right = c.rightPath(v.Path, known)
			meant[v.Path] = right
		}
		if right == "" {
			continue
		}
		severity := source.Warning
		if len(c.Journal.Governing(right)) > 0 {
			severity = source.Error
		}
		c.value(v, severity, fmt.Sprintf("nothing else is called `%s`; `%s` is", v.Path, right), fmt.Sprintf("write `%s`, or accept it if this is another thing", right))
		f := &c.findings[len(c.findings)-1]
		f.At = v.PathAt()
		f.Fixes = pathFix(v, right)
	}
}

// pathFix replaces the last segment where the others are right.
func pathFix(v *model.Value, right string) []source.Fix {
	wrong, good := strings.Split(v.Path, "."), strings.Split(right, ".")
	last := len(wrong) - 1
	if len(wrong) != len(good) || !slices.Equal(wrong[:last], good[:last]) || strings.Contains(v.PathAt().Text(), ".") {
		return nil
	}
	return []source.Fix{source.Replace(fmt.Sprintf("write `%s`", good[last]), v.PathAt(), good[last])}
}

// knownPaths returns the paths that limits, parts and the sheet name, and those that they stand below.
func (c *Context) knownPaths() map[string]bool {
	known := map[string]bool{}
	add := func(path string) {
		for ; path != ""; path = parse.Above(path) {
			known[path] = true
		}
	}
	for _, l := range c.Journal.Limits {
		add(l.Path)
	}
	for _, part := range c.Journal.Parts {
		for _, r := range part.Brings {
			add(r.Path)
		}
		for _, path := range part.Fields.Names("then") {
			add(path.Name)
		}
	}
	for path := range parse.SheetPaths() {
		add(path)
	}
	return known
}

// rightPath returns the known path that a path is nearly, "" where it is right itself or nothing is near.
func (c *Context) rightPath(path string, known map[string]bool) string {
	if known[path] {
		return ""
	}
	words := strings.Split(path, ".")
	fits := parse.FindPattern(path) != nil
	if !fits {
		if right := c.reordered(words, known); right != "" {
			return right
		}
	}
	for i := len(words); i > 0; i-- {
		if i < len(words) && known[strings.Join(words[:i], ".")] && fits {
			return "" // below a known path, at names that are free
		}
		for _, right := range c.candidates(words[:i], known) {
			return strings.Join(append(right, words[i:]...), ".")
		}
	}
	return ""
}

// candidates returns the known paths of as many segments that differ in one, by a letter.
func (c *Context) candidates(words []string, known map[string]bool) [][]string {
	var found [][]string
	for i, word := range words {
		for _, near := range c.segmentsAt(words, i, known) {
			if !c.isNearWord(word, near) {
				continue
			}
			right := slices.Clone(words)
			right[i] = near
			found = append(found, right)
		}
	}
	return found
}

// segmentsAt returns the words that known paths have at a place where the other segments are those given, sorted.
func (c *Context) segmentsAt(words []string, at int, known map[string]bool) []string {
	var segments []string
	for _, path := range slices.Sorted(maps.Keys(known)) {
		other := strings.Split(path, ".")
		if len(other) == len(words) && slices.Equal(other[:at], words[:at]) && slices.Equal(other[at+1:], words[at+1:]) {
			segments = append(segments, other[at])
		}
	}
	return append(segments, parse.SegmentsAt(words, at)...)
}

// isNearWord reports whether two segments differ by one letter, in words of four letters or more; digits and the names of cylinders are
// never mistaken for one another.
func (c *Context) isNearWord(a, b string) bool {
	if a == b || max(len([]rune(a)), len([]rune(b))) < 4 || source.Distance(a, b) != 1 {
		return false
	}
	if slices.Contains(c.Journal.Cylinders, a) && slices.Contains(c.Journal.Cylinders, b) {
		return false
	}
	return digitsOf(a) == digitsOf(b)
}

func digitsOf(word string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, word)
}

// reordered returns the known path, or the path of the path table, that has the same segments in another order.
func (c *Context) reordered(words []string, known map[string]bool) string {
	if len(words) < 2 || len(words) > 5 {
		return ""
	}
	right := ""
	permute(words, 0, func(order []string) bool {
		path := strings.Join(order, ".")
		if slices.Equal(order, words) || !known[path] && !parse.FitsNamed(order, c.Journal.Cylinders) {
			return false
		}
		right = path
		return true
	})
	return right
}

// permute calls visit with every order of the words until it returns true.
func permute(words []string, from int, visit func([]string) bool) bool {
	if from == len(words) {
		return visit(words)
	}
	for i := from; i < len(words); i++ {
		order := slices.Clone(words)
		order[from], order[i] = order[i], order[from]
		if permute(order, from+1, visit) {
			return true
		}
	}
	return false
}
